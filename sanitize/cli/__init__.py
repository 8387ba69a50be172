"""The command line: parses, calls one job, prints once."""

import click

from sanitize import __version__
from sanitize.cli.group import Commands

_CONTEXT = {"help_option_names": ["-h", "--help"]}


@click.group(cls=Commands, context_settings=_CONTEXT, no_args_is_help=True)
@click.version_option(__version__, prog_name="sanitize")
def main() -> None:
    """Answers before gluing, for small recirculating cold-water tubs: does water move, does the injector draw.

    Write a loop file with `new`, put your own tub into it, and ask `suction` about it.
    Exit codes: 0 answered; 1 answered, and --strict met a danger; 2 the input is wrong; 3 no solution.
    """
