"""`sanitize suction LOOP --faults`: text, JSON, exit codes, and what it does not go with."""

import json
from pathlib import Path

import pytest

FEW = ("--cases", "16")


def test_faults_text_names_each_fault_and_what_is_seen(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--faults", *FEW)
    assert result.exit_code == 0
    for words in ("return", "filter", "check valve", "pump", "gas line"):
        assert words in result.stdout


def test_faults_json_has_a_row_for_every_fault_with_ranges(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--faults", "--json", *FEW)
    record = json.loads(result.stdout)
    assert record["record"] == "faults"
    assert len(record["faults"]) >= 12
    assert result.stderr


def test_faults_strict_exits_with_1_on_a_danger(run, boathouse: str) -> None:
    assert run("suction", boathouse, "--faults", "--strict", *FEW).exit_code == 1


def test_faults_csv_has_a_row_for_each_fault_with_warnings_apart(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--faults", "--csv", *FEW)
    assert result.stdout.startswith("fault,severity,level,water_moves,flow_low_m3s,")
    assert "\nreturn shut,danger," in result.stdout
    assert "DANGER" in result.stderr


def test_faults_with_picture_exits_with_2_and_writes_nothing(
    run, boathouse: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run("suction", boathouse, "--faults", "--picture", "loop.png")
    assert result.exit_code == 2
    assert "--faults has no picture" in result.stderr
    assert list(tmp_path.iterdir()) == []
