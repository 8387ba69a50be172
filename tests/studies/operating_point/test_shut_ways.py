"""Ways in which no water can move, and what their valves hold."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.rows import Shut
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.shut_ways import held_pa, open_paths

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
G = 9.80665
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
INJECTOR = '{part="injector",throat="9 mm",height="0.7 m"}'
SHUT = '{part="ball valve",handle="90 deg"}'
ELBOW = '{part="elbow 90"}'


def _flow(answer: Run, way: str) -> float:
    return float(answer.solution.flow_m3s[next(x.index for x in answer.assembly.topology.links if x.way == way), 0])


def test_paths_without_a_starved_link_leave_it_a_flow_of_exactly_nothing() -> None:
    """Links 0 -> (1, 2), 2 -> (3, 4) -> 5, all back together; 5 is shut, so 2, 3 and 4 carry at most a circle."""
    paths = np.array(
        [[1.0, 0.0, 0.0], [1.0, -1.0, 0.0], [0.0, 1.0, 0.0], [0.0, 1.0, -1.0], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0]]
    )
    left = open_paths(paths, np.array([False, False, False, True, False, True]))
    assert (6, 1) == left.shape
    assert [0.0, 0.0, 0.0, 0.0] == left[2:, 0].tolist()
    assert left[0, 0] == pytest.approx(left[1, 0])


def test_pressure_held_makes_every_path_balance() -> None:
    """Two ways side by side of which the second is shut: it holds what the first loses, less its own 2 Pa of lift."""
    paths = np.array([[1.0, 0.0], [1.0, -1.0], [0.0, 1.0]])
    loss = np.array([[-7.0, -9.0], [7.0, 3.0], [2.0, 6.0]])
    shut = np.array([[False, False], [False, False], [True, False]])
    held = held_pa(paths, shut, loss)
    assert np.array([[0.0, 0.0], [0.0, 0.0], [5.0, 0.0]]) == pytest.approx(held, abs=1e-12)


@pytest.mark.parametrize("ways", ['["open","shut"]', '["shut","open"]'])
def test_shut_valve_leaves_the_other_way_all_the_water(run_of: RunOf, ways: str) -> None:
    loop = f'loop=[{SUCTION},{PUMP},{{part="split",ways={ways},straight="open"}},{INJECTOR},{RETURN}]\n'
    answer = run_of(f"{loop}way.open=[{ELBOW}]\nway.shut=[{ELBOW},{SHUT}]")
    assert answer.solved[0]
    assert _flow(answer, "shut") == 0.0
    assert float(answer.flow_m3s[0]) == pytest.approx(_flow(answer, "open"), rel=1e-12)
    assert 0.0 == pytest.approx(float(answer.station("return").total_pa[0]), abs=1e-3)


@pytest.mark.parametrize("ways", ['["open","shut"]', '["shut","open"]'])
def test_port_does_not_care_in_which_order_the_ways_behind_it_stand(run_of: RunOf, ways: str) -> None:
    """Also where the first of them is shut, so that the pressure behind the injector must be read along the second.

    The tee that turns all its water loses 1 + 0.3 behind, and 2 at the merge where one run stands still (q = 1).
    """
    loop = f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="split",ways={ways}}},{RETURN}]\n'
    answer = run_of(f'{loop}way.open=[{{part="known loss",k=4}}]\nway.shut=[{SHUT}]')
    as_loss = run_of(f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="known loss",k=7.3}},{RETURN}]')
    assert answer.port is not None
    assert as_loss.port is not None
    assert float(as_loss.flow_m3s[0]) == pytest.approx(float(answer.flow_m3s[0]), rel=1e-9)
    assert float(as_loss.port.port_pa_gauge[0]) == pytest.approx(float(answer.port.port_pa_gauge[0]), abs=1e-2)


def test_shut_valve_holds_the_pumps_shut_off_pressure(run_of: RunOf) -> None:
    """Nothing moves: 5 m of head stand before the valve, and the tub's own pressure behind it."""
    answer = run_of(f"loop=[{SUCTION},{PUMP},{INJECTOR},{SHUT},{RETURN}]")
    shut_off = 5.0 * answer.assembly.water.density_kgm3 * G
    assert float(answer.flow_m3s[0]) == 0.0
    assert shut_off == pytest.approx(float(answer.station("ball valve").loss_pa[0]))
    assert 0.0 == pytest.approx(float(answer.station("ball valve").total_pa[0]), abs=1e-6)
    assert answer.port is not None
    above = (0.7 - 0.8) * answer.assembly.water.density_kgm3 * G
    assert shut_off - above == pytest.approx(float(answer.port.port_pa_gauge[0]))


