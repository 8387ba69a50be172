"""The parts list as text, JSON and CSV."""

import csv
import io
import json
from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.report.parts import parts_text
from sanitize.report.parts_record import COLUMNS, parts_csv, parts_json
from sanitize.studies.shopping.result import PartsList
from sanitize.studies.shopping.study import study_parts

DEMO = Path(__file__).resolve().parents[2] / "demos" / "boathouse.toml"


@pytest.fixture(scope="module")
def result() -> PartsList:
    return study_parts(read_plant(DEMO.read_text(encoding="utf-8")).plant)


@pytest.mark.parametrize("width", [80, 100])
def test_parts_text_keeps_to_the_width_and_says_everything(result: PartsList, width: int) -> None:
    text = parts_text(result, width=width)
    assert max(len(line) for line in text.splitlines()) <= width
    flat = " ".join(text.split())
    for problem in result.problems:
        assert problem.action in flat
    for notice in (*result.assumptions, *result.notices):
        assert " ".join(notice.text[1:].split()) in flat
    for caution in result.cautions:
        assert caution.defers_to in flat


def test_parts_text_counts_the_joints_and_names_the_nipples(result: PartsList) -> None:
    """Of the 14 joints 4 mate: suction-reducer, reducer-hose, tee-return hose, return hose-return."""
    lines = parts_text(result).splitlines()
    assert ["14", "4", "10", "0"] == [
        line.split()[-1] for line in lines[:10] if line.startswith(("Joints", "They mate", "A piece", "Not judged"))
    ]
    assert any(line.startswith("- 9 x Schedule 40 pipe nipple 3/4 in, 35.0 mm (33.5 to 36.5) long:") for line in lines)
    assert any(line.split()[:4] == ["elbow", "90", "3/4", "socket,"] and line.split()[-1] == "3" for line in lines)


def test_parts_text_says_once_what_two_joints_need_alike(result: PartsList) -> None:
    flat = " ".join(parts_text(result).split())
    action = "DO: Put in between: female adapter (3/4 in), pipe nipple (3/4 in)."
    assert f"{action} Between: pump and elbow 90 1; injector and meeting tee of split." in flat
    assert 1 == flat.count(action)


def test_parts_text_in_us_units_speaks_of_inches(result: PartsList) -> None:
    plant = read_plant(DEMO.read_text(encoding="utf-8"), overrides=("units=us",)).plant
    text = parts_text(study_parts(plant))
    assert "1.38 in (1.32 to 1.44) long" in text
    assert "gas tube of 0.16 in bore" in text


def test_parts_json_is_the_record(result: PartsList) -> None:
    record = json.loads(parts_json(result))
    assert ("parts", 1) == (record["record"], record["schema_version"])
    assert len(result.joints) == len(record["joints"])
    assert {"first", "second", "verdict", "missing", "seals", "standing", "source"} <= set(record["joints"][0])
    (nipples,) = [line for line in record["cut"] if line["item"] == "pipe nipple"]
    assert 9 == nipples["count"]
    assert {"low", "nominal", "high"} == set(nipples["length_m"])


def test_parts_csv_has_a_row_for_every_line(result: PartsList) -> None:
    rows = list(csv.DictReader(io.StringIO(parts_csv(result))))
    assert list(COLUMNS) == list(rows[0])
    assert len(result.buy) + len(result.cut) + len(result.seal) == len(rows)
    (elbow,) = [row for row in rows if row["item"] == "elbow 90"]
    assert ("buy", "3", "0", "") == (elbow["list"], elbow["count"], elbow["missing_count"], elbow["length_nominal_m"])
    (hose,) = [row for row in rows if row["list"] == "buy" and row["item"] == "flexible hose"]
    assert ("", 4.07) == (hose["count"], pytest.approx(float(hose["length_nominal_m"])))
    (tube,) = [row for row in rows if row["item"] == "gas tube"]
    assert 0.004 == pytest.approx(float(tube["bore_m"]))
