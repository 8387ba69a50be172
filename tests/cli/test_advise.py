"""`sanitize suction LOOP --advise` and `--size-throat`: text, JSON, CSV, picture, exit codes, what they refuse."""

import json
from pathlib import Path

import pytest

from sanitize import jobs

FEW = ("--cases", "16")


def test_advise_text_ranks_changes_of_the_loop(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--advise", *FEW)
    assert 0 == result.exit_code
    assert "One change" in result.stdout
    assert "Turn the handle of throttle valve to 60 deg" in result.stdout


def test_advise_json_says_its_record_and_keeps_warnings_apart(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--advise", "--json", *FEW)
    record = json.loads(result.stdout)
    assert ("advice", 16) == (record["record"], record["cases_count"])
    assert record["changes"]
    assert "DANGER" in result.stderr


@pytest.mark.parametrize(
    ("option", "start"), [("--advise", "list,changes,words,"), ("--size-throat", "throat_m,mark,")]
)
def test_advise_and_size_throat_csv_is_a_table_with_warnings_apart(
    run, boathouse: str, option: str, start: str
) -> None:
    result = run("suction", boathouse, option, "--csv", *FEW)
    assert (0, True) == (result.exit_code, result.stdout.startswith(start))
    assert "DANGER" in result.stderr


def test_advise_strict_exits_with_1_on_a_danger(run, boathouse: str) -> None:
    assert 1 == run("suction", boathouse, "--advise", "--strict", *FEW).exit_code


def test_size_throat_gives_text_json_and_a_picture(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "throat.svg"
    result = run("suction", boathouse, "--size-throat", "--picture", str(target), *FEW)
    assert (0, True) == (result.exit_code, "Which throat" in result.stdout)
    assert "gas and water over the throat" in target.read_text(encoding="utf-8")
    record = json.loads(run("suction", boathouse, "--size-throat", "--json", *FEW).stdout)
    assert ("throats", pytest.approx(0.008)) == (record["record"], record["here_m"])


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--advise", "--csv", "--json"), "exclude each other"),
        (("--advise", "--picture", "loop.png"), "--advise has no picture"),
        (("--size-throat", "--picture", "a.png", "--view", "gas"), "--size-throat has no --view"),
        (("--advise", "--faults"), "exclude each other"),
        (("--advise", "--size-throat"), "exclude each other"),
    ],
)
def test_options_that_do_not_go_together_exit_with_2_and_write_nothing(
    run, boathouse: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, options: tuple[str, ...], told: str
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run("suction", boathouse, *options)
    assert 2 == result.exit_code
    assert told in result.stderr
    assert [] == list(tmp_path.iterdir())


def test_advice_of_a_loop_without_injector_is_an_input_error(run, tmp_path: Path) -> None:
    loop = tmp_path / "loop.toml"
    loop.write_text(jobs.starter_file(), encoding="utf-8")
    text = "\n".join(line for line in loop.read_text(encoding="utf-8").splitlines() if '"injector"' not in line)
    loop.write_text(text, encoding="utf-8")
    assert 2 == run("suction", str(loop), "--advise", *FEW).exit_code
