"""The user's files: read up to a limit, written whole or not at all."""

import errno
import os
import secrets
import shutil
import sys
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

import click

from sanitize.basis.errors import InputError, Problem

STANDARD = "-"
_NAMED = "sanitize.files_named_by_the_loop_file"
_REASONS: dict[type[OSError], str] = {
    FileNotFoundError: "there is no such file or folder",
    IsADirectoryError: "it is a folder, not a file",
    NotADirectoryError: "a part of the path is a file, not a folder",
    PermissionError: "this user is not allowed to",
}


def read_text(path: str, wanted: str = "a loop file", write: str = "sanitize new FILE") -> str:
    """The text of a file, or of standard input for "-"; raises InputError when it is none that can be read.

    wanted, write: what the error says is accepted, and how to come by it.
    """
    from sanitize.loopfile.toml_text import LARGEST_BYTES, decode

    try:
        if path == STANDARD:
            return decode(sys.stdin.buffer.read(LARGEST_BYTES + 1) if sys.stdin else b"", "standard input")
        with Path(path).open("rb") as file:
            size = os.fstat(file.fileno()).st_size
            if size > LARGEST_BYTES:
                accepted = f"{wanted} of at most {LARGEST_BYTES} bytes"
                raise InputError([Problem(path, f"it is {size} bytes long", accepted)])
            data = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        found = f"it cannot be read: {_reason(error)}"
        where = "standard input" if path == STANDARD else path or '""'
        raise InputError([Problem(where, found, wanted, write)]) from error
    return decode(data, path)


def read_beside(path: str | None, wanted: str, write: str = "") -> tuple[str, str] | None:
    """The path and text of a file that an option names, None where it names none; else as `read_text`."""
    return None if path is None else (path, read_text(path, wanted, write))


def read_named(path: str) -> str:
    """The text of a file that another file names: as `read_text`, and no answer may be written over it."""
    ctx = click.get_current_context(silent=True)
    if ctx is not None:
        ctx.meta.setdefault(_NAMED, []).append(path)
    return read_text(path)


def write_files(contents: Mapping[str, bytes]) -> None:
    """Write files, all or none: each first beside its target, then all into their places.

    Raises InputError when one cannot be written, or would replace a file that this run has read because another file
    names it; then no target has changed.
    """
    ctx = click.get_current_context(silent=True)
    for path in contents:
        if any(same_file(path, other) for other in (ctx.meta.get(_NAMED, []) if ctx is not None else [])):
            raise InputError([Problem(path, "the answer comes from this file, which would be lost", "another file")])
    staged: list[tuple[Path, Path]] = []
    path = ""
    try:
        for path, data in contents.items():
            target = _end_of_links(path)
            if target.exists() and not target.is_file() and not target.is_dir():
                target.write_bytes(data)
                continue
            staged.append((_beside(target), target))
            _fill(*staged[-1], data)
        for temporary, target in staged:
            temporary.replace(target)
    except OSError as error:
        found = f"it cannot be written: {_reason(error)}"
        raise InputError(
            [Problem(path or '""', found, "a file in a folder that exists and may be written to")]
        ) from error
    finally:
        for temporary, _ in staged:
            with suppress(OSError):
                temporary.unlink()


def same_file(one: str, other: str) -> bool:
    """Whether two paths name the same file."""
    return STANDARD not in (one, other) and os.path.realpath(one) == os.path.realpath(other)


def keep_apart(sources: Sequence[str | None], targets: Sequence[str | None], called: str) -> None:
    """Raise UsageError where a file would be read and written, written twice, or standard input read twice.

    None: a file that is not wanted; called: all of them, as people know them.
    """
    if sources.count(STANDARD) > 1:
        raise click.UsageError("standard input can be only one of the files.")
    read, written = ([path for path in paths if path is not None] for paths in (sources, targets))
    twice = any(same_file(one, other) for number, one in enumerate(written) for other in written[number + 1 :])
    if twice or any(same_file(one, other) for one in read for other in written):
        raise click.UsageError(f"{called} must be different files.")


def _end_of_links(path: str) -> Path:
    """The place that a path names in the end; raises OSError where its links go in a circle."""
    target = Path(os.path.realpath(path))
    if target.is_symlink():
        raise OSError(errno.ELOOP, "its links go in a circle")
    return target


def _beside(target: Path) -> Path:
    return target.with_name(f".sanitize-{secrets.token_hex(8)}.part")


def _fill(temporary: Path, target: Path, data: bytes) -> None:
    """The data into a new file beside the target, with the target's permissions where that exists."""
    if target.is_dir():
        raise IsADirectoryError
    if target.exists() and not os.access(target, os.W_OK):
        raise PermissionError
    with temporary.open("xb") as file:
        file.write(data)
    if target.exists():
        shutil.copymode(target, temporary)


def _reason(error: OSError) -> str:
    return next((text for kind, text in _REASONS.items() if isinstance(error, kind)), error.strerror or "unknown")
