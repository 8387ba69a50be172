"""`sanitize hours LOOP`: text, JSON, CSV, exit codes, bad input."""

import csv
import io
import json
import subprocess
import sys
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


def test_hours_csv_of_the_plan_is_a_table_of_switch_times(run) -> None:
    rows = list(csv.DictReader(io.StringIO(run("hours", ICEHOUSE, "--csv", "--plan", *FEW).stdout)))
    assert {"pump", "ozone", "chiller"} == {row["what"] for row in rows}
    assert ("05:00", "18000.0") == (rows[0]["start"], rows[0]["start_s"])
    assert 2 == run("hours", ICEHOUSE, "--plan", *FEW).exit_code


def test_hours_picture_goes_into_its_file_beside_the_text(run, tmp_path: Path) -> None:
    target = tmp_path / "day.svg"
    result = run("hours", ICEHOUSE, "--picture", str(target), *FEW)
    assert "What the timer does" in result.stdout
    assert "in the tub" in target.read_text(encoding="utf-8")
    assert 2 == run("hours", ICEHOUSE, "--picture", str(tmp_path / "day.txt"), *FEW).exit_code
    assert 2 == run("hours", ICEHOUSE, "--picture", str(target), "-o", str(target), *FEW).exit_code


@pytest.mark.parametrize(
    ("setting", "words"),
    [
        ('timer.quiet=[["17:00", "20:00"]]', "quiet hours (the pump stands 17:00 to 20:00)"),
        ("timer.ozone_hours=12 h", "ozone"),
        ("timer.turnovers=500", "run time"),
    ],
)
def test_hours_of_wishes_that_conflict_names_them_and_the_nearest_plan(run, setting: str, words: str) -> None:
    told = " ".join(run("hours", ICEHOUSE, "--set", setting, "--set", "timer.segment=30 min", *FEW).stdout.split())
    assert "No plan keeps" in told
    assert words in told
    assert "Nearest plan" in told


def test_hours_whatever_a_library_prints_stays_out_of_the_answer() -> None:
    """Past Python's streams, as compiled solvers do."""
    code = (
        "import os\nfrom sanitize.cli.output import away_from_output\n"
        "with away_from_output():\n    os.write(1, b'chatter')\nos.write(1, b'answer')\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert (b"answer", b"chatter") == (done.stdout, done.stderr)
