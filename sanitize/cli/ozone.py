"""`sanitize ozone`."""

from pathlib import PurePath
from typing import cast

import click

from sanitize import jobs
from sanitize.cli.cases import DANGER_MET, cases_option, seed_option, strict_option
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, picture_file, put, say, units_option


@click.command(short_help=SHORT_HELP["ozone"])
@click.argument("loop")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON, in SI units, mg/h and ppm.")
@click.option("--csv", "as_csv", is_flag=True, help="The air against the published limits as a table.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "room.volume=12 m3"; may stand several times.',
)
@click.option("--picture", metavar="FILE", callback=picture_file, help="Draw the air over what goes into it.")
@cases_option
@seed_option
@strict_option
@output_option
@click.pass_context
def command(
    ctx: click.Context,
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
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    targets = [target for target in (output, picture) if target is not None]
    if any(same_file(loop, target) for target in targets) or (len(targets) == 2 and same_file(*targets)):
        raise click.UsageError("the loop file, -o FILE and --picture FILE must be different files.")
    drawn = PurePath(picture).suffix.lower().removeprefix(".") if picture else None
    form = "json" if as_json else "csv" if as_csv else "text"
    answer = jobs.ozone(
        read_text(loop),
        path=loop,
        reader=read_named,
        settings=(*settings, f"units={units}") if units else settings,
        cases=cases,
        seed=seed,
        form=cast(jobs.Form, form),
        picture=cast(jobs.PictureFormat | None, drawn),
    )
    put(answer.document, output, {picture: answer.picture} if picture and answer.picture else {})
    if form != "text" or output != "-":
        say(answer.warnings)
    if strict and answer.danger:
        ctx.exit(DANGER_MET)
