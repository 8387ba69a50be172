"""The suction study end to end on three loops: one that draws, one that does not, one that may."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.basis.errors import InputError, NoSolutionError
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.result import Suction
from sanitize.studies.suction.states import gas_side, levels
from sanitize.studies.suction.study import study_suction, verdict_of

PlantOf = Callable[..., Plant]
WEIGHT = 999.7025 * 9.80665
SUCTION = '{part="suction fitting",height="0.2 m",cover_rated_flow="150 L/min"}'
PUMP = '{part="pump",height="0.3 m",power="85 W",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
FILTER = '{part="filter",drop="6 kPa",at_flow="40 L/min"}'
RETURN = '{part="return",height="0.5 m"}'
LINE = '[gas_line]\ncheck_valve_opens_at="1.5 kPa"\nhighest_point="1.75 m"\n'
LOOPS = {
    "draws": f'loop=[{SUCTION},{PUMP},{{part="injector",throat="8 mm",height="1.0 m"}},{RETURN}]',
    "marginal": f'loop=[{SUCTION},{PUMP},{FILTER},{{part="injector",throat="15 mm",height="0.6 m"}},{RETURN}]',
    "does_not_draw": (
        f'loop=[{SUCTION},{PUMP},{{part="injector",throat="16 mm",height="0.1 m"}},{FILTER},'
        f'{{part="elbow 90",count=4}},{RETURN}]'
    ),
}


@pytest.fixture(scope="module")
def studied(plant_of: PlantOf) -> dict[str, Suction]:
    return {name: study_suction(plant_of(loop, LINE), cases=256) for name, loop in LOOPS.items()}


@pytest.mark.parametrize(
    ("share", "verdict"),
    [
        (1.0, "draws"),
        (0.95, "draws"),
        (0.9499, "marginal"),
        (0.5, "marginal"),
        (0.0501, "marginal"),
        (0.05, "does_not_draw"),
        (0.0, "does_not_draw"),
    ],
)
def test_verdict_turns_at_95_and_at_5_percent_of_the_cases(share: float, verdict: str) -> None:
    assert verdict == verdict_of(share)


@pytest.mark.parametrize("name", list(LOOPS))
def test_verdict_of_a_loop_is_that_of_its_share(studied: dict[str, Suction], name: str) -> None:
    result = studied[name]
    assert name == result.verdict
    assert verdict_of(result.draws_share_ratio) == result.verdict
    assert 256 == result.cases_count


@pytest.mark.parametrize("name", list(LOOPS))
def test_share_is_that_of_the_drawn_cases_at_the_port(
    plant_of: PlantOf, studied: dict[str, Suction], name: str
) -> None:
    """Counted here from the port alone; the nominal case is not among them."""
    plant, draws = plant_of(LOOPS[name], LINE), Draws(256)
    answer = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    assert answer.port is not None
    margin = answer.port.port_pa_gauge + gas_side(plant, draws, answer.port.height_m).opens_at_pa
    assert np.mean(margin[1:] < 0.0) == pytest.approx(studied[name].draws_share_ratio)


@pytest.mark.parametrize("name", list(LOOPS))
def test_nominal_case_obeys_the_onset_identity_in_all_its_figures(studied: dict[str, Suction], name: str) -> None:
    """It draws where port < -pc, outlet < (1 - xi) p1 - xi pc and flow > onset: all of these or none.

    And it then stands more return pressure.
    """
    result = studied[name]
    port, opens = result.port_pressure_closed_pa_gauge.nominal, result.check_valve_opens_at_pa.nominal
    outlet, limit = result.injector_outlet_pressure_pa_gauge.nominal, result.outlet_pressure_limit_pa_gauge.nominal
    flow, onset = result.injector_flow_port_closed_m3s.nominal, result.onset_flow_m3s.nominal
    extra = result.extra_return_pressure_pa_diff.nominal
    assert port is not None
    assert opens is not None
    assert outlet is not None
    assert limit is not None
    assert flow is not None
    assert extra is not None
    drawing = port < -opens
    assert (name != "does_not_draw") == drawing
    assert drawing == (outlet < limit)
    assert drawing == (onset is not None and flow > onset)
    assert drawing == (extra > 0.0)


@pytest.mark.parametrize("name", list(LOOPS))
def test_loss_ratio_and_outlet_limit_follow_from_the_pressures_shown(studied: dict[str, Suction], name: str) -> None:
    result = studied[name]
    p1, p2, po = (
        figure.nominal
        for figure in (
            result.injector_inlet_pressure_pa_gauge,
            result.injector_outlet_pressure_pa_gauge,
            result.port_pressure_closed_pa_gauge,
        )
    )
    assert p1 is not None
    assert p2 is not None
    assert po is not None
    xi = (p1 - p2) / (p1 - po)
    assert xi == pytest.approx(result.loss_ratio.nominal)
    assert (1.0 - xi) * p1 - xi * 1500.0 == pytest.approx(result.outlet_pressure_limit_pa_gauge.nominal)
    assert (p1 - p2) / p1 == pytest.approx(result.differential_share_ratio.nominal)


@pytest.mark.parametrize("name", list(LOOPS))
def test_power_of_the_pump_is_what_the_parts_lose(studied: dict[str, Suction], name: str) -> None:
    """Head times weight times flow; the parts' shares add up to one, and their heads to the pump's."""
    result = studied[name]
    flow, head = result.flow_port_closed_m3s.nominal, result.pump_head_m.nominal
    assert flow is not None
    assert head is not None
    assert WEIGHT * head * flow == pytest.approx(result.pump_power_to_water_w.nominal, rel=1e-5)
    shares = [part.power_share_ratio.nominal for part in result.parts]
    assert 1.0 == pytest.approx(sum(share for share in shares if share is not None), rel=1e-9)
    heads = [part.head_loss_m.nominal for part in result.parts if part.part != "pump"]
    assert head == pytest.approx(sum(loss for loss in heads if loss is not None), rel=1e-9)
    assert 0.4 / flow == pytest.approx(result.turnover_s.nominal)


def test_figures_hold_their_nominal_between_their_ends(studied: dict[str, Suction]) -> None:
    for result in studied.values():
        for figure in (
            result.flow_port_closed_m3s, result.port_pressure_closed_pa_gauge, result.loss_ratio, result.turnover_s,
            result.pump_head_m, result.onset_flow_m3s, result.extra_return_pressure_pa_diff,
        ):  # fmt: skip
            low, nominal, high = figure.ends
            assert low <= nominal <= high


def test_side_stream_tells_the_pump_s_flow_from_the_injector_s(plant_of: PlantOf) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\n'
        'way.a=[{part="injector",throat="8 mm",height="0.7 m"}]\nway.b=[{part="throttle valve",handle="40 deg"}]'
    )
    result = study_suction(plant_of(loop, LINE), cases=0)
    whole, own = result.flow_port_closed_m3s.nominal, result.injector_flow_port_closed_m3s.nominal
    assert whole is not None
    assert own is not None
    assert own < 0.8 * whole
    tees = [part for part in result.parts if part.part == "tee"]
    assert ["split: a leaves", "split: b leaves", "split: a rejoins", "split: b rejoins"] == sorted(
        (part.name for part in tees), key=lambda name: (name.endswith("rejoins"), name)
    )
    by_way = {part.way: part.flow_m3s.nominal for part in tees}
    assert whole == pytest.approx(sum(flow for flow in by_way.values() if flow is not None))


def test_reason_names_what_pulls_and_what_pushes(studied: dict[str, Suction]) -> None:
    assert "its height above the water line adds 2.0 kPa of pull" in studied["draws"].why
    assert "beyond what the valve needs" in studied["draws"].why
    assert "the depth of the injector below the water line" in studied["does_not_draw"].why
    assert "short" in studied["does_not_draw"].why


def test_reason_of_a_dead_injector_is_that_no_water_moves_through_it(plant_of: PlantOf) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\nway.b=[{{part="elbow 90"}}]\n'
        'way.a=[{part="ball valve",handle="90 deg"},{part="injector",throat="8 mm",height="1.3 m"}]'
    )
    result = study_suction(plant_of(loop, LINE), cases=64)
    assert "does_not_draw" == result.verdict
    assert result.why.startswith("No water moves through the injector")
    assert 0.0 == result.extra_return_pressure_pa_diff.nominal
    assert "way-stands-still" in {notice.code for notice in result.notices}


def test_one_seed_gives_one_answer_and_its_cases_are_reported(plant_of: PlantOf) -> None:
    plant = plant_of(LOOPS["marginal"], LINE)
    first, again, other = (study_suction(plant, cases=64, seed=seed) for seed in (7, 7, 8))
    assert first == again
    assert first.flow_port_closed_m3s != other.flow_port_closed_m3s
    assert (7, 64) == (first.seed, first.cases_count)


def test_more_cases_change_the_share_by_chance_alone(plant_of: PlantOf, studied: dict[str, Suction]) -> None:
    """Sobol's error at 256 cases stays well below the 3 % of as many independent draws."""
    many = study_suction(plant_of(LOOPS["marginal"], LINE), cases=2048)
    assert many.draws_share_ratio == pytest.approx(studied["marginal"].draws_share_ratio, abs=0.03)


