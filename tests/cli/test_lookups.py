"""`sanitize tables`, `sanitize cautions`, `sanitize schema`."""

import json
from pathlib import Path

import pytest

from sanitize.basis.tables import model_table, model_table_names
from sanitize.loopfile.schema import json_schema
from sanitize.studies.cautions.joining import SOLVENT_CEMENT
from sanitize.studies.cautions.rules import RULES
from sanitize.studies.cloudy.health import all_cloudy_cautions
from sanitize.studies.day.cautions import all_day_cautions
from sanitize.studies.dosing.cautions import all_dosing_cautions
from sanitize.studies.faults.hazards import KINDS


def test_tables_lists_every_table(run) -> None:
    assert list(model_table_names()) == [line.split()[0] for line in run("tables").stdout.splitlines()[1:]]


@pytest.mark.parametrize("name", model_table_names())
def test_tables_name_shows_every_row_and_every_source(run, name: str) -> None:
    text = run("tables", name).stdout
    unwrapped = " ".join(text.split())
    for key, entry in model_table(name).entries.items():
        assert f"{' '.join(key)}: " in unwrapped
        assert not entry.source or f"\n[{entry.source}] " in text


def test_tables_name_unknown_exits_with_2_and_says_which_there_are(run) -> None:
    result = run("tables", "pipe_bore")
    assert (2, "") == (result.exit_code, result.stdout)
    assert result.stderr.startswith("Error: there is no table pipe_bore; there are ")


def test_cautions_lists_every_rule_and_who_decides(run) -> None:
    text = run("cautions").stdout
    codes = [*(rule.code for rule in RULES), SOLVENT_CEMENT.code, *(f"fault-{code}" for code in KINDS)]
    codes += [caution.code for caution in (*all_dosing_cautions(), *all_cloudy_cautions(), *all_day_cautions())]
    for code in codes:
        assert f"\n\n{code} (" in text
    assert len(codes) == " ".join(text.split()).count(" Who decides: ")


def test_cautions_units_us_speaks_of_feet(run) -> None:
    assert (False, True) == (" ft" in run("cautions").stdout, " ft" in run("cautions", "--units", "us").stdout)


def test_schema_is_that_of_the_loop_file(run) -> None:
    assert json_schema() == json.loads(run("schema").stdout)


@pytest.mark.parametrize("command", ["tables", "cautions", "schema"])
def test_output_option_writes_what_would_be_printed(run, tmp_path: Path, command: str) -> None:
    target = tmp_path / "out.txt"
    result = run(command, "-o", str(target))
    assert (0, "") == (result.exit_code, result.output)
    assert run(command).stdout == target.read_text(encoding="utf-8")
