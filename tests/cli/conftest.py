"""What the tests of the commands share."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from sanitize.cli import main

ROOT = Path(__file__).resolve().parents[2]
Run = Callable[..., Result]


@pytest.fixture(scope="session")
def run() -> Run:
    """Call a command in this process; what stands on standard input may be given as `input`."""

    def call(*arguments: str, **more: str | bytes) -> Result:
        return CliRunner().invoke(main, arguments, prog_name="sanitize", terminal_width=80, **more)  # type: ignore[arg-type]

    return call


@pytest.fixture(scope="session")
def boathouse() -> str:
    """Path of a loop file that reads without problems and whose answer holds a danger."""
    return str(ROOT / "demos" / "boathouse.toml")


@pytest.fixture
def loop(tmp_path: Path, boathouse: str) -> Path:
    """A copy of that file in a folder of its own."""
    copy = tmp_path / "loop.toml"
    copy.write_bytes(Path(boathouse).read_bytes())
    return copy
