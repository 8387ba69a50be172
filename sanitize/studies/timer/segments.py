"""The day in segments of the timer, around midnight."""

from math import ceil, floor

import numpy as np
from numpy.typing import NDArray

from sanitize.plant.day import DAY_S, PriceWindow, Window
from sanitize.studies.timer.result import Device, PlanRun

Bools = NDArray[np.bool_]
MINUTES = 1440


def touched(segment_s: float, spans: list[tuple[float, float]]) -> Bools:
    """Segments that a time of the day falls into; spans: start and length [s], any start.

    >>> touched(21600.0, [(82800.0, 7200.0)]).tolist()
    [True, False, False, True]
    """
    found = np.zeros(round(DAY_S / segment_s), dtype=bool)
    for start, length in spans:
        if length > 0.0:
            first, last = floor(start / segment_s + 1e-9), ceil((start + length) / segment_s - 1e-9)
            found[np.arange(first, min(last, first + found.size)) % found.size] = True
    return found


def spans_of(windows: tuple[Window, ...]) -> list[tuple[float, float]]:
    """Windows as start and length [s]."""
    return [(window.start_s, window.length_s) for window in windows]


def before(windows: tuple[Window, ...], length_s: float) -> list[tuple[float, float]]:
    """The time right before each window."""
    return [(window.start_s - length_s, length_s) for window in windows]


def after(windows: tuple[Window, ...], length_s: float) -> list[tuple[float, float]]:
    """The time right after each window."""
    return [(window.end_s, length_s) for window in windows]


def around(windows: tuple[Window, ...], before_s: float, after_s: float) -> list[tuple[float, float]]:
    """Each window made longer at both ends."""
    return [(window.start_s - before_s, window.length_s + before_s + after_s) for window in windows]


def prices_per_kwh(segment_s: float, prices: tuple[PriceWindow, ...]) -> NDArray[np.float64]:
    """Mean price of each segment, to the minute."""
    minutes = np.zeros(MINUTES)
    for window in prices:
        first = round(window.start_s / 60.0)
        minutes[np.arange(first, first + round(window.length_s / 60.0)) % MINUTES] = window.price_per_kwh
    return np.asarray(minutes.reshape(round(DAY_S / segment_s), -1).mean(axis=1))


def runs_of(what: Device, on: Bools, segment_s: float) -> list[PlanRun]:
    """The runs in the order of their starts; one that lasts all day starts and stops at midnight.

    >>> runs_of("pump", np.array([True, False, False, True]), 21600.0)
    [PlanRun(what='pump', start_s=64800.0, stop_s=21600.0)]
    """
    if on.all():
        return [PlanRun(what, 0.0, DAY_S)]
    starts = np.flatnonzero(on & ~np.roll(on, 1))
    stops = np.flatnonzero(~on & np.roll(on, 1))
    found = []
    for start in starts:
        later = stops[stops > start]
        stop = int(later[0]) if later.size else int(stops[0])
        found.append(PlanRun(what, float(start * segment_s), float(stop * segment_s) or DAY_S))
    return found


def lasts_all_day(runs: list[PlanRun]) -> bool:
    """Whether one of the runs does."""
    return any(run.stop_s - run.start_s >= DAY_S for run in runs)
