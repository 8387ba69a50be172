"""Text, JSON and picture of the answer about clouded water."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.answers import Answers
from sanitize.report.cloudy import cloudy_json, cloudy_text, signs_text
from sanitize.report.cloudy_talk import CloudyTalk, answers_text
from sanitize.report.pictures.cloudy import MOST_BARS, cloudy_figure
from sanitize.studies.cloudy.health import HEALTH
from sanitize.studies.cloudy.prepared import Prepared, prepare
from sanitize.studies.cloudy.result import Cloudy
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.cloudy.study import diagnose
from sanitize.studies.cloudy.witness import Ages

ICEHOUSE = Path(__file__).resolve().parents[2] / "demos" / "icehouse.toml"
BUBBLES = ("bubbles_at_return", "bubbles_stop_with_gas", "jar_clears_upward")
READINGS = ("measured.bucket_flow=53 L/min", "measured.pump_pressure=60 kPa")


@pytest.fixture(scope="module")
def prepared() -> Prepared:
    return prepare(read_plant(ICEHOUSE.read_text(encoding="utf-8"), overrides=READINGS).plant, 16, ages=Ages(3600.0))


@pytest.fixture(scope="module")
def result(prepared: Prepared) -> Cloudy:
    return diagnose(prepared, Answers((*BUBBLES, "slime"), ("foam",), ("green",)))


def test_text_puts_the_danger_first_then_rank_steps_and_tests(result: Cloudy) -> None:
    text = cloudy_text(result)
    places = [text.index(title) for title in ("DANGER", "What clouds the water", "If it is this", "Test next")]
    assert sorted(places) == places
    assert "1. Fine gas bubbles from the injector: likely." in text
    assert all(len(line) <= 100 for line in text.splitlines())


def test_text_tells_people_words_and_no_chance(result: Cloudy) -> None:
    ranking = cloudy_text(result).split("What clouds the water")[1].split("If it is this")[0]
    assert "%" not in ranking
    assert "0." not in ranking
    assert "judgement" in ranking


def test_text_says_which_evidence_the_model_gave(result: Cloudy) -> None:
    text = cloudy_text(result)
    assert "What the loop file says by itself" in text
    assert "the pump runs 1 h" in text
    assert "Readings against the model" in text


def test_text_of_a_jar_test_tells_its_times(prepared: Prepared) -> None:
    asked = diagnose(prepared, Answers((), tuple(sign for sign in SIGNS if not sign.startswith("jar"))[:30]))
    jar = [test.sign for test in asked.next_tests[:3] if test.sign.startswith("jar_")]
    assert jar
    assert "fine bubble of 20 um rises in 12 min" in cloudy_text(asked).replace("\n           ", " ")


def test_json_marks_its_figures_as_judgement_and_gives_ranges(result: Cloudy) -> None:
    record = json.loads(cloudy_json(result))
    assert ("cloudy", 1, "judgement") == (record["record"], record["schema_version"], record["standing"])
    first = record["causes"][0]
    assert first["chance_ratio"]["low"] <= first["chance_ratio"]["nominal"] <= first["chance_ratio"]["high"]
    assert list(BUBBLES) == record["answers"]["saw"][:3]
    assert {"answer", "model", "water test", "readings"} >= {
        why["source"] for row in record["causes"] for why in row["because"]
    }


def test_list_of_signs_has_every_code_with_its_question() -> None:
    text = signs_text()
    assert all(f"\n{code}\n" in text for code in (*SIGNS, *HEALTH))


def test_talk_asks_health_first_and_then_the_best_test(prepared: Prepared) -> None:
    talk = CloudyTalk(prepared, Answers())
    for code in HEALTH:
        question = talk.question()
        assert question is not None
        assert code == question[0]
        talk = talk.answered(code, False)
    question = talk.question()
    assert question is not None
    assert diagnose(prepared, talk.answers).next_tests[0].sign == question[0]
    assert (question[0],) == talk.answered(question[0], None).answers.unsure
    assert (question[0],) == talk.answered(question[0], True).answers.saw


def test_answers_file_lists_every_answer() -> None:
    text = answers_text(Answers(("foam",), ("slime",), ("ozone_smell",)))
    assert '"foam",  # lasting foam' in text
    assert all(name in text for name in ("saw = [", "not_seen = [", "unsure = ["))


def test_picture_draws_before_and_after_for_the_first_causes(result: Cloudy) -> None:
    axes = cloudy_figure(result).axes[0]
    widths = {gid: [bar.get_width() for bar in axes.patches if bar.get_gid() == gid] for gid in ("before", "after")}
    assert MOST_BARS == len(widths["before"])
    assert [row.before_ratio for row in result.causes[:MOST_BARS]] == pytest.approx(widths["before"])
    assert [row.chance_ratio.nominal for row in result.causes[:MOST_BARS]] == pytest.approx(widths["after"])
    assert ["unlikely", "possible", "likely"] == [label.get_text() for label in axes.get_xticklabels()]


def test_text_of_a_test_that_leaves_the_first_causes_says_so_in_one_line(result: Cloudy) -> None:
    same = [test for test in result.next_tests[:3] if (test.if_yes.first[:1], test.if_yes.words[:1]) == (
        test.if_no.first[:1], test.if_no.words[:1])]  # fmt: skip
    text = cloudy_text(result)
    assert same
    assert text.count("Either way") <= len(same)
    assert text.count("If yes") == text.count("If no") == 3 - text.count("Either way")


def test_text_of_a_thermometers_test_tells_what_it_should_show(prepared: Prepared) -> None:
    asked = diagnose(prepared, Answers(("water_warm",)))
    first = [test.sign for test in asked.next_tests]
    shown = replace(asked, next_tests=(asked.next_tests[first.index("chiller_no_cold")],))
    text = cloudy_text(shown).replace("\n           ", " ")
    assert "near the set 3.0 degC it cools by 0.80 degC (" in text
    assert ") an hour with the chiller off." in text
