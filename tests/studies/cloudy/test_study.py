"""The whole study: every cause can lead, the model as a witness, health first, tests by information for work."""

from dataclasses import replace

import pytest

from sanitize.plant.answers import Answers
from sanitize.studies.cloudy.causes import ELSE, NAMED
from sanitize.studies.cloudy.health import HEALTH, all_cloudy_cautions, health_cautions
from sanitize.studies.cloudy.knowledge import knowledge, rule
from sanitize.studies.cloudy.posterior import expected_gain_bits
from sanitize.studies.cloudy.prepared import Prepared, prepare
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.cloudy.study import diagnose, evidence_of, sure_of, sure_of_told
from sanitize.studies.cloudy.told import Told
from sanitize.studies.cloudy.witness import Ages, share_above, with_timer
from sanitize.studies.draws import Draws


def _typical(cause: str) -> Answers:
    """Every sign answered as a cause shows it, seen from nearly half of the time on."""
    known = knowledge(Draws(0))
    shown = known.shows[0, known.causes.index(cause)]
    saw = [sign for sign, chance in zip(known.signs, shown, strict=True) if chance >= 0.45]
    return Answers(tuple(saw), tuple(sign for sign in known.signs if sign not in saw))


@pytest.mark.parametrize("cause", NAMED)
def test_every_cause_leads_when_all_is_as_it_mostly_shows(ready: Prepared, cause: str) -> None:
    result = diagnose(ready, _typical(cause))
    assert cause == result.causes[0].cause
    assert cause == result.steps.cause


def test_nothing_answered_leaves_every_cause_open_and_none_likely(ready: Prepared) -> None:
    result = diagnose(ready, Answers())
    assert {*NAMED, ELSE} == {row.cause for row in result.causes}
    assert "likely" not in {row.word for row in result.causes}
    assert "judgement" == result.standing


def test_unsure_changes_no_chance_and_is_asked_no_more(ready: Prepared) -> None:
    plain, unsure = (diagnose(ready, Answers(("slime",), (), codes)) for codes in ((), ("foam", "green")))
    assert [row.chance_ratio for row in plain.causes] == [row.chance_ratio for row in unsure.causes]
    assert not {"foam", "green"} & {test.sign for test in unsure.next_tests}


def test_health_sign_brings_its_danger_and_moves_no_cause(ready: Prepared) -> None:
    plain, ill = diagnose(ready, Answers()), diagnose(ready, Answers(tuple(HEALTH)))
    assert [row.chance_ratio for row in plain.causes] == [row.chance_ratio for row in ill.causes]
    codes = [caution.code for caution in ill.cautions if caution.severity == "danger"]
    assert ["illness-after-bathing", "faeces-or-vomit", "ozone-smelt", "bottom-not-seen"] == codes
    assert ill.is_dangerous
    assert not plain.is_dangerous


def test_health_cautions_put_dangers_first_and_all_can_be_reached() -> None:
    found = health_cautions((*HEALTH, *SIGNS))
    severities = [caution.severity for caution in found]
    assert sorted(severities, reverse=True) == severities
    assert set(all_cloudy_cautions()) == set(found)


def test_tests_stand_in_the_order_of_bits_for_a_minute_of_work(ready: Prepared) -> None:
    result = diagnose(ready, Answers(("low_flow",)))
    evidence = evidence_of(ready, result.answers)
    values = [test.gain_bits_per_minute for test in result.next_tests]
    assert sorted(values, reverse=True) == values
    best = result.next_tests[0]
    assert expected_gain_bits(ready.plain, evidence, best.sign) == pytest.approx(best.gain_bits)
    assert best.gain_bits * 60.0 / best.work_s == pytest.approx(best.gain_bits_per_minute)
    assert 1.0 == pytest.approx(best.if_yes.chance_ratio + best.if_no.chance_ratio)


def test_jar_is_worth_its_work_and_its_waiting_is_told_apart(ready: Prepared) -> None:
    jar = next(test for test in diagnose(ready, Answers()).next_tests if test.sign == "jar_clears_upward")
    assert (120.0, 600.0) == (jar.work_s, jar.wait_s)
    assert "injector_bubbles" in jar.if_yes.first[:2]


@pytest.mark.parametrize(
    ("answers", "gone"),
    [
        (Answers((), ("bubbles_at_return",)), "bubbles_stop_with_gas"),
        (Answers(("bubbles_stop_with_gas",)), "bubbles_at_return"),
        (Answers(("filter_drop_low",)), "filter_drop_high"),
        (Answers(("jar_stays_hazy",)), "jar_clears_upward"),
    ],
)
def test_sign_whose_answer_follows_from_another_is_not_asked(ready: Prepared, answers: Answers, gone: str) -> None:
    assert gone in {test.sign for test in diagnose(ready, Answers()).next_tests}
    assert gone not in {test.sign for test in diagnose(ready, answers).next_tests}


def test_witness_shifts_the_odds_by_what_the_model_computed(whole_plant) -> None:
    """Told sure, e = 0.9: the cause shows no_vacuum with 0.95, so 0.86; most others with 0.2, so 0.26; 3.3 times."""
    weak = prepare(whole_plant(('throat = "10 mm"', 'throat = "19 mm"')), 16)
    result = diagnose(weak, Answers())
    told = next(item for item in result.witnesses if item.sign == "no_vacuum")
    assert 1.0 == told.share_ratio
    assert 1.0 - rule("witness_error_ratio") == pytest.approx(told.sure_ratio)
    assert 2.5 < told.odds_factor_ratio < 0.86 / 0.26
    row = next(item for item in result.causes if item.cause == "injector_not_drawing")
    assert ("no_vacuum", "model") in [(item.sign, item.source) for item in row.because]


