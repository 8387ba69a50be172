"""`sanitize suction`."""

from pathlib import PurePath
from typing import cast

import click

from sanitize import jobs
from sanitize.cli.cases import DANGER_MET, cases_option, seed_option, strict_option
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, picture_file, put, say, units_option

_WITH_PICTURE = ("--size-throat", "--lasts")


def _refuse(others: dict[str, bool], as_json: bool, as_csv: bool, picture: str | None, view: str | None) -> None:
    """Raise UsageError for options that do not go together; others: the questions besides the check, by option."""
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    asked = [option for option, given in others.items() if given]
    if len(asked) > 1:
        raise click.UsageError(f"{' and '.join(asked)} exclude each other: each answers another question.")
    for option in asked:
        if picture is not None and option not in _WITH_PICTURE:
            raise click.UsageError(f"{option} has no picture.")
        if view is not None:
            raise click.UsageError(f"{option} has no --view.")
    if view is not None and picture is None:
        raise click.UsageError("--view needs --picture FILE.")


@click.command(short_help=SHORT_HELP["suction"])
@click.argument("loop")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON, in SI units.")
@click.option("--csv", "as_csv", is_flag=True, help="The parts of the loop, or the answer's table, in SI.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "return hose.length=2 m"; may stand several times.',
)
@click.option("--faults", is_flag=True, help="Instead: what happens when one thing fails, fault by fault.")
@click.option("--advise", is_flag=True, help="Instead: what to change so that the injector draws.")
@click.option("--size-throat", is_flag=True, help="Instead: which throat the injector should have.")
@click.option("--lasts", is_flag=True, help="Instead: how long it lasts between cleanings of the filter.")
@click.option("--picture", metavar="FILE", callback=picture_file, help="Draw a picture into FILE.png or FILE.svg.")
@click.option(
    "--view",
    type=click.Choice(list(jobs.VIEWS)),
    help="What the picture shows: heights, pressure along the loop, pump and loop, or gas.  [default: elevation]",
)
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
    faults: bool,
    advise: bool,
    size_throat: bool,
    lasts: bool,
    picture: str | None,
    view: str | None,
    cases: int,
    seed: int,
    strict: bool,
    output: str,
) -> None:
    """Will the injector draw, how surely, and why.

    LOOP is a loop file, or - for standard input.
    With --json or --csv, and with -o, warnings go to standard error.
    """
    others = {"--faults": faults, "--advise": advise, "--size-throat": size_throat, "--lasts": lasts}
    _refuse(others, as_json, as_csv, picture, view)
    targets = [target for target in (output, picture) if target is not None]
    if any(same_file(loop, target) for target in targets) or (len(targets) == 2 and same_file(*targets)):
        raise click.UsageError("the loop file, -o FILE and --picture FILE must be different files.")
    form = "json" if as_json else "csv" if as_csv else "text"
    drawn = PurePath(picture).suffix.lower().removeprefix(".") if picture else None
    changed = (*settings, f"units={units}") if units else settings
    text = read_text(loop)
    if faults:
        answer = jobs.faults(
            text, path=loop, reader=read_named, settings=changed, cases=cases, seed=seed,
            form=cast(jobs.Form, form),
        )  # fmt: skip
    elif advise:
        answer = jobs.advice(
            text, path=loop, reader=read_named, settings=changed, cases=cases, seed=seed,
            form=cast(jobs.Form, form),
        )  # fmt: skip
    elif size_throat:
        answer = jobs.throats(
            text, path=loop, reader=read_named, settings=changed, cases=cases, seed=seed,
            form=cast(jobs.Form, form), picture=cast(jobs.PictureFormat | None, drawn),
        )  # fmt: skip
    elif lasts:
        answer = jobs.lasts(
            text, path=loop, reader=read_named, settings=changed, cases=cases, seed=seed,
            form=cast(jobs.Form, form), picture=cast(jobs.PictureFormat | None, drawn),
        )  # fmt: skip
    else:
        answer = jobs.suction(
            text,
            path=loop,
            reader=read_named,
            settings=changed,
            cases=cases,
            seed=seed,
            form=cast(jobs.Form, form),
            view=cast(jobs.View, view or "elevation"),
            picture=cast(jobs.PictureFormat | None, drawn),
        )
    put(answer.document, output, {picture: answer.picture} if picture and answer.picture else {})
    if form != "text" or output != "-":
        say(answer.warnings)
    if strict and answer.danger:
        ctx.exit(DANGER_MET)
