"""`sanitize hours`."""

import click

from sanitize import jobs
from sanitize.cli.asked import loop_argument, settings_option, source, units_option
from sanitize.cli.cases import cases_option, seed_option
from sanitize.cli.files import keep_apart
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import (
    away_from_output,
    csv_option,
    form_of,
    give,
    json_option,
    output_option,
    picture_format,
    picture_option,
    strict_option,
)


@click.command(short_help=SHORT_HELP["hours"])
@loop_argument
@json_option()
@csv_option("The needs as a table, in SI units.")
@click.option("--plan", "as_plan", is_flag=True, help="With --csv: the timer's switch times instead of the needs.")
@picture_option("Draw the timer's day into FILE.png or FILE.svg.")
@units_option
@settings_option("bathers.per_day=4")
@cases_option()
@seed_option
@strict_option
@output_option
def command(
    loop: str,
    as_json: bool,
    as_csv: bool,
    as_plan: bool,
    picture: str | None,
    units: str | None,
    settings: tuple[str, ...],
    cases: int,
    seed: int,
    strict: bool,
    output: str,
) -> None:
    """How long the pump must run each day, why, and when.

    LOOP is a loop file, or - for standard input; its tables [bathers], [timer], [chiller] and [surroundings] say what
    is asked of the pump.
    With --json or --csv, and with -o, warnings go to standard error.
    """
    form = form_of(as_json, as_csv)
    if as_plan and not as_csv:
        raise click.UsageError("--plan needs --csv.")
    keep_apart([loop], [output, picture], "the loop file, -o FILE and --picture FILE")
    asked = source(loop, settings, units)
    with away_from_output():
        answer = jobs.hours(
            asked,
            cases=cases,
            seed=seed,
            form=form,
            table="plan" if as_plan else "needs",
            picture=picture_format(picture),
        )
    give(answer, output, form, (picture, answer.picture), strict=strict)
