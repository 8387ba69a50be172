"""README.md: every command shown is run, its output compared; run this file itself to renew the shown output.

python tests/test_readme.py
"""

import itertools
import json
import os
import re
import shlex
import shutil
import tempfile
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import get_args

import pytest
from click.testing import CliRunner

from sanitize.cli import main
from sanitize.cli.group import SHORT_HELP
from sanitize.loopfile.field_list import field_list
from sanitize.studies.suction.result import Verdict
from sanitize.studies.suction.study import DOES_NOT_DRAW_TO_RATIO, DRAWS_FROM_RATIO

ROOT = Path(__file__).resolve().parents[1]
README = ROOT / "README.md"
LEFT_OUT = "..."
FIELDS = re.compile(r"(?<=<!-- fields -->\n\n).*?(?=<!-- end of fields -->)", re.DOTALL)
DEMOS = re.compile(r"(?<=<!-- demos -->\n\n).*?(?=<!-- end of demos -->)", re.DOTALL)
BLOCK = re.compile(
    r"(?:<!-- file: (?P<file>\S+) -->\n\n)?```(?P<language>\w+)\n(?P<body>.*?)^```$", re.DOTALL | re.MULTILINE
)


def text_of_readme() -> str:
    return README.read_text(encoding="utf-8")


@contextmanager
def folder_with_the_demos() -> Iterator[Path]:
    """Be in a folder that holds what the checkout's root holds for a user, and may be written to."""
    before = Path.cwd()
    with tempfile.TemporaryDirectory() as name:
        shutil.copytree(ROOT / "demos", Path(name) / "demos")
        os.chdir(name)
        try:
            yield Path(name)
        finally:
            os.chdir(before)


def output_of(command: str) -> list[str]:
    """What a terminal would show, with the standard error in its place."""
    words = shlex.split(command)
    assert words[0] == "sanitize", f"README shows a command that is not ours: {command}"
    result = CliRunner().invoke(main, words[1:], prog_name="sanitize", terminal_width=80)
    assert result.exception is None or isinstance(result.exception, SystemExit), command
    return [line.rstrip() for line in result.output.splitlines()]


def shortened(lines: list[str], shown: list[str]) -> list[str]:
    """The output, left out where the README leaves it out: as many lines before and behind as it shows."""
    if LEFT_OUT not in shown:
        return lines
    at = shown.index(LEFT_OUT)
    behind = len(shown) - at - 1
    return [*lines[:at], LEFT_OUT, *lines[len(lines) - behind :]]


def demo_list() -> str:
    """A row for each demo: the sentence at its head, and the verdict that it gets."""
    rows = ["| file | what it shows | verdict |", "| --- | --- | --- |"]
    for path in sorted(Path("demos").glob("*.toml")):
        head = itertools.takewhile(lambda line: line.startswith("#"), path.read_text(encoding="utf-8").splitlines())
        shows = " ".join(line.removeprefix("#").strip() for line in head)
        result = CliRunner().invoke(main, ["suction", path.as_posix(), "--json"])
        rows.append(f"| `{path.as_posix()}` | {shows} | `{json.loads(result.stdout)['verdict']}` |")
    return "\n".join(rows) + "\n"


def renewed(text: str) -> str:
    """The README with the output of every command and the list of the fields as they are now."""

    def block(match: re.Match[str]) -> str:
        if match["file"]:
            Path(match["file"]).write_text(match["body"], encoding="utf-8")
        if match["language"] != "console":
            return match[0]
        lines: list[str] = []
        for part in re.split(r"^(?=\$ )", match["body"], flags=re.MULTILINE)[1:]:
            command, *shown = part.splitlines()
            lines += [command, *shortened(output_of(command.removeprefix("$ ")), shown)]
        return "```console\n" + "\n".join(lines) + "\n```"

    with folder_with_the_demos():
        text = BLOCK.sub(block, text)
        text = DEMOS.sub(lambda _: demo_list() + "\n", text)
    return FIELDS.sub(lambda _: field_list() + "\n", text)


def line_below(marker: str) -> str:
    """The one line to paste below a marker."""
    (body,) = re.findall(rf"^<!-- {marker} -->\n\n```sh\n(.*?)^```$", text_of_readme(), re.DOTALL | re.MULTILINE)
    (line,) = body.splitlines()
    return str(line)


@pytest.fixture(scope="module")
def commands() -> list[str]:
    """Every command of the README's blocks, without its prompt."""
    return re.findall(r"^\$ (.*)$", text_of_readme(), re.MULTILINE)


def test_readme_output_and_fields_are_those_of_the_program() -> None:
    assert renewed(text_of_readme()).splitlines() == text_of_readme().splitlines()


def test_readme_shows_every_command(commands: list[str]) -> None:
    assert set(SHORT_HELP) <= {shlex.split(command)[1] for command in commands}


def test_readme_shows_no_command_twice(commands: list[str]) -> None:
    assert len(set(commands)) == len(commands)


def test_readme_names_no_command_that_does_not_exist() -> None:
    named = set(re.findall(r"`sanitize ([a-z]+)", text_of_readme()))
    assert set() == named - set(SHORT_HELP)


def test_readme_main_job_runs_a_demo_that_exists() -> None:
    words = shlex.split(line_below("main job"))
    assert ["python3", "-m", "venv"] == words[:3]
    assert (ROOT / words[-1]).is_file()


def test_readme_test_command_installs_the_extra_that_holds_pytest() -> None:
    line = line_below("test command")
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["optional-dependencies"]
    (extra,) = re.findall(r"\.\[(\w+)\]", line)
    assert line.startswith("python3 -m venv ")
    assert line.endswith("-m pytest")
    assert any(name.startswith("pytest>") for name in extras[extra])


def test_readme_verdicts_have_the_words_and_limits_of_the_study() -> None:
    rows = dict(re.findall(r"^\| `(\w+)` \| (.*?) \|", text_of_readme(), re.MULTILINE))
    assert set(get_args(Verdict)) <= set(rows)
    assert f"at least {DRAWS_FROM_RATIO:.0%} of".replace("%", " %") in rows["draws"]
    assert f"at most {DOES_NOT_DRAW_TO_RATIO:.0%} of".replace("%", " %") in rows["does_not_draw"]


def test_readme_has_one_sentence_on_a_line() -> None:
    prose = FIELDS.sub("", BLOCK.sub("", text_of_readme()))
    two = [line for line in prose.splitlines() if re.search(r"[a-z`)][.?!] [A-Z]", line) and not line.startswith("|")]
    assert [] == two


def test_shortened_keeps_as_many_lines_as_are_shown() -> None:
    assert ["a", LEFT_OUT, "d"] == shortened(["a", "b", "c", "d"], ["x", LEFT_OUT, "y"])
    assert ["a", LEFT_OUT] == shortened(["a", "b", "c"], ["x", LEFT_OUT])
    assert ["a", "b"] == shortened(["a", "b"], ["x"])


if __name__ == "__main__":
    README.write_text(renewed(text_of_readme()), encoding="utf-8")
