"""`sanitize new`."""

from pathlib import Path

import click

from sanitize import jobs
from sanitize.basis.errors import InputError, Problem
from sanitize.cli.files import STANDARD
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import put, say


@click.command(short_help=SHORT_HELP["new"])
@click.argument("file", default="tub.toml")
@click.option("--force", is_flag=True, help="Replace FILE where it exists.")
def command(file: str, force: bool) -> None:
    """Write a commented loop file to start from.

    FILE is tub.toml unless named, or - for the screen; every field is explained in it, and its tub is invented.
    """
    if file != STANDARD:
        _refuse_old(file, force)
    put(jobs.starter_file(), file)
    if file != STANDARD:
        say(f"Wrote {file}. Put your own tub into it, then: sanitize suction {file}")


def _refuse_old(file: str, force: bool) -> None:
    """Raise InputError where a folder has the name, or a file that is not to be replaced."""
    try:
        is_folder, is_there = Path(file).is_dir(), Path(file).exists()
    except OSError:  # writing tells what is wrong with the name
        return
    if is_folder:
        found = "it is a folder, not a file"
        raise InputError([Problem(file or '""', found, "the name of a file", str(Path(file) / "tub.toml"))])
    if is_there and not force:
        raise InputError([Problem(file, "it exists already", "a new name", f"sanitize new --force {file}")])
