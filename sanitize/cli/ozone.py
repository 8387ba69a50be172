"""`sanitize ozone`."""

import click

from sanitize import jobs
from sanitize.cli.asked import loop_argument, settings_option, source, units_option
from sanitize.cli.cases import cases_option, seed_option
from sanitize.cli.files import keep_apart
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import (
    csv_option,
    form_of,
    give,
    json_option,
    output_option,
    picture_format,
    picture_option,
    strict_option,
)


@click.command(short_help=SHORT_HELP["ozone"])
@loop_argument
@json_option("The whole result as JSON, in SI units, mg/h and ppm.")
@csv_option("The air against the published limits as a table.")
@units_option
@settings_option("room.volume=12 m3")
@picture_option("Draw the air over what goes into it.")
@cases_option()
@seed_option
@strict_option
@output_option
def command(
    loop: str,
    as_json: bool,
    as_csv: bool,
    units: str | None,
    settings: tuple[str, ...],
    picture: str | None,
    cases: int,
    seed: int,
    strict: bool,
    output: str,
) -> None:
    """What ozone dissolves, stays, and ends in the air.

    LOOP is a loop file, or - for standard input; its tables [ozone] and [room] say what makes the ozone and where
    people breathe it.
    With --json or --csv, and with -o, warnings go to standard error.
    """
    form = form_of(as_json, as_csv)
    keep_apart([loop], [output, picture], "the loop file, -o FILE and --picture FILE")
    answer = jobs.ozone(
        source(loop, settings, units),
        cases=cases,
        seed=seed,
        form=form,
        picture=picture_format(picture),
    )
    give(answer, output, form, (picture, answer.picture), strict=strict)
