"""`sanitize ozone`: text, formats, options, exit codes, bad input."""

import csv
import io
import json
import re
from pathlib import Path

import pytest

from sanitize.report.ozone_record import COLUMNS

FEW = ("--cases", "16")
KEYS = (
    "feed_mg_per_h", "feed_gm3", "transfer_ratio", "dissolved_mg_per_h", "vented_mg_per_h", "residual_mgl",
    "room_ppmv", "room_limit_ppmv", "room_emission_limit_mg_per_h", "oxidant_need_g_per_day",
    "oxidant_supply_g_per_day",
)  # fmt: skip


@pytest.fixture
def bathroom() -> str:
    """A small tub in a bathroom with the door shut."""
    return str(Path(__file__).resolve().parents[2] / "demos" / "bathroom.toml")


def test_text_begins_with_the_danger_and_says_that_the_air_is_the_limit(run, bathroom: str) -> None:
    result = run("ozone", bathroom, *FEW)
    lines = result.stdout.splitlines()
    said = " ".join(result.stdout.split())
    assert (0, "") == (result.exit_code, result.stderr)
    assert ["Bathroom tub with the door shut", "DANGER"] == [lines[0], lines[3]]
    assert "The air is what limits it" in said
    assert "ozone alone never keeps such a tub" in said
    assert said.count("never a clearance") >= 2
    assert "It is no credit here" in said


def test_room_not_described_is_the_same_small_one_in_every_command(run, bathroom: str, tmp_path: Path) -> None:
    """One table row of 6 to 20 m3 stands in, and every command says so."""
    text = Path(bathroom).read_text(encoding="utf-8")
    start = text.index("\n[room]\n")
    bare = tmp_path / "bare.toml"
    whole = text[:start] + text[text.index("\n[", start + 2) :]
    bare.write_text(whole.replace('ozone_hours = "3 h"\n', ""), encoding="utf-8")
    for command in ("suction", "ozone", "day"):
        said = " ".join(run(command, str(bare), "--cases", "16").stdout.split())
        assert "a shut room the size of a bathroom, 6.0 to 20 m3, with 0.2 to 0.5 air changes an hour" in said, command
    ozone, day = (json.loads(run(name, str(bare), "--cases", "16", "--json").stdout) for name in ("ozone", "day"))
    assert ozone["room"]["volume_m3"]["nominal"] == pytest.approx(day["room_m3"])
    assert "a shut room the size of a bathroom, assumed" in " ".join(run("hours", str(bare), *FEW).stdout.split())


def test_every_gram_a_day_says_over_how_many_hours(run, bathroom: str, boathouse: str) -> None:
    stated, assumed = (" ".join(run("ozone", file, *FEW).stdout.split()) for file in (bathroom, boathouse))
    assert "g dissolve in the 3.0 h a day that it runs" in stated
    assert "With 3.0 h of ozone a day the other sanitizer must carry" in stated
    assert "g dissolve in 24 h a day (assumed, as the file does not say" in assumed
    never = run("ozone", bathroom, *FEW, "--set", "timer.ozone_hours=0 h").stdout
    assert "0 g dissolve in the 0 h a day that it runs, so nothing of it is met" in " ".join(never.split())


def test_json_has_every_key_and_ranges(run, bathroom: str) -> None:
    result = run("ozone", bathroom, *FEW, "--json")
    record = json.loads(result.stdout)
    assert [1, "ozone"] == [record["schema_version"], record["record"]]
    assert set(KEYS) <= set(record)
    for key in KEYS:
        if key != "room_limit_ppmv":
            assert ["low", "nominal", "high"] == list(record[key])
            assert record[key]["low"] <= record[key]["nominal"] <= record[key]["high"]
    assert result.stderr.startswith("DANGER\n------\n! ")


def test_csv_has_a_row_for_each_limit(run, bathroom: str) -> None:
    rows = list(csv.DictReader(io.StringIO(run("ozone", bathroom, *FEW, "--csv").stdout), strict=True))
    record = json.loads(run("ozone", bathroom, *FEW, "--json").stdout)
    assert list(COLUMNS) == list(rows[0])
    assert [row["limit_ppmv"] for row in record["limits"]] == [float(row["limit_ppmv"]) for row in rows]
    assert record["room_ppmv"]["nominal"] == float(rows[0]["room_nominal_ppmv"])


def test_csv_outdoors_leaves_the_room_empty(run, boathouse: str) -> None:
    result = run("ozone", boathouse, *FEW, "--csv", "--set", "tub.place=outdoors")
    rows = list(csv.DictReader(io.StringIO(result.stdout), strict=True))
    assert {""} == {row["room_nominal_ppmv"] for row in rows}


def test_set_and_units_are_heard(run, bathroom: str) -> None:
    result = run("ozone", bathroom, *FEW, "--units", "us", "--set", "room.volume=100 m3")
    assert "3500 ft3" in result.stdout
    assert " L/min" not in result.stdout
    assert "degC" not in result.stdout.split("Numbers used")[0]


def test_strict_meets_the_danger(run, bathroom: str) -> None:
    assert 1 == run("ozone", bathroom, *FEW, "--strict").exit_code
    outdoors = ("--set", "tub.place=outdoors", "--set", "room.volume=50 m3", "--set", "ozone.output=5 mg/h")
    assert 0 == run("ozone", bathroom, *FEW, "--strict", *outdoors).exit_code


