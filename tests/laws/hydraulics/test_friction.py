"""Pipe friction: printed values, rival formulas, limits and properties."""

import math
from collections.abc import Callable

import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.friction import friction_band, friction_factor, pipe_loss, transition

TURBULENT_RE = np.geomspace(4000.0, 1e8, 60)
ROUGHNESS_RATIOS = (0.0, 5.7e-5, 1e-3, 0.01, 0.05)

reynolds_numbers = st.floats(1.0, 1e7)
roughness_ratios = st.one_of(st.just(0.0), st.floats(1e-7, 0.049))
flows = st.floats(1e-9, 0.05)
bores = st.floats(0.003, 0.06)
viscosities = st.floats(6e-4, 1.8e-3)


def test_smooth_pipe_list_below_white_equation_6_54_is_met(
    check_rows: Callable[[str], list[dict[str, str]]],
) -> None:
    """White, Fluid Mechanics 4e; Prandtl's 2.0 and -0.8 against Colebrook's 2.51 shift f by 1e-5 at most."""
    for row in check_rows("smooth_friction_factors"):
        found = float(friction_factor(float(row["reynolds"]), 0.0))
        assert float(row["friction_factor"]) == pytest.approx(found, abs=6e-5)


@pytest.mark.parametrize("ratio", ROUGHNESS_RATIOS)
def test_turbulent_factor_satisfies_colebrook_itself(ratio: float) -> None:
    x = friction_factor(TURBULENT_RE, ratio) ** -0.5
    np.testing.assert_allclose(x, -2.0 * np.log10(ratio / 3.7 + 2.51 * x / TURBULENT_RE), rtol=1e-11)


@pytest.mark.parametrize("ratio", ROUGHNESS_RATIOS)
def test_turbulent_factor_two_exact_solutions_of_fluids_agree(ratio: float) -> None:
    found = friction_factor(TURBULENT_RE, ratio)
    np.testing.assert_allclose(found, [fluids.Colebrook(re, ratio) for re in TURBULENT_RE.tolist()], rtol=1e-11)
    np.testing.assert_allclose(found, [fluids.Clamond(re, ratio) for re in TURBULENT_RE.tolist()], rtol=1e-11)


@pytest.mark.parametrize("ratio", [0.0, 5.7e-5, 1e-3])
def test_turbulent_factor_explicit_rivals_agree(ratio: float) -> None:
    """Haaland states 2 %; Churchill 1977 blends regimes and lies up to 1.7 % above Colebrook near Re 4000."""
    re = np.geomspace(4000.0, 1e6, 30)
    found = friction_factor(re, ratio)
    np.testing.assert_allclose(found, [fluids.friction.Haaland(r, ratio) for r in re.tolist()], rtol=0.02)
    np.testing.assert_allclose(found, [fluids.friction.Churchill_1977(r, ratio) for r in re.tolist()], rtol=0.02)


def test_laminar_factor_is_exactly_64_over_reynolds() -> None:
    re = np.array([1e-6, 1.0, 1999.0, 2000.0])
    np.testing.assert_allclose(friction_factor(re, 0.01), 64.0 / re, rtol=1e-15)


@pytest.mark.parametrize(
    ("ratio", "reynolds", "expected"),
    [
        (0.0, [2000, 2200, 2300, 2500, 3000, 3500, 4000], [32000, 30252, 30163, 30922, 35279, 39256, 39907]),
        (5.716e-5, [2200, 2500, 3000, 3500, 4000], [30254, 30931, 35307, 39304, 39965]),
        (1e-3, [2200, 2500, 3000, 3500, 4000], [30285, 31083, 35770, 40085, 40910]),
    ],
)
def test_bridge_values_worked_out_apart_are_met(ratio: float, reynolds: list[float], expected: list[float]) -> None:
    """Our own numbers, worked out in a separate program: they guard the bridge against a slip, no more."""
    np.testing.assert_allclose(friction_factor(reynolds, ratio) * 1e6, expected, atol=0.5)


