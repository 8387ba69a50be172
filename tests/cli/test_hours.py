"""`sanitize hours LOOP`: text, JSON, CSV, exit codes, bad input."""

import csv
import io
import json
from pathlib import Path

import pytest

FEW = ("--cases", "16")
ICEHOUSE = str(Path(__file__).resolve().parents[2] / "demos" / "icehouse.toml")


def test_hours_text_answers_with_run_time_and_what_decides(run) -> None:
    result = run("hours", ICEHOUSE, *FEW)
    assert result.exit_code == 0
    assert "How long must the pump run?" in result.stdout
    assert "turnovers decide" in result.stdout
    assert result.stderr == ""


def test_hours_json_says_warnings_to_standard_error(run) -> None:
    result = run("hours", ICEHOUSE, "--json", *FEW)
    record = json.loads(result.stdout)
    assert record["binding_need"] == "turnovers"
    assert "Cautions" in result.stderr


def test_hours_csv_is_a_table_of_the_needs(run) -> None:
    rows = list(csv.DictReader(io.StringIO(run("hours", ICEHOUSE, "--csv", *FEW).stdout)))
    assert rows[0]["name"] == "turnovers"
    assert float(rows[0]["run_nominal_s"]) > 0.0


def test_hours_into_a_file_is_the_same_text(run, tmp_path: Path) -> None:
    target = tmp_path / "hours.txt"
    assert run("hours", ICEHOUSE, "-o", str(target), *FEW).exit_code == 0
    assert run("hours", ICEHOUSE, *FEW).stdout == target.read_text(encoding="utf-8")


def test_hours_in_us_units_and_with_another_value(run) -> None:
    result = run("hours", ICEHOUSE, "--units", "us", "--set", "timer.turnovers=3", *FEW)
    assert result.exit_code == 0
    assert "gal/min" in result.stdout
    assert "3 turnovers a day" in result.stdout


def test_hours_strict_exits_with_1_on_a_danger(run, boathouse: str) -> None:
    assert run("hours", boathouse, "--strict", *FEW).exit_code == 1
    assert run("hours", ICEHOUSE, "--strict", *FEW).exit_code == 0


def test_hours_with_two_forms_or_its_own_file_exits_with_2(run, loop: Path) -> None:
    assert run("hours", ICEHOUSE, "--json", "--csv").exit_code == 2
    before = loop.read_bytes()
    assert run("hours", str(loop), "-o", str(loop)).exit_code == 2
    assert before == loop.read_bytes()


@pytest.mark.parametrize(
    ("setting", "code", "words"),
    [
        ("bathers.per_day=-1", 2, "bathers"),
        ('timer.quiet=[["22:00", "06:00"], ["05:00", "07:00"]]', 2, "overlap"),
        ('timer.prices=[["06:00", "22:00", 0.3]]', 2, "there is no price from 22:00 to 06:00"),
        ("chiller.capacity=lots", 2, "capacity"),
        ("surroundings.air_temperature=70 degC", 2, "air_temperature"),
        ("pump.running=false", 3, "No pump of this loop runs"),
        ("return.height=20 m", 3, "cannot lift the water"),
    ],
)
def test_hours_of_bad_input_is_one_clear_answer(run, setting: str, code: int, words: str) -> None:
    result = run("hours", ICEHOUSE, "--set", setting, *FEW)
    assert result.exit_code == code
    assert words in result.stderr
    assert "Traceback" not in result.output
    assert result.stdout == ""


def test_hours_of_a_tub_without_chiller_says_so(run, boathouse: str) -> None:
    result = run("hours", boathouse, *FEW)
    assert result.exit_code == 0
    assert "No [chiller] is given" in result.stdout
