"""Files of the user: what is refused, and that a target is written whole or not at all."""

import os
import stat
from pathlib import Path

import pytest

from sanitize.basis.errors import InputError
from sanitize.cli.files import read_text, write_files


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def problem_of_reading(path: Path | str) -> str:
    with pytest.raises(InputError) as caught:
        read_text(str(path))
    (problem,) = caught.value.problems
    assert (str(path) or '""') == problem.where
    return problem.found


def test_reading_missing_file_is_refused(tmp_path: Path) -> None:
    assert "it cannot be read: there is no such file or folder" == problem_of_reading(tmp_path / "nowhere.toml")


def test_reading_folder_is_refused(tmp_path: Path) -> None:
    assert "it cannot be read: it is a folder, not a file" == problem_of_reading(tmp_path)
    assert "it cannot be read: it is a folder, not a file" == problem_of_reading("")


def test_reading_below_a_file_is_refused(loop: Path) -> None:
    expected = "it cannot be read: a part of the path is a file, not a folder"
    assert expected == problem_of_reading(loop / "below.toml")


def test_reading_binary_file_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "photo.toml"
    path.write_bytes(b"format = 1\n\x89PNG\xff")
    assert "line 2 holds bytes that are no UTF-8 text" == problem_of_reading(path)


def test_reading_10_mb_is_refused_before_it_is_read(tmp_path: Path) -> None:
    """A file with a hole: reading it whole would give 10 MB of NUL bytes, another problem."""
    path = tmp_path / "long.toml"
    with path.open("wb") as file:
        file.truncate(10_000_000)
    assert "it is 10000000 bytes long" == problem_of_reading(path)


def test_reading_endless_device_is_refused() -> None:
    assert problem_of_reading("/dev/zero").startswith("it is")


def test_writing_new_file_has_the_usual_permissions(tmp_path: Path) -> None:
    target = tmp_path / "answer.txt"
    write_files({str(target): b"whole"})
    usual = tmp_path / "usual.txt"
    usual.touch()
    assert b"whole" == target.read_bytes()
    assert usual.stat().st_mode == target.stat().st_mode


def test_writing_replaces_and_keeps_permissions(tmp_path: Path) -> None:
    target = tmp_path / "answer.txt"
    target.write_bytes(b"old and longer")
    target.chmod(0o640)
    write_files({str(target): b"new"})
    assert (b"new", 0o640) == (target.read_bytes(), stat.S_IMODE(target.stat().st_mode))


def test_writing_through_a_link_keeps_the_link(tmp_path: Path) -> None:
    target, link = tmp_path / "answer.txt", tmp_path / "link.txt"
    target.write_bytes(b"old")
    link.symlink_to(target)
    write_files({str(link): b"new"})
    assert (True, b"new") == (link.is_symlink(), target.read_bytes())


def test_writing_leaves_nothing_else_behind(tmp_path: Path) -> None:
    write_files({str(tmp_path / "a.txt"): b"1", str(tmp_path / "b.txt"): b"2"})
    assert ["a.txt", "b.txt"] == names_in(tmp_path)


@pytest.mark.parametrize(
    ("second", "reason"),
    [
        ("missing/b.txt", "there is no such file or folder"),
        ("folder", "it is a folder, not a file"),
        ("a.txt/b.txt", "a part of the path is a file, not a folder"),
    ],
)
def test_writing_one_of_two_impossible_changes_neither(tmp_path: Path, second: str, reason: str) -> None:
    first = tmp_path / "a.txt"
    first.write_bytes(b"old")
    (tmp_path / "folder").mkdir()
    with pytest.raises(InputError) as caught:
        write_files({str(first): b"new", str(tmp_path / second): b"new"})
    assert f"it cannot be written: {reason}" == caught.value.problems[0].found
    assert b"old" == first.read_bytes()
    assert ["a.txt", "folder"] == names_in(tmp_path)