def test_shut_valve_before_the_injector_leaves_it_the_weight_of_the_water(run_of: RunOf) -> None:
    answer = run_of(f"loop=[{SUCTION},{PUMP},{SHUT},{INJECTOR},{RETURN}]")
    assert answer.port is not None
    depth = (0.8 - 0.7) * answer.assembly.water.density_kgm3 * G
    assert depth == pytest.approx(float(answer.port.port_pa_gauge[0]))


def test_valve_that_is_shut_in_some_cases_only_closes_those(plant_of: PlantOf) -> None:
    """A handle at 80 degrees, 3 either way, on a valve that is shut from 82.2 degrees on."""
    loop = f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="a"}},{RETURN}]\nway.a=[{ELBOW}]\n'
    plant = plant_of(loop + 'way.b=[{part="ball valve",handle="80 deg"}]')
    draws = Draws(64)
    answer = run(plant, draws, Condition(np.full(65, 0.8)))
    handle = draws.inputs["ball valve.handle"].rank
    # 80 + 3 (2u - 1) = 82.2 at u = 0.5 + 1.1 / 3
    shut = handle > 0.5 + 1.1 / 3.0
    flow = answer.solution.flow_m3s[next(x.index for x in answer.assembly.topology.links if x.way == "b")]
    assert shut.any()
    assert answer.solved.all()
    assert (shut == (flow == 0.0)).all()


def test_check_valve_closes_the_way_of_a_weaker_pump(run_of: RunOf) -> None:
    """Of two pumps side by side the weaker, 1 m against more than 1 m at the join, delivers nothing; never less."""
    weak = PUMP.replace('"5 m"', '"1 m"').replace("height", 'name="weak",has_check_valve=true,height')
    both = run_of(
        f'loop=[{{part="join",ways=["a","b"]}},{{part="known loss",k=9}},{RETURN}]\n'
        f"way.a=[{SUCTION},{weak}]\nway.b=[{SUCTION},{PUMP}]"
    )
    # a run that stands still has q = 0 and the other q = 1: it loses 2 - 3 + 3 = 2 at the tee
    alone = run_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=11}},{RETURN}]')
    assert both.solved[0]
    assert _flow(both, "a") == 0.0
    assert float(alone.flow_m3s[0]) == pytest.approx(float(both.flow_m3s[0]), rel=1e-9)
    assert 0.0 == pytest.approx(float(both.station("return").total_pa[0]), abs=1e-3)
    behind_weak, behind_strong = both.station("weak"), both.station("pump")
    assert float(behind_strong.total_pa[0]) == pytest.approx(float(behind_weak.total_pa[0]), abs=1e-3)


@pytest.mark.parametrize(("opens_at", "opens"), [("2 kPa", True), ("30 kPa", False)])
def test_spring_check_valve_stays_shut_below_its_opening_pressure(run_of: RunOf, opens_at: str, opens: bool) -> None:
    """A relief way round a resistance that takes about 11 kPa."""
    relief = f'{{part="check valve",style="spring",opens_at="{opens_at}"}}'
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["main","relief"],straight="main"}},{RETURN}]\n'
        f'way.main=[{{part="known loss",k=40}}]\nway.relief=[{relief}]'
    )
    assert answer.solved[0]
    assert (_flow(answer, "relief") > 1e-6) == opens
    if not opens:
        assert _flow(answer, "relief") == 0.0
        assert 0.0 < float(answer.station("check valve").loss_pa[0]) < 30_000.0


