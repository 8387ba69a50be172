"""What goes to the screen or into a file, and the options that say where and in which form."""

import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import PurePath
from typing import Any

import click

from sanitize import jobs
from sanitize.basis.errors import InputError, Problem
from sanitize.cli.files import STANDARD, write_files

DANGER_MET = 1
_DRAWN: dict[str, jobs.PictureFormat] = {".png": "png", ".svg": "svg"}
output_option = click.option(
    "-o",
    "--output",
    metavar="FILE",
    default=STANDARD,
    help="Write the answer into FILE, whole or not at all; it replaces an old one.",
)
strict_option = click.option("--strict", is_flag=True, help="Exit with 1 when a danger is met.")


def json_option(told: str = "The whole result as JSON, in SI units.") -> Callable[[Any], Any]:
    """--json for a command."""
    return click.option("--json", "as_json", is_flag=True, help=told)


def csv_option(told: str) -> Callable[[Any], Any]:
    """--csv for a command; told: what stands in the table."""
    return click.option("--csv", "as_csv", is_flag=True, help=told)


def picture_option(told: str) -> Callable[[Any], Any]:
    """--picture for a command; told: what is drawn."""
    return click.option("--picture", metavar="FILE", callback=_picture_file, help=told)


def _picture_file(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
    """The name of a picture's file, refused where it ends like no picture that is drawn."""
    if value is not None and PurePath(value).suffix.lower() not in _DRAWN:
        raise click.BadParameter(f"{value} ends neither in .png nor in .svg.")
    return value


def named_file(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
    """The name of a file beside the document, refused where it is the screen, which the document takes."""
    if value == STANDARD:
        raise click.BadParameter("the answer itself goes to standard output; give the name of a file.")
    return value


def picture_format(name: str | None) -> jobs.PictureFormat | None:
    """What is drawn into a picture's file, by the end of its name."""
    return _DRAWN[PurePath(name).suffix.lower()] if name is not None else None


def form_of(as_json: bool, as_csv: bool) -> jobs.Form:
    """The wanted form of a document; raises UsageError where two are wanted."""
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    return "json" if as_json else "csv" if as_csv else "text"


def put(document: str, output: str, others: Mapping[str, bytes] | None = None) -> None:
    """Write the files, then print the document unless one of them is its place."""
    files = dict(others or {})
    if output != STANDARD:
        files[output] = document.encode()
    write_files(files)
    if output == STANDARD:
        _print(document)


def say(text: str) -> None:
    """Words for people beside a document: to standard error."""
    if text:
        click.echo(text.rstrip("\n"), err=True)


def give(
    answer: jobs.Answer,
    output: str,
    form: jobs.Form,
    *others: tuple[str | None, bytes | None],
    strict: bool = False,
) -> None:
    """Put an answer and all that belongs to it into its places, and end the command.

    others: places of further files, None where one is not wanted, and what goes there. Warnings go to standard error
    where people do not read the document itself; strict: a danger ends the command with its own exit code.
    """
    put(answer.document, output, {place: data for place, data in others if place is not None and data is not None})
    if form != "text" or output != STANDARD:
        say(answer.warnings)
    if strict and answer.danger:
        click.get_current_context().exit(DANGER_MET)


@contextmanager
def away_from_output() -> Iterator[None]:
    """What libraries print by themselves goes to standard error meanwhile: solvers may, past Python's own streams."""
    try:
        sys.stdout.flush()
        kept = os.dup(1)
    except OSError:
        yield
        return
    try:
        os.dup2(2, 1)
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


def _print(document: str) -> None:
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    try:
        click.echo(document.encode(encoding, "replace").decode(encoding).rstrip("\n"))
    except BrokenPipeError:
        raise
    except OSError as error:
        found = f"it cannot be written: {error.strerror or 'unknown'}"
        raise InputError([Problem("standard output", found)]) from error
