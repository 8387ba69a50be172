"""`sanitize schema`."""

import click

from sanitize import jobs
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put


@click.command(short_help=SHORT_HELP["schema"])
@output_option
def command(output: str) -> None:
    """The JSON Schema of a loop file.

    An editor that knows TOML can check a loop file by it while it is written.
    """
    put(jobs.schema(), output)
