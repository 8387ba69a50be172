"""What is switched when in a day, cut into stretches in which nothing switches."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from sanitize.plant.day import DAY_S, Window
from sanitize.studies.draws import Array, Mask

MINUTE_S = 60.0
DAY_MIN = DAY_S / MINUTE_S
LONGEST_MIN = 15.0
"""Longest stretch: temperatures, and rates with them, stand still in one."""
Origin = Literal["stated", "planned", "all day"]


@dataclass(frozen=True)
class Switching:
    """What is on when, as parts of the day; origin: stated in the file, planned by the hours, or the pump all day.

    lid: while it is closed, empty without one; ozone and chiller run only while the pump does.
    """

    pump: tuple[Window, ...]
    ozone: tuple[Window, ...]
    chiller: tuple[Window, ...]
    bathing: tuple[Window, ...]
    lid: tuple[Window, ...]
    origin: Origin


@dataclass(frozen=True, eq=False)
class Stretches:
    """A day's stretches in order; times in minutes from midnight, the start of day; flags of each stretch."""

    start_min: Array
    length_min: Array
    pump: Mask
    ozone: Mask
    chiller: Mask
    bathing: Mask
    lid: Mask

    @property
    def count(self) -> int:
        """How many there are."""
        return int(self.start_min.size)

    @property
    def end_min(self) -> Array:
        """When each ends."""
        return self.start_min + self.length_min

    @property
    def switchings_count(self) -> int:
        """How often a day something switches."""
        flags = np.stack([self.pump, self.ozone, self.chiller, self.bathing, self.lid])
        return int((flags != np.roll(flags, 1, axis=1)).any(axis=0).sum())


def stretches_of(switching: Switching, longest_min: float = LONGEST_MIN) -> Stretches:
    """The day cut at every switch time and at midnight, no stretch longer than `longest_min`.

    >>> noon = (Window(start_s=43200.0, end_s=43500.0),)
    >>> day = stretches_of(Switching(noon, noon, (), (), (), "stated"), longest_min=720.0)
    >>> day.start_min.tolist(), day.pump.tolist()
    ([0.0, 720.0, 725.0], [False, True, False])
    """
    groups = (switching.pump, switching.ozone, switching.chiller, switching.bathing, switching.lid)
    cuts = {0.0, DAY_MIN}
    for windows in groups:
        for window in windows:
            cuts |= {window.start_s % DAY_S / MINUTE_S, window.end_s % DAY_S / MINUTE_S}
    edges = sorted(cuts)
    starts: list[float] = []
    for first, last in pairwise(edges):
        parts = int(np.ceil((last - first) / longest_min - 1e-9))
        starts += [first + (last - first) * part / parts for part in range(parts)]
    start = np.array(starts)
    length = np.diff(np.append(start, DAY_MIN))
    pump, ozone, chiller, bathing, lid = (holds(windows, start + 0.5 * length) for windows in groups)
    return Stretches(start, length, pump, ozone & pump, chiller & pump, bathing, lid)


def holds(windows: Sequence[Window], time_min: Array) -> NDArray[np.bool_]:
    """Which times of the day lie in one of the windows."""
    found = np.zeros(time_min.shape, dtype=bool)
    for window in windows:
        found |= (time_min * MINUTE_S - window.start_s) % DAY_S < window.length_s
    return found


def rest_of_day(windows: Sequence[Window], before_s: float = 0.0) -> tuple[Window, ...]:
    """The parts of the day outside windows that are made longer at their start; all day where there are none.

    >>> [(window.start_s / 3600, window.end_s / 3600) for window in rest_of_day(
    ...     [Window(start_s=64800.0, end_s=68400.0)], 900.0)]
    [(19.0, 17.75)]
    """
    opened = sorted((window.start_s - before_s, window.start_s + window.length_s) for window in windows)
    merged: list[list[float]] = []
    for start, end in opened:
        if merged and start <= merged[-1][1]:
            merged[-1][1] = max(merged[-1][1], end)
        else:
            merged.append([start, end])
    if len(merged) > 1 and merged[0][0] + DAY_S <= merged[-1][1]:
        merged[0][0] = merged[-1][0] - DAY_S
        merged.pop()
    if not merged:
        return (Window(start_s=0.0, end_s=DAY_S),)
    if merged[-1][1] - merged[0][0] >= DAY_S and len(merged) == 1:
        return ()
    following = [*merged[1:], [merged[0][0] + DAY_S, 0.0]]
    return tuple(
        Window(start_s=first[1] % DAY_S, end_s=second[0] % DAY_S)
        for first, second in zip(merged, following, strict=True)
        if second[0] - first[1] > 1e-6
    )