def test_spring_check_valve_at_the_edge_of_opening_lets_its_flow_grow_from_nothing(
    plant_of: PlantOf, run_of: RunOf
) -> None:
    """The opening pressure at which the relief way stands still is the pressure that it then holds."""
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["main","relief"],straight="main"}},{RETURN}]\n'
        'way.main=[{part="known loss",k=40}]\n'
        'way.relief=[{part="check valve",style="spring",opens_at="OPENS Pa",drop="1 kPa",at_flow="20 L/min"}]'
    )
    held = float(run_of(loop.replace("OPENS", "30000")).station("check valve").loss_pa[0])
    just_shut = run_of(loop.replace("OPENS", repr(held + 1.0)))
    just_open = run_of(loop.replace("OPENS", repr(held - 1.0)))
    assert _flow(just_shut, "relief") == 0.0
    assert 0.0 < _flow(just_open, "relief") < 0.02 * _flow(just_open, "main")


def test_check_valve_lets_forward_flow_be_as_without_it(run_of: RunOf) -> None:
    """A swing check valve of 1 in is a loss coefficient of 2.4 when water moves the right way."""
    with_it = run_of(f'loop=[{SUCTION},{PUMP},{{part="check valve",style="swing"}},{RETURN}]')
    as_loss = run_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=2.4}},{RETURN}]')
    assert float(as_loss.flow_m3s[0]) == pytest.approx(float(with_it.flow_m3s[0]), rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_every_check_valve_of_a_random_tree_is_open_or_shut_as_the_water_has_it(
    random_plant_with_valves: Callable[[int], Plant], seed: int
) -> None:
    """Shut: nothing flows, nothing drives the way forward. Open: nothing flows back. Pressures agree all the same."""
    answer = run(random_plant_with_valves(seed), Draws(0), Condition(np.full(1, 0.8)))
    assume(answer.solved[0] and answer.opened is None)
    scale = float(answer.network.scale_pa[0])
    for link in answer.assembly.topology.links:
        items = answer.assembly.of_link(link.index)
        flow, held = (float(x[link.index, 0]) for x in (answer.solution.flow_m3s, answer.solution.held_pa))
        assert flow >= -1e-9
        if not answer.network.shut[link.index, 0]:
            assert held == 0.0
            continue
        assert flow == 0.0
        if not any(isinstance(row, Shut) for item in items for row in item.rows):
            assert held <= 1e-8 * scale
    for station in answer.stations:
        if station.word == "return":
            assert abs(float(station.total_pa[0])) <= 1e-8 * scale
    assert answer.port is None or np.isfinite(answer.port.port_pa_gauge[0])


def test_check_valve_that_closed_too_early_opens_again(run_of: RunOf) -> None:
    """With both springs open water would run back through both; once the inner one is shut, the last one opens.

    The answer is that of the same loop with a shut valve in the inner way's place.
    """
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["main","side"],straight="main"}},{RETURN}]\n'
        'way.main=[{part="known loss",k=15}]\n'
        'way.side=[{part="split",ways=["inner","outer"],straight="outer"},'
        '{part="check valve",style="spring",opens_at="15.7 kPa",name="last"}]\n'
        f"way.inner=[INNER]\nway.outer=[{ELBOW}]"
    )
    springs = run_of(loop.replace("INNER", '{part="check valve",style="spring",opens_at="8 kPa"}'))
    shut = run_of(loop.replace("INNER", SHUT))
    assert springs.solved[0]
    assert _flow(springs, "inner") == 0.0
    assert _flow(springs, "side") > 1e-5
    assert _flow(shut, "side") == pytest.approx(_flow(springs, "side"), rel=1e-9)
