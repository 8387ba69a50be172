"""The group: help, exit codes of what goes wrong around a command, and what is imported when."""

import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
from click.testing import Result

import sanitize
from sanitize.basis.errors import NoSolutionError
from sanitize.cli import new
from sanitize.cli.group import SHORT_HELP

COMMANDS = list(SHORT_HELP)
HEAVY = ("numpy", "scipy", "pydantic", "pint", "matplotlib", "pandas")


def loaded_after(*arguments: str) -> set[str]:
    """The heavy libraries that a command has imported when it ends."""
    code = (
        "import sys\nfrom sanitize.cli import main\n"
        f"main({list(arguments)!r}, standalone_mode=False)\n"
        f"print(*(name for name in {HEAVY!r} if name in sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stderr.splitlines()[-1].split()) if done.stderr.strip() else set()


def test_help_names_every_command_with_its_short_help(run) -> None:
    lines = run("--help").stdout.splitlines()
    assert [f"  {name:<9} {text}".rstrip() for name, text in SHORT_HELP.items()] == lines[
        lines.index("Commands:") + 1 :
    ]


@pytest.mark.parametrize("name", COMMANDS)
def test_command_help_begins_with_the_short_help_of_the_group(name: str) -> None:
    text = import_module(f"sanitize.cli.{name}").command.help
    assert SHORT_HELP[name] == text.split("\n")[0]


@pytest.mark.parametrize("name", COMMANDS)
def test_command_help_exits_with_0(run, name: str) -> None:
    assert 0 == run(name, "--help").exit_code


def test_help_imports_no_heavy_library() -> None:
    assert set() == loaded_after("--help")


def test_suction_without_a_picture_does_not_import_matplotlib(boathouse: str) -> None:
    loaded = loaded_after("suction", boathouse, "--cases", "16", "-o", os.devnull)
    assert "matplotlib" not in loaded
    assert "numpy" in loaded


def test_version_is_that_of_the_package(run) -> None:
    assert f"sanitize, version {sanitize.__version__}\n" == run("--version").stdout


def test_command_unknown_exits_with_2(run) -> None:
    result = run("suctoin")
    assert (2, "") == (result.exit_code, result.stdout)
    assert "No such command 'suctoin'" in result.stderr


def test_loop_without_solution_exits_with_3_and_says_why(run, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> str:
        raise NoSolutionError("No water moves: the pump's head is below the rise.")

    monkeypatch.setattr(new.jobs, "starter_file", refuse)
    result = run("new", "-")
    expected = (3, "", "Error: No water moves: the pump's head is below the rise.\n")
    assert expected == (result.exit_code, result.stdout, result.stderr)


def test_interruption_exits_with_130_and_says_nothing(run, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt() -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr(new.jobs, "starter_file", interrupt)
    result: Result = run("new", "-")
    assert (130, "") == (result.exit_code, result.output)


def test_reader_gone_exits_with_141_and_says_nothing() -> None:
    """As a Unix tool in front of `head`; the reading end is closed before the command writes."""
    reading, writing = os.pipe()
    os.close(reading)
    code = "from sanitize.cli import main; main(['new', '-'])"
    with os.fdopen(writing, "w") as stdout:
        done = subprocess.run(
            [sys.executable, "-c", code], stdout=stdout, stderr=subprocess.PIPE, text=True, check=False
        )
    assert (141, "") == (done.returncode, done.stderr)


def test_letters_that_the_screen_cannot_show_are_replaced(tmp_path: Path, boathouse: str) -> None:
    named = tmp_path / "named.toml"
    named.write_text(Path(boathouse).read_text(encoding="utf-8").replace("larch", "Lärche"), encoding="utf-8")
    code = f"from sanitize.cli import main; main(['suction', {str(named)!r}, '--cases', '0'])"
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    done = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=False)
    assert (0, "Boathouse L?rche barrel", "") == (done.returncode, done.stdout.splitlines()[0], done.stderr)


def test_screen_that_takes_nothing_exits_with_2(tmp_path: Path) -> None:
    full = Path("/dev/full")
    code = "from sanitize.cli import main; main(['new', '-'])"
    with full.open("w") as stdout:
        done = subprocess.run(
            [sys.executable, "-c", code], stdout=stdout, stderr=subprocess.PIPE, text=True, check=False
        )
    assert 2 == done.returncode
    assert "Error: standard output\n  found:    it cannot be written: No space left on device\n" == done.stderr
