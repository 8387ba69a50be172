"""Drops known at a flow: limits derived by hand, rival laws, inverses and properties."""

import math

import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.friction import pipe_loss
from sanitize.laws.hydraulics.known_drop import (
    exponent_from_points,
    filter_drop,
    known_drop,
    loading_for_drop_ratio,
    medium_share_from_two_points,
)

RATED = (998.2, 1.0016e-3)
COLD = (999.97, 1.5182e-3)

flow_ratios = st.floats(0.01, 3.0)
shares = st.floats(0.0, 1.0)


def test_known_drop_at_the_rated_point_is_the_rated_drop() -> None:
    loss, slope = known_drop(5e-4, 8000.0, 5e-4, 1.85, *RATED, *RATED)
    np.testing.assert_allclose((loss, slope), (8000.0, 1.85 * 8000.0 / 5e-4), rtol=1e-14)


def test_known_drop_exponent_two_is_an_orifice_and_follows_density_alone() -> None:
    """fluids: dp = K rho V^2 / 2, which no viscosity enters."""
    area, loss_coefficient = 3e-4, 7.0
    rated = fluids.dP_from_K(loss_coefficient, rho=RATED[0], V=5e-4 / area)
    loss, _ = known_drop(3e-4, rated, 5e-4, 2.0, *COLD, *RATED)
    assert fluids.dP_from_K(loss_coefficient, rho=COLD[0], V=3e-4 / area) == pytest.approx(float(loss), rel=1e-13)


def test_known_drop_exponent_one_is_a_laminar_tube_and_follows_viscosity_alone() -> None:
    """Poiseuille: dp = 128 mu L Q / (pi D^4)."""
    per_viscosity_and_flow = 128.0 * 2.0 / (math.pi * 0.004**4)
    loss, _ = known_drop(4e-6, per_viscosity_and_flow * RATED[1] * 6e-6, 6e-6, 1.0, *COLD, *RATED)
    assert per_viscosity_and_flow * COLD[1] * 4e-6 == pytest.approx(float(loss), rel=1e-13)


def test_known_drop_exponent_one_and_three_quarters_is_a_smooth_tube_of_blasius() -> None:
    """f = 0.3164 Re^-1/4 makes dp ~ Q^1.75 rho^0.75 mu^0.25."""

    def blasius(flow: float, density: float, viscosity: float) -> float:
        velocity = flow / (math.pi / 4.0 * 0.01**2)
        return 0.3164 * (density * velocity * 0.01 / viscosity) ** -0.25 * 2.0 / 0.01 * density * velocity**2 / 2.0

    loss, _ = known_drop(2e-4, blasius(3e-4, *RATED), 3e-4, 1.75, *COLD, *RATED)
    assert blasius(2e-4, *COLD) == pytest.approx(float(loss), rel=1e-13)


def test_known_drop_follows_pipe_friction_into_colder_water() -> None:
    """Smooth tube by Colebrook, rated at 20 degC and used at 5 degC: 2 %, as the exponent is a local one."""
    rated, rated_slope = pipe_loss(4e-4, 0.012, 5.0, 0.0, *RATED)
    exponent = rated_slope * 4e-4 / rated
    loss, _ = known_drop(3e-4, rated, 4e-4, exponent, *COLD, *RATED)
    truth, _ = pipe_loss(3e-4, 0.012, 5.0, 0.0, *COLD)
    np.testing.assert_allclose(loss, truth, rtol=0.02)


def test_known_drop_at_rest_is_zero_with_a_finite_slope() -> None:
    loss, slope = known_drop(0.0, 8000.0, 5e-4, np.array([1.0, 1.85, 2.0]), *COLD, *RATED)
    np.testing.assert_array_equal(loss, np.zeros(3))
    np.testing.assert_allclose(slope, [8000.0 / 5e-4 * COLD[1] / RATED[1], 0.0, 0.0], rtol=1e-14)


