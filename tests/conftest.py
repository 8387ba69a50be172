"""What tests of several parts share: the published values that only tests read."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

CHECKS = Path(__file__).resolve().parents[1] / "reference_tables" / "checks"


@pytest.fixture(scope="session")
def check_rows() -> Callable[[str], list[dict[str, str]]]:
    """The rows of a file of reference_tables/checks by its name without ending; numbers are still text."""

    def read(name: str) -> list[dict[str, str]]:
        lines = (CHECKS / f"{name}.csv").read_text(encoding="utf-8").splitlines()
        assert lines[0].startswith("# version ")
        return list(csv.DictReader(lines[1:], strict=True))

    return read
