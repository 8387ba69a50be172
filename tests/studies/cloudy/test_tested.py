"""Water tests and the filter's age as witnesses: each reading with its error against its limit."""

from collections.abc import Callable

import pytest

from sanitize.basis.tables import model_table
from sanitize.plant.answers import Answers
from sanitize.studies.cloudy.prepared import prepare
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.cloudy.study import diagnose
from sanitize.studies.cloudy.tested import limit, told_by_tests
from sanitize.studies.cloudy.told import Told
from sanitize.studies.cloudy.witness import Ages

SANITIZER = '[sanitizer]\nuses = "chlorine"\n'


@pytest.fixture(scope="module")
def told(whole_plant) -> Callable[..., dict[str, Told]]:
    def found(test: str, more: str = SANITIZER) -> dict[str, Told]:
        plant = whole_plant(tables=f'\n{more}\n[[water_test]]\nmethod = "drops"\n{test}\n')
        return {item.sign: item for item in told_by_tests(plant, 64, 20)[0]}

    return found


def test_bad_water_is_told_by_every_sign_that_was_tested(told) -> None:
    found = told(
        'ph = 8.4\ntotal_alkalinity = "200 mg/L"\ncalcium_hardness = "400 mg/L"\nfree_chlorine = "0.2 mg/L"\n'
        'total_chlorine = "2.5 mg/L"\ncyanuric_acid = "120 mg/L"'
    )
    signs = {"ph_high", "chalk_index_high", "residual_low", "combined_chlorine_high", "cyanuric_acid_high"}
    assert signs == set(found)
    assert {1.0} == {item.share_ratio for item in found.values()}
    assert {"water test"} == {item.by for item in found.values()}


def test_good_water_is_told_by_the_same_signs_the_other_way(told) -> None:
    found = told(
        'ph = 7.2\ntotal_alkalinity = "80 mg/L"\ncalcium_hardness = "120 mg/L"\nfree_chlorine = "3.5 mg/L"\n'
        'total_chlorine = "3.5 mg/L"\ncyanuric_acid = "0 mg/L"'
    )
    assert found["chalk_index_high"].share_ratio == 0.0
    assert found["ph_high"].share_ratio == 0.0
    assert found["residual_low"].share_ratio < 0.3
    assert found["combined_chlorine_high"].share_ratio < 0.5
    assert found["cyanuric_acid_high"].share_ratio == 0.0


def test_reading_at_its_limit_leaves_the_sign_open(told) -> None:
    """Half of the reading's error lies on either side."""
    assert 0.5 == pytest.approx(told("ph = 7.8")["ph_high"].share_ratio, abs=0.05)


def test_solids_are_told_against_the_fill_water(told) -> None:
    fill = SANITIZER + '[fill_water]\ndissolved_solids = "200 mg/L"\n'
    assert 1.0 == told('dissolved_solids = "2500 mg/L"', fill)["solids_high"].share_ratio
    assert 0.0 == told('dissolved_solids = "600 mg/L"', fill)["solids_high"].share_ratio
    assert "solids_high" not in told('dissolved_solids = "2500 mg/L"')


def test_residual_is_told_only_where_the_sanitizer_is_named(told, whole_plant) -> None:
    assert set() == set(told('free_chlorine = "0.2 mg/L"', ""))
    plant = whole_plant(tables='\n[[water_test]]\nfree_chlorine = "0.2 mg/L"\n')
    assert ["sanitizer-not-named", "test-says-nothing"] == [item.code for item in told_by_tests(plant, 16, 20)[1]]


def test_water_test_moves_the_rank_and_is_named_as_its_source(whole_plant) -> None:
    plant = whole_plant(tables=f'\n{SANITIZER}\n[[water_test]]\nfree_chlorine = "0 mg/L"\n')
    result = diagnose(prepare(plant, 16), Answers(("jar_stays_hazy",)))
    assert "low_sanitizer" == result.causes[0].cause
    assert ("residual_low", "water test") in [(item.sign, item.source) for item in result.causes[0].because]
    assert "residual_low" in {item.sign for item in result.witnesses}


