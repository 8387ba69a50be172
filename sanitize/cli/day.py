"""`sanitize day`."""

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

MOST_DAYS = 365


@click.command(short_help=SHORT_HELP["day"])
@loop_argument
@json_option("The whole result as JSON, in the units of its keys.")
@csv_option("The day from moment to moment as a table.")
@units_option
@settings_option("bathers.per_day=4")
@click.option(
    "--days",
    type=click.IntRange(1, MOST_DAYS),
    help="Simulate so many days and show the last; left out, until a day repeats itself, 14 at most.",
)
@picture_option("Draw the day into FILE.png or FILE.svg.")
@cases_option(jobs.DAY_CASES)
@seed_option
@strict_option
@output_option
def command(
    loop: str,
    as_json: bool,
    as_csv: bool,
    units: str | None,
    settings: tuple[str, ...],
    days: int | None,
    picture: str | None,
    cases: int,
    seed: int,
    strict: bool,
    output: str,
) -> None:
    """Ozone, chlorine, haze and the room's air through a day.

    LOOP is a loop file, or - for standard input; `pump_times` and `ozone_times` in its [timer] say what runs when.
    With --json or --csv, and with -o, warnings go to standard error.
    """
    form = form_of(as_json, as_csv)
    keep_apart([loop], [output, picture], "the loop file, -o FILE and --picture FILE")
    answer = jobs.day(
        source(loop, settings, units),
        days=days,
        cases=cases,
        seed=seed,
        form=form,
        picture=picture_format(picture),
    )
    give(answer, output, form, (picture, answer.picture), strict=strict)
