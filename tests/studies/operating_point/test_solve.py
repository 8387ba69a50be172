"""The balance of flows and pressures: what is left of it, closed forms, arrays against single cases."""

from collections.abc import Callable
from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.assemble import assemble
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.solve import Network, solve

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
L_MIN = 1.0 / 60_000.0
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
RELATIVE = 1e-9
"""What may be left of a balance, over the pumps' shut-off pressure."""


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_balance_of_a_random_tree_of_ways_leaves_less_than_a_billionth(
    random_plant: Callable[[int], Plant], seed: int
) -> None:
    """Total pressure, part by part from the suction on, is that of the tub again at every return.

    Ways that would run backwards or let air in are refused, not answered, so their cases are left out.
    """
    draws = Draws(2)
    answer = run(random_plant(seed), draws, Condition(np.full(draws.size, 0.8)))
    kept = answer.solved
    ends = [station for station in answer.stations if station.word == "return"]
    assert ends
    for station in ends:
        assert np.all(np.abs(station.total_pa)[kept] <= RELATIVE * answer.network.scale_pa[kept])
    refused = [*answer.solution.backwards.values(), *answer.sucks_air.values()]
    assert np.all(kept | np.any(refused, axis=0))


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_ways_of_a_random_tree_arrive_at_a_merge_with_one_pressure(
    random_plant: Callable[[int], Plant], seed: int
) -> None:
    draws = Draws(0)
    answer = run(random_plant(seed), draws, Condition(np.full(1, 0.8)))
    assume(answer.solved[0])
    for meeting in answer.assembly.topology.meetings:
        name = f"{meeting.name}: "
        rejoining = [
            float(station.total_pa[0]) for station in answer.stations
            if station.name.startswith(name) and station.name.endswith(" rejoins") and station.link in meeting.ways
        ]  # fmt: skip
        if not meeting.diverging:
            assert len(meeting.ways) == len(rejoining)
            assert max(rejoining) - min(rejoining) <= RELATIVE * float(answer.network.scale_pa[0])


def _intersection(plant_of: PlantOf, level_m: float) -> tuple[float, float]:
    """Flow [L/min] and head [m] of H = 7.46 - 0.0453 Q2 against 3.52 + 0.0261 Q2 (m, L/min).

    The lift is that of a return 3.52 m over the water, all losses stand in one coefficient on a 1 in pipe (26.24 mm):
    suction 0.5 and exit 1 are part of it.
    """
    area = pi * 0.02624**2 / 4.0
    k = 0.0261 / L_MIN**2 * 2.0 * 9.80665 * area**2 - 0.5 - 1.0
    run_out = sqrt(7.46 / 0.0453)
    loop = (
        f'loop=[{SUCTION},{{part="pump",height="0.3 m",curve=[["0 L/min","7.46 m"],["{run_out!r} L/min","0 m"]]}},'
        f'{{part="known loss",k={k!r}}},{{part="return",height="{level_m + 3.52!r} m"}}]'
    )
    answer = run(plant_of(loop), Draws(0), Condition(np.full(1, level_m)))
    pump = answer.station("pump")
    weight = answer.assembly.water.density_kgm3 * 9.80665
    return float(answer.flow_m3s[0]) / L_MIN, float(-pump.loss_pa[0]) / weight


def test_pump_against_system_meets_the_closed_form_of_a_textbook_problem(plant_of: PlantOf) -> None:
    """A pump H = 7.46 - 0.0453 Q2 on a system 3.52 + 0.0261 Q2: Q = sqrt(3.94 / 0.0714), the print says 7.43 L/min."""
    flow, head = _intersection(plant_of, 0.8)
    assert sqrt(3.94 / 0.0714) == pytest.approx(flow, rel=1e-9)
    assert 7.46 - 0.0453 * 3.94 / 0.0714 == pytest.approx(head, rel=1e-9)
    assert 7.43 == pytest.approx(flow, abs=0.005)
    assert 4.96 == pytest.approx(head, abs=0.005)


