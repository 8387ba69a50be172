"""The doses as text, JSON and CSV."""

import csv
import io
import json
from datetime import date
from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.report.dosing import dosing_text
from sanitize.report.dosing_record import COLUMNS, dosing_csv, dosing_json
from sanitize.report.dosing_warnings import dosing_warnings
from sanitize.studies.dosing.result import Dosing
from sanitize.studies.dosing.study import study_dosing

DEMOS = Path(__file__).resolve().parents[2] / "demos"


def demo(*settings: str) -> Dosing:
    text = (DEMOS / "boathouse_spring.toml").read_text(encoding="utf-8")
    plant = read_plant(text, overrides=settings, reader=lambda name: (DEMOS / name).read_text(encoding="utf-8")).plant
    return study_dosing(plant, date(2026, 4, 12), cases=16)


@pytest.fixture(scope="module")
def result() -> Dosing:
    return demo()


@pytest.mark.parametrize("width", [80, 100])
def test_text_keeps_to_the_width_and_says_everything(result: Dosing, width: int) -> None:
    text = dosing_text(result, width=width)
    assert max(len(line) for line in text.splitlines()) <= width
    flat = " ".join(text.split())
    for said in (*result.advice, *result.blind_spots, *(one.action for one in (*result.conflicts, *result.cautions))):
        assert " ".join(said.split()) in flat
    for step in result.steps:
        assert step.why in flat


def test_danger_stands_before_the_answer(result: Dosing) -> None:
    text = dosing_text(result)
    assert text.index("DANGER") < text.index("What to add?")
    assert "! Chlorine or bromine products and acid:" in text


def test_steps_are_numbered_and_have_their_wait(result: Dosing) -> None:
    lines = [line for line in dosing_text(result).splitlines() if line[:3].strip(" .").isdecimal()]
    assert len(result.steps) == len(lines)
    assert lines[0].startswith(" 1. 8.8 g (")


def test_json_has_the_keys_that_were_promised(result: Dosing) -> None:
    record = json.loads(dosing_json(result))
    assert ("dose", 1) == (record["record"], record["schema_version"])
    assert {"low", "nominal", "high"} == set(record["ph"]) == set(record["saturation_index"]) == set(record["hocl_mgl"])
    assert {"product", "mass_g", "volume_ml", "low", "high", "wait_s", "why"} <= set(record["steps"][0])
    assert {"after", "conflicts"} <= set(record)
    assert record["steps"][-1]["after"] == record["after"]


def test_csv_has_a_row_for_each_step(result: Dosing) -> None:
    rows = list(csv.DictReader(io.StringIO(dosing_csv(result))))
    assert list(COLUMNS) == list(rows[0])
    assert [step.product for step in result.steps] == [row["product"] for row in rows]
    assert result.steps[0].mass_g == pytest.approx(float(rows[0]["mass_g"]))
    assert "" == rows[0]["volume_ml"]


def test_warnings_hold_dangers_cautions_and_notices(result: Dosing) -> None:
    flat = " ".join(dosing_warnings(result).split())
    for one in (*result.conflicts, *result.cautions):
        assert one.action in flat
    assert "DANGER" in flat


def test_us_units_speak_of_gallons_and_degrees_fahrenheit() -> None:
    text = dosing_text(demo("units=us"))
    assert "110 gal of water at 43 degF" in text


def test_too_much_of_everything_asks_for_a_change_of_water_and_for_time() -> None:
    text = dosing_text(
        demo("water_test.free_chlorine=9 mg/L", "water_test.total_chlorine=11 mg/L", "water_test.cyanuric_acid=90 mg/L")
    )
    assert "First change water" in text
    assert "Let out" in text


def test_nothing_to_add_is_said() -> None:
    text = dosing_text(
        demo(
            "water_test.ph=7.4",
            "water_test.total_alkalinity=80 mg/L",
            "water_test.free_chlorine=3 mg/L",
            "water_test.total_chlorine=3 mg/L",
        )
    )
    assert "Nothing now." in text
    assert "The steps" not in text
