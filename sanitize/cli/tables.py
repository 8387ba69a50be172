"""`sanitize tables`."""

import click

from sanitize import jobs
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put


@click.command(short_help=SHORT_HELP["tables"])
@click.argument("name", required=False)
@output_option
def command(name: str | None, output: str) -> None:
    """The numbers behind the answers, with sources.

    Without NAME the list of the tables; with NAME the rows of that table, with their ranges, sources and standing.
    """
    put(jobs.tables(name), output)
