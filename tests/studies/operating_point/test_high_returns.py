"""Ways whose return hangs too high: no water comes back through it, and none reaches it."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.basis.errors import NoSolutionError
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, refuse_without_answer, run
from sanitize.studies.suction import gas_flow, gas_newton
from sanitize.studies.suction.study import study_suction

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","3 m"],["60 L/min","0 m"]]}'
INJECTOR = '{part="injector",throat="9 mm",height="0.4 m"}'
LOSS = '{part="known loss",k=30},'
LEVEL_M = 0.8


def ways(high: str, *, before: str = "", in_low: str = "", in_high: str = "", tail: str = "") -> str:
    """A loop that parts behind the pump into a way under water and one whose return hangs at a height."""
    split = '{part="split",ways=["low","high"],straight="low"}'
    return (
        f"loop=[{SUCTION},{PUMP},{before}{split}]\n"
        f'way.low=[{in_low}{{part="return",name="low return",height="0.5 m"}}]\n'
        f'way.high=[{in_high}{{part="return",name="high return",height="{high}"}}{tail}]\n'
    )


def flow_of(answer: Run, way: str) -> float:
    return float(answer.solution.flow_m3s[next(x.index for x in answer.assembly.topology.links if x.way == way), 0])


def test_way_to_a_return_that_hangs_too_high_is_as_one_that_is_shut(run_of: RunOf) -> None:
    answer = run_of(ways("3.5 m"))
    shut = run_of(ways("0.5 m", in_high='{part="ball valve",handle="90 deg"},'))
    refuse_without_answer(answer, answer.assembly.plant)
    assert 0.0 == flow_of(answer, "high")
    assert flow_of(shut, "low") == pytest.approx(flow_of(answer, "low"), rel=1e-9)


def test_flow_past_a_return_that_hangs_too_high_by_hand(run_of: RunOf) -> None:
    """3 (1 - (Q/60)^2) m of head against 1000 v^2/2g alone: what else stands in the way makes up about 1 %."""
    answer = run_of(ways("4.5 m", in_low='{part="known loss",k=1000},'))
    area_m2 = 0.25 * np.pi * answer.station("known loss").bore_m ** 2
    per_square = 1000.0 / (2.0 * 9.80665 * (60_000.0 * area_m2) ** 2)
    by_hand = np.sqrt(3.0 / (3.0 / 60.0**2 + per_square))
    assert by_hand == pytest.approx(60_000.0 * flow_of(answer, "low"), rel=0.02)


def test_return_carries_water_from_the_height_on_to_which_its_branch_lifts(run_of: RunOf) -> None:
    """The dead way's water stands as high over the tub as the total pressure at its branch is in metres of water."""
    answer = run_of(ways("3.5 m", in_low=LOSS))
    branch = next(station for station in answer.stations if station.name == "split: high leaves")
    stands = LEVEL_M + float(branch.total_pa[0]) / (answer.assembly.water.density_kgm3 * 9.80665)
    assert LEVEL_M < stands < 3.5
    assert 0.0 == flow_of(run_of(ways(f"{stands + 0.002:.4f} m", in_low=LOSS)), "high")
    assert flow_of(run_of(ways(f"{stands - 0.002:.4f} m", in_low=LOSS)), "high") > 0.0


def test_dead_way_bears_its_waters_weight_and_air_above_it(run_of: RunOf) -> None:
    riser = '{part="elbow 90",name="lower",height="0.4 m"},{part="elbow 90",name="upper",height="3.3 m"},'
    answer = run_of(ways("3.5 m", in_low=LOSS, in_high=riser))
    weight = answer.assembly.water.density_kgm3 * 9.80665
    branch = next(station for station in answer.stations if station.name == "split: high leaves")
    lower = float(branch.total_pa[0]) - weight * (0.4 - LEVEL_M)
    assert lower == pytest.approx(float(answer.station("lower").pressure_pa_gauge[0]), rel=1e-9)
    assert 0.0 == float(answer.station("upper").pressure_pa_gauge[0])


def test_injector_in_a_dead_way_above_its_water_stands_in_air_and_draws_nothing(plant_of: PlantOf) -> None:
    high = INJECTOR.replace("0.4 m", "3.3 m")
    result = study_suction(plant_of(ways("3.5 m", in_high=high + ",")), cases=0)
    assert ("does_not_draw", 0.0) == (result.verdict, result.port_pressure_closed_pa_gauge.nominal)
    assert "return-too-high" in {notice.code for notice in result.notices}
    assert "way-stands-still" not in {notice.code for notice in result.notices}