def test_flow_under_the_head_of_a_published_example_is_within_its_rounding(run_of: RunOf) -> None:
    """Crane TP-410M example 7-6: 7 m of head over a sum of K of 17.72 on 77.9 mm drive 2.74 m/s, 781 L/min.

    A pump of four points that give 7 m near that flow stands for the tank. The sum is carried to the bore of 2 in,
    52.04 mm, and holds the entrance, 0.5, and the exit, 1, that suction and return bring along.
    2.5 %: the print rounds its friction factor and its sum.
    """
    k = 17.72 * (52.04 / 77.9) ** 4 - 1.5
    points = '[["0 L/min","7.0002 m"],["600 L/min","7.0001 m"],["1000 L/min","7 m"],["1200 L/min","0 m"]]'
    loop = f'loop=[{SUCTION},{{part="known loss",k={k!r}}},{{part="pump",height="0.3 m",curve={points}}},{RETURN}]'
    answer = run_of(loop, size="2 in")
    assert 781.0 == pytest.approx(float(answer.flow_m3s[0]) / L_MIN, rel=0.025)


def test_ways_of_square_law_side_by_side_act_as_their_inverse_roots_say(plant_of: PlantOf) -> None:
    """Without tee losses, resistances r_i side by side are one of r = (sum r_i^-1/2)^-2 (exact).

    The tees are made so wide that they lose nothing that matters.
    """
    coefficients = (3.0, 11.0, 40.0, 170.0)
    names = [f"w{number}" for number in range(4)]
    ways = "".join(f'way.{name}=[{{part="known loss",k={k}}}]\n' for name, k in zip(names, coefficients, strict=True))
    loop = f'loop=[{SUCTION},{PUMP},{{part="split",ways={names}}},{RETURN}]\n{ways}'.replace("'", '"')
    assembly = assemble(plant_of(loop), Draws(0), Condition(np.full(1, 0.8)))
    assembly.tee_bores_m[:] = [100.0] * len(assembly.tee_bores_m)
    flow = solve(Network(assembly)).flow_m3s[:, 0]

    per_k = 999.7 / 2.0 / (pi * 0.02624**2 / 4.0) ** 2
    together = sum(k**-0.5 for k in coefficients) ** -2
    area_free = (0.5 + 1.0 + together) * per_k
    # 5 m (1 - (Q/60)^2) rho g = area_free Q^2
    shut_off = 5.0 * 999.7 * 9.80665
    whole = sqrt(shut_off / (area_free + shut_off / (60.0 * L_MIN) ** 2))
    assert whole == pytest.approx(float(flow[0]), rel=1e-6)
    for link in assembly.topology.links:
        if link.way in names:
            k = coefficients[names.index(link.way)]
            assert whole * (together / k) ** 0.5 == pytest.approx(float(flow[link.index]), rel=1e-6)


SIDE_STREAM = f"""
loop = [{SUCTION}, {{part="flexible hose",length="2 m"}}, {PUMP}, {{part="elbow 90",count=3}},
  {{part="filter",drop="6 kPa",at_flow="40 L/min"}}, {{part="split",ways=["side","bypass"],straight="bypass"}},
  {{part="flexible hose",length="1.5 m"}}, {RETURN}]
way.side = [{{part="injector",throat="8 mm",height="0.75 m"}}]
way.bypass = [{{part="throttle valve",handle="35 deg"}}]
"""


def _one_case(draws: Draws, case: int) -> Draws:
    """The nominal case alone, moved to where another case lies."""
    alone = Draws(0)
    alone.inputs = {key: replace(item, rank=item.rank[[case]]) for key, item in draws.inputs.items()}
    return alone


def test_cases_solved_together_equal_each_case_alone(plant_of: PlantOf) -> None:
    plant = plant_of(SIDE_STREAM)
    draws = Draws(16)
    level = draws.value("level", plant.tub.water_level_m)
    together = run(plant, draws, Condition(level))
    assert together.port is not None
    for case in range(draws.size):
        alone = run(plant, _one_case(draws, case), Condition(level[[case]]))
        assert alone.port is not None
        assert alone.solution.flow_m3s[:, 0] == pytest.approx(together.solution.flow_m3s[:, case], rel=1e-8)
        assert float(alone.port.port_pa_gauge[0]) == pytest.approx(float(together.port.port_pa_gauge[case]), abs=1e-3)


