"""The run time's answer as text, JSON and CSV, from loop files whose answers are known."""

import csv
import io
import json
from collections.abc import Callable
from typing import Any

import pytest

from sanitize.basis.figure import Figure
from sanitize.loopfile.read import read_plant
from sanitize.report.hours import hours_a_day, hours_text
from sanitize.report.hours_record import COLUMNS, hours_csv, hours_json
from sanitize.studies.hours.result import Hours
from sanitize.studies.hours.study import study_needs
from sanitize.studies.timer.result import Plan
from sanitize.studies.timer.study import solve_plan

FILE = """format = 1
title = "Cooper's tub"
size = "1 in"
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "return", height = "0.50 m"},
]
[tub]
volume = "400 L"
water_level = "0.80 m"
water_temperature = "10 degC"
place = "indoors"
"""
TABLES = """[bathers]
per_day = 1
[timer]
price = 0.3
public_profile = "Wisconsin cold soak"
[chiller]
capacity = "1 kW"
power = "400 W"
start_temperature = "18 degC"
[surroundings]
air_temperature = "20 degC"
coldest_air = "-4 degC"
"""


@pytest.fixture(scope="module")
def answer_of() -> Callable[..., Hours]:
    def study(tables: str = "", cases: int = 0, **top: str) -> Hours:
        text = FILE
        for key, value in top.items():
            text = f'{key} = "{value}"\n{text}'
        return study_needs(read_plant(text + tables).plant, cases)

    return study


@pytest.fixture(scope="module")
def full(answer_of: Callable[..., Hours]) -> Hours:
    return answer_of(TABLES, cases=32)


def plan_of(result: Hours) -> Plan:
    return solve_plan(result.wishes, result.run_s.ends[1])


def text_of(result: Hours) -> str:
    return hours_text(result, plan_of(result))


def json_of(result: Hours) -> str:
    return hours_json(result, plan_of(result))


def flat(text: str) -> str:
    return " ".join(text.split())


def test_text_tells_run_time_and_what_decides_first(full: Hours) -> None:
    told = text_of(full)
    assert told.startswith("Cooper's tub\n------------\n")
    assert told.index("How long must the pump run?") < told.index("What asks for it") < told.index("Energy")
    assert "a day: public rule decides." in flat(told)


def test_text_shows_every_need_with_what_stands_behind_it(full: Hours) -> None:
    told = flat(text_of(full))
    for need in full.needs:
        assert need.decides[1:] in told
        assert need.standing in told
    assert "(frost)" in told
    assert "* public rule" in told


def test_text_no_line_is_longer_than_its_width(full: Hours) -> None:
    assert max(len(line) for line in text_of(full).splitlines()) <= 100


def test_text_cites_every_source_once(full: Hours) -> None:
    told = text_of(full)
    for key in ("wisconsin_sps_390_14", "austria_bhygv_1998", "maine_144_202", "florida_64e_9_004"):
        assert 1 == told.count(f"\n[{key}] ")


def test_text_of_a_public_tub_defers_to_the_authority(full: Hours) -> None:
    told = flat(text_of(full))
    assert "Wisconsin cold soak: longest turnover, clean filter 4.0 h, as published; here" in told
    assert "which keeps it. The local authority decides. [wisconsin_sps_390_14]" in told


def test_text_of_a_need_that_no_run_time_meets_says_what_would_help(answer_of: Callable[..., Hours]) -> None:
    told = flat(text_of(answer_of("[bathers]\nper_day = 2\n")))
    assert "Not met Clarity cannot be met by any run time" in told
    assert "What would help: fewer bathers or more water" in told


def test_text_of_a_need_above_a_day_says_that_the_day_does_not_suffice(answer_of: Callable[..., Hours]) -> None:
    told = flat(text_of(answer_of("[timer]\nturnovers = 500\n")))
    assert "A day does not suffice" in told
    assert "Turnovers asks for" in told


def test_text_without_price_and_chiller_says_what_they_need(answer_of: Callable[..., Hours]) -> None:
    told = flat(text_of(answer_of()))
    assert "Cost needs `price` or `prices` in [timer]." in told
    assert "None is described: nothing in the file takes this heat out." in told


def test_text_in_us_units_shows_no_metric_figure(answer_of: Callable[..., Hours]) -> None:
    told = text_of(answer_of(TABLES, units="us")).split("Numbers used")[0]
    for unit in ("L/min", "degC", " L ", "kPa", " K an hour"):
        assert unit not in told
    for unit in ("gal/min", "degF", "degF an hour"):
        assert unit in told


def test_text_of_a_warm_tub_says_that_it_cools(answer_of: Callable[..., Hours]) -> None:
    told = flat(text_of(study_needs(read_plant(FILE.replace('"10 degC"', '"38 degC"')).plant, 0)))
    assert "The water cools by" in told
    assert "the tub cools by itself, and what heats it is not counted." in told


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (Figure(3600.0, 3600.0, 3600.0), "1.0 h"),
        (Figure(3600.0, 7200.0, 36000.0), "2.0 h (1.0 to 10)"),
        (Figure(3600.0, None, None), "never (1.0 to never)"),
    ],
)
def test_hours_a_day_in_words(value: Figure, words: str) -> None:
    assert words == hours_a_day(value)


def test_json_holds_the_keys_that_are_promised(full: Hours) -> None:
    record = json.loads(json_of(full))
    assert {"turnover_s", "needs", "binding_need", "run_s", "energy_j", "cost", "cost_year"} <= set(record)
    assert (3, "hours") == (record["schema_version"], record["record"])
    for need in record["needs"]:
        assert {"name", "run_s", "source", "standing"} <= set(need)
        assert {"low", "nominal", "high"} == set(need["run_s"])
    assert {"what", "start", "stop", "start_s", "stop_s"} == set(record["plan"][0])
    assert {"pump", "chiller", "both"} == set(record["energy_j"]) == set(record["spread_energy_j"])
    assert "spent" not in record["timer"]


def test_json_numbers_are_those_of_the_answer(full: Hours) -> None:
    record = json.loads(json_of(full))
    assert full.run_s.nominal == record["run_s"]["nominal"]
    assert full.public_rule is not None
    assert full.public_rule.limit_s == record["public_rule"]["limit_s"]
    assert full.wishes.longest_idle_s == record["wishes"]["longest_idle_s"]
    assert [{"start_s": 0.0, "end_s": 86400.0, "price_per_kwh": 0.3}] == record["wishes"]["prices"]


def test_json_of_what_is_never_met_is_null(answer_of: Callable[..., Hours]) -> None:
    record = json.loads(json_of(answer_of("[bathers]\nper_day = 2\n")))
    need = next(need for need in record["needs"] if need["name"] == "clarity")
    assert need["run_s"]["nominal"] is None


def test_csv_has_a_row_for_each_need(full: Hours) -> None:
    rows: list[dict[str, Any]] = list(csv.DictReader(io.StringIO(hours_csv(full))))
    assert list(COLUMNS) == list(rows[0])
    assert [need.name for need in full.needs] == [row["name"] for row in rows]
    assert full.needs[0].run_s.high == float(rows[0]["run_high_s"])
    assert {"true", "false"} == {row["counts"] for row in rows}


def test_text_lists_the_rows_that_stood_in_and_none_that_the_file_states(full: Hours) -> None:
    told = text_of(full).split("Numbers used")[1]
    assert "- wall_unknown_wm2k: 4 W/m**2/K (1 to 8), estimate" in told
    assert "- capacity_per_air_per_k" in told
    assert "- air_indoors_c" not in told
