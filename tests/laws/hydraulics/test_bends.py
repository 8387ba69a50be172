import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.bends import bend_excess_loss_coefficient, coil_multiplier


@given(st.floats(1.0, 40.0), st.floats(0.01, 0.04))
def test_bend_excess_with_its_arc_is_rennels_of_a_library(radius_ratio: float, f: float) -> None:
    from fluids.fittings import bend_rounded

    whole = bend_rounded(Di=0.02, angle=90.0, fd=f, rc=0.02 * radius_ratio, method="Rennels")
    arc = f * np.pi / 2.0 * radius_ratio
    assert whole - arc == pytest.approx(float(bend_excess_loss_coefficient(radius_ratio, 90.0, f)), rel=1e-6)


@pytest.mark.parametrize(("radius_ratio", "rival"), [(2.0, 0.26), (5.0, 0.34), (10.0, 0.67)])
def test_bend_excess_with_its_arc_lies_within_half_of_crane(radius_ratio: float, rival: float) -> None:
    """Crane's pipe bends 12, 14 and 30 fT print whole losses; published bends scatter by half, as the band says."""
    from fluids.fittings import bend_rounded

    crane = bend_rounded(Di=0.0266, angle=90.0, bend_diameters=radius_ratio, method="Crane")
    assert rival == pytest.approx(crane, abs=0.02)
    whole = float(bend_excess_loss_coefficient(radius_ratio)) + 0.024 * np.pi / 2.0 * radius_ratio
    assert crane == pytest.approx(whole, rel=0.5)


def test_bend_excess_goes_with_the_angle() -> None:
    quarter = float(bend_excess_loss_coefficient(4.0))
    assert bend_excess_loss_coefficient(4.0, [0.0, 45.0, 180.0]).tolist() == pytest.approx(
        [0.0, quarter / 2.0, 2.0 * quarter]
    )


def test_bend_tighter_than_its_bore_is_refused() -> None:
    with pytest.raises(ValueError, match="radius"):
        bend_excess_loss_coefficient(0.9)


@pytest.mark.parametrize("author", ["Schmidt turbulent", "Mori Nakayama turbulent"])
@pytest.mark.parametrize("coil_diameter_m", [0.2, 0.3, 0.5, 1.0])
def test_coil_multiplier_turbulent_is_within_4_percent_of_two_other_authors(
    coil_diameter_m: float, author: str
) -> None:
    """Three correlations of one quantity: 4 % is their distance from one another."""
    from fluids.friction import friction_factor, friction_factor_curved

    re, bore = 2.2e4, 0.0266
    curved = friction_factor_curved(Re=re, Di=bore, Dc=coil_diameter_m, turbulent_method=author)
    straight = friction_factor(Re=re, eD=0.0)
    multiplier, _ = coil_multiplier(re, bore, coil_diameter_m)
    assert curved / straight == pytest.approx(float(multiplier), rel=0.04)


def test_coil_multiplier_at_rest_and_in_a_wide_coil_is_one() -> None:
    multiplier, slope = coil_multiplier([0.0, 2e4], 0.02, [0.3, 100.0])
    assert multiplier.tolist() == [1.0, 1.0]
    assert slope.tolist() == [0.0, 0.0]


@given(st.floats(10.0, 1e5))
def test_coil_multiplier_slope_equals_finite_difference(re: float) -> None:
    multiplier, slope = coil_multiplier([re * (1.0 - 1e-6), re, re * (1.0 + 1e-6)], 0.02, 0.4)
    if abs(re * 0.0025 - 1.0) > 1e-3:
        difference = (multiplier[2] - multiplier[0]) / (2e-6 * re)
        assert float(difference) == pytest.approx(float(slope[1]), rel=1e-4, abs=1e-9 / re)


def test_coil_multiplier_negative_reynolds_is_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        coil_multiplier(-1.0, 0.02, 0.4)
