"""Guest house: two suctions, two returns, a bypass within a bypass: five unknowns, solved by hand."""

from collections.abc import Callable
from typing import Any, NamedTuple

import pytest
from scipy.optimize import fsolve

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
ABOVE_WATER_M = 1.10 - 0.85
FALLS_M = 0.95 - 0.85


class Balance(NamedTuple):
    """Flows [m3/s] and the injector's pressures [Pa] by hand."""

    total: float
    low: float
    own: float
    chilled: float
    east: float
    inlet: float
    outlet: float
    port: float


def solve(water: Any, valve_k: float) -> Balance:
    """Five unknowns: the pump's flow, the low suction's, the side stream's, the chilled way's, the east return's.

    Suction tee without a straight way: both waters turn into it, K = 2 - 3 q + 3 q^2 on the 1 in bore for each with
    its share q; return tee likewise, K = 1 + 0.3 q^2 (Idelchik, both from memory). Pump from one rated point:
    H = 4/3 5 m - 1/3 5 m (Q/50)^2. Unknown values at the middle of what stands in: filter 6 kPa, east hose 1.5 m.
    The west return falls free from 0.10 m over the water and keeps its jet's head: exit 1 and the lift.
    Each way that meets another one loses as much as that does, whatever the heights: the last three balances.
    """
    pipe, hose, wide = water.pipe["1"], water.hose["1"], water.pipe["1-1/2"]
    k1, k2 = water.venturi(throat=0.009, end=pipe, loss_ratio=0.24)

    def suction(own: float, total: float, length: float) -> float:
        share = own / total
        return (
            water.k(own, wide, 1.5)
            + water.contraction(own, wide, pipe)
            + water.friction(own, hose, length)
            + (2.0 - 3.0 * share + 3.0 * share**2) * water.head(total, pipe)
        )

    def pump(total: float) -> float:
        gives = water.weight * 5.0 * (4.0 - (total / (50 * LPM)) ** 2) / 3.0
        return gives - water.friction(total, pipe, 0.8) - water.filter(total, 6000.0, 50 * LPM)

    def chiller_ways(main: float, chilled: float) -> tuple[float, float]:
        leaves, straight_on = water.splits(main, chilled, pipe)
        comes_back, passes = water.meets(main, chilled, pipe)
        past = straight_on + water.fitting(main - chilled, pipe, valve_k) + passes
        return leaves + water.rated(chilled, 8000.0, 25 * LPM, 1.8) + comes_back, past

    def returns(total: float, east: float) -> tuple[float, float]:
        turning = [(1.0 + 0.3 * (own / total) ** 2) * water.head(total, pipe) for own in (east, total - east)]
        west = total - east
        to_east = turning[0] + water.friction(east, hose, 1.5) + water.k(east, pipe, 1.0)
        to_west = (
            turning[1]
            + water.friction(west, hose, 2.4)
            + water.fitting(west, pipe, 0.73)
            + water.k(west, pipe, 1.0)
            + water.weight * FALLS_M
        )
        return to_east, to_west

    def balance(flows_lpm: tuple[float, ...]) -> tuple[float, ...]:
        total, low, own, chilled, east = (flow * LPM for flow in flows_lpm)
        low_side, wall_side = suction(low, total, 1.2), suction(total - low, total, 0.7)
        leaves, straight_on = water.splits(total, own, pipe)
        comes_back, passes = water.meets(total, own, pipe)
        with_chiller, past_it = chiller_ways(total - own, chilled)
        side = leaves + (k1 - k2) * own**2 + comes_back
        main = straight_on + past_it + passes
        to_east, to_west = returns(total, east)
        around = pump(total) - low_side - side - water.friction(total, pipe, 1.0) - to_east
        return around, low_side - wall_side, side - main, with_chiller - past_it, to_east - to_west

    total, low, own, chilled, east = (flow * LPM for flow in fsolve(balance, (70.0, 33.0, 22.0, 19.0, 44.0)))
    lifted = water.weight * ABOVE_WATER_M + water.head(own, pipe)
    inlet = pump(total) - suction(low, total, 1.2) - water.splits(total, own, pipe)[0] - lifted
    behind = water.friction(total, pipe, 1.0) + returns(total, east)[0]
    outlet = behind + water.meets(total, own, pipe)[0] - lifted
    return Balance(total, low, own, chilled, east, inlet, outlet, inlet - k1 * own**2)


@pytest.fixture(scope="module")
def guest_house(by_hand: Callable[[float], Any]) -> Balance:
    """Weisbach's cock at 40 degrees adds 17.3 (Weisbach) to the 0.10 of an open 1 in valve."""
    return solve(by_hand(8.0), 0.10 + 17.3)


def flow_of(result: Any, name: str) -> float:
    (part,) = [part for part in result.parts if part.name == name]
    return float(part.flow_m3s.nominal)


def test_guest_house_flows_as_by_hand(guest_house: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("guest_house")
    assert guest_house.total == pytest.approx(result.flow_port_closed_m3s.nominal, rel=NEAR)
    assert guest_house.own == pytest.approx(result.injector_flow_port_closed_m3s.nominal, rel=NEAR)
    assert guest_house.low == pytest.approx(flow_of(result, "low hose"), rel=NEAR)
    assert guest_house.chilled == pytest.approx(flow_of(result, "chiller"), rel=NEAR)
    assert guest_house.east == pytest.approx(flow_of(result, "east hose"), rel=NEAR)


def test_guest_house_injector_pressures_as_by_hand(guest_house: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("guest_house")
    assert guest_house.inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert guest_house.outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert guest_house.port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_guest_house_draws(answer: Callable[[str], Any]) -> None:
    result = answer("guest_house")
    assert "draws" == result.verdict
    assert 0.95 <= result.draws_share_ratio < 1.0


def test_guest_house_open_valve_flows_as_by_hand(by_hand: Callable[[float], Any], answer: Callable[[str], Any]) -> None:
    """At 10 degrees the cock adds 0.29; side stream and chiller then carry less than a tenth of what they join."""
    hand = solve(by_hand(8.0), 0.10 + 0.29)
    result = answer("guest_house_open_valve")
    assert hand.own < 0.1 * hand.total
    assert hand.total == pytest.approx(result.flow_port_closed_m3s.nominal, rel=NEAR)
    assert hand.own == pytest.approx(result.injector_flow_port_closed_m3s.nominal, rel=NEAR)
    assert hand.chilled == pytest.approx(flow_of(result, "chiller"), rel=NEAR)
    assert hand.port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_guest_house_open_valve_does_not_draw(answer: Callable[[str], Any]) -> None:
    result = answer("guest_house_open_valve")
    assert "does_not_draw" == result.verdict
    assert result.draws_share_ratio <= 0.02
