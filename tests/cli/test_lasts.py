"""`sanitize suction --lasts`: forms, picture and refusals."""

import json
from pathlib import Path

import pytest

FEW = ("--cases", "16")


def test_lasts_text_answers_in_days(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--lasts", *FEW)
    assert 0 == result.exit_code
    assert "How long does it last between cleanings of the filter?" in result.stdout
    assert result.stdout.index("DANGER") < result.stdout.index("It lasts")


def test_lasts_days_of_the_file_reach_the_answer(run, boathouse: str) -> None:
    """Twice the days give twice the time: the exponential has no other clock."""
    found = []
    for days in ("20 days", "40 days"):
        changed = ("--set", f"filter.days_to_loaded={days}")
        record = json.loads(run("suction", boathouse, "--lasts", "--cases", "0", "--json", *changed).stdout)
        found.append(record["lasts_s"]["nominal"])
    assert 2.0 == pytest.approx(found[1] / found[0], rel=1e-9)
    assert "lasts" == record["record"]


def test_lasts_strict_exits_with_1_on_a_danger(run, boathouse: str) -> None:
    assert 1 == run("suction", boathouse, "--lasts", *FEW, "--strict").exit_code


def test_lasts_picture_is_drawn(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "days.svg"
    assert 0 == run("suction", boathouse, "--lasts", *FEW, "--picture", str(target)).exit_code
    assert "days since the filter was cleaned" in target.read_text(encoding="utf-8")


def test_lasts_csv_is_the_days(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--lasts", *FEW, "--csv")
    assert result.stdout.startswith(
        "time_s,draws_share_ratio,answered_share_ratio,gas_answered_share_ratio,filter_drop_low"
    )
    assert "DANGER" in result.stderr


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--faults",), "exclude each other"),
        (("--picture", "x.png", "--view", "pump"), "--lasts has no --view"),
    ],
)
def test_lasts_with_what_does_not_go_with_it_exits_with_2(
    run, boathouse: str, more: tuple[str, ...], said: str
) -> None:
    result = run("suction", boathouse, "--lasts", *more)
    assert (2, "") == (result.exit_code, result.stdout)
    assert said in result.stderr


def test_lasts_without_a_filter_exits_with_2(run, loop: Path) -> None:
    lines = [line for line in loop.read_text(encoding="utf-8").splitlines() if '"filter"' not in line]
    loop.write_text("\n".join(lines), encoding="utf-8")
    result = run("suction", str(loop), "--lasts")
    assert (2, "") == (result.exit_code, result.stdout)
    assert "no filter, so nothing loads" in result.stderr
