"""`sanitize cloudy`."""

import sys
from pathlib import PurePath
from typing import TYPE_CHECKING, cast

import click

from sanitize import jobs
from sanitize.cli.files import read_named, read_text, same_file
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import output_option, put, say, units_option

if TYPE_CHECKING:
    from sanitize.report.cloudy_talk import CloudyTalk

DANGER_MET = 1
_FEWEST, _MOST = 16, 4096
_WORDS = {"y": True, "yes": True, "n": False, "no": False, "?": None, "u": None, "unsure": None, "": None}
_STOP = ("q", "quit", "stop")


def _power_of_two(ctx: click.Context, param: click.Parameter, value: int) -> int:
    if not _FEWEST <= value <= _MOST or value & (value - 1):
        raise click.BadParameter(f"{value} is no power of two from {_FEWEST} to {_MOST}; write 128, 256 or 512.")
    return value


def _picture_file(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
    if value is not None and PurePath(value).suffix.lower() not in (".png", ".svg"):
        raise click.BadParameter(f"{value} ends neither in .png nor in .svg.")
    return value


def _list_signs(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value:
        click.echo(jobs.cloudy_signs().rstrip("\n"))
        ctx.exit()


@click.command(short_help=SHORT_HELP["cloudy"])
@click.argument("loop")
@click.option("--saw", multiple=True, metavar="CODE", help="What you see; may stand several times, as the next two.")
@click.option("--not", "not_seen", multiple=True, metavar="CODE", help="What you looked for and do not see.")
@click.option("--unsure", multiple=True, metavar="CODE", help="What you do not know and do not want to be asked.")
@click.option("--list", is_flag=True, is_eager=True, expose_value=False, callback=_list_signs,
              help="Every CODE with its question, and how to find out.")  # fmt: skip
@click.option("--ask", is_flag=True, help="Put the questions here, the one that teaches most for its work first.")
@click.option("--answers", metavar="FILE", help="Take up the answers of FILE; --saw, --not and --unsure go over them.")
@click.option("--save", metavar="FILE", help="Write all answers into FILE, to be taken up with --answers.")
@click.option("--measured", metavar="FILE", help="A file with readings in a table [measured].")
@click.option("--runs", metavar="TIME", help='How long the pump runs each day, such as "6 h".')
@click.option("--water-age", metavar="TIME", help='Time since the last fill, such as "20 days".')
@click.option("--filter-age", metavar="TIME", help='Time since the filter was cleaned, such as "30 days".')
@click.option("--judgement", metavar="FILE", help="Your own numbers in place of the tables'.")
@click.option("--json", "as_json", is_flag=True, help="The whole result as JSON; every chance in it is judgement.")
@units_option
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME.KEY=VALUE",
    help='Another value for one field, such as "measured.bucket_flow=34 L/min"; may stand several times.',
)
@click.option("--picture", metavar="FILE", callback=_picture_file, help="Draw the ranking into FILE.png or FILE.svg.")
@click.option("--cases", default=jobs.CLOUDY_CASES, show_default=True, callback=_power_of_two,
              help="Cases drawn from the ranges.")  # fmt: skip
@click.option("--seed", default=jobs.SEED, show_default=True, type=click.IntRange(0, 2**31), help="Seed of the draw.")
@click.option("--strict", is_flag=True, help="Exit with 1 when a danger is met.")
@output_option
@click.pass_context
def command(
    ctx: click.Context,
    loop: str,
    saw: tuple[str, ...],
    not_seen: tuple[str, ...],
    unsure: tuple[str, ...],
    ask: bool,
    answers: str | None,
    save: str | None,
    measured: str | None,
    runs: str | None,
    water_age: str | None,
    filter_age: str | None,
    judgement: str | None,
    as_json: bool,
    units: str | None,
    settings: tuple[str, ...],
    picture: str | None,
    cases: int,
    seed: int,
    strict: bool,
    output: str,
) -> None:
    """What clouds the water, and what to test next.

    LOOP is a loop file, or - for standard input. Readings in its table [measured] are held against the model.
    With --json, and with -o, warnings go to standard error; so do the questions of --ask.
    """
    sources = [source for source in (loop, answers, measured, judgement) if source is not None]
    targets = [target for target in (output, save, picture) if target is not None]
    _refuse(ask, loop, sources, targets, answers, save)
    talk = jobs.cloudy(
        read_text(loop),
        path=loop,
        reader=read_named,
        settings=(*settings, f"units={units}") if units else settings,
        measured=_file(measured),
        saw=saw,
        not_seen=not_seen,
        unsure=unsure,
        answers=_file(answers),
        judgement=_file(judgement),
        runs=runs,
        water_age=water_age,
        filter_age=filter_age,
        cases=cases,
        seed=seed,
    )
    if ask:
        talk = _asked(talk)
    drawn = PurePath(picture).suffix.lower().removeprefix(".") if picture else None
    answer = talk.answer("json" if as_json else "text", cast(jobs.PictureFormat | None, drawn))
    files = {save: answer.answers_file.encode()} if save else {}
    if picture and answer.picture:
        files[picture] = answer.picture
    put(answer.document, output, files)
    if as_json or output != "-":
        say(answer.warnings)
    if strict and answer.danger:
        ctx.exit(DANGER_MET)


def _refuse(
    ask: bool, loop: str, sources: list[str], targets: list[str], answers: str | None, save: str | None
) -> None:
    """Raise UsageError where a file would be read and written, or written twice."""
    if ask and "-" in sources:
        raise click.UsageError("--ask reads the answers from the terminal, so no file can come from standard input.")
    for number, target in enumerate(targets):
        if any(same_file(target, other) for other in targets[number + 1 :]):
            raise click.UsageError("-o FILE, --save and --picture must be different files.")
        for source in sources:
            taken_up = source == answers and target == save
            if same_file(source, target) and not taken_up:
                raise click.UsageError("a file that is read must not be written to, but for --save on --answers.")


def _file(path: str | None) -> tuple[str, str] | None:
    return None if path is None else (path, read_text(path))


def _asked(talk: "CloudyTalk") -> "CloudyTalk":
    """Questions until none is worth asking, the person stops, or the input ends."""
    click.echo("Answer y, n, ? for not known, or q to stop and see the answer.", err=True)
    while (question := talk.question()) is not None:
        code, asks, how = question
        click.echo(f"\n{asks}\n  {how}", err=True)
        click.echo("  [y/n/?/q] ", nl=False, err=True)
        line = sys.stdin.readline()
        word = line.strip().casefold()
        if not line or word in _STOP:
            break
        if word not in _WORDS:
            click.echo(f"  {word!r} is none of y, n, ? and q.", err=True)
            continue
        talk = talk.answered(code, _WORDS[word])
    return talk
