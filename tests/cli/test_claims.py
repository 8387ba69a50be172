"""No output calls water, air or a tub safe or sanitized."""

import itertools
import re
from pathlib import Path
from typing import get_args

import pytest

from sanitize import jobs
from sanitize.basis.tables import model_table_names
from sanitize.cli.group import SHORT_HELP
from sanitize.studies.procedures.result import Kind

DEMOS = sorted((Path(__file__).resolve().parents[2] / "demos").glob("*.toml"))
WATER = DEMOS[0].parent / "boathouse_spring.toml"
DAYS = [path for path in DEMOS if path.stem in ("boathouse", "guest_house_day")]
CLAIMS = re.compile(
    r"\b(safe|safely|safer|sanitized|sanitised|sterile|sterilized|sterilised|disinfected|purified|harmless"
    r"|(free|clear) of germs|germ-free)\b",
    re.IGNORECASE,
)
FORMS = ((), ("--json",), ("--csv",), ("--units", "us"))
OTHERS = ("--advise", "--size-throat")
COMMANDS = [
    *(("suction", str(path), "--cases", "16") for path in DEMOS),
    *(("suction", str(path), "--cases", "16", *form) for path, form in itertools.product(DEMOS[::4], FORMS[1:])),
    *(("suction", str(path), "--cases", "16", other) for path, other in itertools.product(DEMOS[::3], OTHERS)),
    *(("suction", str(path), "--cases", "16", "--lasts") for path in DEMOS[::4]),
    ("compare", *map(str, DEMOS[::3]), "--cases", "16"),
    *(("compare", str(DEMOS[-1]), str(DEMOS[1]), "--cases", "16", *form) for form in FORMS),
    *(("parts", str(path)) for path in DEMOS),
    *(("parts", str(path), *form) for path, form in itertools.product(DEMOS[::4], FORMS[1:])),
    *(("fit", str(path), "--first-wet", "--cases", "64") for path in DEMOS[:4]),
    *(("dose", str(DEMOS[0]), "--procedure", name) for name in get_args(Kind)),
    ("fit", "--bench"),
    ("fit", str(DEMOS[0]), "--set", "measured.bucket_flow=30 L/min", "--cases", "64"),
    *(("hours", str(path), "--cases", "16") for path in DEMOS),
    *(("hours", str(path), "--cases", "16", *form) for form in FORMS[1:] for path in DEMOS if path.stem == "icehouse"),
    *(("ozone", str(path), "--cases", "16") for path in DEMOS),
    *(("ozone", str(path), "--cases", "16", *form) for form in FORMS[1:] for path in DEMOS if path.stem == "bathroom"),
    *(("dose", str(WATER), "--on", "2026-04-12", *form) for form in FORMS),
    *(("cloudy", str(path), "--cases", "16", "--saw", "slime", "--saw", "brown") for path in DEMOS[:3]),
    ("cloudy", str(DEMOS[0]), "--cases", "16", "--saw", "no_vacuum", "--json"), ("cloudy", "--list"),
    *(("day", str(path), "--cases", "16", "--days", "1", *form) for path, form in itertools.product(DAYS, FORMS)),
    *(("hours", str(path), "--cases", "16", "--csv", "--plan") for path in DEMOS if path.stem == "icehouse"),
    *(("tables", name) for name in model_table_names()),
    ("tables",), ("cautions",), ("cautions", "--units", "us"), ("schema",), ("new", "-"), ("--help",),
    *((name, "--help") for name in SHORT_HELP),
]  # fmt: skip


def claims_in(text: str) -> list[str]:
    return [match[0] for match in CLAIMS.finditer(text)]


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: " ".join(Path(word).name for word in command))
def test_output_claims_nothing(run, command: tuple[str, ...]) -> None:
    result = run(*command)
    assert (0, []) == (result.exit_code, claims_in(result.output))


@pytest.mark.parametrize("demo", DEMOS[::4], ids=lambda path: path.stem)
@pytest.mark.parametrize("view", jobs.VIEWS)
def test_picture_claims_nothing(run, tmp_path: Path, demo: Path, view: str) -> None:
    target = tmp_path / "loop.svg"
    assert 0 == run("suction", str(demo), "--cases", "16", "--picture", str(target), "--view", view).exit_code
    assert [] == claims_in(target.read_text(encoding="utf-8"))


def test_picture_of_a_day_claims_nothing(run, tmp_path: Path) -> None:
    target = tmp_path / "day.svg"
    assert 0 == run("day", str(DAYS[0]), "--cases", "16", "--days", "1", "--picture", str(target)).exit_code
    assert [] == claims_in(target.read_text(encoding="utf-8"))


def test_claims_are_found_as_whole_words_only() -> None:
    assert ["safe", "sanitized"] == claims_in("The water is safe and sanitized.")
    assert [] == claims_in("[sanitizer] An unsafe tub; the sanitize command; safety.")
