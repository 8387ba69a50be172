"""Loops that have no answer are refused with the reason; legs that rise over the water."""

from collections.abc import Callable

import pytest

from sanitize.basis.errors import NoSolutionError
from sanitize.studies.operating_point.run import Run, refuse_without_answer

RunOf = Callable[..., Run]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
GUARDED = PUMP.replace("height", "has_check_valve=true,height")
STANDING = PUMP.replace("height", "running=false,height")
RETURN = '{part="return",height="0.5 m"}'
WEAK = PUMP.replace('"5 m"', '"1 m"').replace("height", 'name="weak",height')
SIDE_BY_SIDE = (
    f'loop=[{{part="join",ways=["a","b"]}},{{part="known loss",k=9}},{RETURN}]\n'
    f"way.a=[{SUCTION},{{}}]\nway.b=[{SUCTION},{PUMP}]"
)


def _refused(answer: Run) -> str:
    with pytest.raises(NoSolutionError) as caught:
        refuse_without_answer(answer, answer.assembly.plant)
    return str(caught.value)


@pytest.mark.parametrize("pump", [PUMP, GUARDED], ids=["open pump", "pump with a check valve"])
def test_pump_that_cannot_lift_to_its_return_is_refused_for_that(run_of: RunOf, pump: str) -> None:
    """5 m of head at most; the return hangs 5.7 m over the water."""
    answer = run_of(f'loop=[{SUCTION},{pump},{{part="return",height="6.5 m"}}]')
    gives, stands = "it gives 5.0 m at most", "and the return is 5.7 m above the water."
    assert f"The pump cannot lift the water to the return: {gives}, {stands}" == _refused(answer)


def test_pump_that_just_lifts_to_its_return_is_answered(run_of: RunOf) -> None:
    answer = run_of(f'loop=[{SUCTION},{PUMP},{{part="return",height="5.7 m"}}]')
    refuse_without_answer(answer, answer.assembly.plant)
    assert 0.0 < float(answer.flow_m3s[0]) * 60_000.0 < 10.0


def test_way_that_would_run_backwards_is_refused_by_its_name(run_of: RunOf) -> None:
    answer = run_of(SIDE_BY_SIDE.replace("{}", WEAK))
    assert not answer.solved[0]
    assert _refused(answer).startswith("The water in a would run backwards, from weak on.")


def test_way_of_a_weak_pump_with_its_own_check_valve_is_answered(run_of: RunOf) -> None:
    answer = run_of(SIDE_BY_SIDE.replace("{}", WEAK.replace("height", "has_check_valve=true,height")))
    refuse_without_answer(answer, answer.assembly.plant)
    assert answer.solution.still[0][0]


def test_standing_pump_without_check_valve_is_a_way_back(run_of: RunOf) -> None:
    answer = run_of(SIDE_BY_SIDE.replace("{}", STANDING.replace("height", 'name="standing",height')))
    assert _refused(answer).startswith("The water in a would run backwards, from standing on.")


def test_loop_whose_pumps_all_stand_is_refused_for_that(run_of: RunOf) -> None:
    answer = run_of(f"loop=[{SUCTION},{STANDING},{RETURN}]")
    assert "No pump of this loop runs, so its water stands still." == _refused(answer)


def test_loop_with_a_shut_valve_in_its_only_way_is_refused_by_the_valves_name(run_of: RunOf) -> None:
    """Not by that of its check valve, which is open."""
    shut = '{part="ball valve",handle="90 deg",name="main valve"}'
    answer = run_of(f'loop=[{SUCTION},{PUMP},{{part="check valve",style="swing"}},{shut},{RETURN}]')
    assert "No water moves in this loop; what holds it: main valve." == _refused(answer)
