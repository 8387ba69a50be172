"""`sanitize hours`."""

from pathlib import PurePath
from typing import cast

import click

from sanitize import jobs
from sanitize.cli.cases import DANGER_MET, power_of_two
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import away_from_output, output_option, picture_file, put, say, units_option


@click.command(short_help=SHORT_HELP["hours"])
@click.argument("loop")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON, in SI units.")
@click.option("--csv", "as_csv", is_flag=True, help="The needs as a table, in SI units.")
@click.option("--plan", "as_plan", is_flag=True, help="With --csv: the timer's switch times instead of the needs.")
@click.option(
    "--picture", metavar="FILE", callback=picture_file, help="Draw the timer's day into FILE.png or FILE.svg."
)
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "bathers.per_day=4"; may stand several times.',
)
@click.option(
    "--cases",
    default=jobs.CASES,
    show_default=True,
    callback=power_of_two,
    help="Cases drawn from the ranges; 0 for none.",
)
@click.option("--seed", default=jobs.SEED, show_default=True, type=click.IntRange(0, 2**31), help="Seed of the draw.")
@click.option("--strict", is_flag=True, help="Exit with 1 when a danger is met.")
@output_option
@click.pass_context
def command(
    ctx: click.Context,
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
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    if as_plan and not as_csv:
        raise click.UsageError("--plan needs --csv.")
    targets = [target for target in (output, picture) if target is not None]
    if any(same_file(loop, target) for target in targets) or (len(targets) == 2 and same_file(*targets)):
        raise click.UsageError("the loop file, -o FILE and --picture FILE must be different files.")
    form = "json" if as_json else "csv" if as_csv else "text"
    drawn = PurePath(picture).suffix.lower().removeprefix(".") if picture else None
    text = read_text(loop)
    with away_from_output():
        answer = jobs.hours(
            text,
            path=loop,
            reader=read_named,
            settings=(*settings, f"units={units}") if units else settings,
            cases=cases,
            seed=seed,
            form=cast(jobs.Form, form),
            table="plan" if as_plan else "needs",
            picture=cast(jobs.PictureFormat | None, drawn),
        )
    put(answer.document, output, {picture: answer.picture} if picture and answer.picture else {})
    if form != "text" or output != "-":
        say(answer.warnings)
    if strict and answer.danger:
        ctx.exit(DANGER_MET)
