"""What goes to the screen or into a file, and the options that say where."""

import os
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import PurePath

import click

from sanitize.basis.errors import InputError, Problem
from sanitize.cli.files import STANDARD, write_files

output_option = click.option(
    "-o",
    "--output",
    metavar="FILE",
    default=STANDARD,
    help="Write the answer into FILE, whole or not at all; it replaces an old one.",
)
units_option = click.option("--units", type=click.Choice(["metric", "us"]), help="Units of the answer.")


def picture_file(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
    """The name of a picture's file, refused where it ends like no picture that is drawn."""
    if value is not None and PurePath(value).suffix.lower() not in (".png", ".svg"):
        raise click.BadParameter(f"{value} ends neither in .png nor in .svg.")
    return value


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
