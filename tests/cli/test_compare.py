"""`sanitize compare`."""

import json
from pathlib import Path

import pytest

FEW = ("--cases", "16")


@pytest.fixture
def other(tmp_path: Path, loop: Path) -> Path:
    """A file beside the loop that starts from it."""
    path = tmp_path / "other.toml"
    path.write_text('format = 1\nbased_on = "loop.toml"\n[change."return hose"]\nlength = "0.9 m"\n', encoding="utf-8")
    return path


def test_compare_prints_what_differs_and_what_it_does(run, loop: Path, other: Path) -> None:
    result = run("compare", str(loop), str(other), *FEW)
    assert (0, "") == (result.exit_code, result.stderr)
    assert '\nreturn hose\n  length: A "1.5 m"; B "0.9 m"\n' in result.stdout


def test_compare_json_goes_to_standard_output_and_words_for_people_to_standard_error(
    run, loop: Path, other: Path
) -> None:
    result = run("compare", str(loop), str(other), "--json", *FEW)
    assert "comparison" == json.loads(result.stdout)["record"]
    assert result.stderr.startswith("DANGER")


def test_compare_csv_into_a_file(run, loop: Path, other: Path, tmp_path: Path) -> None:
    target = tmp_path / "table.csv"
    result = run("compare", str(loop), str(other), "--csv", "-o", str(target), *FEW)
    assert (0, "") == (result.exit_code, result.stdout)
    assert target.read_text(encoding="utf-8").startswith("label,path,title,verdict,")


def test_compare_with_makes_one_more_file_of_the_first(run, loop: Path) -> None:
    changed = ("--with", "return hose.length=0.9 m", "--with", "injector.height=0.85 m")
    record = json.loads(run("compare", str(loop), *changed, "--json", *FEW).stdout)
    assert [str(loop), f"{loop} with {changed[1]}, {changed[3]}"] == [file["path"] for file in record["files"]]
    assert [("height", '"0.85 m"'), ("length", '"0.9 m"')] == sorted(
        (item["key"], item["values"][1]) for item in record["differences"]
    )


def test_compare_set_holds_for_every_file(run, loop: Path, other: Path) -> None:
    record = json.loads(run("compare", str(loop), str(other), "--set", "tub.water_level=0.85 m", "--json", *FEW).stdout)
    assert ["return hose"] == [place for item in record["differences"] for place in item["places"]]


def test_compare_answers_in_the_units_of_the_first_file_or_those_asked_for(run, loop: Path, other: Path) -> None:
    other.write_text(other.read_text(encoding="utf-8").replace("[change", 'units = "us"\n[change'), encoding="utf-8")
    assert "gal/min" not in run("compare", str(loop), str(other), *FEW).stdout
    text = run("compare", str(other), str(loop), *FEW).stdout
    assert ("gal/min" in text, "L/min (" in text) == (True, False)


def test_compare_units_holds_for_all_and_strict_exits_with_1_at_a_danger(run, loop: Path, other: Path) -> None:
    result = run("compare", str(loop), str(other), "--units", "us", "--strict", *FEW)
    assert 1 == result.exit_code
    assert "gal/min" in result.stdout


def test_compare_names_every_file_that_is_wrong(run, loop: Path, other: Path, tmp_path: Path) -> None:
    other.write_text(other.read_text(encoding="utf-8").replace("0.9 m", "0.9"), encoding="utf-8")
    third = tmp_path / "third.toml"
    third.write_text(loop.read_text(encoding="utf-8").replace('water_level = "0.80 m"', ""), encoding="utf-8")
    result = run("compare", str(loop), str(other), str(third))
    assert (2, "") == (result.exit_code, result.stdout)
    said = " ".join(result.stderr.split())
    assert f'Error: {other}: [change."return hose"] length found:' in said
    assert f"Error: {third}: [tub] water_level found: is missing" in said


def test_compare_names_every_file_that_cannot_be_read(run, loop: Path, tmp_path: Path) -> None:
    missing = [str(tmp_path / name) for name in ("one.toml", "two.toml")]
    result = run("compare", missing[0], str(loop), missing[1])
    assert 2 == result.exit_code
    errors = [line for line in result.stderr.splitlines() if line.startswith("Error")]
    assert [f"Error: {path}" for path in missing] == errors


@pytest.mark.parametrize("option", ["--with", "--set"])
def test_compare_names_a_wrong_value_by_its_option(run, loop: Path, option: str) -> None:
    result = run("compare", str(loop), "--with", "pump.height=0.2 m", option, "return hose.length 3 m")
    said = " ".join(result.stderr.split())
    assert 2 == result.exit_code
    assert f'Error: {loop}: {option} "return hose.length 3 m" found: is no setting' in said
    assert f'write: {option} "return hose.length=2 m"' in said


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("LOOP",), "give two loop files or more, or one and --with NAME.KEY=VALUE."),
        (
            ("LOOP", "--with", "units=us"),
            "--with cannot set the units of one file: all answer in the same; use --units.",
        ),
        (("LOOP", "LOOP", "--json", "--csv"), "--json and --csv exclude each other."),
        (("LOOP", "LOOP", "-o", "LOOP"), "the loop files and -o FILE must be different files."),
        (("-", "-"), "standard input can be only one of the files."),
        (("LOOP",) * 13, "at most 12 loop files can stand side by side."),
        (("LOOP", "LOOP", "--cases", "17"), "17 is neither 0 nor a power of two"),
    ],
)
def test_compare_wrong_use_exits_with_2(run, loop: Path, arguments: tuple[str, ...], said: str) -> None:
    result = run("compare", *(str(loop) if word == "LOOP" else word for word in arguments))
    assert 2 == result.exit_code
    assert said in " ".join(result.stderr.split())


def test_compare_reads_one_loop_from_standard_input(run, loop: Path) -> None:
    result = run("compare", str(loop), "-", "--cases", "0", input=loop.read_bytes())
    assert 0 == result.exit_code
    assert "Nothing differs" in result.stdout
