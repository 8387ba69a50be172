"""`sanitize fit`."""

import os
from pathlib import Path
from typing import cast

import click

from sanitize import jobs
from sanitize.basis.units import Family
from sanitize.cli.asked import settings_option, source, units_option
from sanitize.cli.cases import cases_option, seed_option
from sanitize.cli.files import keep_apart, read_text
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import give, json_option, named_file, output_option, put


@click.command(short_help=SHORT_HELP["fit"])
@click.argument("loop", required=False)
@click.option("--measured", metavar="FILE", help="A file with the readings in a table [measured].")
@click.option(
    "--write",
    "written",
    metavar="FILE",
    callback=named_file,
    help="Write a loop file that carries what the readings taught.",
)
@click.option("--bench", is_flag=True, help="Instead: how to measure pump and injector before gluing; needs no LOOP.")
@click.option("--first-wet", is_flag=True, help="Instead: a sheet of what the loop should show at its first filling.")
@json_option()
@units_option
@settings_option("measured.bucket_flow=34 L/min")
@cases_option(jobs.FIT_CASES, "Cases that explain the readings.", fewest=64, most=8192, none=False)
@seed_option
@output_option
def command(
    loop: str | None,
    bench: bool,
    first_wet: bool,
    measured: str | None,
    written: str | None,
    as_json: bool,
    units: str | None,
    settings: tuple[str, ...],
    cases: int,
    seed: int,
    output: str,
) -> None:
    """What readings teach about a loop, and how to take them.

    LOOP is a loop file, or - for standard input; the readings stand in its table [measured] or in a file of their own.
    --bench shows how to measure pump and injector before gluing, and with --measured FILE what those readings give.
    With --json, and with -o, cautions and notices go to standard error.
    """
    _refuse(loop, bench, first_wet, measured, written, as_json, settings)
    keep_apart([loop, measured], [output, written], "the loop file, --measured, --write and -o")
    if written is not None and loop == "-":
        raise click.UsageError("--write needs a loop file with a name, as the new file is based on it.")
    form: jobs.TextOrJson = "json" if as_json else "text"
    if bench:
        if measured is None:
            put(jobs.bench_procedure(), output)
            return
        family = cast(Family | None, units)
        readings = read_text(measured, "a file with a table [bench]", "sanitize fit --bench")
        give(jobs.bench(readings, path=measured, units=family, seed=seed, form=form), output, form)
        return
    loop = str(loop)
    asked = source(loop, settings, units, measured)
    if first_wet:
        give(jobs.first_wet(asked, cases=cases, seed=seed, form=form), output, form)
        return
    fitted = jobs.fit(
        asked,
        based_on=loop if written is None else _seen_from(written, loop),
        cases=cases,
        seed=seed,
        form=form,
    )
    give(fitted, output, form, (written, fitted.loop_file.encode()))


def _refuse(
    loop: str | None, bench: bool, first_wet: bool, measured: str | None, written: str | None, as_json: bool,
    settings: tuple[str, ...],
) -> None:  # fmt: skip
    """Raise UsageError for arguments that do not go together."""
    if bench and first_wet:
        raise click.UsageError("--bench and --first-wet exclude each other.")
    if bench:
        if loop is not None or written is not None or settings:
            raise click.UsageError("--bench takes no LOOP, --write or --set; its readings come with --measured FILE.")
        if as_json and measured is None:
            raise click.UsageError("--bench --json needs the readings, with --measured FILE.")
    elif loop is None:
        raise click.UsageError("Missing argument 'LOOP'.")
    if first_wet and (measured is not None or written is not None):
        raise click.UsageError("--first-wet comes before any reading: it takes no --measured and no --write.")


def _seen_from(target: str, loop: str) -> str:
    """The path of the loop file as seen from the folder of the new file."""
    return os.path.relpath(os.path.realpath(loop), Path(os.path.realpath(target)).parent).replace(os.sep, "/")
