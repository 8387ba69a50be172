"""Tests of the water that no plan can stand on."""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from sanitize.basis.errors import InputError
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.study import study_dosing

TODAY = date(2026, 4, 12)


def problems_of(plant: Plant, **more: Any) -> list[str]:
    with pytest.raises(InputError) as caught:
        study_dosing(plant, TODAY, **more)
    return [f"{problem.where}: {problem.found}" for problem in caught.value.problems]


def test_chlorine_beside_peroxide_is_refused(water_plant: Callable[..., Plant]) -> None:
    (problem,) = problems_of(water_plant(peroxide='"30 mg/L"'))
    assert problem.startswith("[[water_test]] peroxide: 30 mg/L stands beside 3 mg/L of free chlorine")


def test_old_test_is_refused_unless_asked(water_plant: Callable[..., Plant]) -> None:
    plant = water_plant(date="2026-04-02")
    assert ["[[water_test]] date: the latest test is 10 days old, and water changes from day to day"] == problems_of(
        plant, max_age_days=3.0
    )
    assert "2026-04-02" == study_dosing(plant, TODAY, 10.0, cases=0).tested_on


def test_test_of_tomorrow_is_refused(water_plant: Callable[..., Plant]) -> None:
    (problem,) = problems_of(water_plant(date="2026-04-13"))
    assert "after 2026-04-12" in problem


def test_everything_that_is_missing_is_told_at_once(water_plant: Callable[..., Plant]) -> None:
    plant = water_plant(ph=None, total_alkalinity=None, free_chlorine=None, total_chlorine=None)
    assert 3 == len(problems_of(plant))
    (problem,) = problems_of(water_plant().model_copy(update={"sanitizer": None}))
    assert problem.startswith("[sanitizer]: is missing")
    assert 2 == len(problems_of(water_plant().model_copy(update={"sanitizer": None, "water_test": ()})))


def test_alkalinity_that_the_ph_does_not_allow_is_refused(water_plant: Callable[..., Plant]) -> None:
    """At pH 10.4 and 10 degC hydroxide alone, 10^(10.4 - 14.53), is 3.7 mg/L."""
    (problem,) = problems_of(water_plant(ph="10.4", total_alkalinity='"2 mg/L"'))
    assert problem.startswith("[[water_test]] total_alkalinity: 2 mg/L cannot stand beside pH 10.4")
