"""`sanitize compare`."""

from collections.abc import Sequence
from typing import cast

import click

from sanitize import jobs
from sanitize.basis.errors import InputError, Problem
from sanitize.cli.cases import DANGER_MET, cases_option, seed_option, strict_option
from sanitize.cli.files import STANDARD, read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put, say, units_option

MOST_FILES = 12


@click.command(short_help=SHORT_HELP["compare"])
@click.argument("loops", nargs=-1, required=True, metavar="LOOP...")
@click.option(
    "--with",
    "changed",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help="One file more: the first one with this value; several of them make one file together.",
)
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON, in SI units.")
@click.option("--csv", "as_csv", is_flag=True, help="The figures as a table, a row for each file, in SI units.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field in every file, such as "tub.water_level=0.7 m"; may stand several times.',
)
@cases_option
@seed_option
@strict_option
@output_option
@click.pass_context
def command(
    ctx: click.Context,
    loops: tuple[str, ...],
    changed: tuple[str, ...],
    as_json: bool,
    as_csv: bool,
    units: str | None,
    settings: tuple[str, ...],
    cases: int,
    seed: int,
    strict: bool,
    output: str,
) -> None:
    """Loop files side by side: what differs, and what it does.

    The first LOOP is the one that the others are held against; one of them may be - for standard input.
    With --json or --csv, and with -o, warnings go to standard error.
    """
    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other.")
    if len(loops) + bool(changed) < 2:
        raise click.UsageError("give two loop files or more, or one and --with NAME.KEY=VALUE.")
    if any(setting.partition("=")[0].strip() == "units" for setting in changed):
        raise click.UsageError("--with cannot set the units of one file: all answer in the same; use --units.")
    if len(loops) > MOST_FILES:
        raise click.UsageError(f"at most {MOST_FILES} loop files can stand side by side.")
    if loops.count(STANDARD) > 1:
        raise click.UsageError("standard input can be only one of the loop files.")
    if any(same_file(loop, output) for loop in loops):
        raise click.UsageError("the loop files and -o FILE must be different files.")
    form = "json" if as_json else "csv" if as_csv else "text"
    sources = _read(loops)
    if changed:
        sources.append(jobs.Source(sources[0].text, sources[0].path, changed))
    answer = jobs.comparison(
        sources,
        reader=read_named,
        settings=(*settings, f"units={units}") if units else settings,
        cases=cases,
        seed=seed,
        form=cast(jobs.Form, form),
    )
    put(answer.document, output)
    if form != "text" or output != STANDARD:
        say(answer.warnings)
    if strict and answer.danger:
        ctx.exit(DANGER_MET)


def _read(loops: Sequence[str]) -> list[jobs.Source]:
    """The texts of all files; raises InputError with every file that cannot be read."""
    sources: list[jobs.Source] = []
    problems: list[Problem] = []
    for loop in loops:
        try:
            sources.append(jobs.Source(read_text(loop), loop))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(list(dict.fromkeys(problems)))
    return sources
