"""Icehouse: a side stream of 3/4 in on a loop of 1 in, its bypass valve set by gauges. It draws."""

from collections.abc import Callable
from math import log, pi
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.optimize import fsolve

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
ABOVE_WATER_M = 1.35 - 1.10
OPENS_PA = 1000.0
SCHEDULE_80_M = 0.02375


class Balance(NamedTuple):
    """The loop by hand at its operating point [m3/s, Pa], and the side stream's constant."""

    total: float
    own: float
    inlet: float
    outlet: float
    port: float
    k2: float
    back: Callable[[float], float]


@pytest.fixture(scope="module")
def icehouse(by_hand: Callable[[float], Any]) -> Balance:
    """Two unknowns, the pump's flow Q and the side stream's q.

    Before the split, on 1 in: cover (35 % free, 200 mm, entrance 0.5) and contraction from 1-1/2 in, sweep elbow 0.40,
    gate valve 0.24, swing check 2.4, filter; the chiller's two points give its exponent ln(12.5/3.5)/ln 2.
    Side stream: contraction to 3/4 in, ball valve 0.11, 0.4 m of hose, injector, 0.5 m of hose, expansion to 1 in.
    Bypass: 14 kPa at 30 L/min, with the square of the flow. Tees on the 1 in bore. Behind: pipe of Schedule 80,
    three elbows of 0.73, exit 1.
    Injector from the bench, in water of 20 degC: k1 = 30 kPa/(25 L/min)^2, k2 = 23 kPa/(25 L/min)^2, times rho/rho20.
    """
    water = by_hand(3.0)
    pipe, wide, narrow, hose = water.pipe["1"], water.pipe["1-1/2"], water.pipe["3/4"], water.hose["3/4"]
    pump = water.pump((0.0, 8.0), (45.0, 6.4), (90.0, 0.0))
    k1, k2 = (drop * water.rho / water.rho_20 / (25 * LPM) ** 2 for drop in (30e3, 23e3))

    def before(flow: float) -> float:
        return (
            pump(flow)
            - water.covered_suction(flow, wide, 0.35, 0.200)
            - water.contraction(flow, wide, pipe)
            - water.friction(flow, SCHEDULE_80_M, 1.0)
            - water.fitting(flow, pipe, 0.40)
            - water.fitting(flow, pipe, 0.24)
            - water.fitting(flow, pipe, 2.4)
            - water.filter(flow, 6000.0, 60 * LPM)
            - water.rated(flow, 12.5e3, 50 * LPM, log(12.5 / 3.5) / log(2.0))
        )

    def behind(flow: float) -> float:
        return water.friction(flow, SCHEDULE_80_M, 1.6) + water.fitting(flow, pipe, 0.73, 3) + water.k(flow, pipe, 1.0)

    def side_in(own: float) -> float:
        return water.contraction(own, pipe, narrow) + water.fitting(own, narrow, 0.11) + water.friction(own, hose, 0.4)

    def side_out(own: float) -> float:
        return water.friction(own, hose, 0.5) + water.expansion(own, narrow, pipe)

    def balance(flows_lpm: tuple[float, float]) -> tuple[float, float]:
        flow, own = flows_lpm[0] * LPM, flows_lpm[1] * LPM
        leaves, straight_on = water.splits(flow, own, pipe)
        comes_back, passes = water.meets(flow, own, pipe)
        side = leaves + side_in(own) + (k1 - k2) * own**2 + side_out(own) + comes_back
        bypass = straight_on + water.rated(flow - own, 14e3, 30 * LPM, 2.0) + passes
        return before(flow) - side - behind(flow), side - bypass

    flow, own = (part * LPM for part in fsolve(balance, (55.0, 25.0)))
    lifted = water.weight * ABOVE_WATER_M + water.head(own, narrow)

    def back(share: float) -> float:
        """Static pressure at the injector's outlet with every flow times share."""
        q, all_of_it = share * own, share * flow
        total = behind(all_of_it) + water.meets(all_of_it, q, pipe)[0] + side_out(q)
        return total - water.weight * ABOVE_WATER_M - water.head(q, narrow)

    inlet = before(flow) - water.splits(flow, own, pipe)[0] - side_in(own) - lifted
    return Balance(flow, own, inlet, back(1.0), inlet - k1 * own**2, k2, back)


def test_icehouse_flows_split_as_by_hand(icehouse: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("icehouse")
    assert icehouse.total == pytest.approx(result.flow_port_closed_m3s.nominal, rel=NEAR)
    assert icehouse.own == pytest.approx(result.injector_flow_port_closed_m3s.nominal, rel=NEAR)


def test_icehouse_injector_pressures_as_by_hand(icehouse: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("icehouse")
    assert icehouse.inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert icehouse.outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert icehouse.port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_icehouse_draws_at_any_flow(icehouse: Balance, answer: Callable[[str], Any]) -> None:
    """s = rho g (level - z) + pc < 0, and the throat pulls more than what stands behind presses, up to the run-out.

    The shares run from 15 L/min in the loop to its run-out of 90 L/min, with the split as it is.
    """
    for flow in np.linspace(15.0, 90.0, 16) * LPM:
        share = flow / icehouse.total
        assert icehouse.back(share) + OPENS_PA < icehouse.k2 * (share * icehouse.own) ** 2
    assert 0.0 == answer("icehouse").onset_flow_m3s.nominal


def test_icehouse_side_stream_draws(answer: Callable[[str], Any]) -> None:
    result = answer("icehouse")
    assert "draws" == result.verdict
    assert 0.99 < result.draws_share_ratio


def test_icehouse_turnover_of_its_cylinder(icehouse: Balance, answer: Callable[[str], Any]) -> None:
    expected = pi * 1.30**2 / 4.0 * 0.90 / icehouse.total
    assert expected == pytest.approx(answer("icehouse").turnover_s.nominal, rel=NEAR)