def test_loop_without_an_injector_is_wrong_input(plant_of: PlantOf) -> None:
    with pytest.raises(InputError, match="no injector"):
        study_suction(plant_of(f"loop=[{SUCTION},{PUMP},{RETURN}]"), cases=0)


def test_loop_without_an_operating_point_has_no_solution(plant_of: PlantOf) -> None:
    with pytest.raises(NoSolutionError, match="cannot lift"):
        study_suction(plant_of(LOOPS["draws"].replace('height="0.5 m"', 'height="7 m"')), cases=0)


def _crossing(result: Suction) -> float:
    """Flow at which the nominal lines of pump and system cross."""
    flow = np.array(result.pump_line.flow_m3s)
    gap = np.array([ends[1] for ends in result.pump_line.pump_head_m]) - np.array(
        [ends[1] for ends in result.pump_line.system_head_m]
    )
    return float(np.interp(0.0, -gap, flow))


@pytest.mark.parametrize("name", list(LOOPS))
def test_lines_of_pump_and_system_cross_where_the_loop_runs(studied: dict[str, Suction], name: str) -> None:
    result = studied[name]
    assert _crossing(result) == pytest.approx(result.flow_port_closed_m3s.nominal, rel=5e-3)


def test_lines_of_pump_and_system_cross_where_a_loop_with_ways_runs(plant_of: PlantOf) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\n'
        'way.a=[{part="injector",throat="8 mm",height="0.7 m"}]\nway.b=[{part="throttle valve",handle="40 deg"}]'
    )
    result = study_suction(plant_of(loop, LINE), cases=0)
    assert _crossing(result) == pytest.approx(result.flow_port_closed_m3s.nominal, rel=5e-3)


def test_line_of_the_system_starts_at_the_static_lift(plant_of: PlantOf) -> None:
    """A return 1.2 m over the water: that head stands at the smallest flow already; the pump starts near shut-off."""
    loop = LOOPS["draws"].replace('height="0.5 m"', 'height="2.0 m"')
    line = study_suction(plant_of(loop, LINE), cases=0).pump_line
    assert 1.2 == pytest.approx(line.system_head_m[0][1], abs=0.01)
    assert 5.0 == pytest.approx(line.pump_head_m[0][1], abs=0.01)
