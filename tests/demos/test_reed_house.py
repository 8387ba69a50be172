"""Reed house: it draws, and a leaking check valve floods the ozone unit; water heights by hydrostatics."""

from collections.abc import Callable
from typing import Any, NamedTuple

import pytest
from scipy.optimize import brentq

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
LEVEL_M, RIM_M, INJECTOR_M, TOP_OF_LINE_M = 0.85, 0.95, 0.55, 0.70
OPENS_PA = 1500.0
TUBE_M = 0.01905


class Balance(NamedTuple):
    """The loop by hand."""

    before: Callable[[float], float]
    behind: Callable[[float], float]
    k1: float
    k2: float
    flow: float
    water: Any


@pytest.fixture(scope="module")
def reed_house(by_hand: Callable[[float], Any]) -> Balance:
    """One unknown: pump(Q) = losses before + (k1 - k2) Q^2 + losses behind.

    Pump: two points, 6 m (1 - (Q/60)^2). Vinyl tube by its name, 19.05 mm, on barbs of 16.5 mm, 30 mm long; a tee as an
    elbow 1.48.
    """
    water = by_hand(12.0)
    pipe, wide = water.pipe["3/4"], water.pipe["1-1/2"]
    k1, k2 = water.venturi(throat=0.008, end=pipe, loss_ratio=0.22)

    def before(flow: float) -> float:
        return (
            water.weight * 6.0 * (1.0 - (flow / (60 * LPM)) ** 2)
            - water.k(flow, wide, 1.5)
            - water.contraction(flow, wide, pipe)
            - water.barb(flow, pipe, 0.0165, TUBE_M, length=0.030)
            - water.friction(flow, TUBE_M, 1.0)
            - water.barb(flow, TUBE_M, 0.0165, pipe, length=0.030)
            - water.filter(flow, 5000.0, 40 * LPM)
            - water.fitting(flow, pipe, 1.48)
            - water.friction(flow, pipe, 0.5)
        )

    def behind(flow: float) -> float:
        return water.friction(flow, pipe, 0.4) + water.k(flow, pipe, 1.0)

    flow = brentq(lambda q: before(q) - (k1 - k2) * q**2 - behind(q), 15 * LPM, 59 * LPM)
    return Balance(before, behind, k1, k2, flow, water)


def state_of(result: Any, *which: str) -> Any:
    (found,) = [state for state in result.states if (state.state, state.level, state.check_valve) == which]
    return found


def test_reed_house_flow_and_pressures_as_by_hand(reed_house: Balance, answer: Callable[[str], Any]) -> None:
    """p = total + rho g depth - rho V^2/2; the inlet from the pump's side, the outlet from the tub's."""
    result, water, flow = answer("reed_house"), reed_house.water, reed_house.flow
    depth = water.weight * (LEVEL_M - INJECTOR_M) - water.head(flow, water.pipe["3/4"])
    inlet, outlet = reed_house.before(flow) + depth, reed_house.behind(flow) + depth
    assert flow == pytest.approx(result.flow_port_closed_m3s.nominal, rel=NEAR)
    assert inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=NEAR)
    port = inlet - reed_house.k1 * flow**2
    assert port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_reed_house_onset_as_by_hand(reed_house: Balance, answer: Callable[[str], Any]) -> None:
    """s > 0 and k2 > k_dn: it draws above the root of (k2 - k_dn) Q^2 = s."""
    water = reed_house.water
    s = water.weight * (LEVEL_M - INJECTOR_M) + OPENS_PA

    def margin(flow: float) -> float:
        return reed_house.behind(flow) - water.head(flow, water.pipe["3/4"]) - reed_house.k2 * flow**2 + s

    assert brentq(margin, 6 * LPM, 30 * LPM) == pytest.approx(answer("reed_house").onset_flow_m3s.nominal, rel=NEAR)


def test_reed_house_draws(answer: Callable[[str], Any]) -> None:
    result = answer("reed_house")
    assert "draws" == result.verdict
    assert 0.99 < result.draws_share_ratio


def test_reed_house_off_and_leaking_stands_at_the_tub_level(reed_house: Balance, answer: Callable[[str], Any]) -> None:
    """Communicating vessels: 0.85 m of water against a line that rises to 0.70 m only."""
    state = state_of(answer("reed_house"), "off", "normal", "leaking")
    assert reed_house.water.weight * 0.30 == pytest.approx(state.port_pressure_pa_gauge.nominal, rel=NEAR)
    assert LEVEL_M == pytest.approx(state.water_height_m.nominal, abs=1e-9)
    assert state.passes_highest_point
    assert state.reaches_ozone_unit


def test_reed_house_off_at_the_rim_stands_at_the_rim(answer: Callable[[str], Any]) -> None:
    state = state_of(answer("reed_house"), "off", "rim", "leaking")
    assert RIM_M == pytest.approx(state.water_height_m.nominal, abs=1e-9)


def test_reed_house_returns_shut_adds_the_pump_head(answer: Callable[[str], Any]) -> None:
    """Level and 1.05 times the shut-off head of 6 m (a pump at the upper end of its curve)."""
    state = state_of(answer("reed_house"), "returns shut", "normal", "leaking")
    assert LEVEL_M + 1.05 * 6.0 == pytest.approx(state.water_height_m.nominal, abs=1e-6)


def test_reed_house_sound_valve_holds(answer: Callable[[str], Any]) -> None:
    state = state_of(answer("reed_house"), "off", "normal", "sound")
    assert not state.passes_highest_point
    assert INJECTOR_M == pytest.approx(state.water_height_m.nominal, abs=1e-9)


def test_reed_house_flooding_is_a_danger(answer: Callable[[str], Any]) -> None:
    dangers = [caution for caution in answer("reed_house").cautions if caution.severity == "danger"]
    assert any("ozone unit" in caution.text and "off" in caution.text for caution in dangers)


@pytest.mark.parametrize(("top_m", "floods"), [("0.80 m", True), ("0.90 m", False)])
def test_reed_house_line_over_the_water_does_not_flood_when_off(
    nominal: Callable[..., Any], top_m: str, floods: bool
) -> None:
    """The line's top against the water at 0.85 m decides."""
    result = nominal("reed_house", f"gas_line.highest_point={top_m}")
    assert floods == state_of(result, "off", "normal", "leaking").reaches_ozone_unit