@pytest.mark.parametrize("ratio", ROUGHNESS_RATIOS)
@pytest.mark.parametrize("joint_re", [2000.0, 4000.0])
def test_bridge_meets_its_neighbours_in_value_and_slope(ratio: float, joint_re: float) -> None:
    """Loss of a pipe with bore 20 mm just below and just above the joint."""
    flow = joint_re * math.pi * 0.02 * 1e-3 / (4.0 * 1000.0) * np.array([1.0 - 1e-9, 1.0 + 1e-9])
    loss, slope = pipe_loss(flow, 0.02, 3.0, ratio * 0.02, 1000.0, 1e-3)
    assert loss[0] == pytest.approx(loss[1], rel=1e-8)
    assert slope[0] == pytest.approx(slope[1], rel=1e-7)


@pytest.mark.parametrize(("ratio", "largest"), [(0.0, 2.9), (5.7e-5, 2.9), (1e-3, 2.9), (0.01, 3.3), (0.05, 4.2)])
def test_bridge_local_exponent_stays_above_one_and_small(ratio: float, largest: float) -> None:
    """The loss then grows strictly, and Newton's steps on the flow cannot overshoot wildly."""
    flow = np.linspace(2000.0, 4000.0, 2001) * math.pi * 0.02 * 1e-3 / (4.0 * 1000.0)
    loss, slope = pipe_loss(flow, 0.02, 3.0, ratio * 0.02, 1000.0, 1e-3)
    exponent = slope * flow / loss
    assert np.all((exponent >= 1.0 - 1e-12) & (exponent < largest))


def test_band_in_the_transition_holds_both_regimes() -> None:
    re = np.linspace(2001.0, 3999.0, 50)
    low, high = friction_band(re, 1e-3)
    nominal = friction_factor(re, 1e-3)
    turbulent = np.array([fluids.Colebrook(r, 1e-3) for r in re.tolist()])
    np.testing.assert_allclose(high, np.maximum(nominal, turbulent), rtol=1e-8)
    np.testing.assert_allclose(low, np.maximum(64.0 / re, 0.7 * nominal), rtol=1e-14)
    assert np.all(low < nominal)
    assert np.all(nominal <= high)


@pytest.mark.parametrize("reynolds", [500.0, 2000.0, 4000.0, 5e4])
def test_band_outside_the_transition_is_a_single_value(reynolds: float) -> None:
    low, high = friction_band(reynolds, 1e-3)
    assert low == high == friction_factor(reynolds, 1e-3)


def test_pipe_loss_at_rest_is_zero_with_the_slope_of_poiseuille() -> None:
    """128 mu L / (pi D^4), with no warning at zero flow."""
    loss, slope = pipe_loss(np.array([0.0, -0.0]), 0.0157, 4.2, 1.5e-6, 999.7, 1.306e-3)
    np.testing.assert_array_equal(loss, [0.0, 0.0])
    np.testing.assert_allclose(slope, 128.0 * 1.306e-3 * 4.2 / (math.pi * 0.0157**4), rtol=1e-14)


def test_pipe_loss_laminar_is_hagen_and_poiseuille() -> None:
    flow = 1e-6
    loss, _ = pipe_loss(flow, 0.004, 1.8, 1.5e-6, 999.7, 1.306e-3)
    assert 128.0 * 1.306e-3 * 1.8 * flow / (math.pi * 0.004**4) == pytest.approx(float(loss), rel=1e-13)


def test_pipe_loss_turbulent_is_darcy_and_weisbach() -> None:
    flow, bore, density = 1e-3, 0.0262, 999.7
    velocity = flow / (math.pi * bore**2 / 4.0)
    re = density * velocity * bore / 1.3e-3
    expected = fluids.Colebrook(re, 1.5e-6 / bore) * 10.0 / bore * density * velocity**2 / 2.0
    loss, _ = pipe_loss(flow, bore, 10.0, 1.5e-6, density, 1.3e-3)
    assert expected == pytest.approx(float(loss), rel=1e-8)


def test_pipe_loss_of_no_length_is_nothing() -> None:
    loss, slope = pipe_loss(1e-3, 0.0262, 0.0, 1.5e-6, 999.7, 1.3e-3)
    np.testing.assert_array_equal((loss, slope), (0.0, 0.0))


def test_pipe_loss_multiplier_raises_loss_and_slope_alike_in_every_regime() -> None:
    flow = np.array([0.0, 1e-5, 4e-5, 1e-3])
    plain = pipe_loss(flow, 0.0262, 2.0, 1.5e-6, 999.7, 1.3e-3)
    ribbed = pipe_loss(flow, 0.0262, 2.0, 1.5e-6, 999.7, 1.3e-3, multiplier=3.0)
    np.testing.assert_allclose(ribbed, 3.0 * np.array(plain), rtol=1e-14)


