"""One day after the other, over all cases at once, until a day ends as it began."""

from dataclasses import dataclass

import numpy as np

from sanitize.studies.day.masses import Masses, masses_of
from sanitize.studies.day.parts import AirSide, Chemistry, Clearing, Supply
from sanitize.studies.day.rates import Flowing, flowing, lid_moved, rates_of
from sanitize.studies.day.reactor import FAST, OVER, OXIDANT, OZONE, ROOM, SEEN, SLOW, STATES, advance
from sanitize.studies.day.schedule import Stretches
from sanitize.studies.day.warmth import Warmth
from sanitize.studies.draws import Array, Mask

MOST_DAYS = 14
REPEATS_RATIO = 0.01
"""Largest change from one midnight to the next for a day that repeats itself."""
NOTHING_MGL, NOTHING_MGM3, NOTHING_K, NOTHING_NTU = 1e-5, 1e-3, 0.05, 1e-4
"""Ozone in water and in air, warmth and haze that count as none."""
FIRST_STEP_MIN = 0.1
TOLERANCE_RATIO = 1e-3


@dataclass(frozen=True, eq=False)
class Day:
    """The last day: states (stretches, 6, cases) at the start and at the end of each stretch.

    water_c, haze_ntu: at the edges of the stretches, (stretches + 1, cases); dosed_mgl: of the other oxidant;
    chiller_min: time that the chiller ran, over the cases; days_count: simulated in all; repeats: which cases ended
    the day as they began it; demand_rise_mgl: by which fast and slow demand grew in this day; steps_count: of the day.
    """

    stretches: Stretches
    ways: Flowing
    masses: Masses
    first: Array
    last: Array
    seen: Array
    water_c: Array
    haze_ntu: Array
    chiller_min: Array
    dosed_mgl: Array
    demand_rise_mgl: Array
    repeats: Mask
    days_count: int
    steps_count: int


def start_state(cases: int, chemistry: Chemistry) -> Array:
    """Fresh water without ozone and demand, the other oxidant at its start, clean air."""
    state = np.zeros((STATES, cases))
    state[OXIDANT] = chemistry.oxidant_start_mgl
    return state


def simulate(
    stretches: Stretches,
    warmth: Warmth,
    supply: Supply | None,
    air: AirSide,
    chemistry: Chemistry,
    clearing: Clearing,
    bathers_per_day: float,
    days: int | None = None,
    tolerance_ratio: float = TOLERANCE_RATIO,
) -> Day:
    """The last of so many days; where `days` is None, of as many as it takes until a day repeats itself, 14 at most.

    All arrays broadcast over the cases of `warmth.start_c`. Each day the other oxidant is brought back to its start
    right after the last bathing, or at the end of the day.
    """
    cases = warmth.start_c.size
    state, haze, water = start_state(cases, chemistry), np.zeros(cases), warmth.start_c
    count = 0
    while True:
        count += 1
        edges, chiller_min = warmth.through(stretches, water, bathers_per_day)
        ways = flowing(stretches, 0.5 * (edges[1:] + edges[:-1]), supply, air, chemistry)
        day = _one(stretches, ways, state, bathers_per_day, air, chemistry, tolerance_ratio)
        clear = _haze(stretches, haze, bathers_per_day, clearing)
        ended = day.last[-1]
        begun = np.concatenate([state, water[np.newaxis], haze[np.newaxis]])
        repeats = _repeats(begun, np.concatenate([ended, edges[-1:], clear[-1:]]), bathers_per_day, chemistry)
        if count == days or (days is None and (repeats.all() or count == MOST_DAYS)):
            masses = masses_of(stretches, ways, day.seen, day.first, day.last, air, chemistry)
            rise = ended[FAST : SLOW + 1].sum(0) - state[FAST : SLOW + 1].sum(0)
            return Day(
                stretches, ways, masses, day.first, day.last, day.seen, edges, clear, chiller_min, day.dosed_mgl, rise,
                repeats, count, day.steps_count,
            )  # fmt: skip
        state, haze, water = ended, clear[-1], edges[-1]


@dataclass(frozen=True, eq=False)
class _Dissolved:
    first: Array
    last: Array
    seen: Array
    dosed_mgl: Array
    steps_count: int


def _one(
    day: Stretches,
    ways: Flowing,
    state: Array,
    bathers_per_day: float,
    air: AirSide,
    chemistry: Chemistry,
    tolerance_ratio: float,
) -> _Dissolved:
    rates = rates_of(day, ways, bathers_per_day, air, chemistry)
    dose_after = int(np.flatnonzero(day.bathing)[-1]) if day.bathing.any() else day.count - 1
    first, last = np.empty((day.count, *state.shape)), np.empty((day.count, *state.shape))
    seen = np.empty((day.count, SEEN, state.shape[1]))
    dosed = np.zeros(state.shape[1])
    switched = np.zeros(day.count, dtype=bool)
    for flag in (day.pump, day.ozone, day.bathing, day.lid):
        switched |= flag != np.roll(flag, 1)
    step, steps = FIRST_STEP_MIN, 0
    for index in range(day.count):
        if day.lid[index] != day.lid[index - 1]:
            state = lid_moved(state, air, bool(day.lid[index]))
        first[index] = state
        if switched[index]:
            step = FIRST_STEP_MIN
        done = advance(state, rates.at(index), float(day.length_min[index]), step, tolerance_ratio)
        state, seen[index], step, steps = done.state, done.seen, done.step_min, steps + done.steps_count
        last[index] = state
        if index == dose_after:
            state = state.copy()
            dosed = np.maximum(chemistry.oxidant_start_mgl - state[OXIDANT], 0.0)
            state[OXIDANT] += dosed
            if index == day.count - 1:
                last[index] = state
    return _Dissolved(first, last, seen, dosed, steps)


def _haze(day: Stretches, start: Array, bathers_per_day: float, clearing: Clearing) -> Array:
    """Haze at the edges of the stretches: each is solved exactly."""
    bathing_min = float(day.length_min[day.bathing].sum())
    brought = bathers_per_day * clearing.haze_each_ntu / bathing_min if bathing_min else np.zeros(start.size)
    found = [start]
    for index in range(day.count):
        rate = clearing.dilution_per_min + (clearing.cleared_per_min if day.pump[index] else 0.0)
        length = float(day.length_min[index])
        share = np.exp(-rate * length)
        steady = np.where(rate > 0.0, (1.0 - share) / np.where(rate > 0.0, rate, 1.0), length)
        found.append(found[-1] * share + (brought if day.bathing[index] else 0.0) * steady)
    return np.stack(found)


def _repeats(begun: Array, ended: Array, bathers_per_day: float, chemistry: Chemistry) -> Mask:
    """Which cases end a day as they began it: states (6, cases), then temperature and haze."""
    change = np.abs(ended - begun)
    brought = bathers_per_day * chemistry.demand_each_mg.sum(0) / chemistry.volume_l
    floors = {OZONE: NOTHING_MGL, OXIDANT: NOTHING_MGL, OVER: NOTHING_MGM3, ROOM: NOTHING_MGM3}
    kept = np.ones(change.shape[1], dtype=bool)
    for row, floor in floors.items():
        kept &= change[row] <= REPEATS_RATIO * np.abs(ended[row]) + floor
    kept &= change[FAST : SLOW + 1].sum(0) <= REPEATS_RATIO * brought + NOTHING_MGL
    kept &= (change[STATES] <= NOTHING_K) & (change[STATES + 1] <= REPEATS_RATIO * ended[STATES + 1] + NOTHING_NTU)
    return kept
