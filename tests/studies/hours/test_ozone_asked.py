"""Hours of the ozone unit where the file gives none: by its balance, and none in a room that bears none."""

from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant
from sanitize.report.hours_plan import plan_block
from sanitize.studies.hours.ozone_asked import CASES, ozone_asked
from sanitize.studies.hours.study import study_needs
from sanitize.studies.ozone.study import study_ozone
from sanitize.studies.timer.study import solve_plan

DEMOS = Path(__file__).parents[3] / "demos"
STRONG = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "injector", throat = "8 mm", height = "0.9 m"},
  {part = "return", height = "0.50 m"},
]
[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "10 degC"
place = "outdoors"
[ozone]
output = "OUTPUT"
at_gas_flow = "5 L/min"
height = "1.6 m"
[bathers]
per_day = 1
times = [["18:00", "19:00"]]
"""


def plant_of(output: str, more: str = "") -> Plant:
    return read_plant(STRONG.replace("OUTPUT", output) + more).plant


def test_hours_are_those_in_which_the_ozone_covers_the_bathers() -> None:
    plant = plant_of("1000 mg/h")
    found = ozone_asked(plant, 20)
    balance = study_ozone(plant, CASES, 20)
    hours = 24.0 * balance.oxidant_need_g_per_day.nominal / balance.oxidant_supply_g_per_day.nominal
    assert 0.5 < hours < 24.0
    assert hours * 3600.0 == pytest.approx(found.plant.timer.ozone_run_s)
    assert found.is_ours


def test_rest_before_bathing_is_no_shorter_than_the_waits_for_air_and_water() -> None:
    plant = plant_of("1000 mg/h")
    rest_s = ozone_asked(plant, 20).plant.timer.ozone_rest_s
    assert rest_s >= study_ozone(plant, CASES, 20).water_wait_s.nominal
    assert 600.0 == ozone_asked(plant_of("1000 mg/h", '[timer]\nozone_rest = "10 min"'), 20).plant.timer.ozone_rest_s


def test_need_and_plan_take_these_hours_as_an_estimate() -> None:
    answer = study_needs(plant_of("1000 mg/h", "[timer]\ntwo_timers = true"), 16)
    need = next(item for item in answer.needs if item.name == "ozone")
    assert "estimate" == need.standing
    assert need.run_s.nominal == pytest.approx(answer.wishes.ozone_run_s)
    assert answer.wishes.ozone_run_s > 0.0


def test_unit_that_falls_short_all_day_asks_for_no_hours_and_says_so() -> None:
    found = ozone_asked(plant_of("30 mg/h"), 20)
    assert found.plant.timer is None
    assert "another sanitizer carries the rest" in found.notices[0].text


def test_room_that_cannot_bear_it_keeps_the_unit_out_of_the_plan() -> None:
    path = DEMOS / "bathroom.toml"
    plant = read_plant(path.read_text(), path=str(path), reader=lambda name: Path(name).read_text()).plant
    found = ozone_asked(plant.model_copy(update={"timer": None}), 20)
    assert found.plant.timer is None
    assert "the plan leaves the unit off" in found.notices[0].text
    answer = study_needs(plant.model_copy(update={"timer": None}), 0)
    plan = solve_plan(answer.wishes, answer.run_s.ends[1])
    assert answer.ozone_stays_off
    assert (0.0, (), False) == (plan.ozone_run_s, plan.cuts, plan.needs_interlock)
    assert "Unplug it" in plan_block(answer, plan, 100)
    assert "runs whenever the pump does" not in plan_block(answer, plan, 100)


def test_hours_of_the_file_stand() -> None:
    plant = plant_of("1000 mg/h", '[timer]\nozone_hours = "2 h"')
    assert (plant, False, (), False) == ozone_asked(plant, 20)


def test_loop_without_ozone_is_left_alone() -> None:
    plant = plant_of("1000 mg/h").model_copy(update={"ozone": None})
    assert (plant, False, (), False) == ozone_asked(plant, 20)
