"""What the cautions look at: pump inlet, covered suctions, speeds, by hand on small loops."""

from collections.abc import Callable
from math import pi

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.plant.machines import Pump
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.circumstances import facts_of, pump_inlet_pressure
from sanitize.studies.suction.result import BlockedSuction

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
WEIGHT = 999.7025 * 9.80665
CLOSE = 1e-5
"""Relative; densities of two formulas agree closer than this."""
IN_1, IN_1_1_2 = 0.02624, 0.04044
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
INJECTOR = '{part="injector",throat="12 mm",height="0.7 m"}'
RETURN = '{part="return",height="0.5 m"}'


def _facts(plant_of: PlantOf, loop: str, cases: int = 0) -> tuple[tuple[BlockedSuction, ...], Facts, Run]:
    plant, draws = plant_of(loop), Draws(cases)
    answer = run(plant, draws, Condition(np.full(draws.size, 0.8)))
    blocked, facts = facts_of(plant, answer, ())
    return blocked, facts, answer


def _inlet(answer: Run) -> float:
    item = next(item for item in answer.assembly.parts if isinstance(item.part, Pump))
    return float(pump_inlet_pressure(answer, item)[0])


def _head(answer: Run, bore: float) -> float:
    return WEIGHT / 9.80665 / 2.0 * (float(answer.flow_m3s[0]) / (pi * bore**2 / 4.0)) ** 2


def test_pump_inlet_has_its_depth_less_the_entrance_and_the_velocity_head(run_of: RunOf) -> None:
    """rho g (0.8 - 0.3) - (0.5 + 1) rho V2/2."""
    answer = run_of(f"loop=[{SUCTION},{PUMP},{INJECTOR},{RETURN}]")
    assert WEIGHT * 0.5 - 1.5 * _head(answer, IN_1) == pytest.approx(_inlet(answer), rel=CLOSE)


def test_pump_inlet_lies_behind_the_step_in_front_of_the_pump(run_of: RunOf) -> None:
    """A suction of 1-1/2 in, a pump of 1 in: the entrance on the wide bore, 0.5 (1 - b2) and 1 on the narrow one."""
    wide = SUCTION.replace("height", 'size="1-1/2 in",height')
    answer = run_of(f"loop=[{wide},{PUMP},{INJECTOR},{RETURN}]")
    step = 0.5 * (1.0 - (IN_1 / IN_1_1_2) ** 2)
    by_hand = WEIGHT * 0.5 - 0.5 * _head(answer, IN_1_1_2) - (step + 1.0) * _head(answer, IN_1)
    assert by_hand == pytest.approx(_inlet(answer), rel=CLOSE)


def test_throttled_suction_puts_the_pump_inlet_under_vacuum(plant_of: PlantOf) -> None:
    _, facts, answer = _facts(plant_of, f'loop=[{SUCTION},{{part="known loss",k=40}},{PUMP},{INJECTOR},{RETURN}]', 64)
    low = facts.pump_inlet_pressure_low_pa_gauge["pump"]
    assert low < -5000.0
    assert low <= _inlet(answer)


def test_covered_suction_bears_the_pump_s_highest_head_on_its_opening(plant_of: PlantOf) -> None:
    """5 m and 5 % on the bore of 26.24 mm, without a cover's diameter."""
    blocked, _, _ = _facts(plant_of, f"loop=[{SUCTION},{PUMP},{INJECTOR},{RETURN}]")
    vacuum = 1.05 * 5.0 * WEIGHT
    assert vacuum == pytest.approx(blocked[0].vacuum_pa_diff, rel=CLOSE)
    assert vacuum * pi * IN_1**2 / 4.0 == pytest.approx(blocked[0].force_n, rel=0.05)


def test_vacuum_behind_a_covered_suction_ends_where_water_boils(plant_of: PlantOf) -> None:
    """A pump of 20 m: the atmosphere and 0.6 m of water over the suction, less the vapour pressure of 10 degC."""
    strong = PUMP.replace('"5 m"', '"20 m"')
    blocked, _, _ = _facts(plant_of, f"loop=[{SUCTION},{strong},{INJECTOR},{RETURN}]")
    assert 101_325.0 + 0.6 * WEIGHT - 1228.2 == pytest.approx(blocked[0].vacuum_pa_diff, rel=CLOSE)