def test_nominal_case_is_the_same_with_and_without_others(plant_of: PlantOf) -> None:
    plant = plant_of(SIDE_STREAM)
    alone = run(plant, Draws(0), Condition(np.full(1, 0.8)))
    among = run(plant, Draws(32), Condition(np.full(33, 0.8)))
    assert alone.solution.flow_m3s[:, 0] == pytest.approx(among.solution.flow_m3s[:, 0], rel=1e-12)


def test_cases_in_another_order_give_the_same_answers_in_that_order(plant_of: PlantOf) -> None:
    plant = plant_of(SIDE_STREAM)
    draws = Draws(16)
    first = run(plant, draws, Condition(np.full(17, 0.8)))
    order = np.random.default_rng(3).permutation(17)
    moved = Draws(16)
    moved.inputs = {key: replace(item, rank=item.rank[order]) for key, item in draws.inputs.items()}
    second = run(plant, moved, Condition(np.full(17, 0.8)))
    assert second.solution.flow_m3s == pytest.approx(first.solution.flow_m3s[:, order], rel=1e-8)


def test_flow_through_laminar_and_transitional_pipe_runs_on_without_a_jump(
    plant_of: PlantOf, nominal_draws: Callable[[int], Draws]
) -> None:
    """The lift is raised in small steps, so that the Reynolds number falls from about 9000 to nothing.

    Head is a sum of strictly rising smooth laws, so the flow's steps never change by much from one to the next.
    """
    pump = '{part="pump",height="0.3 m",curve=[["0 L/min","2 m"],["12 L/min","0 m"]]}'
    loop = f'loop=[{SUCTION},{pump},{{part="pipe",length="60 m"}},{{part="return",height="2.0 m"}}]'
    draws = nominal_draws(2048)
    level = np.linspace(0.01, 1.9, draws.size)
    flow = run(plant_of(loop), draws, Condition(level)).flow_m3s
    reynolds = flow * 4.0 / (pi * 0.02624 * 1.3063e-6)
    assert reynolds.min() < 1000.0
    assert reynolds.max() > 5000.0
    steps = np.diff(flow)
    assert np.all(steps > 0.0)
    assert np.all(np.abs(np.diff(steps)) < 0.1 * steps[:-1])


def test_pumps_in_a_row_give_their_heads_together(run_of: RunOf) -> None:
    """One pump of twice the head at equal flow is the same as two in a row."""
    double = PUMP.replace('"5 m"', '"10 m"')
    two = run_of(f'loop=[{SUCTION},{PUMP},{PUMP},{{part="known loss",k=40}},{RETURN}]')
    one = run_of(f'loop=[{SUCTION},{double},{{part="known loss",k=40}},{RETURN}]')
    assert float(one.flow_m3s[0]) == pytest.approx(float(two.flow_m3s[0]), rel=1e-9)


def test_equal_pumps_side_by_side_share_the_flow(run_of: RunOf) -> None:
    both = run_of(
        f'loop=[{{part="join",ways=["a","b"]}},{{part="known loss",k=40}},{RETURN}]\n'
        f"way.a=[{SUCTION},{PUMP}]\nway.b=[{SUCTION},{PUMP}]"
    )
    single = run_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=40}},{RETURN}]')
    flow = both.solution.flow_m3s[:, 0]
    assert flow[0] == pytest.approx(flow[1], rel=1e-9)
    assert float(single.flow_m3s[0]) < float(both.flow_m3s[0]) < 2.0 * float(single.flow_m3s[0])


def test_pump_that_stands_resists_and_does_not_drive(run_of: RunOf) -> None:
    """A stopped pump in the row is a loss coefficient of 5 on its port (an estimate of the tables)."""
    standing = PUMP.replace('"0 m"]]', '"0 m"]],running=false')
    with_it = run_of(f"loop=[{SUCTION},{PUMP},{standing},{RETURN}]")
    as_loss = run_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=5}},{RETURN}]')
    assert float(as_loss.flow_m3s[0]) == pytest.approx(float(with_it.flow_m3s[0]), rel=1e-9)


def test_water_with_every_pump_at_rest_stands_still(run_of: RunOf) -> None:
    standing = PUMP.replace('"0 m"]]', '"0 m"]],running=false')
    answer = run_of(f"loop=[{SUCTION},{standing},{RETURN}]")
    assert answer.solved[0]
    assert 0.0 == pytest.approx(float(answer.flow_m3s[0]), abs=1e-9)
