"""A leg that rises over the water and comes down too slowly to stay full: half of such cases run it open to the air."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws, Mask
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Port, Run, run
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.onset import flow_window
from sanitize.studies.suction.states import gas_side

PlantOf = Callable[..., Plant]
G = 9.80665
SUCTION = '{part="suction fitting",height="0.2 m"}'
RETURN = '{part="return",height="0.5 m"}'
FREE = '{part="return",height="1.5 m"}'
SLOW = '{part="pump",height="0.3 m",curve=[["0 L/min","2 m"],["14 L/min","0 m"]]},{part="known loss",k=100}'
FAST = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
BEHIND = '{part="elbow 90",name="top",height="1.5 m"},{part="injector",throat="12 mm",height="1.2 m"}'
AT_TOP = '{part="injector",throat="5 mm",height="1.5 m"},{part="elbow 90",name="low",height="0.9 m"}'


def _run(plant_of: PlantOf, pump: str, leg: str) -> tuple[Run, Mask]:
    """The answer over 64 cases, and in which of them the leg has emptied."""
    draws = Draws(64)
    answer = run(plant_of(f"loop=[{SUCTION},{pump},{leg},{RETURN}]"), draws, Condition(np.full(65, 0.8)))
    known = draws.inputs.get("down-leg stays full")
    emptied = np.zeros(65, dtype=bool) if known is None else known.rank < 0.5
    return answer, emptied


def _port(answer: Run) -> Port:
    assert answer.port is not None
    return answer.port


def test_fast_water_keeps_its_down_leg_full(plant_of: PlantOf) -> None:
    answer, _ = _run(plant_of, FAST, BEHIND)
    assert {} == answer.open_legs
    assert "down-leg stays full" not in answer.assembly.draws.inputs


def test_slow_water_empties_its_down_leg_in_half_of_the_cases_but_not_in_the_nominal_one(plant_of: PlantOf) -> None:
    answer, emptied = _run(plant_of, SLOW, BEHIND)
    assert answer.open_legs["return"].all()
    assert 32 == emptied.sum()
    assert not emptied[0]


def test_injector_in_an_emptied_leg_stands_in_air_and_does_not_draw(plant_of: PlantOf) -> None:
    """Full, it stands 0.4 m over the water and pulls; emptied, p1, p2 and the port are the air's."""
    answer, emptied = _run(plant_of, SLOW, BEHIND)
    port = _port(answer)
    assert np.all(port.port_pa_gauge[emptied] == 0.0)
    assert np.all(port.outlet_pa_gauge[emptied] == 0.0)
    assert np.all(port.port_pa_gauge[~emptied] < -3000.0)


def test_injector_on_top_of_an_emptied_leg_has_the_air_at_its_outlet(plant_of: PlantOf) -> None:
    answer, emptied = _run(plant_of, SLOW, AT_TOP)
    port = _port(answer)
    assert np.zeros(int(emptied.sum())) == pytest.approx(port.outlet_pa_gauge[emptied], abs=1e-3)
    assert np.all(port.outlet_pa_gauge[~emptied] < -6000.0)
    kappa_z = port.model.recovery_pa_s2m6 * port.flow_m3s**2
    assert -kappa_z[emptied] == pytest.approx(port.port_pa_gauge[emptied], abs=1e-3)


def test_flat_top_ends_at_its_last_part(plant_of: PlantOf) -> None:
    """An elbow and the injector behind it, both at 1.5 m: the leg that empties begins behind the injector."""
    answer, emptied = _run(plant_of, SLOW, '{part="elbow 90",name="top",height="1.5 m"},' + AT_TOP)
    assert np.all(_port(answer).port_pa_gauge[emptied] < -1.0)


def test_emptied_leg_costs_the_lift_to_its_top(plant_of: PlantOf) -> None:
    """As if the water fell free at the hump: the same loop with a return there, its exit 1 on the same bore."""
    answer, emptied = _run(plant_of, SLOW, '{part="elbow 90",name="top",height="1.5 m"},{part="pipe",length="3 m"}')
    free = SLOW + ',{part="elbow 90"},{part="return",height="1.5 m"}'
    draws = answer.assembly.draws
    draws.inputs["return.height"] = draws.inputs["top.height"]
    there = run(plant_of(f"loop=[{SUCTION},{free}]"), draws, Condition(np.full(65, 0.8)))
    assert there.flow_m3s[emptied] == pytest.approx(answer.flow_m3s[emptied], rel=1e-6)
    assert np.all(answer.flow_m3s[emptied] < 0.9 * answer.flow_m3s[0])


