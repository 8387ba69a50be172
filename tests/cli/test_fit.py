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
        (("--set", "measured.bucket_flow=90 L/min"), "90 L/min is more than the pump's largest flow, 52 L/min"),
        (("--set", "measured.pump_pressure=90 kPa"), "nothing that the file allows explains 90 kPa"),
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


BENCH = (
    '[bench]\nhose_bore = "20.6 mm"\nhose_length = "5 m"\nno_flow_height = "4.2 m"\n'
    'flows = [["0.4 m", "44 L/min"], ["1.6 m", "33 L/min"], ["2.8 m", "22 L/min"]]\n'
    'injector = [["15 L/min", "0.5 m", "1.2 m"], ["20 L/min", "0.9 m", "2.1 m"]]\n'
)


def test_bench_shows_the_steps_and_a_file_that_answers_as_it_is(run, tmp_path: Path) -> None:
    shown = run("fit", "--bench").stdout
    for word in ("bucket", "no_flow_height", "residual-current", "unplugged"):
        assert word in shown
    filled = tmp_path / "bench.toml"
    filled.write_text(shown[shown.index("format = 1") :])
    assert 0 == run("fit", "--bench", "--measured", str(filled)).exit_code


def test_bench_lines_stand_in_a_loop_file(run, loop: Path, tmp_path: Path) -> None:
    """The lines for the pump replace the demo's own curve, and the file still reads."""
    path = tmp_path / "bench.toml"
    path.write_text(BENCH)
    text = run("fit", "--bench", "--measured", str(path)).stdout
    lines = dict(line.split(" = ", 1) for line in text.splitlines() if " = [" in line or line.startswith("head_share"))
    settings = [f"pump.curve={lines['curve']}", f"pump.head_share={lines['head_share']}"]
    settings += [f"injector.bench={lines['bench']}", "injector.throat=8 mm"]
    arguments = [word for setting in settings for word in ("--set", setting)]
    result = run("suction", str(loop), "--json", "--cases", "64", *arguments)
    assert 0 == result.exit_code, result.stderr
    assert 0.3 == pytest.approx(json.loads(result.stdout)["loss_ratio"]["nominal"], abs=0.02)


def test_bench_json_and_us_units(run, tmp_path: Path) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(BENCH)
    record = json.loads(run("fit", "--bench", "--measured", str(path), "--json").stdout)
    assert (1, "bench", 4) == (record["schema_version"], record["record"], len(record["curve"]))
    assert "head ft" in run("fit", "--bench", "--measured", str(path), "--units", "us").stdout


def test_first_wet_is_a_sheet_with_stop_lines(run, boathouse: str) -> None:
    result = run("fit", boathouse, "--first-wet", *QUICK)
    assert 0 == result.exit_code
    assert result.stdout.count("\n[ ] ") == 12
    assert result.stdout.index("DANGER") < result.stdout.index("[ ] 1.")
    assert result.stdout.rindex("Ozone unit last") > result.stdout.index("gas_flow")
    assert "Set every hand valve as the loop file has it" in " ".join(result.stdout.split())
    record = json.loads(run("fit", boathouse, "--first-wet", "--json", *QUICK).stdout)
    assert {"reading", "low_limit", "high_limit", "too_low", "too_high"} <= set(record["lines"][0])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "Missing argument 'LOOP'"),
        (("--bench", "--first-wet"), "exclude each other"),
        (("--bench", "--json"), "needs the readings"),
        (("--bench", "--write", "x.toml"), "takes no LOOP"),
        (("LOOP", "--first-wet", "--measured", "r.toml"), "comes before any reading"),
        (("LOOP", "--bench"), "takes no LOOP"),
    ],
)
def test_options_that_do_not_go_together_are_refused(
    run, boathouse: str, arguments: tuple[str, ...], said: str
) -> None:
    result = run("fit", *(boathouse if word == "LOOP" else word for word in arguments))
    assert 2 == result.exit_code
    assert said in result.stderr
