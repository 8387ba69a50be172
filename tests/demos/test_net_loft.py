"""Net loft: the height over the water pulls, the nozzle presses. Draws below a flow only; without nozzle at any."""

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.optimize import brentq

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
ABOVE_WATER_M = 1.30 - 0.78
OPENS_PA = 1500.0


class Balance(NamedTuple):
    """The loop by hand."""

    before: Callable[[float], float]
    behind: Callable[[float], float]
    k1: float
    k2: float
    flow: float
    water: Any


def balance(water: Any, nozzle_m: float) -> Balance:
    """One unknown: pump(Q) = losses before + (k1 - k2) Q^2 + losses behind.

    The barb of 16 mm: contraction from the reducer's 3/4 in bore, 30 mm of its own friction, expansion into the hose,
    all on its own bore. Of the filter's two points the share m of the medium follows:
    1.8/5.2 = m (20/40) + (1 - m) (20/40)^2. Elbows 45 of 0.41, sweep elbow 0.42; a thread of 0.5 at each end of the
    injector, one before and one behind its own pressures. Nozzle tapered, Cd 0.95, with its jet and exit.
    """
    pipe, hose, wide = water.pipe["3/4"], water.hose["3/4"], water.pipe["1-1/2"]
    pump = water.pump((0.0, 5.5), (24.0, 4.6), (56.0, 0.0))
    k1, k2 = water.venturi(throat=0.008, end=pipe, loss_ratio=0.24)
    medium = (1.8 / 5.2 - 0.25) / 0.25

    def before(flow: float) -> float:
        return (
            pump(flow)
            - water.k(flow, wide, 1.5)
            - water.contraction(flow, wide, pipe)
            - water.barb(flow, pipe, 0.016, hose, length=0.030)
            - water.friction(flow, hose, 0.9)
            - water.k(flow, hose, 0.11)
            - water.filter(flow, 5200.0, 40 * LPM, medium)
            - water.friction(flow, pipe, 1.3)
            - water.fitting(flow, pipe, 0.41, 2)
            - water.k(flow, pipe, 0.50)
        )

    def behind(flow: float) -> float:
        return (
            water.k(flow, pipe, 0.50)
            + water.fitting(flow, pipe, 0.42)
            + water.friction(flow, hose, 1.1)
            + water.nozzle(flow, pipe, nozzle_m, 0.95)
        )

    flow = brentq(lambda q: before(q) - (k1 - k2) * q**2 - behind(q), 10 * LPM, 50 * LPM)
    return Balance(before, behind, k1, k2, flow, water)


@pytest.fixture(scope="module", params=[("net_loft", 0.0085), ("net_loft_open_return", 0.020)], ids=["nozzle", "open"])
def loft(request: pytest.FixtureRequest, by_hand: Callable[[float], Any], answer: Callable[[str], Any]) -> Any:
    name, nozzle_m = request.param
    return balance(by_hand(10.0), nozzle_m), answer(name)


def test_net_loft_flow_as_by_hand(loft: Any) -> None:
    hand, result = loft
    assert hand.flow == pytest.approx(result.flow_port_closed_m3s.nominal, rel=NEAR)


def test_net_loft_injector_pressures_as_by_hand(loft: Any) -> None:
    """Gauge pressures are differences of larger ones: the tolerance is that of the pressures they come from."""
    hand, result = loft
    flow, water = hand.flow, hand.water
    lifted = water.weight * ABOVE_WATER_M + water.head(flow, water.pipe["3/4"])
    inlet, outlet = hand.before(flow) - lifted, hand.behind(flow) - lifted
    scale = NEAR * hand.k1 * flow**2
    assert inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, abs=scale)
    assert outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, abs=scale)
    port = inlet - hand.k1 * flow**2
    assert port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, abs=scale)


def test_net_loft_nozzle_stops_it_above_a_flow(by_hand: Callable[[float], Any], answer: Callable[[str], Any]) -> None:
    """Closed form: s = rho g (level - z) + pc < 0 and k2 < k_dn, so it draws below the root of (k_dn - k2) Q^2 = -s."""
    hand = balance(by_hand(10.0), 0.0085)
    water = hand.water
    s = OPENS_PA - water.weight * ABOVE_WATER_M

    def margin(flow: float) -> float:
        return hand.behind(flow) - water.head(flow, water.pipe["3/4"]) - hand.k2 * flow**2 + s

    limit = brentq(margin, 10 * LPM, 50 * LPM)
    assert s < 0.0
    assert hand.flow < limit
    result = answer("net_loft")
    assert 0.0 == result.onset_flow_m3s.nominal
    assert limit == pytest.approx(result.draws_below_flow_m3s.nominal, rel=NEAR)


def test_net_loft_open_return_draws_at_any_flow(by_hand: Callable[[float], Any], answer: Callable[[str], Any]) -> None:
    """s < 0 and k2 > k_dn up to the pump's run-out of 56 L/min."""
    hand = balance(by_hand(10.0), 0.020)
    for flow in np.linspace(10.0, 56.0, 24) * LPM:
        assert hand.behind(flow) - hand.water.head(flow, hand.water.pipe["3/4"]) < hand.k2 * flow**2
    result = answer("net_loft_open_return")
    assert 0.0 == result.onset_flow_m3s.nominal
    assert result.draws_below_flow_m3s.nominal is None


def test_net_loft_nozzle_makes_it_marginal(answer: Callable[[str], Any]) -> None:
    result = answer("net_loft")
    assert "marginal" == result.verdict
    assert 0.35 < result.draws_share_ratio < 0.55


def test_net_loft_open_return_draws(answer: Callable[[str], Any]) -> None:
    result = answer("net_loft_open_return")
    assert "draws" == result.verdict
    assert 0.98 < result.draws_share_ratio