def test_parts_in_an_emptied_leg_stand_at_the_air_s_pressure(plant_of: PlantOf) -> None:
    answer, emptied = _run(plant_of, SLOW, AT_TOP)
    low = answer.station("low").pressure_pa_gauge
    assert np.all(low[emptied] == 0.0)
    assert np.all(low[~emptied] != 0.0)
    assert np.zeros(65) == pytest.approx(answer.station("return").total_pa, abs=1e-3)


def test_onset_of_an_injector_in_an_emptied_leg_never_comes(plant_of: PlantOf) -> None:
    """In the other cases it draws at any flow: it stands over the water."""
    answer, emptied = _run(plant_of, SLOW, BEHIND)
    onset = flow_window(answer, np.zeros(65)).onset_m3s
    assert np.all(np.isinf(onset[emptied]))
    assert np.all(onset[~emptied] == 0.0)


def test_onset_of_an_injector_on_top_is_that_of_its_own_leg(plant_of: PlantOf) -> None:
    """Emptied, s = pc alone, so that Q = sqrt(pc / k2): nothing behind it resists. Full, its height helps."""
    answer, emptied = _run(plant_of, SLOW, AT_TOP)
    window = flow_window(answer, np.full(65, 500.0))
    expected = np.sqrt(500.0 / _port(answer).model.recovery_pa_s2m6)
    assert expected[emptied] == pytest.approx(window.onset_m3s[emptied], rel=1e-6)
    assert np.all(window.onset_m3s[~emptied] == 0.0)


def test_leg_under_the_water_never_empties(plant_of: PlantOf) -> None:
    answer, _ = _run(plant_of, SLOW, BEHIND.replace("1.5 m", "0.7 m").replace("1.2 m", "0.6 m"))
    assert {} == answer.open_legs


def test_leg_behind_a_resistance_that_holds_its_top_above_the_air_stays_full(plant_of: PlantOf) -> None:
    """No air takes the place of water that presses outward: the throat behind the top takes more than its height."""
    tight = BEHIND.replace("12 mm", "3 mm")
    answer, _ = _run(plant_of, SLOW, tight)
    assert np.all(answer.station("top").pressure_pa_gauge > 0.0)
    assert {} == answer.open_legs


def test_gas_drawn_on_top_of_an_emptied_leg_is_that_of_a_loop_that_ends_there(plant_of: PlantOf) -> None:
    """The air at the outlet whatever stands behind: as with a free return at the injector's own height."""
    answer, emptied = _run(plant_of, SLOW, AT_TOP)
    draws = answer.assembly.draws
    gas, _ = gas_answer(answer.assembly.plant, draws, answer, gas_side(answer.assembly.plant, draws, np.full(65, 1.5)))
    free = plant_of(f'loop=[{SUCTION},{SLOW},{{part="injector",throat="5 mm",height="1.5 m"}},{FREE}]')
    draws.inputs["return.height"] = draws.inputs["injector.height"]
    there = run(free, draws, Condition(np.full(65, 0.8)))
    expected, _ = gas_answer(free, draws, there, gas_side(free, draws, np.full(65, 1.5)))
    drawing = emptied & (expected.gas_flow_m3s > 0.0)
    assert 5 < drawing.sum()
    assert gas.solved[drawing].all()
    assert expected.gas_flow_m3s[emptied] == pytest.approx(gas.gas_flow_m3s[emptied], rel=1e-3, abs=1e-12)
    assert np.all(gas.gas_flow_m3s[~emptied & gas.solved] > 0.0)


def test_no_gas_is_drawn_in_an_emptied_leg(plant_of: PlantOf) -> None:
    answer, emptied = _run(plant_of, SLOW, BEHIND)
    draws = answer.assembly.draws
    gas, _ = gas_answer(answer.assembly.plant, draws, answer, gas_side(answer.assembly.plant, draws, np.full(65, 1.2)))
    assert np.all(gas.gas_flow_m3s[emptied] == 0.0)
