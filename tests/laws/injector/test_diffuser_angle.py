import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector.diffuser_angle import diffuser_loss_by_angle


def test_diffuser_loss_printed_example_gives_its_value() -> None:
    """Documented example of a library of fluid formulas: 1/3 to 1 m, 50 deg, Re 1e6, smooth: 0.8027721."""
    friction = fluids.friction_factor(Re=1e6)
    assert 0.8027721 == pytest.approx(diffuser_loss_by_angle(50.0, 1 / 9, friction), abs=2e-5)


@given(st.floats(0.5, 180.0), st.floats(0.01, 0.99), st.floats(0.005, 0.1))
def test_diffuser_loss_any_cone_equals_the_independent_library(angle: float, beta: float, f: float) -> None:
    expected = fluids.diffuser_conical(Di1=beta, Di2=1.0, angle=angle, fd=f, method="Rennels")
    assert expected == pytest.approx(diffuser_loss_by_angle(angle, beta**2, f), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("angle", [7.0, 10.0, 15.0, 20.0, 30.0, 45.0])
def test_diffuser_loss_rival_methods_agree_within_their_scatter(angle: float) -> None:
    """Crane and Idelchik at a diameter ratio of .382: the books scatter by up to two fifths at 10 degrees."""
    ours = diffuser_loss_by_angle(angle, 0.382**2, 0.023)
    for method in ("Crane", "Idelchik"):
        other = fluids.diffuser_conical(Di1=0.382, Di2=1.0, angle=angle, fd=0.023, method=method)
        assert other == pytest.approx(ours, rel=0.42)


def test_diffuser_loss_half_turn_stays_near_the_sudden_enlargement() -> None:
    """Borda and Carnot: (1 - B)^2; the source prints up to a fifth more."""
    ratio = np.array([0.05, 0.2, 0.5, 0.8])
    sudden = (1 - ratio) ** 2
    assert sudden == pytest.approx(diffuser_loss_by_angle(180.0, ratio, 0.02), rel=0.21)


def test_diffuser_loss_array_equals_scalars_one_by_one() -> None:
    angle = np.array([5.0, 20.0, 40.0, 60.0, 90.0])
    together = diffuser_loss_by_angle(angle, 0.15, 0.02)
    assert [float(diffuser_loss_by_angle(a, 0.15, 0.02)) for a in angle] == together.tolist()


@pytest.mark.parametrize(("angle", "ratio"), [(0.0, 0.2), (181.0, 0.2), (10.0, 1.1), (10.0, -0.1)])
def test_diffuser_loss_impossible_cone_is_refused(angle: float, ratio: float) -> None:
    with pytest.raises(ValueError, match="diffuser"):
        diffuser_loss_by_angle(angle, ratio, 0.02)
