"""Pump curves: printed rules, exact cases, a rival fit and properties."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import pchip_interpolate
from scipy.optimize import brentq

from sanitize.laws.hydraulics.pump_curve import fit_pump_curve, hydraulic_power_w, power_at_speed_w, pump_head

LPM = 1.0 / 60e3
FOUR_POINTS = (np.array([0.0, 20.0, 40.0, 60.0]) * LPM, np.array([5.0, 4.6, 3.2, 0.9]))


@st.composite
def stated_points(draw: st.DrawFn, fewest: int = 1) -> tuple[list[float], list[float]]:
    """Flows in L/min steps of 5 or more, heads that fall by 0.1 m or more; the first may stand at no flow."""
    count = draw(st.integers(fewest, 7))
    first = draw(st.sampled_from([0.0, 5.0, 30.0])) if count > 1 else 20.0
    steps = draw(st.lists(st.floats(5.0, 40.0), min_size=count - 1, max_size=count - 1))
    last_head = draw(st.sampled_from([0.0, 0.7])) if count > 1 else 2.0
    falls = draw(st.lists(st.floats(0.1, 2.0), min_size=count - 1, max_size=count - 1))
    flows = first + np.concatenate(([0.0], np.cumsum(steps)))
    heads = last_head + np.concatenate((np.cumsum(falls[::-1])[::-1], [0.0]))
    return (flows * LPM).tolist(), heads.tolist()


def test_single_point_rule_of_a_water_network_manual_is_met() -> None:
    """Shut-off head 133 % of the rated one, greatest flow twice the rated one."""
    curve = fit_pump_curve([30 * LPM], [3.0])
    head, _ = pump_head(curve, np.array([0.0, 30.0, 60.0]) * LPM)
    np.testing.assert_allclose(head, [4.0, 3.0, 0.0], atol=1e-14)
    assert curve.kind == "rated point"
    np.testing.assert_allclose((curve.shut_off_head_m, curve.run_out_flow_m3s), (4.0, 60 * LPM), rtol=1e-13)


def test_two_points_give_the_parabola_by_hand() -> None:
    """H = 4 - 1 (Q/10)^2 through 3 m at 10 and 0 m at 20 L/min."""
    curve = fit_pump_curve([10 * LPM, 20 * LPM], [3.0, 0.0])
    head, slope = pump_head(curve, np.array([0.0, 15.0]) * LPM)
    np.testing.assert_allclose(head, [4.0, 1.75], rtol=1e-13)
    np.testing.assert_allclose(slope, [0.0, -0.3 / LPM], rtol=1e-13)
    assert curve.kind == "parabola"


def test_three_points_with_shut_off_give_the_power_curve_through_them() -> None:
    """h0 - B Q^C; C and B worked out apart for 4.4, 3.5 and 1.6 m at 0, 25 and 42 L/min."""
    curve = fit_pump_curve([0.0, 25 * LPM, 42 * LPM], [4.4, 3.5, 1.6])
    assert curve.kind == "power"
    np.testing.assert_allclose(curve.exponent, 2.18773, atol=5e-6, rtol=0.0)
    np.testing.assert_allclose(curve.drop_m / 42.0**curve.exponent, 7.86918e-4, rtol=1e-5)
    head, _ = pump_head(curve, np.array([0.0, 25.0, 42.0]) * LPM)
    np.testing.assert_allclose(head, [4.4, 3.5, 1.6], rtol=1e-13)


@pytest.mark.parametrize("heads", [[4.0, 3.9999, 0.5], [4.0, 2.0, 1.9], [4.0, 4.0, 1.0]])
def test_three_points_whose_power_is_odd_fall_back_to_least_squares(heads: list[float]) -> None:
    """Powers of about 13, 0.1 and infinite."""
    assert fit_pump_curve([0.0, 25 * LPM, 50 * LPM], heads).kind == "least squares"


def test_three_points_without_shut_off_are_fitted_as_numpy_does() -> None:
    flows, heads = np.array([10.0, 25.0, 40.0]) * LPM, np.array([4.1, 3.5, 1.4])
    constant, per_square = np.polynomial.Polynomial.fit(flows**2, heads, 1).convert().coef
    curve = fit_pump_curve(flows, heads)
    assert curve.kind == "least squares"
    np.testing.assert_allclose(pump_head(curve, flows)[0], constant + per_square * flows**2, rtol=1e-12)


def test_four_points_are_joined_by_the_monotone_cubic_of_scipy() -> None:
    flows, heads = FOUR_POINTS
    curve = fit_pump_curve(flows, heads)
    between = np.linspace(0.0, 60.0, 121) * LPM
    head, slope = pump_head(curve, between)
    assert curve.kind == "monotone cubic"
    np.testing.assert_allclose(head, pchip_interpolate(flows, heads, between), rtol=1e-12, atol=1e-12)
    np.testing.assert_allclose(slope, pchip_interpolate(flows, heads, between, der=1), rtol=1e-10)


def test_four_points_slope_at_an_inner_point_is_the_harmonic_mean_by_hand() -> None:
    """Equal steps: the slope is 2 / (1/d1 + 1/d2), d1 = -0.4 and d2 = -1.4 m per 20 L/min."""
    _, slope = pump_head(fit_pump_curve(*FOUR_POINTS), 20 * LPM)
    np.testing.assert_allclose(slope, 2.0 / (1.0 / -0.4 + 1.0 / -1.4) / (20 * LPM), rtol=1e-12)


@pytest.mark.parametrize(
    ("first_heads", "shut_off"),
    [
        ([4.8, 4.4, 3.0, 1.0], 4.8 + 0.4 / 3.0),
        ([4.8, 3.0, 2.0, 1.0], 4.8 + 1.8 / 3.0),
        ([0.9, 0.1, 0.05, 0.0], 3.5 / 3.0),
    ],
)
def test_four_points_without_shut_off_begin_on_the_parabola_of_the_first_two(
    first_heads: list[float], shut_off: float
) -> None:
    """Flows q and 2q: H0 = h1 + (h1 - h2) / 3."""
    curve = fit_pump_curve(np.array([15.0, 30.0, 45.0, 60.0]) * LPM, first_heads)
    assert shut_off == pytest.approx(curve.shut_off_head_m, rel=1e-12)


def test_four_points_shut_off_is_never_over_four_thirds_of_the_first_head() -> None:
    """Flows 30 and 33 with 3 and 1.8 m: the parabola alone would say 8.7 m."""
    curve = fit_pump_curve(np.array([30.0, 33.0, 45.0, 60.0]) * LPM, [3.0, 1.8, 1.0, 0.5])
    np.testing.assert_allclose(curve.shut_off_head_m, 4.0, rtol=1e-12)


def test_past_the_last_point_the_head_goes_straight_to_zero_and_below() -> None:
    curve = fit_pump_curve([0.0, 40 * LPM], [4.0, 2.0])
    head, slope = pump_head(curve, np.array([40.0, 50.0, 60.0, 80.0]) * LPM)
    np.testing.assert_allclose(head, [2.0, 1.0, 0.0, -2.0], atol=1e-13)  # slope -2 * 2 / 40 m per L/min
    np.testing.assert_allclose(slope, -0.1 / LPM, rtol=1e-13)
    np.testing.assert_allclose(curve.run_out_flow_m3s, 60 * LPM, rtol=1e-13)
    np.testing.assert_allclose(curve.last_point_flow_m3s, 40 * LPM, rtol=1e-13)


def test_past_the_last_point_of_a_flattening_cubic_the_last_interval_goes_on() -> None:
    """Heads 5, 3, 1.8, 1.6: scipy's own end slope is 0, which would never reach zero head."""
    curve = fit_pump_curve(np.array([0.0, 20.0, 40.0, 60.0]) * LPM, [5.0, 3.0, 1.8, 1.6])
    np.testing.assert_allclose(curve.end_slope_m_per_m3s, -0.2 / (20 * LPM), rtol=1e-12)
    np.testing.assert_allclose(curve.run_out_flow_m3s, 220 * LPM, rtol=1e-12)


