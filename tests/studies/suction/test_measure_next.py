"""The cheap reading to take next: equal to enumeration on small tables, and to what is plain by hand."""

import numpy as np
import pytest

from sanitize.studies.suction.measure_next import certainty, expected_certainty


def enumerated(values: list[float], error: float, drawing: list[bool]) -> float:
    """Every case in turn as the truth, in plain loops."""
    total = 0.0
    for truth in values:
        weights = [np.exp(-0.5 * ((value - truth) / error) ** 2) for value in values]
        share = sum(weight for weight, draws in zip(weights, drawing, strict=True) if draws) / sum(weights)
        total += abs(2.0 * share - 1.0)
    return total / len(values)


@pytest.mark.parametrize("error", [0.1, 1.0, 5.0])
def test_expected_certainty_equals_brute_force(error: float) -> None:
    rng = np.random.default_rng(3)
    values = rng.normal(size=40)
    drawing = values + rng.normal(size=40) > 0.3
    assert enumerated(values.tolist(), error, drawing.tolist()) == pytest.approx(
        expected_certainty(values, error, drawing), rel=1e-12
    )


def test_sharp_reading_that_decides_gives_certainty() -> None:
    values = np.array([0.0, 0.0, 10.0, 10.0])
    assert expected_certainty(values, 0.1, values > 5.0) == pytest.approx(1.0)


def test_reading_that_is_the_same_everywhere_adds_nothing() -> None:
    drawing = np.array([True, True, True, False])
    assert certainty(0.75) == pytest.approx(expected_certainty(np.ones(4), 0.1, drawing))


def test_certainty_is_nothing_at_one_half_and_full_at_the_ends() -> None:
    assert [certainty(share) for share in (0.0, 0.5, 1.0)] == [1.0, 0.0, 1.0]
