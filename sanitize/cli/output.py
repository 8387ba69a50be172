"""What goes to the screen or into a file, and the options that say where."""

import sys
from collections.abc import Mapping
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
    """Refuse a picture whose name no format belongs to."""
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


def _print(document: str) -> None:
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    try:
        click.echo(document.encode(encoding, "replace").decode(encoding).rstrip("\n"))
    except BrokenPipeError:
        raise
    except OSError as error:
        found = f"it cannot be written: {error.strerror or 'unknown'}"
        raise InputError([Problem("standard output", found)]) from error
