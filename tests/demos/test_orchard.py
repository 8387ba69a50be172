"""Orchard: all in a row, the injector above the water line and known from the bench. It draws, at any flow."""

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
ABOVE_WATER_M = 0.95 - 0.70
OPENS_PA = 1200.0


class Balance(NamedTuple):
    """The loop by hand: what drives the injector's inlet and what stands behind it, and its constants."""

    before: Callable[[float], float]
    behind: Callable[[float], float]
    k1: float
    k2: float
    flow: float
    water: Any


@pytest.fixture(scope="module")
def orchard(by_hand: Callable[[float], Any]) -> Balance:
    """One unknown: pump(Q) = losses before + (k1 - k2) Q^2 + losses behind.

    Cover: a plate of 30 % free area on 150 mm and a flush entrance of 0.5. Thread 0.5, union 0.04, elbows 0.78 each
    on the 3/4 in bore. A bend of hose wider than 10 bores adds 0.11 to straight hose. The chiller's drop goes with
    the power 1.85. The pump's four points are joined by a monotone cubic.
    Bench, in water of 20 degC: k1 = sum (p1 - po) Q^2 / sum Q^4, k2 likewise, times rho over rho at 20 degC.
    """
    water = by_hand(7.0)
    pipe, hose, wide = water.pipe["3/4"], water.hose["3/4"], water.pipe["1-1/2"]
    head = PchipInterpolator([0.0, 20.0, 40.0, 60.0], [7.2, 6.6, 4.9, 1.8])
    flows, inlet, outlet, vacuum = np.array(
        [[20.0, 5.4, 1.5, 9.5], [25.0, 8.4, 2.4, 14.9], [30.0, 12.2, 3.4, 21.4], [35.0, 16.5, 4.6, 29.2]]
    ).T
    square = (flows * LPM) ** 2
    per_density = water.rho / water.rho_20 / np.sum(square**2)
    k1 = float(np.sum((inlet + vacuum) * 1e3 * square) * per_density)
    k2 = float(np.sum((outlet + vacuum) * 1e3 * square) * per_density)

    def before(flow: float) -> float:
        return (
            water.weight * float(head(flow / LPM))
            - water.covered_suction(flow, wide, 0.30, 0.150)
            - water.contraction(flow, wide, pipe)
            - water.k(flow, pipe, 0.50)
            - water.friction(flow, hose, 1.2)
            - water.k(flow, hose, 2 * 0.11)
            - water.k(flow, pipe, 0.04)
            - water.filter(flow, 5000.0, 40 * LPM, medium=0.4)
            - water.friction(flow, pipe, 0.6 + 0.9)
            - water.fitting(flow, pipe, 0.78, 2)
            - water.rated(flow, 9000.0, 35 * LPM, 1.85)
        )

    def behind(flow: float) -> float:
        return water.friction(flow, hose, 1.4) + water.k(flow, hose, 0.11) + water.k(flow, pipe, 1.0)

    flow = brentq(lambda q: before(q) - (k1 - k2) * q**2 - behind(q), 20 * LPM, 59 * LPM)
    return Balance(before, behind, k1, k2, flow, water)


def test_orchard_flow_as_by_hand(orchard: Balance, answer: Callable[[str], Any]) -> None:
    assert orchard.flow == pytest.approx(answer("orchard").flow_port_closed_m3s.nominal, rel=NEAR)


def test_orchard_injector_pressures_as_by_hand(orchard: Balance, answer: Callable[[str], Any]) -> None:
    """p = total - rho g z - rho V^2/2; the inlet from the pump's side, the outlet from the tub's.

    The outlet's gauge pressure is a small difference of large ones, so its tolerance is larger.
    """
    result, flow, water = answer("orchard"), orchard.flow, orchard.water
    lifted = water.weight * ABOVE_WATER_M + water.head(flow, water.pipe["3/4"])
    inlet = orchard.before(flow) - lifted
    outlet = orchard.behind(flow) - lifted
    assert inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=5e-3)
    port = inlet - orchard.k1 * flow**2
    assert port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_orchard_draws_at_any_flow(orchard: Balance, answer: Callable[[str], Any]) -> None:
    """Closed form: s = rho g (level - z) + pc < 0, and k2 > k_dn at every flow up to the pump's run-out.

    k_dn Q^2 is what stands behind the injector less its outlet's velocity head: the exit loss of 1 on the last bore
    and the velocity head of an equal bore cancel.
    """
    water = orchard.water
    assert OPENS_PA - water.weight * ABOVE_WATER_M < 0.0
    for flow in np.linspace(12.0, 72.0, 31) * LPM:
        back = orchard.behind(flow) - water.head(flow, water.pipe["3/4"])
        assert back / flow**2 < orchard.k2
    assert 0.0 == answer("orchard").onset_flow_m3s.nominal


def test_orchard_return_could_gain_as_by_hand(orchard: Balance, answer: Callable[[str], Any]) -> None:
    """At the limit the port stands at -pc: the inlet side alone gives the flow, and what is left is to spare."""
    water, pipe = orchard.water, orchard.water.pipe["3/4"]
    lifted = water.weight * ABOVE_WATER_M

    def port_over_opening(flow: float) -> float:
        return orchard.before(flow) - lifted - water.head(flow, pipe) - orchard.k1 * flow**2 + OPENS_PA

    flow = brentq(port_over_opening, 15 * LPM, 45 * LPM)
    spare = orchard.before(flow) - (orchard.k1 - orchard.k2) * flow**2 - orchard.behind(flow)
    assert spare == pytest.approx(answer("orchard").extra_return_pressure_pa_diff.nominal, rel=NEAR)


def test_orchard_bench_known_injector_draws(answer: Callable[[str], Any]) -> None:
    result = answer("orchard")
    assert "draws" == result.verdict
    assert 0.99 < result.draws_share_ratio


def test_orchard_drains_when_off(answer: Callable[[str], Any]) -> None:
    """Hydrostatics: the port hangs 0.25 m over the water, a vacuum of 2.45 kPa, more than the 1.2 kPa of the valve."""
    (off,) = [
        state
        for state in answer("orchard").states
        if (state.state, state.level, state.check_valve) == ("off", "normal", "sound")
    ]
    assert -999.9 * 9.80665 * ABOVE_WATER_M == pytest.approx(off.port_pressure_pa_gauge.nominal, rel=1e-4)
    assert off.air_enters