def test_writing_cut_short_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that fills while the new file is written."""
    target = tmp_path / "a.txt"
    target.write_bytes(b"old")

    def fill(temporary: Path, target: Path, data: bytes) -> None:
        temporary.write_bytes(data[:1])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("sanitize.cli.files._fill", fill)
    with pytest.raises(InputError, match="No space left on device"):
        write_files({str(target): b"new"})
    assert (["a.txt"], b"old") == (names_in(tmp_path), target.read_bytes())


def test_writing_to_a_device_does_not_replace_it() -> None:
    write_files({os.devnull: b"gone"})
    assert stat.S_ISCHR(Path(os.devnull).stat().st_mode)


@pytest.mark.parametrize("command", ["parts", "fit"])
def test_answer_over_the_file_that_the_loop_file_is_based_on_is_refused(run, loop: Path, command: str) -> None:
    whole = loop.read_bytes()
    child = loop.with_name("child.toml")
    child.write_text('format = 1\nbased_on = "loop.toml"\n[measured]\nbucket_flow = "31 L/min"\n', encoding="utf-8")
    target = ("-o",) if command == "parts" else ("--cases", "64", "--write")
    result = run(command, str(child), *target, str(loop))
    assert 2 == result.exit_code
    assert "the answer comes from this file, which would be lost" in result.stderr
    assert whole == loop.read_bytes()


@pytest.mark.parametrize("data", [b"", b"\n\n", b"\xef\xbb\xbf# only this\r\n"])
def test_loop_file_that_says_nothing_is_one_problem(run, tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "empty.toml"
    path.write_bytes(data)
    result = run("parts", str(path))
    assert (2, 1) == (result.exit_code, result.stderr.count("Error: "))
    assert "it says nothing: it is empty, or all comment" in result.stderr


def test_file_saved_as_utf_16_is_named(run, loop: Path) -> None:
    loop.write_bytes(loop.read_text(encoding="utf-8").encode("utf-16"))
    assert "it is saved as UTF-16, which some editors call Unicode" in run("parts", str(loop)).stderr


@pytest.mark.parametrize(
    ("arguments", "wanted"),
    [
        (("fit", "LOOP", "--measured", "nowhere.toml"), "accepted: a file with a table [measured]"),
        (("cloudy", "LOOP", "--measured", "nowhere.toml"), "accepted: a file with a table [measured]"),
        (("cloudy", "LOOP", "--answers", "nowhere.toml"), "accepted: a file of answers, as --save writes one"),
        (("cloudy", "LOOP", "--judgement", "nowhere.toml"), "accepted: a file with numbers of your own"),
        (("fit", "--bench", "--measured", "nowhere.toml"), "write:    sanitize fit --bench"),
    ],
)
def test_file_of_an_option_that_is_not_there_says_what_is_wanted(
    run, boathouse: str, arguments: tuple[str, ...], wanted: str
) -> None:
    result = run(*(boathouse if word == "LOOP" else word for word in arguments))
    assert 2 == result.exit_code
    assert wanted in result.stderr
    assert "sanitize new" not in result.stderr


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("fit", "-", "--measured", "-"), "standard input can be only one of the files."),
        (("cloudy", "-", "--answers", "-"), "standard input can be only one of the files."),
        (("fit", "LOOP", "--write", "-"), "give the name of a file."),
        (("cloudy", "LOOP", "--save", "-"), "give the name of a file."),
        (("dose", "LOOP", "--max-age", "nan"), "nan is no number of days."),
    ],
)
def test_streams_and_numbers_that_cannot_be_are_refused(
    run, loop: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...], said: str
) -> None:
    monkeypatch.chdir(loop.parent)
    result = run(*("loop.toml" if word == "LOOP" else word for word in arguments), input="")
    assert 2 == result.exit_code
    assert said in " ".join(result.stderr.split())
    assert ["loop.toml"] == names_in(loop.parent)
