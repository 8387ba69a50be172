"""`sanitize dose`."""

from datetime import date
from pathlib import PurePath
from typing import cast, get_args

import click

from sanitize import jobs
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, picture_file, put, say, units_option
from sanitize.studies.procedures.result import Kind

DANGER_MET = 1
PROCEDURES = get_args(Kind)


def _day(ctx: click.Context, param: click.Parameter, value: str | None) -> date:
    if value is None:
        return date.today()
    try:
        return date.fromisoformat(value)
    except ValueError:
        raise click.BadParameter(f"{value} is no day; write it as 2026-03-14.") from None


@click.command(short_help=SHORT_HELP["dose"])
@click.argument("loop")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON.")
@click.option("--csv", "as_csv", is_flag=True, help="The steps as a table.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "water_test.ph=7.8"; may stand several times.',
)
@click.option("--procedure", type=click.Choice(PROCEDURES), help="Instead: the steps after an event, for this tub.")
@click.option("--upkeep", is_flag=True, help="Instead: how much a day takes, from two or more tests.")
@click.option("--on", metavar="DAY", callback=_day, help="Day for which the doses are asked.  [default: today]")
@click.option(
    "--max-age",
    "max_age_days",
    default=jobs.MAX_AGE_DAYS,
    show_default=True,
    type=click.FloatRange(0.0, 366.0),
    help="Oldest water test that is used, in days.",
)
@click.option("--picture", metavar="FILE", callback=picture_file, help="Draw the water into FILE.png or FILE.svg.")
@click.option("--strict", is_flag=True, help="Exit with 1 when a danger is met.")
@output_option
@click.pass_context
def command(
    ctx: click.Context,
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
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    targets = [target for target in (output, picture) if target is not None]
    if any(same_file(loop, target) for target in targets) or (len(targets) == 2 and same_file(*targets)):
        raise click.UsageError("the loop file, -o FILE and --picture FILE must be different files.")
    drawn = PurePath(picture).suffix.lower().removeprefix(".") if picture else None
    changed = (*settings, f"units={units}") if units else settings
    if upkeep and procedure is not None:
        raise click.UsageError("--upkeep and --procedure exclude each other.")
    if upkeep:
        if as_csv or picture is not None:
            raise click.UsageError("--upkeep gives text or --json; it has no table and no picture.")
        told = jobs.upkeep(
            read_text(loop), path=loop, reader=read_named, settings=changed, form="json" if as_json else "text"
        )
        _finish(told, output, as_json)
        return
    if procedure is not None:
        if as_csv or picture is not None:
            raise click.UsageError("--procedure gives text or --json; it has no table and no picture.")
        told = jobs.procedure(
            read_text(loop), cast(Kind, procedure), path=loop, reader=read_named, settings=changed,
            form="json" if as_json else "text",
        )  # fmt: skip
        _finish(told, output, as_json)
        return
    form = "json" if as_json else "csv" if as_csv else "text"
    answer = jobs.dose(
        read_text(loop),
        path=loop,
        reader=read_named,
        settings=changed,
        today=on,
        max_age_days=max_age_days,
        form=cast(jobs.Form, form),
        picture=cast(jobs.PictureFormat | None, drawn),
    )
    put(answer.document, output, {picture: answer.picture} if picture and answer.picture else {})
    if form != "text" or output != "-":
        say(answer.warnings)
    if strict and answer.danger:
        ctx.exit(DANGER_MET)


def _finish(answer: jobs.Answer, output: str, as_json: bool) -> None:
    put(answer.document, output)
    if as_json or output != "-":
        say(answer.warnings)