def test_pipe_loss_with_a_bridge_equals_without() -> None:
    flow = np.linspace(-1e-3, 1e-3, 41)
    bore = np.linspace(0.02, 0.03, 41)
    known = pipe_loss(flow, bore, 2.0, 0.0, 999.7, 1.3e-3, bridge=transition(1e-5 / bore))
    np.testing.assert_array_equal(known, pipe_loss(flow, bore, 2.0, 1e-5, 999.7, 1.3e-3))


def test_pipe_loss_broadcasts_like_its_cases_one_by_one() -> None:
    flow = np.array([[0.0], [3e-5], [-8e-5], [1e-3]])
    length = np.array([1.0, 2.5])
    roughness = np.array([1.5e-6, 1e-4])
    loss, slope = pipe_loss(flow, 0.0262, length, roughness, 999.7, 1.3e-3)
    for row in range(4):
        for column in range(2):
            one = pipe_loss(flow[row, 0], 0.0262, length[column], roughness[column], 999.7, 1.3e-3)
            np.testing.assert_allclose((loss[row, column], slope[row, column]), one, rtol=1e-14)


def test_pipe_loss_leaves_its_arguments_alone() -> None:
    flow = np.array([-1e-3, 0.0, 1e-3])
    pipe_loss(flow, 0.0262, 2.0, 1.5e-6, 999.7, 1.3e-3)
    np.testing.assert_array_equal(flow, [-1e-3, 0.0, 1e-3])


@given(flows, bores, roughness_ratios, viscosities)
def test_pipe_loss_is_odd_and_its_slope_even(flow: float, bore: float, ratio: float, viscosity: float) -> None:
    forward = pipe_loss(flow, bore, 2.0, ratio * bore, 999.7, viscosity)
    backward = pipe_loss(-flow, bore, 2.0, ratio * bore, 999.7, viscosity)
    np.testing.assert_array_equal((-forward[0], forward[1]), backward)


@given(reynolds_numbers, st.floats(1e-6, 1.0), bores, roughness_ratios, viscosities)
def test_pipe_loss_grows_strictly_with_the_flow(
    reynolds: float, step: float, bore: float, ratio: float, viscosity: float
) -> None:
    flow = reynolds * math.pi * bore * viscosity / (4.0 * 999.7)
    loss, slope = pipe_loss(np.array([flow, flow * (1.0 + step)]), bore, 2.0, ratio * bore, 999.7, viscosity)
    assert loss[1] > loss[0]
    assert np.all(slope > 0.0)


@given(reynolds_numbers, bores, roughness_ratios, viscosities)
def test_pipe_loss_slope_equals_the_difference_quotient(
    reynolds: float, bore: float, ratio: float, viscosity: float
) -> None:
    """Central difference over 1e-5 of the flow; the curvature jumps at the joints, hence 1e-4."""
    flow = reynolds * math.pi * bore * viscosity / (4.0 * 999.7)
    sides = flow * np.array([1.0 - 1e-5, 1.0 + 1e-5])
    loss, _ = pipe_loss(sides, bore, 2.0, ratio * bore, 999.7, viscosity)
    _, slope = pipe_loss(flow, bore, 2.0, ratio * bore, 999.7, viscosity)
    assert (loss[1] - loss[0]) / (sides[1] - sides[0]) == pytest.approx(float(slope), rel=1e-4)


@given(reynolds_numbers, st.floats(0.0, 0.04), st.floats(1e-4, 0.01))
def test_friction_factor_rougher_pipe_never_has_less(reynolds: float, ratio: float, more: float) -> None:
    assert friction_factor(reynolds, ratio + more) >= friction_factor(reynolds, ratio)


@pytest.mark.parametrize("reynolds", [0.0, -5.0, math.nan])
def test_friction_factor_at_rest_or_backwards_is_refused(reynolds: float) -> None:
    with pytest.raises(ValueError, match="Reynolds number above 0"):
        friction_factor(np.array([1e4, reynolds]), 0.0)


@pytest.mark.parametrize("ratio", [-1e-9, 0.0501, math.nan])
def test_transition_roughness_outside_the_chart_is_refused(ratio: float) -> None:
    with pytest.raises(ValueError, match=r"between 0 and 0\.05"):
        transition(np.array([1e-4, ratio]))
