"""What the file wishes of the timer, and what stands in where it says nothing."""

from math import ceil

import numpy as np
from numpy.typing import NDArray

from sanitize.plant.day import DAY_S, PriceWindow, Timer, Window
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.hours.numbers import Number, hours_entry, number

SEGMENTS_S = {"15 min": 900.0, "30 min": 1800.0}
MINUTES = 1440


def segment_s(timer: Timer) -> float:
    """The timer's step."""
    return SEGMENTS_S[timer.segment]


def least_run_s(plant: Plant, timer: Timer) -> float:
    """Shortest run of the pump, in whole steps: stated, or a step, longer where ozone runs with it."""
    step = segment_s(timer)
    if timer.least_run_s is not None:
        wanted = timer.least_run_s
    else:
        wanted = hours_entry("ozone_block_s").value if plant.ozone is not None and not timer.two_timers else step
    return step * max(ceil(wanted / step - 1e-9), 1)


def longest_idle(plant: Plant, draws: Draws, timer: Timer) -> Number:
    """Longest time that the water may stand, shorter in warm water."""
    warm = plant.tub.temperature_c >= hours_entry("warm_from_c").value
    return number(draws, timer.longest_idle_s, "longest_idle_warm_s" if warm else "longest_idle_cold_s", "idle time")


def runs_that_leave_no_gap_s(gap_s: NDArray[np.float64], least_s: float) -> NDArray[np.float64]:
    """Run time a day of the fewest equal runs of that length that leave no gap longer than another time.

    >>> float(runs_that_leave_no_gap_s(np.array(21600.0), 900.0))
    3600.0
    """
    runs = np.maximum(np.ceil(DAY_S / (gap_s + least_s) - 1e-9), 1.0)
    return np.asarray(np.minimum(runs * least_s, DAY_S))


def minutes_of(windows: tuple[Window, ...], before_s: float = 0.0, after_s: float = 0.0) -> NDArray[np.bool_]:
    """Which minutes of the day lie in windows made longer at both ends."""
    found = np.zeros(MINUTES, dtype=bool)
    for window in windows:
        start = round((window.start_s - before_s) / 60.0)
        length = round((window.length_s + before_s + after_s) / 60.0)
        found[np.arange(start, start + min(length, MINUTES)) % MINUTES] = True
    return found


def minutes_around(windows: tuple[Window, ...], before_s: float, after_s: float) -> NDArray[np.bool_]:
    """Which minutes of the day lie right before or behind a window."""
    found = np.zeros(MINUTES, dtype=bool)
    for window in windows:
        for start, length in ((window.start_s - before_s, before_s), (window.end_s, after_s)):
            first = round(start / 60.0)
            found[np.arange(first, first + round(length / 60.0)) % MINUTES] = True
    return found


def prices_of(timer: Timer) -> tuple[PriceWindow, ...] | None:
    """The day's prices in windows, None where the file gives none."""
    if timer.price_per_kwh is not None:
        return (PriceWindow(start_s=0.0, end_s=DAY_S, price_per_kwh=timer.price_per_kwh),)
    return timer.prices or None


def mean_price_per_kwh(prices: tuple[PriceWindow, ...]) -> float:
    """Mean price over the day."""
    return sum(window.price_per_kwh * window.length_s for window in prices) / DAY_S
