"""The loop file that a command is asked about, and the options that change it."""

from collections.abc import Callable
from typing import Any

import click

from sanitize import jobs
from sanitize.cli.files import read_beside, read_named, read_text

loop_argument = click.argument("loop")
units_option = click.option("--units", type=click.Choice(["metric", "us"]), help="Units of the answer.")


def settings_option(example: str, meant: str = "one field") -> Callable[[Any], Any]:
    """--set for a command; example: of a setting, meant: what gets another value."""
    return click.option(
        "--set",
        "settings",
        multiple=True,
        metavar="NAME.KEY=VALUE",
        help=f'Another value for {meant}, such as "{example}"; may stand several times.',
    )


def with_units(settings: tuple[str, ...], units: str | None) -> tuple[str, ...]:
    """The settings, and among them the units that the answer is wanted in."""
    return (*settings, f"units={units}") if units else settings


def source(loop: str, settings: tuple[str, ...], units: str | None, measured: str | None = None) -> jobs.Source:
    """A loop file read with its settings, and with a file of readings where one is named; raises InputError."""
    return jobs.Source(
        read_text(loop),
        loop,
        with_units(settings, units),
        read_named,
        read_beside(measured, "a file with a table [measured]"),
    )
