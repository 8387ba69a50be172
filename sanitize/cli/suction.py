"""`sanitize suction`."""

from typing import cast

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

_WITH_PICTURE = ("--size-throat", "--lasts")


def _refuse(others: dict[str, bool], picture: str | None, view: str | None) -> None:
    """Raise UsageError for options that do not go together; others: the questions besides the check, by option."""
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
@loop_argument
@json_option()
@csv_option("The parts of the loop, or the answer's table, in SI.")
@units_option
@settings_option("return hose.length=2 m")
@click.option("--faults", is_flag=True, help="Instead: what happens when one thing fails, fault by fault.")
@click.option("--advise", is_flag=True, help="Instead: what to change so that the injector draws.")
@click.option("--size-throat", is_flag=True, help="Instead: which throat the injector should have.")
@click.option("--lasts", is_flag=True, help="Instead: how long it lasts between cleanings of the filter.")
@picture_option("Draw a picture into FILE.png or FILE.svg.")
@click.option(
    "--view",
    type=click.Choice(list(jobs.VIEWS)),
    help="What the picture shows: heights, pressure along the loop, pump and loop, or gas.  [default: elevation]",
)
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
    form = form_of(as_json, as_csv)
    _refuse(others, picture, view)
    keep_apart([loop], [output, picture], "the loop file, -o FILE and --picture FILE")
    asked = source(loop, settings, units)
    if faults:
        answer = jobs.faults(asked, cases=cases, seed=seed, form=form)
    elif advise:
        answer = jobs.advice(asked, cases=cases, seed=seed, form=form)
    elif size_throat:
        answer = jobs.throats(asked, cases=cases, seed=seed, form=form, picture=picture_format(picture))
    elif lasts:
        answer = jobs.lasts(asked, cases=cases, seed=seed, form=form, picture=picture_format(picture))
    else:
        answer = jobs.suction(
            asked,
            cases=cases,
            seed=seed,
            form=form,
            view=cast(jobs.View, view or "elevation"),
            picture=picture_format(picture),
        )
    give(answer, output, form, (picture, answer.picture), strict=strict)
