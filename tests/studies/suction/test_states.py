"""Water in the gas line, state by state."""

from collections.abc import Callable

from sanitize.plant.loop import Plant
from sanitize.report.text import suction_text
from sanitize.studies.suction.study import study_suction

TWO_RETURNS = """
loop = [
  {part = "suction fitting", height = "0.20 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.15 m", curve = [["50 L/min", "5 m"]]},
  {part = "filter", drop = "12 kPa", at_flow = "50 L/min"},
  {part = "injector", throat = "10 mm", height = "1.10 m"},
  {part = "split", ways = ["east", "west"]},
]
way.east = [{part = "return", name = "east outlet", height = "0.50 m"}]
way.west = [{part = "return", name = "west outlet", height = "HEIGHT"}]
"""


def test_state_without_an_answer_says_so(plant_of: Callable[..., Plant]) -> None:
    """The west return hangs so high that the loop with a loaded filter sucks air there, in every case computed."""
    result = study_suction(plant_of(TWO_RETURNS.replace("HEIGHT", "0.97 m")), cases=0)
    loaded = [state for state in result.states if (state.state, state.level) == ("filter loaded", "normal")]
    assert {"No answer: in this state a way would run backwards or let air in."} == {state.text for state in loaded}
    assert not any(state.reaches_ozone_unit or state.air_enters for state in loaded)
    assert "filter loaded, normal level: no answer" in suction_text(result)
