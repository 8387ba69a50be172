"""`sanitize dose`."""

import math
from datetime import date
from typing import cast, get_args

import click

from sanitize import jobs
from sanitize.cli.asked import loop_argument, settings_option, source, units_option
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
from sanitize.studies.procedures.result import Kind

PROCEDURES = get_args(Kind)


def _day(ctx: click.Context, param: click.Parameter, value: str | None) -> date:
    if value is None:
        return date.today()
    try:
        return date.fromisoformat(value)
    except ValueError:
        raise click.BadParameter(f"{value} is no day; write it as 2026-03-14.") from None


def _number(ctx: click.Context, param: click.Parameter, value: float) -> float:
    if math.isnan(value):
        raise click.BadParameter("nan is no number of days.")
    return value


@click.command(short_help=SHORT_HELP["dose"])
@loop_argument
@json_option("The whole result as JSON.")
@csv_option("The steps as a table.")
@units_option
@settings_option("water_test.ph=7.8")
@click.option("--procedure", type=click.Choice(PROCEDURES), help="Instead: the steps after an event, for this tub.")
@click.option("--upkeep", is_flag=True, help="Instead: how much a day takes, from two or more tests.")
@click.option("--on", metavar="DAY", callback=_day, help="Day for which the doses are asked.  [default: today]")
@click.option(
    "--max-age",
    "max_age_days",
    default=jobs.MAX_AGE_DAYS,
    show_default=True,
    type=click.FloatRange(0.0, 366.0),
    callback=_number,
    help="Oldest water test that is used, in days.",
)
@picture_option("Draw the water into FILE.png or FILE.svg.")
@strict_option
@output_option
def command(
    loop: str,
    as_json: bool,
    as_csv: bool,
    units: str | None,
    settings: tuple[str, ...],
    procedure: str | None,
    upkeep: bool,
    on: date,
    max_age_days: float,
    picture: str | None,
    strict: bool,
    output: str,
) -> None:
    """What to add to the water, in which order.

    LOOP is a loop file with [sanitizer] and [[water_test]], or - for standard input.
    With --json or --csv, and with -o, cautions and notices go to standard error.
    """
    form = form_of(as_json, as_csv)
    keep_apart([loop], [output, picture], "the loop file, -o FILE and --picture FILE")
    if upkeep and procedure is not None:
        raise click.UsageError("--upkeep and --procedure exclude each other.")
    if upkeep:
        if as_csv or picture is not None:
            raise click.UsageError("--upkeep gives text or --json; it has no table and no picture.")
        give(jobs.upkeep(source(loop, settings, units), form="json" if as_json else "text"), output, form)
        return
    if procedure is not None:
        if as_csv or picture is not None:
            raise click.UsageError("--procedure gives text or --json; it has no table and no picture.")
        asked, kind = source(loop, settings, units), cast(Kind, procedure)
        give(jobs.procedure(asked, kind, form="json" if as_json else "text"), output, form)
        return
    answer = jobs.dose(
        source(loop, settings, units),
        today=on,
        max_age_days=max_age_days,
        form=form,
        picture=picture_format(picture),
    )
    give(answer, output, form, (picture, answer.picture), strict=strict)
