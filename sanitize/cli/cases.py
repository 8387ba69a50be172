"""The options of commands that solve a loop over many cases."""

from collections.abc import Callable
from typing import Any

import click

from sanitize import jobs

_FEWEST, _MOST = 16, 65536


def cases_option(
    default: int = jobs.CASES,
    told: str = "Cases drawn from the ranges; 0 for none.",
    *,
    fewest: int = _FEWEST,
    most: int = _MOST,
    none: bool = True,
) -> Callable[[Any], Any]:
    """--cases for a command: a power of two from fewest to most; none: 0 may be asked for as well."""
    middle = default.bit_length() - 1
    write = ", ".join(str(2**power) for power in (middle - 1, middle)) + f" or {2 ** (middle + 1)}"

    def checked(ctx: click.Context, param: click.Parameter, value: int) -> int:
        if (none and value == 0) or (fewest <= value <= most and not value & (value - 1)):
            return value
        refused = "is neither 0 nor a power of two" if none else "is no power of two"
        raise click.BadParameter(f"{value} {refused} from {fewest} to {most}; write {write}.")

    return click.option("--cases", default=default, show_default=True, callback=checked, help=told)


seed_option = click.option(
    "--seed", default=jobs.SEED, show_default=True, type=click.IntRange(0, 2**31), help="Seed of the draw."
)
