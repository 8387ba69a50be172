"""`sanitize cloudy`: options, questions, files to take up again, exit codes, and bad input in one clear error."""

import json
from pathlib import Path
from types import SimpleNamespace

import pytest

from sanitize.cli import cloudy

FEW = ("--cases", "16")


def test_cloudy_text_ranks_causes_and_names_the_next_test(run, boathouse: str) -> None:
    result = run("cloudy", boathouse, "--saw", "bubbles_at_return", "--saw", "bubbles_stop_with_gas", *FEW)
    assert 0 == result.exit_code
    assert "1. Fine gas bubbles from the injector" in result.stdout
    assert "Test next" in result.stdout


def test_cloudy_json_goes_out_and_cautions_to_standard_error(run, boathouse: str) -> None:
    result = run("cloudy", boathouse, "--saw", "slime", "--json", *FEW)
    assert "cloudy" == json.loads(result.stdout)["record"]
    assert "DANGER" in result.stderr


def test_cloudy_strict_exits_with_1_on_a_danger_only(run, boathouse: str) -> None:
    assert 1 == run("cloudy", boathouse, "--saw", "faeces_or_vomit", "--strict", *FEW).exit_code
    assert 0 == run("cloudy", boathouse, "--saw", "foam", "--strict", *FEW).exit_code


def test_cloudy_unknown_and_contradictory_answers_are_one_error(run, boathouse: str) -> None:
    result = run("cloudy", boathouse, "--saw", "slimy", "--saw", "foam", "--not", "foam", *FEW)
    assert 2 == result.exit_code
    assert "slime (slime)" in result.stderr
    assert "saw and not seen at once" in result.stderr
    assert "" == result.stdout


def test_cloudy_problems_of_answers_options_and_file_come_at_once(run, boathouse: str) -> None:
    result = run("cloudy", boathouse, "--saw", "bubles", "--runs", "6", "--set", "tub.volume=3", *FEW)
    assert 2 == result.exit_code
    assert ["--saw", "--runs", '--set "tub.volume=3"'] == [
        line.removeprefix("Error: ") for line in result.stderr.splitlines() if line.startswith("Error: ")
    ]
    assert "bubbles_at_return" in result.stderr


def test_cloudy_reading_that_no_fault_explains_is_named(run, boathouse: str) -> None:
    result = run("cloudy", boathouse, "--set", "measured.pump_pressure=90 kPa", *FEW)
    assert "! No fault comes near the pump pressure" in result.stdout


def test_cloudy_asks_saves_and_takes_up_again(run, boathouse: str, tmp_path: Path) -> None:
    saved = str(tmp_path / "answers.toml")
    first = run("cloudy", boathouse, "--ask", "--save", saved, *FEW, input="n\nn\n?\nwhat\nn\ny\nq\n")
    assert 0 == first.exit_code
    assert "'what' is none of y, n, ? and q." in first.stderr
    assert first.stdout.startswith("Boathouse")
    text = Path(saved).read_text(encoding="utf-8")
    assert '"ozone_smell",' in text.split("unsure")[1]
    again = run("cloudy", boathouse, "--answers", saved, "--ask", "--save", saved, "--json", *FEW, input="y\n")
    answers = json.loads(again.stdout)["answers"]
    assert 2 == len(answers["saw"])
    assert 3 == len(answers["not_seen"])
    assert Path(saved).read_text(encoding="utf-8") != text


def test_cloudy_break_while_asking_keeps_the_answers(
    run, boathouse: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two answers, then Ctrl-C."""
    saved = tmp_path / "answers.toml"
    lines = iter(["n\n", "y\n"])

    def typed() -> str:
        try:
            return next(lines)
        except StopIteration:
            raise KeyboardInterrupt from None

    class Terminal:
        readline = staticmethod(typed)

    monkeypatch.setattr(cloudy, "sys", SimpleNamespace(stdin=Terminal))
    result = run("cloudy", boathouse, "--ask", "--save", str(saved), *FEW)
    assert 0 != result.exit_code
    text = saved.read_text(encoding="utf-8")
    assert '"illness_after_bathing"' in text[text.index("not_seen") :]
    assert '"faeces_or_vomit"' in text[: text.index("not_seen")]


def test_cloudy_list_needs_no_loop(run) -> None:
    result = run("cloudy", "--list")
    assert 0 == result.exit_code
    assert "\njar_clears_upward\n" in result.stdout


def test_cloudy_own_judgement_moves_the_rank_and_its_mistakes_are_told(run, boathouse: str, tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text("[weight]\ncopper = 20\n", encoding="utf-8")
    result = run("cloudy", boathouse, "--judgement", str(mine), "--json", *FEW)
    record = json.loads(result.stdout)
    assert ("copper", 1) == (record["causes"][0]["cause"], record["own_numbers_count"])
    mine.write_text("[weight]\ncoper = 20\n", encoding="utf-8")
    assert "copper" in run("cloudy", boathouse, "--judgement", str(mine), *FEW).stderr


def test_cloudy_readings_and_hours_reach_the_answer(run, boathouse: str, tmp_path: Path) -> None:
    readings = tmp_path / "read.toml"
    readings.write_text('[measured]\nbucket_flow = "20 L/min"\npump_inlet_pressure = "2 kPa"\n', encoding="utf-8")
    result = run("cloudy", boathouse, "--measured", str(readings), "--runs", "1 h", *FEW)
    assert "By the readings alone" in result.stdout
    assert "the pump runs 1 h" in result.stdout


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--runs", "6"), "--runs"),
        (("--runs", "30 h"), "lies outside"),
        (("--water-age", "old"), "--water-age"),
        (("--cases", "17"), "no power of two"),
        (("--picture", "a.gif"), ".png"),
        (("--answers", "no-such-file.toml"), "there is no such file"),
        (("--set", "measured.bucket_flow=30"), "has no unit"),
    ],
)
def test_cloudy_bad_option_exits_with_2(run, boathouse: str, options: tuple[str, ...], said: str) -> None:
    result = run("cloudy", boathouse, *options)
    assert 2 == result.exit_code
    assert said in result.stderr


@pytest.mark.parametrize("options", [("-o", "{loop}"), ("--save", "{loop}"), ("-o", "a.toml", "--save", "a.toml")])
def test_cloudy_writes_over_nothing_that_it_reads(run, loop: Path, options: tuple[str, ...]) -> None:
    result = run("cloudy", str(loop), *(option.format(loop=loop) for option in options), *FEW)
    assert 2 == result.exit_code
    assert "file" in result.stderr


def test_cloudy_asks_not_where_standard_input_is_the_loop(run) -> None:
    result = run("cloudy", "-", "--ask", input="loop = []\n")
    assert 2 == result.exit_code
    assert "--ask reads the answers from the terminal" in result.stderr


def test_cloudy_draws_a_picture(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "ranking.svg"
    result = run("cloudy", boathouse, "--saw", "foam", "--picture", str(target), "-o", str(tmp_path / "a.txt"), *FEW)
    assert 0 == result.exit_code
    assert "lotion or detergent" in target.read_text(encoding="utf-8")
