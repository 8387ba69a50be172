"""`sanitize dose LOOP --upkeep`."""

import json
from pathlib import Path

import pytest

from tests.cli.test_claims import claims_in

DEMO = Path(__file__).resolve().parents[2] / "demos" / "boathouse_spring.toml"
TESTS = """[bathers]
per_day = 2
[[water_test]]
date = 2026-06-01
method = "drops"
free_chlorine = "3.2 mg/L"
[[water_test]]
date = 2026-06-02
method = "drops"
free_chlorine = "0.8 mg/L"
"""


@pytest.fixture
def june(tmp_path: Path) -> str:
    path = tmp_path / "june.toml"
    path.write_text(f"format = 1\nbased_on = {json.dumps(str(DEMO))}\n{TESTS}")
    return str(path)


def test_upkeep_tells_how_much_and_how_often(run, june: str) -> None:
    result = run("dose", june, "--upkeep")
    assert 0 == result.exit_code
    for word in ("A day takes", "Each day", "After a dip", "With ozone", "maine_144_202", "poison centre"):
        assert word in result.stdout
    assert [] == claims_in(result.output)


def test_upkeep_json_holds_figures_with_their_range(run, june: str) -> None:
    record = json.loads(run("dose", june, "--upkeep", "--json").stdout)
    assert (1, "upkeep", "free_chlorine") == (record["schema_version"], record["record"], record["item"])
    assert {"low", "nominal", "high"} == set(record["use_mgl_per_day"])


def test_upkeep_of_one_test_says_what_is_missing(run) -> None:
    result = run("dose", str(DEMO), "--upkeep")
    assert 2 == result.exit_code
    assert "two tests or more with free_chlorine and date" in result.stderr


def test_upkeep_and_procedure_exclude_each_other(run, june: str) -> None:
    assert 2 == run("dose", june, "--upkeep", "--procedure", "vomit").exit_code
    assert "it has no table" in run("dose", june, "--upkeep", "--csv").stderr
