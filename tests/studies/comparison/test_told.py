"""Notices and cautions of several files: the same but for their figures is one, whatever file it stands in."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.comparison.described import Described
from sanitize.studies.comparison.told import cautions_of, notices_of, states_of
from sanitize.studies.suction.result import Suction
from sanitize.studies.suction.study import study_suction


@pytest.fixture(scope="module")
def answer(file_of: Callable[..., Described]) -> Suction:
    return study_suction(file_of().plant, 0)


def caution(code: str, severity: str, text: str) -> Caution:
    return Caution(code, severity, text, "Do it.", "", "somebody")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (("Pulls 57 kPa.", "Pulls 8.2 kPa."), [("A", "B")]),
        (("Pulls 57 kPa.", "Pushes 57 kPa."), [("A",), ("B",)]),
        (("[tub] rim is unknown.", "base.toml: [tub] rim is unknown."), [("A", "B")]),
        (("[tub] rim is unknown.", "[tub] altitude is unknown."), [("A",), ("B",)]),
    ],
)
def test_notice_of_two_files_is_one_where_only_its_figures_differ(
    answer: Suction, texts: tuple[str, str], expected: list[tuple[str, ...]]
) -> None:
    answers = [replace(answer, notices=(Notice("code", text),)) for text in texts]
    assert expected == [item.files for item in notices_of(("A", "B"), answers)]


def test_notices_of_one_file_stay_apart_though_they_read_alike(answer: Suction) -> None:
    twice = replace(answer, notices=(Notice("code", "Wait 1 min."), Notice("code", "Wait 2 min.")))
    once = replace(answer, notices=(Notice("code", "Wait 3 min."),))
    assert [("A", "B"), ("A",)] == [item.files for item in notices_of(("A", "B"), [twice, once])]


def test_caution_that_grows_into_a_danger_is_another(answer: Suction) -> None:
    """The danger comes first, though only the second file has it."""
    mild, grave = (caution("pull", severity, "Pulls 5 N.") for severity in ("caution", "danger"))
    answers = [replace(answer, cautions=(mild,)), replace(answer, cautions=(grave, mild))]
    found = [(item.caution.severity, item.files) for item in cautions_of(("A", "B"), answers)]
    assert [("danger", ("B",)), ("caution", ("A", "B"))] == found


def line(valve: str, highest: str) -> str:
    return f'[gas_line]\nlength = "1.6 m"\nbore = "4 mm"\n{valve}\nhighest_point = "{highest}"\n'


VALVE, NO_VALVE = 'check_valve_opens_at = "1.5 kPa"', "check_valve = false"


def test_states_of_a_line_without_a_check_valve_stand_beside_those_of_either_valve(
    file_of: Callable[..., Described],
) -> None:
    """The line ends 0.05 m below the water: a sound valve keeps the unit dry, a leaking one does what none does."""
    with_valve, without = (study_suction(file_of(tables=line(valve, "0.75 m")).plant, 0) for valve in (VALVE, NO_VALVE))
    assert {"none"} == {state.check_valve for state in without.states}
    found = {(state.state, state.level, state.check_valve): state.texts for state in states_of([with_valve, without])}
    kept, flooded = found["off", "normal", "sound"]
    assert "holds the water back" in kept
    assert flooded.startswith("There is no check valve. Water can rise to 0.80 m")
    assert not any(state == "off" and valve == "leaking" for state, _, valve in found)


def test_states_of_lines_without_a_check_valve_are_told_once(file_of: Callable[..., Described]) -> None:
    low, tall = (study_suction(file_of(tables=line(NO_VALVE, top)).plant, 0) for top in ("0.75 m", "1.90 m"))
    off = [state for state in states_of([low, tall]) if state.state == "off" and state.level == "normal"]
    assert ["none"] == [state.check_valve for state in off]
    assert not any("no check valve" in text for text in off[0].texts)