@given(flow_ratios, st.floats(1.0, 2.2))
def test_known_drop_is_odd_and_its_slope_the_difference_quotient(ratio: float, exponent: float) -> None:
    sides = 5e-4 * ratio * np.array([1.0 - 1e-6, 1.0, 1.0 + 1e-6])
    loss, slope = known_drop(sides, 8000.0, 5e-4, exponent, *COLD, *RATED)
    back, back_slope = known_drop(-sides, 8000.0, 5e-4, exponent, *COLD, *RATED)
    np.testing.assert_array_equal(back, -loss)
    np.testing.assert_array_equal(back_slope, slope)
    assert (loss[2] - loss[0]) / (sides[2] - sides[0]) == pytest.approx(slope[1], rel=1e-6)
    assert loss[0] < loss[1] < loss[2]


@pytest.mark.parametrize(("rated_flow", "exponent"), [(0.0, 2.0), (-1e-4, 2.0), (5e-4, 0.99), (5e-4, math.nan)])
def test_known_drop_without_rated_flow_or_with_small_exponent_is_refused(rated_flow: float, exponent: float) -> None:
    with pytest.raises(ValueError, match="a known drop needs"):
        known_drop(1e-4, 8000.0, rated_flow, exponent, *RATED, *RATED)


def test_filter_drop_at_the_rated_point_is_the_rated_drop_whatever_the_share() -> None:
    loss, _ = filter_drop(5e-4, 6000.0, 5e-4, np.linspace(0.0, 1.0, 6), 1.0, *RATED, *RATED)
    np.testing.assert_allclose(loss, 6000.0, rtol=1e-14)


@pytest.mark.parametrize(("share", "exponent"), [(1.0, 1.0), (0.0, 2.0)])
def test_filter_drop_of_one_kind_alone_is_a_known_drop(share: float, exponent: float) -> None:
    flow = np.linspace(-1e-3, 1e-3, 21)
    np.testing.assert_allclose(
        filter_drop(flow, 6000.0, 5e-4, share, 1.0, *COLD, *RATED),
        known_drop(flow, 6000.0, 5e-4, exponent, *COLD, *RATED),
        rtol=1e-13,
    )


def test_filter_drop_medium_is_darcy_and_housing_an_orifice() -> None:
    """Hand-made: medium mu R Q with R 2.4e9 1/m3, housing 6.0 rho V^2/2 on 5.4 cm2, in water of 20 and of 5 degC."""

    def parts(flow: float, density: float, viscosity: float) -> tuple[float, float]:
        return viscosity * 2.4e9 * flow, 6.0 * density * (flow / 5.4e-4) ** 2 / 2.0

    medium, housing = parts(5e-4, *RATED)
    cold_medium, cold_housing = parts(3e-4, *COLD)
    loss, _ = filter_drop(3e-4, medium + housing, 5e-4, medium / (medium + housing), 4.0, *COLD, *RATED)
    assert 4.0 * cold_medium + cold_housing == pytest.approx(float(loss), rel=1e-13)


@given(flow_ratios, shares, st.floats(1.0, 20.0))
def test_filter_drop_is_odd_and_its_slope_the_difference_quotient(ratio: float, share: float, loading: float) -> None:
    sides = 5e-4 * ratio * np.array([1.0 - 1e-6, 1.0, 1.0 + 1e-6])
    loss, slope = filter_drop(sides, 6000.0, 5e-4, share, loading, *COLD, *RATED)
    np.testing.assert_array_equal(filter_drop(-sides, 6000.0, 5e-4, share, loading, *COLD, *RATED), (-loss, slope))
    assert (loss[2] - loss[0]) / (sides[2] - sides[0]) == pytest.approx(slope[1], rel=1e-6)


@given(st.floats(0.05, 1.0), st.floats(1.0, 10.0))
def test_loading_round_trip_gives_the_drop_ratio(share: float, ratio: float) -> None:
    loss, _ = filter_drop(5e-4, 6000.0, 5e-4, share, loading_for_drop_ratio(ratio, share), *RATED, *RATED)
    assert ratio * 6000.0 == pytest.approx(float(loss), rel=1e-12)


