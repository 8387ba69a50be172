"""`sanitize fit`."""

import os
from collections.abc import Mapping
from pathlib import Path
from typing import Literal, cast

import click

from sanitize import jobs
from sanitize.basis.units import Family
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put, say, units_option

_FEWEST, _MOST = 64, 8192


def _power_of_two(ctx: click.Context, param: click.Parameter, value: int) -> int:
    if not _FEWEST <= value <= _MOST or value & (value - 1):
        raise click.BadParameter(f"{value} is no power of two from {_FEWEST} to {_MOST}; write 256, 512 or 1024.")
    return value


@click.command(short_help=SHORT_HELP["fit"])
@click.argument("loop", required=False)
@click.option("--measured", metavar="FILE", help="A file with the readings in a table [measured].")
@click.option("--write", "written", metavar="FILE", help="Write a loop file that carries what the readings taught.")
@click.option("--bench", is_flag=True, help="Instead: how to measure pump and injector before gluing; needs no LOOP.")
@click.option("--first-wet", is_flag=True, help="Instead: a sheet of what the loop should show at its first filling.")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON, in SI units.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "measured.bucket_flow=34 L/min"; may stand several times.',
)
@click.option(
    "--cases",
    default=jobs.FIT_CASES,
    show_default=True,
    callback=_power_of_two,
    help="Cases that explain the readings.",
)
@click.option("--seed", default=jobs.SEED, show_default=True, type=click.IntRange(0, 2**31), help="Seed of the draw.")
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
    targets = [target for target in (output, written) if target is not None]
    sources = [source for source in (loop, measured) if source is not None]
    if any(same_file(source, target) for source in sources for target in targets) or (
        len(targets) == 2 and same_file(*targets)
    ):
        raise click.UsageError("the loop file, --measured, --write and -o must be different files.")
    if written is not None and loop == "-":
        raise click.UsageError("--write needs a loop file with a name, as the new file is based on it.")
    form: Literal["text", "json"] = "json" if as_json else "text"
    changed = (*settings, f"units={units}") if units else settings
    if bench:
        if measured is None:
            put(jobs.bench_procedure(), output)
            return
        family = cast(Family | None, units)
        _finish(jobs.bench(read_text(measured), path=measured, units=family, seed=seed, form=form), output, as_json)
        return
    loop = str(loop)
    if first_wet:
        answer = jobs.first_wet(
            read_text(loop), path=loop, reader=read_named, settings=changed, cases=cases, seed=seed, form=form
        )
        _finish(answer, output, as_json)
        return
    fitted = jobs.fit(
        read_text(loop),
        path=loop,
        reader=read_named,
        settings=changed,
        measured=None if measured is None else (measured, read_text(measured)),
        based_on=loop if written is None else _seen_from(written, loop),
        cases=cases,
        seed=seed,
        form=form,
    )
    _finish(fitted, output, as_json, {written: fitted.loop_file.encode()} if written else {})


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


def _finish(answer: jobs.Answer, output: str, as_json: bool, others: Mapping[str, bytes] | None = None) -> None:
    put(answer.document, output, others)
    if as_json or output != "-":
        say(answer.warnings)


def _seen_from(target: str, loop: str) -> str:
    """The path of the loop file as seen from the folder of the new file."""
    return os.path.relpath(Path(loop).resolve(), Path(target).resolve().parent).replace(os.sep, "/")
