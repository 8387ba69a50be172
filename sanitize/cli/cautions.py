"""`sanitize cautions`."""

import click

from sanitize import jobs
from sanitize.cli.asked import units_option
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put


@click.command(short_help=SHORT_HELP["cautions"])
@units_option
@output_option
def command(units: str | None, output: str) -> None:
    """Every caution that there is, and who decides.

    Each at its gravest and in general words; `suction` gives those that a loop calls for, with its own figures.
    """
    put(jobs.cautions("us" if units == "us" else "metric"), output)
