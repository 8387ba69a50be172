"""Lengths of pipe and thread: what sockets take up, and what a nipple must have."""

import math

from sanitize.basis.figure import Figure
from sanitize.basis.tables import Entry, model_table

ENDS = ("low", "nominal", "high")


def allowance(name: str) -> Entry:
    """A row of the table of allowances."""
    return model_table("shopping_allowances")[(name,)]


def socket_depth_m(schedule: str, size: str) -> float:
    """Depth of a socket.

    >>> socket_depth_m("40", "3/4")
    0.01826
    """
    return model_table("socket_depths")[schedule, size].value


def nipple_m(schedule: str, size: str) -> Figure:
    """The shortest pipe that joins two sockets face to face: both depths, cut a little short.

    Two sockets of 3/4 in, Schedule 40, are 0.719 in deep each: 36.53 mm, of which 1.5 mm (0 to 3) are left out.

    >>> nipple_m("40", "3/4").nominal
    0.03502
    """
    both_m = 2.0 * socket_depth_m(schedule, size)
    short = allowance("nipple_short_m")
    return Figure(both_m - short.high, both_m - short.value, both_m - short.low)


def tape_m(size: str, joints_count: int) -> Figure:
    """Thread tape for so many joints: its turns around the outside of the thread."""
    around_m = math.pi * model_table("pipe_outside")[(size,)].value * joints_count
    turns = allowance("thread_tape_turns")
    return Figure(turns.low * around_m, turns.value * around_m, turns.high * around_m)


def with_saw_cuts(length: Figure, cuts_count: int) -> Figure:
    """Length [m] of pipe to buy for pieces that are together so long, with what the saw takes of each.

    >>> with_saw_cuts(Figure(0.97, 1.0, 1.03), 2)
    Figure(low=0.974, nominal=1.006, high=1.038)
    """
    saw = allowance("saw_cut_m")
    taken = (saw.low, saw.value, saw.high)
    return Figure(*(end_m + cuts_count * cut_m for end_m, cut_m in zip(length.ends, taken, strict=True)))


def with_trimming(length: Figure) -> Figure:
    """Length [m] of hose or tube to buy, with what bends, trimming and a second cut take.

    >>> with_trimming(Figure(0.97, 1.0, 1.03))
    Figure(low=1.0185, nominal=1.1, high=1.236)
    """
    more = allowance("hose_allowance_ratio")
    ratios = (more.low, more.value, more.high)
    return Figure(*(end_m * (1.0 + ratio) for end_m, ratio in zip(length.ends, ratios, strict=True)))
