"""`sanitize dose LOOP --procedure NAME`."""

import json


def test_procedure_is_a_list_to_tick(run, boathouse: str) -> None:
    result = run("dose", boathouse, "--procedure", "faeces")
    assert 0 == result.exit_code
    assert result.stdout.count("[ ] ") == 11
    for word in ("Whom to ask", "WAIT: 8.0 h or more", "cdc_faecal_incident", "(common practice)"):
        assert word in result.stdout


def test_procedure_json_holds_waits_and_standing(run, boathouse: str) -> None:
    record = json.loads(run("dose", boathouse, "--procedure", "biofilm-purge", "--json").stdout)
    assert (1, "procedure", "biofilm-purge") == (record["schema_version"], record["record"], record["kind"])
    assert {"text", "wait_s", "standing", "source"} == set(record["actions"][0])


def test_procedure_in_us_units_speaks_of_gallons(run, boathouse: str) -> None:
    assert " gal" in run("dose", boathouse, "--procedure", "first-fill", "--units", "us").stdout


def test_procedure_that_does_not_exist_names_those_that_do(run, boathouse: str) -> None:
    result = run("dose", boathouse, "--procedure", "magic")
    assert 2 == result.exit_code
    assert "first-fill" in result.stderr


def test_procedure_has_no_table(run, boathouse: str) -> None:
    result = run("dose", boathouse, "--procedure", "blood", "--csv")
    assert 2 == result.exit_code
    assert "it has no table" in result.stderr