def test_air_without_gas_drawn_is_not_said_to_be_clean(run, bathroom: str) -> None:
    """The unit makes ozone all the same: no figure, no wait and no share stands against the danger on top."""
    result = run("ozone", bathroom, *FEW, "--set", "gas_line.check_valve_opens_at=90 kPa")
    said = " ".join(result.stdout.split())
    assert "may end there whole" in said
    assert said.index("DANGER") < said.index("If all the ozone that the unit makes ends in the air")
    for calm in ("0 ppm with the ozone", "0 ppm where", "once it is off", "passes the limit", "0 % "):
        assert calm not in said.split("In the air that people breathe")[1].split("In the water")[0]


def test_air_without_gas_drawn_is_null_for_machines(run, bathroom: str) -> None:
    """A reader of JSON or CSV must not take what was not worked out for clean air."""
    shut = ("--set", "gas_line.check_valve_opens_at=90 kPa")
    record = json.loads(run("ozone", bathroom, *FEW, *shut, "--json").stdout)
    assert "ozone-not-drawn" in {notice["code"] for notice in record["notices"]}
    for key in (
        "room_ppmv", "over_water_ppmv", "under_cover_ppmv", "room_worst_ppmv", "over_water_worst_ppmv",
        "emission_mg_per_h", "air_wait_s", "remedy",
    ):  # fmt: skip
        assert record[key] is None, key
    assert {None} == {row[key] for row in record["limits"] for key in ("room_ppmv", "over_water_ppmv")}
    assert {None} == {row["over_share_ratio"] for row in record["limits"]}
    rows = list(csv.DictReader(io.StringIO(run("ozone", bathroom, *FEW, *shut, "--csv").stdout), strict=True))
    columns = set(COLUMNS) - {"body", "averaged", "limit_ppmv", "source"}
    assert {""} == {row[column] for row in rows for column in columns}


def test_air_below_its_limit_is_no_clearance(run, bathroom: str) -> None:
    """A large aired room and a small unit: the worst end stands beside the range, and nothing says that it stays."""
    aired = ("--set", "room.volume=200 m3", "--set", "room.air_changes_per_hour=15", "--set", "ozone.output=2 mg/h")
    said = " ".join(run("ozone", bathroom, *FEW, *aired).stdout.split())
    assert "in less than 1 % of the cases, and comes to 0.00" in said
    assert "Within the range it stays there, with a unit of up to" in said
    assert "at the worst end it comes to 0.00" in said
    assert "Within the range the room and the air over the water are below 0.050 ppm once it is off: an est" in said
    assert "About 0 " not in said
    assert "There too it stays below 0.050 mg/L: an estimate, never a clearance." in said


def test_wait_of_nothing_in_the_likeliest_case_tells_the_high_end(run, bathroom: str) -> None:
    said = " ".join(run("ozone", bathroom, *FEW, "--set", "ozone.destruct=0.99").stdout.split())
    assert "once it is off; at the high end, the injector drawing on, that takes" in said
    assert "About 0 " not in said


def test_residual_above_at_the_worst_end_alone_is_not_said_to_stay_below(run, bathroom: str) -> None:
    """The range ends below what drinking water may hold, the worst end does not: its time stands beside it."""
    said = " ".join(run("ozone", bathroom, *FEW, "--set", "ozone.output=45 mg/h").stdout.split())
    assert re.search(r"Within the range it stays below 0\.050 mg/L; at the worst end it takes \d", said)
    assert "There too it stays below" not in said


def test_output_and_picture_are_written_whole(run, bathroom: str, tmp_path: Path) -> None:
    target, picture = tmp_path / "ozone.txt", tmp_path / "ozone.png"
    result = run("ozone", bathroom, *FEW, "-o", str(target), "--picture", str(picture))
    assert (0, "") == (result.exit_code, result.stdout)
    assert target.read_text(encoding="utf-8").startswith("Bathroom tub")
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert "DANGER" in result.stderr


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--json", "--csv"), "exclude each other"),
        (("--picture", "ozone.bmp"), "ends neither in .png nor in .svg"),
        (("--cases", "5"), "power of two"),
        (("--set", "ozone.output=90"), '"90" has no unit'),
        (("--set", "room.volume=0 m3"), "outside the limits"),
        (("--set", "tub.water_temperature=60 degC"), "outside the limits"),
    ],
)  # fmt: skip
def test_bad_options_are_one_clear_error(arguments: tuple[str, ...], said: str, run, bathroom: str) -> None:
    result = run("ozone", bathroom, *FEW, *arguments)
    assert 2 == result.exit_code
    assert said in " ".join(result.stderr.split())
    assert "Traceback" not in result.stderr


def test_loop_without_ozone_says_what_is_missing(run, loop: Path) -> None:
    text = loop.read_text(encoding="utf-8")
    start = text.index("\n[ozone]\n") + 1
    end = text.find("\n[", start)
    loop.write_text(text[:start] + (text[end:] if end > 0 else ""), encoding="utf-8")
    result = run("ozone", str(loop), *FEW)
    assert 2 == result.exit_code
    assert "[ozone]" in result.stderr
    assert "is missing" in result.stderr


def test_file_into_itself_is_refused(run, loop: Path) -> None:
    assert 2 == run("ozone", str(loop), *FEW, "-o", str(loop)).exit_code
