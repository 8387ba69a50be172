"""`sanitize compare`."""

from collections.abc import Sequence
from dataclasses import replace

import click

from sanitize import jobs
from sanitize.basis.errors import InputError, Problem
from sanitize.cli.asked import settings_option, source, units_option, with_units
from sanitize.cli.cases import cases_option, seed_option
from sanitize.cli.files import keep_apart
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import csv_option, form_of, give, json_option, output_option, strict_option

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
@json_option()
@csv_option("The figures as a table, a row for each file, in SI units.")
@units_option
@settings_option("tub.water_level=0.7 m", "one field in every file")
@cases_option()
@seed_option
@strict_option
@output_option
def command(
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
    form = form_of(as_json, as_csv)
    if len(loops) + bool(changed) < 2:
        raise click.UsageError("give two loop files or more, or one and --with NAME.KEY=VALUE.")
    if any(setting.partition("=")[0].strip() == "units" for setting in changed):
        raise click.UsageError("--with cannot set the units of one file: all answer in the same; use --units.")
    if len(loops) > MOST_FILES:
        raise click.UsageError(f"at most {MOST_FILES} loop files can stand side by side.")
    keep_apart(loops, [output], "the loop files and -o FILE")
    sources = _read(loops)
    if changed:
        sources.append(replace(sources[0], settings=changed))
    answer = jobs.comparison(
        sources,
        settings=with_units(settings, units),
        cases=cases,
        seed=seed,
        form=form,
    )
    give(answer, output, form, strict=strict)


def _read(loops: Sequence[str]) -> list[jobs.Source]:
    """The texts of all files; raises InputError with every file that cannot be read."""
    sources: list[jobs.Source] = []
    problems: list[Problem] = []
    for loop in loops:
        try:
            sources.append(source(loop, (), None))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(list(dict.fromkeys(problems)))
    return sources
