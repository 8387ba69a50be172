"""How every picture looks."""

import pytest
from matplotlib.figure import Figure

from sanitize.report.pictures.style import from_zero


@pytest.mark.parametrize(("values", "top"), [([0.0, 0.0], 1.0), ([0.0, 4.0], 4.2)])
def test_axis_from_zero_ends_above_what_is_drawn_or_at_one(values: list[float], top: float) -> None:
    axes = Figure().subplots()
    axes.plot(values, values)
    from_zero(axes)
    assert (0.0, pytest.approx(top)) == axes.get_ylim()
