"""`sanitize dose`."""

import json
from pathlib import Path

import pytest

DEMO = str(Path(__file__).resolve().parents[2] / "demos" / "boathouse_spring.toml")
ON = ("--on", "2026-04-12")


def test_dose_prints_the_steps(run) -> None:
    result = run("dose", DEMO, *ON)
    assert (0, "") == (result.exit_code, result.stderr)
    assert "\nThe steps, in their order\n" in result.stdout


def test_dose_json_goes_to_standard_output_and_words_for_people_to_standard_error(run) -> None:
    result = run("dose", DEMO, *ON, "--json")
    assert "dose" == json.loads(result.stdout)["record"]
    assert "poison gas" in result.stderr


def test_dose_csv_into_a_file(run, tmp_path: Path) -> None:
    target = tmp_path / "steps.csv"
    result = run("dose", DEMO, *ON, "--csv", "-o", str(target))
    assert (0, "") == (result.exit_code, result.stdout)
    assert target.read_text(encoding="utf-8").startswith("number,product,")


def test_dose_picture_is_written_beside_the_answer(run, tmp_path: Path) -> None:
    target = tmp_path / "water.svg"
    assert 0 == run("dose", DEMO, *ON, "--picture", str(target)).exit_code
    assert "free chlorine [mg/L]" in target.read_text(encoding="utf-8")


def test_dose_strict_exits_with_1_on_a_danger(run) -> None:
    assert 1 == run("dose", DEMO, *ON, "--strict").exit_code


def test_dose_of_an_old_test_exits_with_2_and_says_how_old(run) -> None:
    result = run("dose", DEMO, "--on", "2026-05-12")
    assert 2 == result.exit_code
    assert "the latest test is 30 days old" in result.stderr
    assert 0 == run("dose", DEMO, "--on", "2026-05-12", "--max-age", "60").exit_code


def test_dose_without_a_day_asks_the_clock(run) -> None:
    result = run("dose", DEMO, "--set", "water_test.date=2020-01-01")
    assert 2 == result.exit_code
    assert "days old" in result.stderr


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        (("water_test.total_chlorine=0.1 mg/L",), "lies below the free chlorine"),
        (("water_test.ph=75",), "75 lies outside the limits"),
        (("water_test.peroxide=30 mg/L",), "the two destroy each"),
        (("product.product=hydrogen peroxide",), "strength_percent"),
    ],
)
def test_dose_of_a_wrong_test_exits_with_2(run, settings: tuple[str, ...], said: str) -> None:
    result = run("dose", DEMO, *ON, *(word for setting in settings for word in ("--set", setting)))
    assert 2 == result.exit_code
    assert said in result.stderr
    assert "Traceback" not in result.stderr


def test_dose_of_a_tub_without_a_test_says_what_to_write(run, boathouse: str) -> None:
    result = run("dose", boathouse)
    assert 2 == result.exit_code
    assert "[[water_test]]" in result.stderr
    assert 'uses = "chlorine"' in result.stderr


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--json", "--csv"), "--json and --csv exclude each other."),
        (("-o", DEMO), "the loop file, -o FILE and --picture FILE must be different files."),
        (("--picture", "water.pdf"), "water.pdf ends neither in .png nor in .svg."),
        (("--on", "spring"), "spring is no day"),
    ],
)
def test_dose_wrong_use_exits_with_2(run, arguments: tuple[str, ...], said: str) -> None:
    result = run("dose", DEMO, *arguments)
    assert 2 == result.exit_code
    assert said in result.stderr