def test_pumps_in_a_row_pull_together_on_a_covered_suction(plant_of: PlantOf) -> None:
    small = PUMP.replace('"5 m"', '"2 m"').replace("height", 'name="small",height')
    blocked, _, _ = _facts(plant_of, f"loop=[{SUCTION},{PUMP},{small},{INJECTOR},{RETURN}]")
    assert 1.05 * 7.0 * WEIGHT == pytest.approx(blocked[0].vacuum_pa_diff, rel=CLOSE)


def test_of_pumps_side_by_side_the_strongest_pulls_on_a_covered_suction(plant_of: PlantOf) -> None:
    small = PUMP.replace('"5 m"', '"4 m"').replace("height", 'name="small",has_check_valve=true,height')
    large = PUMP.replace("height", "has_check_valve=true,height")
    loop = f'loop=[{SUCTION},{{part="split",ways=["a","b"]}},{INJECTOR},{RETURN}]\nway.a=[{small}]\nway.b=[{large}]'
    blocked, _, _ = _facts(plant_of, loop)
    assert 1.05 * 5.0 * WEIGHT == pytest.approx(blocked[0].vacuum_pa_diff, rel=CLOSE)


def test_speeds_name_the_fastest_pipe_on_either_side_of_the_pump(plant_of: PlantOf) -> None:
    pipe = '{part="pipe",name="NAME",length="0.5 m",bore="BORE mm"}'
    slow, fast = pipe.replace("NAME", "wide").replace("BORE", "27"), pipe.replace("NAME", "tight").replace("BORE", "25")
    behind = pipe.replace("NAME", "behind").replace("BORE", "26")
    _, facts, answer = _facts(plant_of, f"loop=[{SUCTION},{slow},{fast},{PUMP},{INJECTOR},{behind},{RETURN}]")
    flow = float(answer.flow_m3s[0])
    assert ("tight", "behind") == (facts.suction_velocity_part, facts.return_velocity_part)
    assert flow / (pi * 0.025**2 / 4.0) == pytest.approx(facts.suction_velocity_high_ms)
    assert flow / (pi * 0.026**2 / 4.0) == pytest.approx(facts.return_velocity_high_ms)


def test_flows_of_two_suctions_are_their_own(plant_of: PlantOf) -> None:
    loop = (
        f'loop=[{{part="join",ways=["a","b"]}},{PUMP},{INJECTOR},{RETURN}]\n'
        'way.a=[{part="suction fitting",name="left",height="0.2 m"}]\n'
        'way.b=[{part="suction fitting",name="right",height="0.2 m"},{part="known loss",k=5}]'
    )
    _, facts, answer = _facts(plant_of, loop)
    left, right = (facts.suction_flows_high_m3s[name] for name in ("left", "right"))
    assert right < left
    assert left + right == pytest.approx(float(answer.flow_m3s[0]))
    assert facts.flow_high_m3s == pytest.approx(float(answer.flow_m3s[0]))


def test_share_of_cases_beyond_the_pump_s_last_point_is_counted(plant_of: PlantOf) -> None:
    short = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["20 L/min","4.5 m"],["30 L/min","4 m"]]}'
    _, facts, _ = _facts(plant_of, f"loop=[{SUCTION},{short},{INJECTOR},{RETURN}]", 64)
    assert 1.0 == facts.pump_past_curve_ratio["pump"]
    _, within, _ = _facts(plant_of, f"loop=[{SUCTION},{PUMP},{INJECTOR},{RETURN}]", 64)
    assert 0.0 == within.pump_past_curve_ratio["pump"]


def test_chiller_gets_least_water_with_the_filters_loaded(plant_of: PlantOf) -> None:
    chiller = '{part="chiller",drop="4 kPa",at_flow="30 L/min"}'
    filters = '{part="filter",drop="8 kPa",at_flow="30 L/min"}'
    plant, draws = plant_of(f"loop=[{SUCTION},{PUMP},{filters},{chiller},{INJECTOR},{RETURN}]"), Draws(0)
    level = np.full(1, 0.8)
    clean, loaded = run(plant, draws, Condition(level)), run(plant, draws, Condition(level, filter="loaded"))
    _, facts = facts_of(plant, clean, (), loaded)
    assert (float(loaded.flow_m3s[0]), float(clean.flow_m3s[0])) == pytest.approx(facts.chiller_flows_m3s["chiller"])
    assert loaded.flow_m3s[0] < 0.95 * clean.flow_m3s[0]
    _, alone = facts_of(plant, clean, ())
    assert alone.chiller_flows_m3s["chiller"][0] == pytest.approx(float(clean.flow_m3s[0]))