def test_backward_flow_finds_a_head_gently_above_shut_off() -> None:
    curve = fit_pump_curve([0.0, 50 * LPM], [4.0, 0.0])
    head, slope = pump_head(curve, np.array([-1e-12, -25.0 * LPM]))
    np.testing.assert_allclose(head, [4.0, 4.2], rtol=1e-9)  # a tenth of shut-off per run-out flow
    np.testing.assert_allclose(slope, -0.1 * 4.0 / (50 * LPM), rtol=1e-12)


@pytest.mark.parametrize(("ratio", "flow", "head", "power"), [(5 / 6, 0.833, 0.694, 0.579), (1.2, 1.2, 1.44, 1.728)])
def test_speed_mains_frequencies_follow_the_affinity_laws(ratio: float, flow: float, head: float, power: float) -> None:
    """60 to 50 Hz and back, as printed to three digits."""
    curve = fit_pump_curve(*FOUR_POINTS)
    full, _ = pump_head(curve, 30 * LPM)
    slow, _ = pump_head(curve, 30 * LPM * ratio, speed_ratio=ratio)
    assert flow == pytest.approx(ratio, abs=5e-4)
    assert head == pytest.approx(float(slow / full), abs=5e-4)
    gained = hydraulic_power_w(30 * LPM * ratio, slow, 1000.0) / hydraulic_power_w(30 * LPM, full, 1000.0)
    assert power == pytest.approx(float(gained), abs=5e-4)