def test_word_of_the_file_against_what_may_break_counts_half() -> None:
    """Surely not there: 0.1, drawn half-way to 0.5 where a part may break; what speaks for it counts in full."""
    denied = Told("no_vacuum", "injector_not_drawing", 0.0, "")
    assert 0.1 == pytest.approx(sure_of_told(denied))
    assert 0.3 == pytest.approx(sure_of_told(replace(denied, may_break=True)))
    assert 0.9 == pytest.approx(sure_of_told(replace(denied, may_break=True, share_ratio=1.0)))


def test_gas_that_was_read_takes_the_place_of_what_the_model_expects_of_the_vacuum(whole_plant) -> None:
    assert "no_vacuum" in {item.sign for item in prepare(whole_plant(), 16).told}
    read = prepare(whole_plant(tables='\n[measured]\ngas_flow = "0 L/min"\n'), 16)
    assert "no_vacuum" not in {item.sign for item in read.told}


def test_hours_come_from_the_timer_of_the_file_where_nobody_tells_them(whole_plant) -> None:
    plant = whole_plant(tables='\n[timer]\npump_times = [["22:00", "04:00"], ["12:00", "13:30"]]\n')
    assert 7.5 * 3600.0 == with_timer(Ages(), plant).runs_s
    assert 3600.0 == with_timer(Ages(runs_s=3600.0), plant).runs_s
    assert "pump-hours-not-given" not in {notice.code for notice in prepare(plant, 16).notices}


def test_readings_that_a_fit_was_made_from_say_nothing_of_now(whole_plant) -> None:
    """They are kept out; what is read now is weighed, and alone."""
    fitted = '\n[fitted]\nunknowns = ["pump.head"]\ncases = [[0.0], [0.5], [-0.5]]\n'
    plant = whole_plant(tables='\n[measured]\nbucket_flow = "20 L/min"\n' + fitted)
    old = prepare(plant, 16, readings_are_old=True)
    assert (None, None) == (old.explained, old.readings)
    assert "readings-of-the-fit" in {notice.code for notice in old.notices}
    assert prepare(plant, 16).explained is not None


def test_witness_falls_silent_where_a_person_answers(ready: Prepared) -> None:
    told = {item.sign for item in diagnose(ready, Answers()).witnesses}
    answered = diagnose(ready, Answers(("no_vacuum",)))
    assert "no_vacuum" in told
    assert "no_vacuum" not in {item.sign for item in answered.witnesses}
    assert 1.0 == evidence_of(ready, answered.answers)["no_vacuum"]


def test_witness_of_hours_and_of_the_age_of_the_water(whole_plant) -> None:
    short = prepare(whole_plant(), 16, ages=Ages(600.0, 400.0 * 86400.0))
    told = {item.sign: item for item in diagnose(short, Answers()).witnesses}
    assert (1.0, 1.0) == (told["short_runs"].share_ratio, told["solids_high"].share_ratio)
    assert told["short_runs"].odds_factor_ratio > 1.0
    enough = prepare(whole_plant(), 16, ages=Ages(86400.0, 3600.0))
    told = {item.sign: item for item in diagnose(enough, Answers()).witnesses}
    assert told["short_runs"].odds_factor_ratio < 1.0
    assert told["solids_high"].odds_factor_ratio < 1.0


def test_share_above_a_value_by_hand() -> None:
    """Halfway from the middle to the high end: halfway from 0.5 to 0.05."""
    assert 0.275 == pytest.approx(share_above((2.0, 4.0, 8.0), 6.0))
    assert (1.0, 0.0) == (share_above((2.0, 4.0, 8.0), 1.0), share_above((2.0, 4.0, 8.0), 9.0))


def test_sure_is_symmetric_about_one_half() -> None:
    assert 1.0 == pytest.approx(sure_of(0.3, 0.1) + sure_of(0.7, 0.1))


def test_loop_without_parts_leaves_out_their_causes(plant_of) -> None:
    bare = plant_of(
        'loop = [{part = "suction fitting", height = "0.2 m"}, {part = "pump", height = "0.3 m", '
        'curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]}, {part = "return", height = "0.5 m"}]'
    )
    result = diagnose(prepare(bare, 16), Answers(("low_flow",)))
    assert not {"clogged_filter", "injector_bubbles", "chiller_low_flow"} & {row.cause for row in result.causes}
    assert not {"no_vacuum", "filter_old", "chiller_flow_alarm"} & {test.sign for test in result.next_tests}
    assert {"causes-left-out", "no-injector"} <= {notice.code for notice in result.notices}
    assert () == result.witnesses


def test_two_causes_at_once_are_named_when_both_show(ready: Prepared) -> None:
    filter_signs = ("filter_old", "filter_drop_high", "low_flow")
    bubble_signs = ("jar_clears_upward", "bubbles_at_return", "bubbles_stop_with_gas")
    result = diagnose(ready, Answers((*filter_signs, *bubble_signs), ("no_vacuum", "jar_stays_hazy")))
    assert ("clogged_filter", "injector_bubbles") == result.pairs[0].causes
    assert {"clogged_filter", "injector_bubbles"} == {row.cause for row in result.causes[:2]}


def test_everything_answered_keeps_every_chance_between_none_and_sure(ready: Prepared) -> None:
    clear = diagnose(ready, Answers((), tuple(SIGNS)))
    assert all(0.0 <= end <= 1.0 for row in clear.causes for end in row.chance_ratio.ends)
    assert () == clear.next_tests
