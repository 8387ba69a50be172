"""`sanitize parts`."""

from typing import cast

import click

from sanitize import jobs
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put, say, units_option


@click.command(short_help=SHORT_HELP["parts"])
@click.argument("loop")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON, in SI units.")
@click.option("--csv", "as_csv", is_flag=True, help="What to buy, cut and seal with as a table, in SI units.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "pump.inlet_end=union"; may stand several times.',
)
@output_option
def command(loop: str, as_json: bool, as_csv: bool, units: str | None, settings: tuple[str, ...], output: str) -> None:
    """Do the parts mate, and what to buy and cut.

    LOOP is a loop file, or - for standard input.
    With --json or --csv, and with -o, cautions and notices go to standard error.
    """
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    if same_file(loop, output):
        raise click.UsageError("the loop file and -o FILE must be different files.")
    form = "json" if as_json else "csv" if as_csv else "text"
    answer = jobs.parts(
        read_text(loop),
        path=loop,
        reader=read_named,
        settings=(*settings, f"units={units}") if units else settings,
        form=cast(jobs.Form, form),
    )
    put(answer.document, output)
    if form != "text" or output != "-":
        say(answer.warnings)
