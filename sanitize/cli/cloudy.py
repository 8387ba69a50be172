"""`sanitize cloudy`."""

import sys
from typing import TYPE_CHECKING

import click

from sanitize import jobs
from sanitize.cli.asked import loop_argument, settings_option, source, units_option
from sanitize.cli.cases import cases_option, seed_option
from sanitize.cli.files import keep_apart, read_beside, same_file, write_files
from sanitize.cli.group import SHORT_HELP
from sanitize.cli.output import (
    give,
    json_option,
    named_file,
    output_option,
    picture_format,
    picture_option,
    strict_option,
)

if TYPE_CHECKING:
    from sanitize.report.cloudy_talk import CloudyTalk

_WORDS = {"y": True, "yes": True, "n": False, "no": False, "?": None, "u": None, "unsure": None, "": None}
_STOP = ("q", "quit", "stop")


def _list_signs(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value:
        click.echo(jobs.cloudy_signs().rstrip("\n"))
        ctx.exit()


@click.command(short_help=SHORT_HELP["cloudy"])
@loop_argument
@click.option("--saw", multiple=True, metavar="CODE", help="What you see; may stand several times, as the next two.")
@click.option("--not", "not_seen", multiple=True, metavar="CODE", help="What you looked for and do not see.")
@click.option("--unsure", multiple=True, metavar="CODE", help="What you do not know and do not want to be asked.")
@click.option("--list", is_flag=True, is_eager=True, expose_value=False, callback=_list_signs,
              help="Every CODE with its question, and how to find out.")  # fmt: skip
@click.option("--ask", is_flag=True, help="Put the questions here, the one that teaches most for its work first.")
@click.option("--answers", metavar="FILE", help="Take up the answers of FILE; --saw, --not and --unsure go over them.")
@click.option(
    "--save", metavar="FILE", callback=named_file, help="Write all answers into FILE, to be taken up with --answers."
)
@click.option("--measured", metavar="FILE", help="A file with readings in a table [measured].")
@click.option("--runs", metavar="TIME", help='How long the pump runs each day, such as "6 h".')
@click.option("--water-age", metavar="TIME", help='Time since the last fill, such as "20 days".')
@click.option("--filter-age", metavar="TIME", help='Time since the filter was cleaned, such as "30 days".')
@click.option("--judgement", metavar="FILE", help="Your own numbers in place of the tables'.")
@json_option("The whole result as JSON; every chance in it is judgement.")
@units_option
@settings_option("measured.bucket_flow=34 L/min")
@picture_option("Draw the ranking into FILE.png or FILE.svg.")
@cases_option(jobs.CLOUDY_CASES, "Cases drawn from the ranges.", most=4096, none=False)
@seed_option
@strict_option
@output_option
def command(
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
    if ask and "-" in (loop, answers, measured, judgement):
        raise click.UsageError("--ask reads the answers from the terminal, so no file can come from standard input.")
    taken_up = answers is not None and save is not None and same_file(answers, save)
    read = [loop, measured, judgement, None if taken_up else answers]
    keep_apart(read, [output, save, picture], "files that are read, -o, --picture and --save (but on --answers)")
    talk = jobs.cloudy(
        source(loop, settings, units, measured),
        saw=saw,
        not_seen=not_seen,
        unsure=unsure,
        answers=read_beside(answers, "a file of answers, as --save writes one"),
        judgement=read_beside(judgement, "a file with numbers of your own"),
        runs=runs,
        water_age=water_age,
        filter_age=filter_age,
        cases=cases,
        seed=seed,
    )
    if ask:
        talk = _asked(talk, save)
    form: jobs.TextOrJson = "json" if as_json else "text"
    answer = talk.answer(form, picture_format(picture))
    others = (save, answer.answers_file.encode()), (picture, answer.picture)
    give(answer, output, form, *others, strict=strict)


def _asked(talk: "CloudyTalk", save: str | None) -> "CloudyTalk":
    """Questions until none is worth asking, the person stops, or the input ends; a break keeps the answers too."""
    click.echo("Answer y, n, ? for not known, or q to stop and see the answer.", err=True)
    while (question := talk.question()) is not None:
        code, asks, how = question
        click.echo(f"\n{asks}\n  {how}", err=True)
        click.echo("  [y/n/?/q] ", nl=False, err=True)
        try:
            line = sys.stdin.readline()
        except KeyboardInterrupt:
            if save is not None:
                write_files({save: talk.answers_file.encode()})
            raise
        word = line.strip().casefold()
        if not line or word in _STOP:
            break
        if word not in _WORDS:
            click.echo(f"  {word!r} is none of y, n, ? and q.", err=True)
            continue
        talk = talk.answered(code, _WORDS[word])
    return talk
