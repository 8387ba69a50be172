"""Answers and judgement from files and options: every problem at once, nearest codes offered."""

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.cloudy_files import read_answers, read_duration_s, read_judgement
from sanitize.plant.answers import Answers, Judgement

SIGNS = {"foam": "lasting foam", "slime": "slime", "no_vacuum": "no vacuum", "green": "green", "drop_high": "high"}
EXCLUDE = (("green", "drop_high", "they cannot both be so"),)
NEEDS = (("no_vacuum", "slime", "it hangs on slime"),)
CAUSES = ("algae", "copper")


def read(given: Answers, text: str | None = None) -> Answers:
    return read_answers(given, None if text is None else ("a.toml", text), SIGNS, EXCLUDE, NEEDS)


def problems_of(given: Answers, text: str | None = None) -> list[str]:
    with pytest.raises(InputError) as caught:
        read(given, text)
    return [problem.line() for problem in caught.value.problems]


def test_answers_from_options_go_over_those_of_the_file() -> None:
    found = read(Answers(("foam",), ("slime",)), 'saw = ["slime", "green"]\nunsure = ["foam"]\n')
    assert Answers(("foam", "green"), ("slime",)) == found


def test_answers_codes_may_be_written_with_hyphens_and_capitals() -> None:
    assert ("no_vacuum",) == read(Answers(("No-Vacuum",))).saw


def test_answers_unknown_codes_are_named_all_at_once_with_the_nearest() -> None:
    lines = problems_of(Answers(("slme",), ("foaam",)), 'saw = ["vacuum"]\nseen = []\n')
    assert ["--saw", "--not", 'a.toml, "seen"', "a.toml, saw"] == [line.split(":")[0] for line in lines]
    assert "nearest: slime (slime)" in lines[0]
    assert "nearest: foam (lasting foam)" in lines[1]
    assert "no_vacuum" in lines[3]


def test_answers_seen_and_not_seen_at_once_is_a_contradiction() -> None:
    assert ["foam: it is answered as saw and not seen at once; accepted: one answer for each observation; "
            "write: --unsure foam"] == problems_of(Answers(("foam",), ("foam",)))  # fmt: skip


def test_answers_that_exclude_each_other_are_refused_with_the_reason() -> None:
    (line,) = problems_of(Answers(("green", "drop_high")))
    assert "they cannot both be so" in line


def test_answer_that_hangs_on_another_is_refused_only_where_that_was_not_seen() -> None:
    (line,) = problems_of(Answers(("no_vacuum",), ("slime",)))
    assert "it hangs on slime" in line
    assert Answers(("no_vacuum",)) == read(Answers(("no_vacuum",)))


def test_answers_file_that_holds_no_list_is_refused() -> None:
    (line,) = problems_of(Answers(), 'saw = "foam"\n')
    assert "no list of codes" in line


def test_answers_file_with_something_else_in_a_list_names_it() -> None:
    (line,) = problems_of(Answers(), 'saw = ["slime", 3]\n')
    assert "3 is no code" in line


def test_judgement_reads_weights_and_chances() -> None:
    text = "[weight]\ncopper = 0.3\n[usual]\nfoam = 0.2\n[shows.algae]\ngreen = 0.95\n"
    found = read_judgement("j.toml", text, CAUSES, list(SIGNS))
    assert Judgement({"copper": 0.3}, {"foam": 0.2}, {("algae", "green"): 0.95}) == found
    assert 3 == found.count


def test_judgement_names_every_problem_at_once() -> None:
    text = '[weight]\ncoper = 0.3\ncopper = -1\n[usual]\nfoam = "often"\n[shows.algae]\ngreen = 1.0\n[mine]\na = 1\n'
    with pytest.raises(InputError) as caught:
        read_judgement("j.toml", text, CAUSES, list(SIGNS))
    lines = [problem.line() for problem in caught.value.problems]
    assert ['j.toml, "mine": no table has this name; accepted: weight, usual, shows',
            'j.toml, [weight] "coper": no such code; accepted: copper; write: copper',
            "j.toml, [weight] copper: -1 lies outside; accepted: above 0 to 1000",
            'j.toml, [usual] "foam": "often" is no number; accepted: a plain number; write: foam = 0.3',
            "j.toml, [shows.algae] green: 1 lies outside; accepted: 0.001 to 0.999"] == lines  # fmt: skip


def test_judgement_refuses_what_is_no_table() -> None:
    with pytest.raises(InputError, match="is no table"):
        read_judgement("j.toml", "weight = 3\n", CAUSES, list(SIGNS))


def test_duration_needs_its_unit_and_stays_within_the_longest() -> None:
    assert 21600.0 == read_duration_s("--runs", "6 h", "6 h", 86400.0)
    for text in ("6", "25 h", "-1 h", "6 m"):
        with pytest.raises(InputError, match="--runs"):
            read_duration_s("--runs", text, "6 h", 86400.0)
