"""Ferry landing: low injector, long narrow coil behind it. It never draws, by the closed form and by the numbers."""

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.optimize import brentq

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
BELOW_WATER_M = 0.95 - 0.30
OPENS_PA = 1500.0
TUBE_M = 0.015875


class Balance(NamedTuple):
    """The loop by hand."""

    before: Callable[[float], float]
    behind: Callable[[float], float]
    k1: float
    k2: float
    flow: float
    water: Any


@pytest.fixture(scope="module")
def ferry(by_hand: Callable[[float], Any]) -> Balance:
    """One unknown: pump(Q) = losses before + (k1 - k2) Q^2 + losses behind.

    Pump: two points, 3.6 m (1 - (Q/48)^2). Cover 1.5 on 1-1/2 in; strainer 3 (an estimate); ribbed hose three times
    smooth friction (from memory); swing check 2.5, ball valve 0.11, street elbow 1.18, all on the 3/4 in bore.
    Behind: contraction to 1/2 in; a barb of 12.5 mm; 9 m of 5/8 in tube in a coil, whose friction is
    [Re (D/Dc)^2]^0.05 times that of straight tube (Ito's form, from memory); exit 1 on 15.9 mm.
    """
    water = by_hand(4.0)
    pipe, hose, wide = water.pipe["3/4"], water.hose["3/4"], water.pipe["1-1/2"]
    k1, k2 = water.venturi(throat=0.010, end=pipe, loss_ratio=0.25)

    def before(flow: float) -> float:
        return (
            water.weight * 3.6 * (1.0 - (flow / (48 * LPM)) ** 2)
            - water.k(flow, wide, 1.5)
            - water.contraction(flow, wide, pipe)
            - water.k(flow, pipe, 3.0)
            - 3.0 * water.friction(flow, hose, 1.8)
            - water.fitting(flow, pipe, 2.5)
            - water.fitting(flow, pipe, 0.11)
            - water.filter(flow, 4000.0, 40 * LPM)
            - water.fitting(flow, pipe, 1.18)
        )

    def behind(flow: float) -> float:
        coil = max((water.reynolds(flow, TUBE_M) * (TUBE_M / 0.6) ** 2) ** 0.05, 1.0)
        return (
            water.contraction(flow, pipe, water.pipe["1/2"])
            + water.barb(flow, water.pipe["1/2"], 0.0125, TUBE_M, length=0.0275)
            + coil * water.friction(flow, TUBE_M, 9.0)
            + water.k(flow, 0.0159, 1.0)
        )

    flow = brentq(lambda q: before(q) - (k1 - k2) * q**2 - behind(q), 8 * LPM, 47 * LPM)
    return Balance(before, behind, k1, k2, flow, water)


def test_ferry_landing_flow_as_by_hand(ferry: Balance, answer: Callable[[str], Any]) -> None:
    assert ferry.flow == pytest.approx(answer("ferry_landing").flow_port_closed_m3s.nominal, rel=NEAR)


def test_ferry_landing_injector_pressures_as_by_hand(ferry: Balance, answer: Callable[[str], Any]) -> None:
    """p = total + rho g depth - rho V^2/2; the inlet from the pump's side, the outlet from the tub's."""
    result, water, flow = answer("ferry_landing"), ferry.water, ferry.flow
    depth = water.weight * BELOW_WATER_M - water.head(flow, water.pipe["3/4"])
    inlet, outlet = ferry.before(flow) + depth, ferry.behind(flow) + depth
    assert inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=NEAR)
    port = inlet - ferry.k1 * flow**2
    assert port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_ferry_landing_never_draws(ferry: Balance, answer: Callable[[str], Any]) -> None:
    """Closed form: s = rho g (level - z) + pc > 0, and k2 < k_dn at every flow up to the run-out of 48 L/min."""
    water = ferry.water
    assert water.weight * BELOW_WATER_M + OPENS_PA > 0.0
    for flow in np.linspace(8.0, 48.0, 21) * LPM:
        back = ferry.behind(flow) - water.head(flow, water.pipe["3/4"])
        assert back / flow**2 > ferry.k2
    assert answer("ferry_landing").onset_flow_m3s.nominal is None


def test_ferry_landing_does_not_draw(answer: Callable[[str], Any]) -> None:
    result = answer("ferry_landing")
    assert "does_not_draw" == result.verdict
    assert result.draws_share_ratio <= 0.001


def test_ferry_landing_volume_of_its_box(answer: Callable[[str], Any], load: Callable[..., Any]) -> None:
    assert 1.5 * 0.8 * 0.75 == pytest.approx(load("ferry_landing").plant.tub.volume_m3, rel=1e-12)


def test_ferry_landing_leaking_valve_floods_while_running(ferry: Balance, answer: Callable[[str], Any]) -> None:
    """What presses at the port carries a column of water from the port at 0.30 m to over the line's top at 1.80 m."""
    water, flow = ferry.water, ferry.flow
    depth = water.weight * BELOW_WATER_M - water.head(flow, water.pipe["3/4"])
    column = 0.30 + (ferry.behind(flow) + depth - ferry.k2 * flow**2) / water.weight
    assert column > 1.80
    (running,) = [
        state
        for state in answer("ferry_landing").states
        if (state.state, state.level, state.check_valve) == ("running", "normal", "leaking")
    ]
    assert column == pytest.approx(running.water_height_m.nominal, rel=NEAR)
    assert running.passes_highest_point
