"""Bakehouse: a warm tub in US units; every conversion is written out here."""

from collections.abc import Callable
from math import pi
from typing import Any, NamedTuple

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

NEAR = 5e-4
"""Properties of water agree to 1e-5 and the friction factors to 1e-5; the rest is arithmetic."""
INCH = 0.0254
FOOT = 12 * INCH
GPM = 231 * INCH**3 / 60.0
PSI = 0.45359237 * 9.80665 / INCH**2
INCH_OF_WATER = 249.0889
"""At 4 degC: 1000 kg/m3 times g times an inch."""
ABOVE_WATER_M = 42 * INCH - 34 * INCH


class Balance(NamedTuple):
    """The loop by hand."""

    before: Callable[[float], float]
    behind: Callable[[float], float]
    k1: float
    k2: float
    flow: float
    water: Any


@pytest.fixture(scope="module")
def bakehouse(by_hand: Callable[[float], Any]) -> Balance:
    """One unknown, in water of 100 degF: pump(Q) = losses before + (k1 - k2) Q^2 + losses behind.

    On the 1 in bore: elbows 0.73 each, coupling 0.04, flow meter 2.5, thread 0.5. The heater's drop goes with the
    square of the flow. Return nozzle straight, Cd 0.82, 3/4 in on 1 in, with its jet and exit.
    """
    water = by_hand((100.0 - 32.0) / 1.8)
    pipe, hose, wide = water.pipe["1"], water.hose["1"], water.pipe["1-1/2"]
    head = PchipInterpolator([0.0, 6.0, 12.0, 18.0, 21.0], [24.0, 22.0, 17.0, 8.0, 1.0])
    k1, k2 = water.venturi(throat=7 / 16 * INCH, end=pipe, loss_ratio=0.30)

    def before(flow: float) -> float:
        return (
            water.weight * float(head(flow / GPM)) * FOOT
            - water.k(flow, wide, 1.5)
            - water.contraction(flow, wide, pipe)
            - water.friction(flow, hose, 6 * FOOT)
            - water.filter(flow, 0.8 * PSI, 12 * GPM)
            - water.rated(flow, 1.2 * PSI, 15 * GPM, 2.0)
            - water.friction(flow, pipe, 5 * FOOT)
            - water.fitting(flow, pipe, 0.73, 2)
            - water.k(flow, pipe, 0.04 + 2.5 + 0.50)
        )

    def behind(flow: float) -> float:
        return (
            water.friction(flow, pipe, 3 * FOOT)
            + water.fitting(flow, pipe, 0.73)
            + water.nozzle(flow, pipe, 0.75 * INCH, 0.82)
        )

    flow = brentq(lambda q: before(q) - (k1 - k2) * q**2 - behind(q), 5 * GPM, 21 * GPM)
    return Balance(before, behind, k1, k2, flow, water)


def test_bakehouse_flow_as_by_hand(bakehouse: Balance, answer: Callable[[str], Any]) -> None:
    assert bakehouse.flow == pytest.approx(answer("bakehouse").flow_port_closed_m3s.nominal, rel=NEAR)


def test_bakehouse_injector_pressures_as_by_hand(bakehouse: Balance, answer: Callable[[str], Any]) -> None:
    """p = total - rho g z - rho V^2/2; the inlet from the pump's side, the outlet from the tub's."""
    result, water, flow = answer("bakehouse"), bakehouse.water, bakehouse.flow
    lifted = water.weight * ABOVE_WATER_M + water.head(flow, water.pipe["1"])
    inlet, outlet = bakehouse.before(flow) - lifted, bakehouse.behind(flow) - lifted
    assert inlet == pytest.approx(result.injector_inlet_pressure_pa_gauge.nominal, rel=NEAR)
    assert outlet == pytest.approx(result.injector_outlet_pressure_pa_gauge.nominal, rel=NEAR)
    port = inlet - bakehouse.k1 * flow**2
    assert port == pytest.approx(result.port_pressure_closed_pa_gauge.nominal, rel=NEAR)


def test_bakehouse_draws_at_any_flow(bakehouse: Balance, answer: Callable[[str], Any]) -> None:
    """8 in above the water pull more than the valve's 5 in of water hold, and k2 > k_dn up to the run-out."""
    water = bakehouse.water
    assert 5 * INCH_OF_WATER < water.weight * ABOVE_WATER_M
    for flow in np.linspace(3.0, 21.0, 19) * GPM:
        assert bakehouse.behind(flow) - water.head(flow, water.pipe["1"]) < bakehouse.k2 * flow**2
    assert 0.0 == answer("bakehouse").onset_flow_m3s.nominal


def test_bakehouse_known_loss_ratio_draws(answer: Callable[[str], Any]) -> None:
    result = answer("bakehouse")
    assert "draws" == result.verdict
    assert 0.99 < result.draws_share_ratio


def test_bakehouse_answers_in_us_units_for_its_own_volume(bakehouse: Balance, answer: Callable[[str], Any]) -> None:
    result = answer("bakehouse")
    assert "us" == result.units
    volume_m3 = pi / 4.0 * 5.0**2 * 2.5 * FOOT**3
    assert volume_m3 / bakehouse.flow == pytest.approx(result.turnover_s.nominal, rel=NEAR)


def test_bakehouse_warm_water_brings_the_caution_about_legionella(answer: Callable[[str], Any]) -> None:
    assert any("Legionella" in caution.text for caution in answer("bakehouse").cautions)
