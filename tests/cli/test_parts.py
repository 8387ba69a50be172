"""`sanitize parts`."""

import json
from pathlib import Path

import pytest


def test_parts_prints_the_list(run, boathouse: str) -> None:
    result = run("parts", boathouse)
    assert (0, "") == (result.exit_code, result.stderr)
    assert "\nTo buy\n------\n" in result.stdout


def test_parts_json_goes_to_standard_output_and_words_for_people_to_standard_error(run, boathouse: str) -> None:
    result = run("parts", boathouse, "--json")
    assert "parts" == json.loads(result.stdout)["record"]
    assert "Solvent cement" in result.stderr


def test_parts_csv_into_a_file(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "list.csv"
    result = run("parts", boathouse, "--csv", "-o", str(target))
    assert (0, "") == (result.exit_code, result.stdout)
    assert target.read_text(encoding="utf-8").startswith("list,item,size,")


def test_parts_set_states_an_end(run, boathouse: str) -> None:
    stated = ("--set", "pump.inlet_end=socket", "--set", "pump.sealant=none")
    text = " ".join(run("parts", boathouse, *stated).stdout.split())
    assert "Between: flexible hose and pump." not in text
    assert "Flexible hose and pump are joined without solvent cement" in text
    assert "Between: flexible hose and pump." in " ".join(run("parts", boathouse).stdout.split())


def test_parts_units_us(run, boathouse: str) -> None:
    assert (False, True) == tuple(" ft " in run("parts", boathouse, *units).stdout for units in ((), ("--units", "us")))


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--json", "--csv"), "--json and --csv exclude each other."),
        (("-o", "LOOP"), "the loop file and -o FILE must be different files."),
    ],
)
def test_parts_wrong_use_exits_with_2(run, loop: Path, arguments: tuple[str, ...], said: str) -> None:
    result = run("parts", str(loop), *(str(loop) if word == "LOOP" else word for word in arguments))
    assert 2 == result.exit_code
    assert said in result.stderr


def test_parts_of_a_wrong_file_exits_with_2(run, loop: Path) -> None:
    loop.write_text('format = 1\nloop = []\n[tub]\nvolume = "1 L"\n', encoding="utf-8")
    assert 2 == run("parts", str(loop)).exit_code
