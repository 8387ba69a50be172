"""Boathouse: the injector in a side stream around a throttled bypass. Flows, pressures and onset by hand."""

from collections.abc import Callable
from typing import Any, NamedTuple

import pytest
from scipy.optimize import brentq, fsolve

LPM = 1.0 / 60_000.0
NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
BELOW_WATER_M = 0.80 - 0.75
OPENS_PA = 1500.0


class Balance(NamedTuple):
    """The loop by hand at its operating point [m3/s, Pa]."""

    total: float
    own: float
    inlet: float
    outlet: float
    port: float
    onset: float


@pytest.fixture(scope="module")
def boathouse(by_hand: Callable[[float], Any]) -> Balance:
    """Two unknowns, the pump's flow Q and the side stream's q; two balances of total pressure.

    Around the loop through the injector, and side stream against bypass:
      pump(Q) = cover 1.5 + contraction + hose + 3 elbows of 0.78 + filter + [tee + injector + tee] + hose + exit 1
      [tee branch + (k1 - k2) q^2 + tee branch] = [tee run + valve K (Q - q) + tee run]
    The injector's ends have one bore, so its loss of total pressure is its static one. The valve stands at 35 degrees:
    Weisbach's cock adds 9.68 (Encyclopaedia Britannica 1911) to the 0.11 of an open valve.
    The inlet is reckoned from the pump's side, the outlet from the tub's: p = total - rho g z - rho V^2/2.
    """
    water = by_hand(6.0)
    pipe, hose = water.pipe["3/4"], water.hose["3/4"]
    pump = water.pump((0.0, 4.4), (25.0, 3.5), (52.0, 0.0))
    k1, k2 = water.venturi(throat=0.008, end=pipe, loss_ratio=0.24)

    def before(flow: float) -> float:
        return (
            pump(flow)
            - water.k(flow, water.pipe["1-1/2"], 1.5)
            - water.contraction(flow, water.pipe["1-1/2"], pipe)
            - water.friction(flow, hose, 2.2)
            - water.fitting(flow, pipe, 0.78, 3)
            - water.filter(flow, 6000.0, 40 * LPM)
        )

    def behind(flow: float) -> float:
        return water.friction(flow, hose, 1.5) + water.k(flow, pipe, 1.0)

    def balance(flows_lpm: tuple[float, float]) -> tuple[float, float]:
        flow, own = flows_lpm[0] * LPM, flows_lpm[1] * LPM
        leaves, straight_on = water.splits(flow, own, pipe)
        comes_back, passes = water.meets(flow, own, pipe)
        side = leaves + (k1 - k2) * own**2 + comes_back
        bypass = straight_on + water.fitting(flow - own, pipe, 0.11 + 9.68) + passes
        return before(flow) - side - behind(flow), side - bypass

    flow, own = (part * LPM for part in fsolve(balance, (35.0, 15.0)))
    depth = water.weight * BELOW_WATER_M
    own_head = water.head(own, pipe)
    inlet = before(flow) - water.splits(flow, own, pipe)[0] + depth - own_head
    outlet = behind(flow) + water.meets(flow, own, pipe)[0] + depth - own_head

    def margin(share: float) -> float:
        """Port pressure over the check valve's opening with every flow times share: the split stays as it is."""
        q, all_of_it = share * own, share * flow
        back = behind(all_of_it) + water.meets(all_of_it, q, pipe)[0] + depth - water.head(q, pipe)
        return back - k2 * q**2 + OPENS_PA

    return Balance(flow, own, inlet, outlet, inlet - k1 * own**2, own * brentq(margin, 0.3, 1.0))


def test_boathouse_flows_split_as_by_hand(boathouse: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("boathouse")
    assert boathouse.total == pytest.approx(result.flow_port_closed_m3s.nominal, rel=NEAR)
    assert boathouse.own == pytest.approx(result.injector_flow_port_closed_m3s.nominal, rel=NEAR)


def test_boathouse_injector_pressures_as_by_hand(boathouse: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("boathouse")
    assert boathouse.inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert boathouse.outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert boathouse.port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_boathouse_onset_as_by_hand(boathouse: Balance, answer: Callable[[str], Any]) -> None:
    assert boathouse.onset == pytest.approx(answer("boathouse").onset_flow_m3s.nominal, rel=NEAR)


def test_boathouse_outlet_limit_follows_from_the_loss_ratio(boathouse: Balance, answer: Callable[[str], Any]) -> None:
    """p2 may reach (1 - xi) p1 - xi pc, from p1 - po = k1 Q^2 and p2 - po = k2 Q^2 at po = -pc."""
    expected = (1.0 - 0.24) * boathouse.inlet - 0.24 * OPENS_PA
    assert expected == pytest.approx(answer("boathouse").outlet_pressure_limit_pa_gauge.nominal, rel=NEAR)


def test_boathouse_throat_alone_known_is_marginal(answer: Callable[[str], Any]) -> None:
    result = answer("boathouse")
    assert "marginal" == result.verdict
    assert 0.5 < result.draws_share_ratio < 0.75


def test_boathouse_injector_is_what_to_measure_first(answer: Callable[[str], Any]) -> None:
    assert "loss ratio of injector" == answer("boathouse").drivers[0].label
