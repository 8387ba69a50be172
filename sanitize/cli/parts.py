"""`sanitize parts`."""

import click

from sanitize import jobs
from sanitize.cli.asked import loop_argument, settings_option, source, units_option
from sanitize.cli.files import keep_apart
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import csv_option, form_of, give, json_option, output_option


@click.command(short_help=SHORT_HELP["parts"])
@loop_argument
@json_option()
@csv_option("What to buy, cut and seal with as a table, in SI units.")
@units_option
@settings_option("pump.inlet_end=union")
@output_option
def command(loop: str, as_json: bool, as_csv: bool, units: str | None, settings: tuple[str, ...], output: str) -> None:
    """Do the parts mate, and what to buy and cut.

    LOOP is a loop file, or - for standard input.
    With --json or --csv, and with -o, cautions and notices go to standard error.
    """
    form = form_of(as_json, as_csv)
    keep_apart([loop], [output], "the loop file and -o FILE")
    answer = jobs.parts(
        source(loop, settings, units),
        form=form,
    )
    give(answer, output, form)
