"""`sanitize fit`: text, JSON, the new loop file, and input that is wrong."""

import json
from pathlib import Path

import pytest

READINGS = '[measured]\nbucket_flow = "31 L/min +- 1 L/min"\nport_vacuum = "3.5 kPa"\npump_pressure = "20 kPa"\n'
QUICK = ("--cases", "64")


@pytest.fixture
def readings(tmp_path: Path) -> Path:
    path = tmp_path / "readings.toml"
    path.write_text(READINGS)
    return path


def test_fit_tells_the_readings_and_what_they_teach(run, boathouse: str, readings: Path) -> None:
    result = run("fit", boathouse, "--measured", str(readings), *QUICK)
    assert 0 == result.exit_code
    for word in ("bucket flow", "real head of pump against its curve", "What they cannot tell apart", "The injector"):
        assert word in result.stdout


def test_fit_json_holds_figures_with_their_range(run, boathouse: str, readings: Path) -> None:
    record = json.loads(run("fit", boathouse, "--measured", str(readings), "--json", *QUICK).stdout)
    assert (1, "fit") == (record["schema_version"], record["record"])
    assert {"low", "nominal", "high"} == set(record["unknowns"][0]["after"])
    assert ["bucket_flow_m3s", "port_vacuum_pa", "pump_pa_gauge"] == [item["reading"] for item in record["readings"]]


def test_fit_writes_a_loop_file_that_suction_reads(run, loop: Path, readings: Path) -> None:
    folder = loop.parent / "fitted"
    folder.mkdir()
    target = folder / "fitted.toml"
    assert 0 == run("fit", str(loop), "--measured", str(readings), "--write", str(target), *QUICK).exit_code
    assert 'based_on = "../loop.toml"' in target.read_text()
    record = json.loads(run("suction", str(target), "--json", "--cases", "64").stdout)
    flow = record["flow_port_closed_m3s"]
    # within the reading's 1 L/min of error and a little more, where the file alone allows 24 to 37
    assert 28.5 / 60e3 < flow["low"] < flow["nominal"] < flow["high"] < 33.5 / 60e3


def test_fit_answers_in_us_units(run, boathouse: str, readings: Path) -> None:
    assert "gal/min" in run("fit", boathouse, "--measured", str(readings), "--units", "us", *QUICK).stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "there are no readings to fit to"),
        (("--measured", "nowhere.toml"), "there is no such file"),
        (("--set", "measured.bucket_flow=90 L/min"), "nothing that the file allows explains 90 L/min"),
        (("--set", "measured.bucket_flow=30"), "has no unit"),
        (("--set", "measured.bucket_flow=30 L/min", "--cases", "100"), "power of two"),
    ],
)
def test_fit_of_wrong_input_is_one_clear_error(run, boathouse: str, arguments: tuple[str, ...], said: str) -> None:
    result = run("fit", boathouse, *(arguments if "--cases" in arguments else (*arguments, *QUICK)))
    assert 2 == result.exit_code
    assert said in result.stderr
    assert "Traceback" not in result.stderr


def test_fit_never_writes_over_what_it_reads(run, loop: Path, readings: Path) -> None:
    before = loop.read_bytes(), readings.read_bytes()
    for target in (loop, readings):
        for option in ("--write", "-o"):
            result = run("fit", str(loop), "--measured", str(readings), option, str(target), *QUICK)
            assert 2 == result.exit_code
    assert before == (loop.read_bytes(), readings.read_bytes())
