"""`sanitize day LOOP`: text, JSON, CSV, picture, exit codes, bad input."""

import csv
import io
import json
from pathlib import Path

import pytest

FEW = ("--cases", "16", "--days", "1")
GUEST_HOUSE = str(Path(__file__).resolve().parents[2] / "demos" / "guest_house_day.toml")


def test_day_text_answers_with_the_room(run) -> None:
    result = run("day", GUEST_HOUSE, *FEW)
    assert 0 == result.exit_code
    assert "Room, highest" in result.stdout
    assert "" == result.stderr


def test_day_json_says_warnings_to_standard_error(run) -> None:
    result = run("day", GUEST_HOUSE, "--json", *FEW)
    assert "day" == json.loads(result.stdout)["record"]
    assert "Cautions" in result.stderr


def test_day_without_gas_drawn_leaves_the_air_open(run) -> None:
    """What the unit makes ends somewhere all the same: no figure for the air, in any format, and the text says why."""
    bathroom = str(Path(GUEST_HOUSE).with_name("bathroom.toml"))
    shut = ("--set", "gas_line.check_valve_opens_at=90 kPa")
    record = json.loads(run("day", bathroom, "--json", *FEW, *shut).stdout)
    assert "not drawn" == record["ozone_state"]
    assert "ozone-not-drawn" in {notice["code"] for notice in record["notices"]}
    airs = ("room_peak_ppmv", "room_8h_ppmv", "room_above_s", "face_ppmv", "under_lid_ppmv")
    assert [None] * len(airs) == [record[key] for key in airs]
    assert {None} == {moment[key] for moment in record["moments"] for key in ("room_ppmv", "face_ppmv", "under_ppmv")}
    rows = csv.DictReader(io.StringIO(run("day", bathroom, "--csv", *FEW, *shut).stdout))
    assert {""} == {row["room_high_ppmv"] for row in rows}
    said = " ".join(run("day", bathroom, *FEW, *shut).stdout.split())
    assert "may end there whole" in said
    assert "Room, highest" not in said


def test_day_with_gas_in_some_cases_counts_the_air_over_those(run, boathouse: str) -> None:
    record = json.loads(run("day", boathouse, "--json", *FEW).stdout)
    assert 0.0 < record["drawn_share_ratio"] < 1.0
    assert 0.0 == record["fed_mg_per_day"]["low"] < record["room_peak_ppmv"]["low"]
    assert "of the cases, in which gas is drawn" in run("day", boathouse, *FEW).stdout


def test_day_csv_is_a_table_of_the_day(run) -> None:
    rows = list(csv.DictReader(io.StringIO(run("day", GUEST_HOUSE, "--csv", *FEW).stdout)))
    assert ["0.0", "86400.0"] == [rows[0]["time_s"], rows[-1]["time_s"]]


def test_day_picture_and_text_into_files(run, tmp_path: Path) -> None:
    text, picture = tmp_path / "day.txt", tmp_path / "day.svg"
    assert 0 == run("day", GUEST_HOUSE, "-o", str(text), "--picture", str(picture), *FEW).exit_code
    assert text.read_text(encoding="utf-8").startswith("Guest house tub")
    assert picture.read_bytes().startswith(b"<?xml")


def test_day_in_us_units_with_more_bathers(run) -> None:
    result = run("day", GUEST_HOUSE, "--units", "us", "--set", "bathers.per_day=6", *FEW)
    assert "ft3" in result.stdout
    assert "They ask for   6.0 g" in result.stdout
    assert "degC" not in result.stdout.split("Numbers used")[0]


def test_day_strict_exits_with_1_on_a_danger(run, boathouse: str) -> None:
    assert 1 == run("day", boathouse, "--strict", *FEW).exit_code
    assert 0 == run("day", GUEST_HOUSE, "--strict", *FEW).exit_code


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--json", "--csv"), "exclude each other"),
        (("--days", "0"), "--days"),
        (("--cases", "17"), "power of two"),
        (("--picture", "day.gif"), "neither in .png nor in .svg"),
        (("-o", GUEST_HOUSE), "must be different files"),
    ],
)
def test_day_with_options_that_do_not_go_exits_with_2(run, words: tuple[str, ...], said: str) -> None:
    result = run("day", GUEST_HOUSE, *words)
    assert 2 == result.exit_code
    assert said in result.stderr


def test_day_with_a_room_of_nothing_or_without_output_unit_is_told(run) -> None:
    result = run("day", GUEST_HOUSE, "--set", "room.volume=0 m3", "--set", "ozone.output=30")
    assert 2 == result.exit_code
    assert "room.volume" in result.stderr
    assert '"30" has no unit' in result.stderr
