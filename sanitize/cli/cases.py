"""The options of commands that solve a loop over many cases."""

import click

from sanitize import jobs

DANGER_MET = 1
_FEWEST, _MOST = 16, 65536


def power_of_two(ctx: click.Context, param: click.Parameter, value: int) -> int:
    """The number of cases, refused where the draw knows no such number."""
    if value != 0 and (not _FEWEST <= value <= _MOST or value & (value - 1)):
        raise click.BadParameter(
            f"{value} is neither 0 nor a power of two from {_FEWEST} to {_MOST}; write 1024, 4096 or 16384."
        )
    return value


cases_option = click.option(
    "--cases",
    default=jobs.CASES,
    show_default=True,
    callback=power_of_two,
    help="Cases drawn from the ranges; 0 for none.",
)
seed_option = click.option(
    "--seed", default=jobs.SEED, show_default=True, type=click.IntRange(0, 2**31), help="Seed of the draw."
)
strict_option = click.option("--strict", is_flag=True, help="Exit with 1 when a danger is met.")
