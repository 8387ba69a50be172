"""The group of commands: each is imported when it is called, and every error is caught here once."""

import os
import sys
from importlib import import_module
from typing import Any

import click

from sanitize.basis.errors import NoSolutionError, SanitizeError
from sanitize.cli.blocks import blocks

WRONG_INPUT, NO_SOLUTION, INTERRUPTED, PIPE_CLOSED = 2, 3, 130, 141

SHORT_HELP: dict[str, str] = {
    "new": "Write a commented loop file to start from.",
    "suction": "Will the injector draw, how surely, and why.",
    "hours": "How long the pump must run each day, why, and when.",
    "ozone": "What ozone dissolves, stays, and ends in the air.",
    "parts": "Do the parts mate, and what to buy and cut.",
    "cloudy": "What clouds the water, and what to test next.",
    "fit": "What readings teach about a loop, and how to take them.",
    "dose": "What to add to the water, in which order.",
    "compare": "Loop files side by side: what differs, and what it does.",
    "day": "Ozone, chlorine, haze and the room's air through a day.",
    "tables": "The numbers behind the answers, with sources.",
    "cautions": "Every caution that there is, and who decides.",
    "schema": "The JSON Schema of a loop file.",
}
"""Every command in the order of the help; `sanitize --help` needs no more than this."""


class Commands(click.Group):
    """A group that imports the module of a command only when that command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command in the order of the help."""
        return list(SHORT_HELP)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """A command by its name, from the module of that name."""
        if cmd_name not in SHORT_HELP:
            return None
        command: click.Command = import_module(f"sanitize.cli.{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The commands in the help, without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(SHORT_HELP.items()))

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command; an error becomes one block a problem and an exit code, never a traceback."""
        try:
            return super().invoke(ctx)
        except SanitizeError as error:
            click.echo(blocks(error), err=True)
            ctx.exit(NO_SOLUTION if isinstance(error, NoSolutionError) else WRONG_INPUT)
        except BrokenPipeError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            ctx.exit(PIPE_CLOSED)
        except KeyboardInterrupt:
            ctx.exit(INTERRUPTED)
