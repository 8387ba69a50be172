"""From the tests of the file to one test: what is the latest, what lasts, how wrong it may be."""

from collections.abc import Callable
from datetime import date

import pytest

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.reading import read_tests, solids_of, with_error

OLDER = """
[[water_test]]
date = DAY
method = "drops"
ph = 8.8
total_alkalinity = "120 mg/L"
free_chlorine = "9 mg/L"
"""
TODAY = date(2026, 4, 12)


def test_error_is_the_larger_of_the_absolute_and_the_relative_one() -> None:
    """Strips: 20 mg/L or a quarter; drops: 10 mg/L or a twentieth (common practice)."""
    assert (60.0, 100.0) == (with_error(Band.exact(80.0), "strips", "total_alkalinity").low,
                             with_error(Band.exact(80.0), "strips", "total_alkalinity").high)  # fmt: skip
    assert 150.0 == with_error(Band.exact(200.0), "strips", "total_alkalinity").low
    assert 0.0 == with_error(Band.exact(0.2), "strips", "free_chlorine").low


def test_error_that_a_value_states_goes_before_that_of_its_method() -> None:
    stated = Band(78.0, 80.0, 82.0)
    assert stated == with_error(stated, "strips", "total_alkalinity")


def test_latest_test_counts_wherever_it_stands_in_the_file(water_plant: Callable[..., Plant]) -> None:
    plant = water_plant(more=OLDER.replace("DAY", "2026-04-10"), date="2026-04-11")
    tested = read_tests(plant, TODAY, 3.0)
    assert date(2026, 4, 11) == tested.day
    assert 7.4 == tested.bands["ph"].nominal
    later = water_plant(more=OLDER.replace("DAY", "2026-04-12"), date="2026-04-11")
    assert 8.8 == read_tests(later, TODAY, 3.0).bands["ph"].nominal


def test_alkalinity_lasts_from_an_earlier_test_and_chlorine_does_not(water_plant: Callable[..., Plant]) -> None:
    plant = water_plant(
        more=OLDER.replace("DAY", "2026-04-01"), date="2026-04-11", total_alkalinity=None, uses="none",
        free_chlorine=None, total_chlorine=None,
    )  # fmt: skip
    tested = read_tests(plant, TODAY, 3.0)
    assert 120.0 == tested.bands["total_alkalinity"].nominal
    assert "free_chlorine" not in tested.bands
    (notice,) = tested.notices
    assert ("carried-over", True) == (notice.code, "of 2026-04-01" in notice.text)


def test_alkalinity_of_another_season_does_not_last(water_plant: Callable[..., Plant]) -> None:
    """More than the 30 days that a value may be older (common practice)."""
    plant = water_plant(more=OLDER.replace("DAY", "2026-03-01"), date="2026-04-11", total_alkalinity=None)
    with pytest.raises(InputError, match="no test has it"):
        read_tests(plant, TODAY, 3.0)


def test_combined_chlorine_is_the_difference_with_the_error_of_the_total(water_plant: Callable[..., Plant]) -> None:
    """3.0 of 3.4 mg/L by drops, a tenth: 0.4 +- 0.34."""
    combined = read_tests(water_plant(total_chlorine='"3.4 mg/L"'), TODAY, 3.0).combined
    assert (0.06, 0.4, 0.74) == pytest.approx((combined.low, combined.nominal, combined.high))


def test_undated_test_is_said(water_plant: Callable[..., Plant]) -> None:
    assert ["test-undated"] == [notice.code for notice in read_tests(water_plant(), TODAY, 3.0).notices]


def test_solids_from_conductivity_carry_the_spread_of_the_factor() -> None:
    """0.65 (0.5 to 0.8) mg/L for each uS/cm (common practice)."""
    found = solids_of(None, Band.exact(400.0))
    assert found is not None
    assert (200.0, 260.0, 320.0) == pytest.approx((found.low, found.nominal, found.high))