def test_filter_past_its_days_speaks_for_a_clogged_one_and_a_fresh_one_against_it(whole_plant) -> None:
    plant = whole_plant(("medium_share = 0.7", 'medium_share = 0.7, days_to_loaded = "30 days"'))
    shown = {}
    for days in (5.0, 90.0):
        result = diagnose(prepare(plant, 16, ages=Ages(filter_s=days * 86400.0)), Answers())
        told = {item.sign: item for item in result.witnesses}
        assert (days > 30.0) == (told["filter_old"].share_ratio == 1.0)
        assert (days > 30.0) == (told["filter_drop_high"].odds_factor_ratio > 1.0)
        shown[days] = next(row for row in result.causes if row.cause == "clogged_filter").chance_ratio.ends[1]
    assert shown[90.0] > 3.0 * shown[5.0]


def test_limits_are_those_that_the_questions_name() -> None:
    for name, sign, text in (
        ("ph", "ph_high", "above {:g}"), ("chalk_index", "chalk_index_high", "above {:+g}"),
        ("combined_chlorine_mgl", "combined_chlorine_high", "above {:g} mg/L"),
        ("cyanuric_acid_mgl", "cyanuric_acid_high", "above {:g} mg/L"),
    ):  # fmt: skip
        assert text.format(limit(name)) in SIGNS[sign].asks
    assert f"{limit('filter_age_s') / 86400.0:g} days" in SIGNS["filter_old"].asks
    assert f"{model_table('dosing_numbers')[('solids_over_fill_mgl',)].value:g} mg/L" in SIGNS["solids_high"].asks


def test_file_without_a_water_test_says_nothing(whole_plant) -> None:
    assert ([], []) == told_by_tests(whole_plant(), 16, 20)


def test_tub_without_a_sanitizer_has_no_residual_whatever_is_tested(whole_plant) -> None:
    plant = whole_plant(tables='\n[sanitizer]\nuses = "none"\n[[water_test]]\nfree_chlorine = "0 mg/L"\nph = 7.2\n')
    ready = prepare(plant, 16)
    assert ("loop file", 1.0) == next((item.by, item.share_ratio) for item in ready.told if item.sign == "residual_low")
    assert "no-residual" in {caution.code for caution in diagnose(ready, Answers()).cautions}


@pytest.mark.parametrize(
    ("chlorine", "answers", "told"),
    [
        ("0.1 mg/L", Answers(), True),
        ("0.1 mg/L", Answers(not_seen=("residual_low",)), False),
        ("3.5 mg/L", Answers(), False),
    ],
)
def test_residual_that_a_test_missed_is_cautioned_against_as_one_that_was_seen(
    whole_plant, chlorine: str, answers: Answers, told: bool
) -> None:
    test = f'[[water_test]]\nmethod = "drops"\nfree_chlorine = "{chlorine}"\nph = 7.2\n'
    ready = prepare(whole_plant(tables=f"\n{SANITIZER}{test}"), 16)
    assert told == ("no-residual" in {caution.code for caution in diagnose(ready, answers).cautions})


@pytest.mark.parametrize(("uses", "has"), [("chlorine", True), ("peroxide", False), ("bromine", False)])
def test_causes_and_tests_of_chlorine_belong_to_tubs_with_chlorine(whole_plant, uses: str, has: bool) -> None:
    ready = prepare(whole_plant(tables=f'\n[sanitizer]\nuses = "{uses}"\n'), 16)
    result = diagnose(ready, Answers())
    assert has == ({"combined_chlorine", "overstabilised"} <= {row.cause for row in result.causes})
    asked = {test.sign for test in result.next_tests}
    assert has == ("combined_chlorine_high" in asked)
    assert ("orp_low" in asked) == (uses != "peroxide")
    assert has == ("the sanitizer of the file is" not in " ".join(item.text.lower() for item in result.notices))


def test_orp_in_peroxide_is_neither_weighed_nor_asked_and_that_is_said(whole_plant) -> None:
    ready = prepare(whole_plant(tables='\n[sanitizer]\nuses = "peroxide"\n'), 16)
    plain, answered = diagnose(ready, Answers()), diagnose(ready, Answers(("orp_low",)))
    assert [row.chance_ratio for row in plain.causes] == [row.chance_ratio for row in answered.causes]
    assert "void-in-peroxide" in {notice.code for notice in answered.notices}
