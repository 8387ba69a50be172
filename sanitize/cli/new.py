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
    if file != STANDARD and not force and Path(file).exists():
        raise InputError([Problem(file, "it exists already", "a new name", f"sanitize new --force {file}")])
    put(jobs.starter_file(), file)
    if file != STANDARD:
        say(f"Wrote {file}. Put your own tub into it, then: sanitize suction {file}")