@given(shares, st.one_of(st.floats(0.1, 0.9), st.floats(1.1, 2.5)))
def test_medium_share_round_trip_returns_the_share(share: float, ratio: float) -> None:
    first, _ = filter_drop(5e-4 * ratio, 6000.0, 5e-4, share, 1.0, *RATED, *RATED)
    np.testing.assert_allclose(medium_share_from_two_points(5e-4 * ratio, first, 5e-4, 6000.0), share, atol=1e-9)


@pytest.mark.parametrize(("first_drop", "share"), [(1400.0, "-0.07"), (3100.0, r"1\.07")])
def test_medium_share_impossible_readings_are_refused_with_the_number(first_drop: float, share: str) -> None:
    """Half the flow: between a quarter and a half of 6000 Pa is possible."""
    with pytest.raises(ValueError, match=f"share would be {share}, outside 0 to 1"):
        medium_share_from_two_points(2.5e-4, first_drop, 5e-4, 6000.0)


@pytest.mark.parametrize("readings", [(5e-4, 1e3, 5e-4, 2e3), (0.0, 1e3, 5e-4, 2e3), (2e-4, 0.0, 5e-4, 2e3)])
def test_medium_share_readings_without_meaning_are_refused(readings: tuple[float, float, float, float]) -> None:
    with pytest.raises(ValueError, match="two different flows above 0"):
        medium_share_from_two_points(*readings)


@given(st.floats(1.0, 2.0), st.lists(st.floats(1e-5, 1e-2), min_size=2, max_size=6, unique=True))
def test_exponent_round_trip_returns_the_exponent(exponent: float, flows: list[float]) -> None:
    spread = np.array(flows) * (1.0 + np.arange(len(flows)))  # no two flows all but equal
    if np.unique(spread).size < 2 or spread.max() < 1.01 * spread.min():
        spread = np.array([1e-4, 2e-4])
    drops, _ = known_drop(spread, 8000.0, 5e-4, exponent, *RATED, *RATED)
    assert exponent == pytest.approx(float(exponent_from_points(spread, drops)), abs=1e-9)


def test_exponent_of_scattered_readings_is_numpys_fit() -> None:
    flows, drops = np.array([1e-4, 2e-4, 3.5e-4, 5e-4]), np.array([310.0, 1090.0, 3200.0, 5900.0])
    expected = np.polynomial.Polynomial.fit(np.log(flows), np.log(drops), 1).convert().coef[1]
    assert expected == pytest.approx(float(exponent_from_points(flows, drops)), rel=1e-12)


@pytest.mark.parametrize(("second_drop", "power"), [(1900.0, r"0\.93"), (5000.0, r"2\.32")])
def test_exponent_outside_theory_is_refused_with_the_number(second_drop: float, power: str) -> None:
    with pytest.raises(ValueError, match=f"to the power {power}"):
        exponent_from_points([1e-4, 2e-4], [1000.0, second_drop])


@pytest.mark.parametrize(
    ("flows", "drops", "message"),
    [
        ([1e-4], [1e3], "two different flows"),
        ([1e-4, 1e-4], [1e3, 2e3], "two different flows"),
        ([1e-4, 2e-4], [1e3], "two different flows"),
        ([0.0, 2e-4], [1e3, 2e3], "above 0"),
        ([1e-4, 2e-4], [0.0, 2e3], "above 0"),
    ],
)
def test_exponent_readings_without_meaning_are_refused(flows: list[float], drops: list[float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        exponent_from_points(flows, drops)


@pytest.mark.parametrize(("share", "loading", "rated_flow"), [(1.1, 1.0, 5e-4), (0.3, -1.0, 5e-4), (0.3, 1.0, 0.0)])
def test_filter_drop_without_meaning_is_refused(share: float, loading: float, rated_flow: float) -> None:
    with pytest.raises(ValueError, match="a filter needs"):
        filter_drop(1e-4, 6000.0, rated_flow, share, loading, *RATED, *RATED)


@pytest.mark.parametrize(("ratio", "share"), [(0.9, 0.3), (2.0, 0.0), (2.0, 1.1)])
def test_loading_without_meaning_is_refused(ratio: float, share: float) -> None:
    with pytest.raises(ValueError, match="a loaded filter needs"):
        loading_for_drop_ratio(ratio, share)