def test_hydraulic_power_of_a_litre_a_second_over_a_metre_is_standard_gravity() -> None:
    np.testing.assert_allclose(hydraulic_power_w(1e-3, 1.0, 1000.0), 9.80665, rtol=1e-15)


@given(stated_points(), st.floats(0.5, 1.3), st.floats(0.8, 1.1))
def test_head_never_rises_anywhere_and_falls_past_the_points(
    points: tuple[list[float], list[float]], speed: float, factor: float
) -> None:
    curve = fit_pump_curve(*points)
    flow = np.linspace(-1.0, 3.0, 401) * curve.run_out_flow_m3s
    head, slope = pump_head(curve, flow, speed, factor)
    assert np.all(np.diff(head) <= 1e-12)
    assert np.all(slope <= 0.0)
    outside = (flow > curve.last_point_flow_m3s * speed) | (flow < 0.0)
    assert np.all(slope[outside] < 0.0)


@given(stated_points(), st.floats(-0.5, 1.5), st.floats(0.5, 1.3), st.floats(0.8, 1.1))
def test_head_slope_equals_the_difference_quotient(
    points: tuple[list[float], list[float]], fraction: float, speed: float, factor: float
) -> None:
    """Away from rest, where a power law near 1 bends without bound, and from the last point of a cubic."""
    curve = fit_pump_curve(*points)
    flow = fraction * curve.run_out_flow_m3s
    step = 1e-7 * curve.run_out_flow_m3s
    aside = 0.02 * curve.run_out_flow_m3s
    for kink in (0.0, curve.last_point_flow_m3s * speed):
        if abs(flow - kink) < aside:
            flow = kink + aside
    head, _ = pump_head(curve, np.array([flow - step, flow + step]), speed, factor)
    _, slope = pump_head(curve, flow, speed, factor)
    scale = curve.shut_off_head_m / curve.run_out_flow_m3s
    assert (head[1] - head[0]) / (2.0 * step) == pytest.approx(float(slope), rel=1e-4, abs=1e-5 * scale)


@given(stated_points(fewest=2))
def test_head_exact_kinds_pass_through_every_point(points: tuple[list[float], list[float]]) -> None:
    curve = fit_pump_curve(*points)
    if curve.kind != "least squares":
        np.testing.assert_allclose(pump_head(curve, points[0])[0], points[1], rtol=1e-9, atol=1e-12)


@given(stated_points())
def test_run_out_flow_has_no_head(points: tuple[list[float], list[float]]) -> None:
    curve = fit_pump_curve(*points)
    head, _ = pump_head(curve, np.array([0.0, curve.run_out_flow_m3s]))
    np.testing.assert_allclose(head, [curve.shut_off_head_m, 0.0], rtol=1e-12, atol=1e-9)


@given(stated_points(), st.floats(0.3, 1.4), st.floats(-0.5, 1.5))
def test_speed_scales_head_by_its_square_at_flow_in_proportion(
    points: tuple[list[float], list[float]], speed: float, fraction: float
) -> None:
    curve = fit_pump_curve(*points)
    flow = fraction * curve.run_out_flow_m3s
    full, full_slope = pump_head(curve, flow)
    scaled, slope = pump_head(curve, speed * flow, speed, 0.9)
    np.testing.assert_allclose(scaled, 0.9 * speed**2 * full, rtol=1e-9, atol=1e-9)
    np.testing.assert_allclose(slope, 0.9 * speed * full_slope, rtol=1e-6, atol=1e-6)


def test_head_broadcasts_like_its_cases_one_by_one() -> None:
    curve = fit_pump_curve(*FOUR_POINTS)
    flow, factor = np.array([[-5.0], [10.0], [45.0], [70.0]]) * LPM, np.array([0.9, 1.0])
    head, slope = pump_head(curve, flow, 1.1, factor)
    for row in range(4):
        for column in range(2):
            one = pump_head(curve, flow[row, 0], 1.1, factor[column])
            np.testing.assert_allclose((head[row, column], slope[row, column]), one, rtol=1e-14)


