"""The suction answer as text."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from sanitize.basis.figure import Figure
from sanitize.report.readings import spreads_most
from sanitize.report.text import onset_words, parts_table, states_table, suction_text, verdict_line
from sanitize.studies.suction.result import Driver, Suction

MakeAnswer = Callable[..., Suction]
LITRE_PER_MINUTE_M3S = 1.0 / 60000.0
NEVER = Figure(None, None, None)
ANY = Figure(0.0, 0.0, 0.0)


def _flat(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def _litres(*ends: float | None) -> Figure:
    return Figure(*(None if end is None else end * LITRE_PER_MINUTE_M3S for end in ends))


def test_text_danger_stands_before_the_verdict_and_cautions_after(answer: MakeAnswer) -> None:
    text = suction_text(answer())
    places = [text.index(words) for words in ("No check valve.", "Verdict", "What decides", "off, normal", "Cold.",
                                              "by its throat only", "Numbers used", "[darby_2001] ")]  # fmt: skip
    assert places == sorted(places)


def test_text_without_danger_has_no_such_heading(answer: MakeAnswer) -> None:
    assert "DANGER" not in suction_text(answer(cautions=()))


@pytest.mark.parametrize("width", [72, 100])
def test_text_paragraphs_keep_to_the_width(answer: MakeAnswer, width: int) -> None:
    told = suction_text(answer(), width=width).replace(parts_table(answer(), width), "")
    assert max(len(line) for line in told.splitlines()) <= width


def test_text_is_plain_ascii(answer: MakeAnswer) -> None:
    assert suction_text(answer()).isascii()


@pytest.mark.parametrize("ratio", [0.0, 0.0004, 0.9996, 1.0])
def test_verdict_share_is_never_0_or_100_percent(answer: MakeAnswer, ratio: float) -> None:
    line = verdict_line(answer(draws_share_ratio=ratio))
    assert re.search(r"\b(0|100) %", line) is None
    assert ("less than 1 %" if ratio < 0.5 else "more than 99 %") in line


@pytest.mark.parametrize(
    ("verdict", "words"),
    [("draws", "the injector draws"), ("marginal", "may or may not draw"), ("does_not_draw", "does not draw")],
)
def test_verdict_says_its_word(answer: MakeAnswer, verdict: str, words: str) -> None:
    assert words in verdict_line(answer(verdict=verdict))


def test_verdict_of_one_case_claims_no_share(answer: MakeAnswer) -> None:
    assert "%" not in verdict_line(answer(cases_count=0, draws_share_ratio=1.0))


def test_vacuum_is_told_below_the_air_with_both_sides(answer: MakeAnswer) -> None:
    text = _flat(suction_text(answer()))
    assert "5.8 kPa below the air (from 12 below to 2.7 above), gas line closed" in text
    assert "At the high end the pressure pushes water out." in text


def test_vacuum_in_us_units_is_in_inches_of_mercury(answer: MakeAnswer) -> None:
    """12 kPa / 3.386 kPa = 3.5 inHg; 5.8 -> 1.7; 2.7 kPa = 0.39 psi."""
    text = _flat(suction_text(answer(units="us")))
    assert "1.7 inHg below the air (from 3.5 inHg below to 0.39 psi above)" in text


def test_port_above_the_air_says_that_water_is_pushed_out(answer: MakeAnswer) -> None:
    text = _flat(suction_text(answer(port_pressure_closed_pa_gauge=Figure(1000.0, 2100.0, 3000.0))))
    assert "None: the pressure pushes water out, 2.1 kPa above the air (1.0 to 3.0)" in text


@pytest.mark.parametrize(
    ("onset", "below", "words"),
    [
        (ANY, NEVER, "Draws at any flow."),
        (NEVER, NEVER, "Never, up to the pump's largest flow."),
        (_litres(14, None, None), NEVER, "Never, up to the pump's largest flow (at the good end from 14 L/min)."),
        (_litres(7, 9, 11), NEVER, "Draws once 9.0 L/min (7.0 to 11) pass the injector."),
        (_litres(0, 9, None), NEVER, "Draws once 9.0 L/min (any flow to never) pass the injector."),
        (_litres(0, 0, 12), NEVER, "Draws at any flow; at the bad end only from 12 L/min on."),
        (_litres(0, 0, None), NEVER, "Draws at any flow; at the bad end never."),
        (ANY, _litres(20, 24, 30), "Draws only below 24 L/min (20 to 30): more flow stops it."),
        (ANY, _litres(20, 24, None), "Draws only below 24 L/min (20 to no limit): more flow stops it."),
        (ANY, _litres(20, None, None), "Draws at any flow; at the bad end only below 20 L/min."),
    ],
)
def test_onset_in_words(answer: MakeAnswer, onset: Figure, below: Figure, words: str) -> None:
    assert words == onset_words(answer(onset_flow_m3s=onset, draws_below_flow_m3s=below))


def test_extra_pressure_none_is_told(answer: MakeAnswer) -> None:
    text = suction_text(answer(extra_return_pressure_pa_diff=Figure(0.0, 0.0, 0.0)))
    assert "Nothing: the return has no pressure left to gain." in text


def test_rule_of_thumb_stands_beside_the_loss_ratio(answer: MakeAnswer) -> None:
    text = _flat(suction_text(answer()))
    assert "about 20 % of its inlet pressure. Here it is 41 % (22 to 57)" in text
    assert "its loss ratio, is 24 % (14 to 69)" in text


def test_rule_of_thumb_without_inlet_pressure_is_undefined(answer: MakeAnswer) -> None:
    assert "Here it is undefined" in _flat(suction_text(answer(differential_share_ratio=NEVER)))


def test_flow_of_a_side_stream_is_told_apart(answer: MakeAnswer) -> None:
    assert "36 L/min (33 to 37), gas line closed; through the injector 18 L/min (15 to 20)." in _flat(
        suction_text(answer())
    )
    same = answer(injector_flow_port_closed_m3s=answer().flow_port_closed_m3s)
    assert "; through the injector" not in _flat(suction_text(same))


def test_spreads_most_names_input_and_measurement(answer: MakeAnswer) -> None:
    assert spreads_most(answer()) == (
        "The verdict hangs most on the loss ratio of ozone venturi: measure it on the bench."
    )


def test_spreads_most_without_a_measurement_names_the_next_that_has_one(answer: MakeAnswer) -> None:
    made = answer(drivers=(Driver("a", "shift of tees", 0.8, ""), Driver("b", "height of pump", 0.3, "with a tape")))
    assert spreads_most(made) == (
        "The verdict hangs most on the shift of tees, which is not easily measured; next on the height of pump: "
        "measure it with a tape."
    )


def test_text_without_drivers_asks_for_no_measurement(answer: MakeAnswer) -> None:
    assert "Measure next" not in suction_text(answer(drivers=()))


def test_parts_table_is_aligned_and_complete(answer: MakeAnswer) -> None:
    lines = parts_table(answer()).splitlines()
    head, rows = lines[0], lines[1 : 1 + len(answer().parts)]
    assert head.split() == [
        "part", "flow", "L/min", "speed", "m/s", "loss", "m", "share", "behind", "kPa",
    ]  # fmt: skip
    assert {len(row) for row in rows} == {len(head)}
    assert rows[2].split() == ["pump", "36", "1.8", "-2.5", "(-2.8", "to", "-2.2)", "-", "23", "(21", "to", "25)"]
    assert rows[8].startswith("  ozone venturi ")
    assert rows[4].startswith("  bypass leaves ")
    assert rows[0].split()[4:8] == ["0.020", "(0.018", "to", "0.022)"]


def test_parts_table_small_share_is_not_nothing(answer: MakeAnswer) -> None:
    assert "<1 %" in parts_table(answer()).splitlines()[1]


def test_states_table_has_every_state_at_both_levels(answer: MakeAnswer) -> None:
    lines = [line for line in states_table(answer()).splitlines() if not line.startswith(" ")]
    assert [line.partition(":")[0] for line in lines] == [
        f"{state}, {level}"
        for state in ("off", "running", "returns shut", "filter loaded")
        for level in ("normal level", "full to the rim")
    ]


def test_states_table_says_once_what_holds_for_either_valve(answer: MakeAnswer) -> None:
    text = states_table(answer())
    assert text.count("valve sound or leaking: Gas is drawn in") == 4
    assert text.count("valve sound: ") == text.count("valve leaking: ") == 4


def test_states_table_of_a_line_without_a_check_valve_names_none(answer: MakeAnswer) -> None:
    made = answer()
    alone = [replace(state, check_valve="none") for state in made.states if state.check_valve == "sound"]
    text = states_table(answer(states=tuple(alone)))
    assert 8 == text.count("  no check valve: ")
    assert "leaking" not in text


def test_numbers_are_those_of_the_parts_of_the_loop(answer: MakeAnswer) -> None:
    text = suction_text(answer())
    assert "elbow 90 3/4 in: " in text
    assert "injector_loss_ratio: 0.24 (0.13 to 0.78), estimate" in text
    assert "exchanger_drop_exponent" not in text


def test_numbers_every_key_named_is_cited(answer: MakeAnswer) -> None:
    text = suction_text(answer())
    named = set(re.findall(r"\[([a-z_0-9]+)\]", text))
    cited = set(re.findall(r"^\[([a-z_0-9]+)\]", text, flags=re.MULTILINE))
    assert named == cited
    assert {"dguv_103_015", "shattock_tipton_2012"} <= cited


@pytest.mark.parametrize("word", ["safe", "safely", "sanitized", "harmless"])
def test_text_never_clears_anything(answer: MakeAnswer, word: str) -> None:
    assert re.search(rf"\b{word}\b", suction_text(answer()).lower()) is None
