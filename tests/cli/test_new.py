"""`sanitize new`."""

from pathlib import Path

import pytest

from sanitize import jobs


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of its own to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_new_writes_the_starter_file_and_says_what_next(run, here: Path) -> None:
    result = run("new")
    assert jobs.starter_file() == (here / "tub.toml").read_text(encoding="utf-8")
    expected = (0, "", "Wrote tub.toml. Put your own tub into it, then: sanitize suction tub.toml\n")
    assert expected == (result.exit_code, result.stdout, result.stderr)


def test_new_file_is_answered_as_it_stands(run) -> None:
    run("new", "mine.toml")
    assert 0 == run("suction", "mine.toml", "--cases", "16").exit_code


def test_new_existing_file_is_kept(run, here: Path) -> None:
    (here / "tub.toml").write_text("mine", encoding="utf-8")
    result = run("new")
    assert (2, "mine") == (result.exit_code, (here / "tub.toml").read_text(encoding="utf-8"))
    expected = [
        "Error: tub.toml",
        "  found:    it exists already",
        "  accepted: a new name",
        "  write:    sanitize new --force tub.toml",
    ]
    assert expected == result.stderr.splitlines()


def test_new_force_replaces(run, here: Path) -> None:
    (here / "tub.toml").write_text("mine", encoding="utf-8")
    assert 0 == run("new", "--force").exit_code
    assert jobs.starter_file() == (here / "tub.toml").read_text(encoding="utf-8")


def test_new_dash_prints(run, here: Path) -> None:
    assert jobs.starter_file() == run("new", "-").stdout
    assert [] == list(here.iterdir())


def test_new_into_no_folder_exits_with_2(run) -> None:
    assert 2 == run("new", "nowhere/tub.toml").exit_code


@pytest.mark.parametrize("more", [(), ("--force",)])
def test_new_on_a_folder_says_so_and_names_a_file_in_it(run, here: Path, more: tuple[str, ...]) -> None:
    (here / "tubs").mkdir()
    result = run("new", "tubs", *more)
    expected = [
        "Error: tubs",
        "  found:    it is a folder, not a file",
        "  accepted: the name of a file",
        "  write:    tubs/tub.toml",
    ]
    assert (2, expected, []) == (result.exit_code, result.stderr.splitlines(), list((here / "tubs").iterdir()))


@pytest.mark.parametrize("name", ["", "a" * 300, "loop.toml"])
def test_new_under_a_name_that_no_file_can_have_exits_with_2(run, here: Path, name: str) -> None:
    (here / "loop.toml").symlink_to("loop.toml")
    result = run("new", name)
    assert 2 == result.exit_code
    assert result.stderr.startswith("Error: ")
    assert "found:" in result.stderr