def test_loop_with_a_dead_way_is_answered_with_a_notice_that_names_it(plant_of: PlantOf) -> None:
    result = study_suction(plant_of(ways("3.5 m", before=INJECTOR + ",")), cases=64)
    shut = study_suction(
        plant_of(ways("0.5 m", before=INJECTOR + ",", in_high='{part="ball valve",handle="90 deg"},')), cases=64
    )
    (notice,) = (notice for notice in result.notices if notice.code == "return-too-high")
    assert notice.text.startswith("No water reaches high return: it hangs above the water, higher than the pressure")
    assert shut.flow_port_closed_m3s.nominal == pytest.approx(result.flow_port_closed_m3s.nominal, rel=1e-9)
    assert shut.port_pressure_closed_pa_gauge.nominal == pytest.approx(
        result.port_pressure_closed_pa_gauge.nominal, rel=1e-9
    )
    assert shut.gas_flow_m3s.nominal == pytest.approx(result.gas_flow_m3s.nominal, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize("where", ["before", "in_low"])
def test_gas_beside_a_dead_way_is_that_found_between_brackets(
    plant_of: PlantOf, monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    plant = plant_of(ways("3.5 m", **{where: INJECTOR + ","}))
    at_once = study_suction(plant, cases=0)
    monkeypatch.setattr(gas_flow, "newton", lambda network, line, start, wanted, guess: gas_newton.Found(
        np.array(start), np.zeros(network.size), np.zeros(network.size, dtype=bool)))  # fmt: skip
    between = study_suction(plant, cases=0)
    assert (at_once.gas_flow_m3s.nominal or 0.0) > 1e-6
    assert between.gas_flow_m3s.nominal == pytest.approx(at_once.gas_flow_m3s.nominal, rel=1e-6)
    assert between.flow_m3s.nominal == pytest.approx(at_once.flow_m3s.nominal, rel=1e-8)


def test_range_that_holds_both_tells_in_how_many_cases_the_way_is_dead(plant_of: PlantOf) -> None:
    """The pump's head is drawn too, so that one height may be dead or not; above 3 m of head it is dead."""
    plant = plant_of(ways("2.2 m (1.4 m to 3.9 m)", in_low=LOSS))
    draws = Draws(256)
    answer = run(plant, draws, Condition(np.full(257, LEVEL_M)))
    link = next(x.index for x in answer.assembly.topology.links if x.way == "high")
    dead = answer.solution.stranded[link]
    assert answer.solved.all()
    assert 0 < dead.sum() < 257
    assert (dead == (answer.solution.flow_m3s[link] == 0.0)).all()
    heights = answer.station("high return").height_m
    assert heights[~dead].max() < LEVEL_M + 3.0 * 1.05
    assert dead[heights > LEVEL_M + 3.0].all()


def test_way_over_a_hump_whose_leg_has_emptied_gives_no_water_back(plant_of: PlantOf) -> None:
    """Full, its leg pulls water over 2.2 m; empty, the pump's 2 m do not lift it there, and behind it stays air."""
    over = '{part="known loss",name="slow",k=500},{part="elbow 90",name="top",height="2.2 m"},'
    weak = ways("0.5 m", in_low=LOSS.replace("30", "100"), in_high=over)
    weak = weak.replace('["0 L/min","3 m"],["60 L/min","0 m"]', '["0 L/min","2 m"],["14 L/min","0 m"]')
    draws = Draws(64)
    answer = run(plant_of(weak), draws, Condition(np.full(65, LEVEL_M)))
    shut = run(plant_of(weak.replace('"slow",k=500}', '"slow",k=500},{part="ball valve",handle="90 deg"}')), draws,
               Condition(np.full(65, LEVEL_M)))  # fmt: skip
    link = next(x.index for x in answer.assembly.topology.links if x.way == "high")
    emptied = answer.emptied
    assert emptied is not None
    assert 0 < emptied.sum() < 65
    assert answer.solved.all()
    assert (answer.solution.flow_m3s[link][emptied] == 0.0).all()
    assert (answer.solution.flow_m3s[link][~emptied] > 0.0).all()
    assert shut.flow_m3s[emptied] == pytest.approx(answer.flow_m3s[emptied], rel=1e-6)
    drawn = study_suction(plant_of(weak.replace(f"{SUCTION},", f"{SUCTION},{INJECTOR},")), 64)
    told = [notice.text for notice in drawn.notices if notice.code == "way-over-its-top-stands"]
    assert 1 == len(told)
    assert told[0].startswith("No water passes the top of high in ")


def test_branch_that_stands_above_its_dead_waters_level_lets_air_in(run_of: RunOf) -> None:
    """The split hangs at 1.5 m over 0.8 m of water, and the way under water pulls there by its own fall."""
    text = ways("1.9 m", before='{part="elbow 90",height="1.5 m"},')
    answer = run_of(text.replace('"0 L/min","3 m"', '"0 L/min","1 m"'))
    assert not answer.solved[0]
    with pytest.raises(NoSolutionError, match="Air would come in through high return, which hangs above the water"):
        refuse_without_answer(answer, answer.assembly.plant)
