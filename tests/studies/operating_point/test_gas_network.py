"""The network with gas: its slopes against differences, in a series loop and where the water divides and joins."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
import pytest

from sanitize.laws.injector.gas_line import GasLine
from sanitize.laws.injector.mixing import bore_rise_coefficient
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.gas_network import GasNetwork, OpenBalance
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.gas_flow import line_of, mixer_of
from sanitize.studies.suction.states import gas_side

PlantOf = Callable[..., Plant]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","6.4 m"],["60 L/min","0 m"]]}'
INJECTOR = '{part="injector",throat="9 mm",height="1.0 m"}'
HOSE = '{part="flexible hose",length="1.5 m"}'
RETURN = '{part="return",height="0.5 m"}'
LINE = '[gas_line]\nlength="1.8 m"\nbore="4 mm"\ncheck_valve_opens_at="1 kPa"\n'
SERIES = f"loop=[{SUCTION},{PUMP},{INJECTOR},{HOSE},{RETURN}]"
DIVIDED = (
    f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="split",ways=["a","b"],straight="a"}},{RETURN}]\n'
    f'way.a=[{HOSE}]\nway.b=[{{part="known loss",k=3}}]'
)
SIDE_STREAM = (
    f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{HOSE},{RETURN}]\n'
    f'way.a=[{INJECTOR}]\nway.b=[{{part="known loss",k=40}}]'
)


class Case(NamedTuple):
    """A network with its gas line and the unknowns at which it is looked at."""

    network: GasNetwork
    line: GasLine
    flow: Array
    gas_flow: Array


def _case(plant: Plant) -> Case:
    draws = Draws(8)
    running = run(plant, draws, Condition(np.full(draws.size, 0.8)))
    assert running.port is not None
    item = next(item for item in running.assembly.parts if item.part.word == "injector")
    assert item.made.model is not None
    line, _ = line_of(
        plant, draws, gas_side(plant, draws, running.port.height_m), running.assembly.water.atmosphere_pa_abs
    )
    network = GasNetwork(
        running.assembly, item, mixer_of(item.part, item.made.model, draws), np.zeros(running.network.size)
    )
    flow = running.solution.flow_m3s
    return Case(network, line, flow, 0.15 * flow[item.link])


def _end(case: Case, branch: str) -> Array:
    """A pressure at the bore's end on one branch: far above the choke, or below it, where the choke holds it up."""
    if branch == "choked":
        return np.ones(case.network.size)
    z = case.network.model.dynamic_pa_s2m6 * case.flow[case.network.link] ** 2
    return np.asarray(1e5 + np.asarray(bore_rise_coefficient(case.network.mixer)) * z)


def _close(expected: Array, found: Array) -> None:
    np.testing.assert_allclose(found, expected, rtol=2e-5, atol=2e-5 * float(np.abs(expected).max()))


@pytest.mark.parametrize("text", [SERIES, DIVIDED, SIDE_STREAM])
def test_open_balance_slopes_equal_differences(plant_of: PlantOf, text: str) -> None:
    """2e-5: central differences of 1e-5 of each unknown over losses that bend."""
    case = _case(plant_of(text, LINE))
    network, end = case.network, _end(case, "diffuser")

    def at(flow: Array, gas_flow: Array, pressure: Array) -> OpenBalance:
        return network.open_balance(flow, gas_flow, pressure, case.line)

    here = at(case.flow, case.gas_flow, end)
    for column in range(len(case.flow) + 1):
        size = np.abs(case.gas_flow if column == len(case.flow) else case.flow[column])
        nudge = 1e-5 * np.maximum(size, 1e-6)
        ends = []
        for sign in (1.0, -1.0):
            flow, gas_flow = case.flow.copy(), case.gas_flow.copy()
            (gas_flow if column == len(case.flow) else flow[column])[:] += sign * nudge
            ends.append(at(flow, gas_flow, end))
        high, low = ends
        _close((high.loss_pa.value - low.loss_pa.value) / (2 * nudge), here.loss_pa.slopes[:, column])
        _close((high.mixing_pa.value - low.mixing_pa.value) / (2 * nudge), here.mixing_pa.slopes[column])
        _close((high.diffuser_pa.value - low.diffuser_pa.value) / (2 * nudge), here.diffuser_pa.slopes[column])
    high, low = at(case.flow, case.gas_flow, end + 1.0), at(case.flow, case.gas_flow, end - 1.0)
    _close((high.mixing_pa.value - low.mixing_pa.value) / 2.0, here.mixing_per_end)
    _close((high.diffuser_pa.value - low.diffuser_pa.value) / 2.0, here.diffuser_per_end)


def test_open_balance_keeps_bore_end_from_the_choke_up(plant_of: PlantOf) -> None:
    """At the choke both roots of the momentum balance meet, so its slope with the end's pressure is 0."""
    case = _case(plant_of(SERIES, LINE))
    balance = case.network.open_balance(case.flow, case.gas_flow, _end(case, "choked"), case.line)
    np.testing.assert_allclose(balance.mixing_per_end, 0.0, atol=1e-12)
    assert (balance.bore_end_pa_abs > 1.0).all()