def test_points_in_any_order_give_the_same_curve() -> None:
    flows, heads = FOUR_POINTS
    order = [2, 0, 3, 1]
    assert fit_pump_curve(flows, heads) == fit_pump_curve(flows[order], heads[order])


@pytest.mark.parametrize(
    ("flows", "heads", "message"),
    [
        ([], [], "one point or more"),
        ([0.0, 1e-3], [4.0], "one point or more"),
        ([0.0, math.nan], [4.0, 0.0], "finite"),
        ([0.0, 1e-3], [math.inf, 0.0], "finite"),
        ([-1e-4, 1e-3], [4.0, 0.0], "no negative flow"),
        ([0.0, 1e-3], [4.0, -1.0], "no negative flow and no negative head"),
        ([0.0, 1e-3, 1e-3], [4.0, 1.0, 0.0], "repeated"),
        ([0.0], [4.0], "shut-off head is not enough"),
        ([1e-3], [0.0], "flow and a head above 0"),
        ([0.0, 5e-4, 1e-3], [4.0, 4.1, 0.0], "rises"),
        ([0.0, 5e-4, 1e-3], [4.0, 1.0, 1.0], "last two heads are equal"),
        ([0.0, 1e-3], [0.0, 0.0], "last two heads are equal"),
    ],
)
def test_points_that_no_pump_has_are_refused(flows: list[float], heads: list[float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        fit_pump_curve(flows, heads)


@pytest.mark.parametrize("speed", [0.0, -0.5, math.nan])
def test_speed_of_nothing_is_refused(speed: float) -> None:
    with pytest.raises(ValueError, match="speed must be above 0"):
        pump_head(fit_pump_curve([30 * LPM], [3.0]), 1e-4, speed)


@pytest.mark.parametrize(("ratio", "power"), [(50 / 60, 0.579), (60 / 50, 1.728), (0.5, 0.125)])
def test_power_at_another_speed_goes_with_its_cube(ratio: float, power: float) -> None:
    """Crane TP-410, example 7-33: from 60 to 50 Hz power 0.579; and 1.2^3, 0.5^3 by hand."""
    assert power == pytest.approx(float(power_at_speed_w(1.0, ratio)), abs=5e-4)


def test_power_for_the_same_volume_at_half_speed_takes_a_quarter_of_the_energy() -> None:
    """Half the flow takes twice the time: 2/8."""
    assert 0.25 == pytest.approx(2.0 * float(power_at_speed_w(1.0, 0.5)))


@pytest.mark.parametrize(("power", "speed"), [(-1.0, 1.0), (10.0, 0.0), (float("nan"), 1.0)])
def test_power_at_no_speed_is_refused(power: float, speed: float) -> None:
    with pytest.raises(ValueError, match="power of 0 or more and a speed above 0"):
        power_at_speed_w(power, speed)


@pytest.mark.parametrize("run_out_share", [0.35, 0.55, 0.75])
@pytest.mark.parametrize(("factor", "close"), [(0.6, 0.04), (0.8, 0.01), (0.95, 0.01)])
def test_factor_at_equal_flow_meets_a_loop_where_a_leaking_or_a_slower_pump_of_that_head_does(
    run_out_share: float, factor: float, close: float
) -> None:
    """H = 5 (1 - q^2) by hand over q, the share of the run-out flow; the loop takes H ~ Q^1.85 through the old point.

    Slower: s^2 H(q/s) = 5 (s^2 - q^2). Leaking: H(q + k sqrt(H)), with k from the head at the old flow.
    """
    full, old = 60.0 * LPM, run_out_share
    before = 5.0 * (1.0 - old**2)
    slower = factor * before / 5.0 + old**2
    passed = math.sqrt(1.0 - factor * before / 5.0) - old

    def leaking(q: float) -> float:
        """Head at which the leak and what leaves the pump are all that passes its impeller."""
        scale = passed / math.sqrt(factor * before)
        return float(brentq(lambda head: head - 5.0 * (1.0 - (q + scale * math.sqrt(head)) ** 2), 0.0, 5.0))

    def met(head_of: Callable[[float], float]) -> float:
        return float(brentq(lambda q: head_of(q) - before * (q / old) ** 1.85, 0.1 * old, old))

    curve = fit_pump_curve([0.0, full], [5.0, 0.0])
    weaker = met(lambda q: float(pump_head(curve, q * full, head_factor=factor)[0]))
    assert met(lambda q: 5.0 * (slower - q**2)) == pytest.approx(weaker, rel=close)
    assert met(leaking) == pytest.approx(weaker, rel=close)
