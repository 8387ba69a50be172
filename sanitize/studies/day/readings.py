"""What a simulated day shows: ozone in water and air through the day, peaks, what people meet, and times to wait."""

from dataclasses import dataclass

import numpy as np

from sanitize.studies.day.parts import AirSide
from sanitize.studies.day.reactor import OVER, OXIDANT, OZONE, ROOM
from sanitize.studies.day.schedule import DAY_MIN, MINUTE_S, Stretches
from sanitize.studies.day.simulate import Day
from sanitize.studies.draws import Array, Mask


@dataclass(frozen=True, eq=False)
class Seen:
    """Readings at the start and at the end of every stretch: (stretches, 2, cases).

    room_ppmv: of the room, outdoors none; face_ppmv: right over the open water, where a bather breathes; under_ppmv:
    under the closed lid, nan while it is open; emission_mg_per_h: out of the water into the air over it.
    """

    ozone_mgl: Array
    oxidant_mgl: Array
    room_ppmv: Array
    face_ppmv: Array
    under_ppmv: Array
    emission_mg_per_h: Array


def seen_in(day: Day, air: AirSide) -> Seen:
    """The readings of a simulated day."""
    states = np.stack([day.first, day.last], axis=1)
    lid = day.stretches.lid[:, np.newaxis, np.newaxis]
    ozone, over, room = states[:, :, OZONE], states[:, :, OVER], states[:, :, ROOM]
    ways = day.ways
    kept = 1.0 - air.destroyed_ratio
    emission = (
        kept * ways.to_air_mg_min[:, np.newaxis]
        + (kept * ways.to_air_l_min + ways.surface_l_min)[:, np.newaxis] * ozone
        - ways.returned_l_min[:, np.newaxis] * over
    )
    in_room = np.where(lid, room, over)
    near = in_room + np.where(lid, 0.0, np.maximum(emission, 0.0) / air.mixing_m3_min)
    return Seen(
        ozone_mgl=ozone,
        oxidant_mgl=states[:, :, OXIDANT],
        room_ppmv=in_room / air.per_ppm_mgm3,
        face_ppmv=near / air.per_ppm_mgm3,
        under_ppmv=np.where(lid, over / air.per_ppm_mgm3, np.nan),
        emission_mg_per_h=60.0 * emission,
    )


def highest(readings: Array, when: Mask | None = None) -> Array:
    """Highest reading of each case, in all stretches or in some; nan where there are none."""
    chosen = readings if when is None else readings[when]
    if chosen.size == 0:
        return np.full(readings.shape[-1], np.nan)
    lowest = np.where(np.isnan(chosen), -np.inf, chosen).max(axis=(0, 1))
    return np.where(np.isneginf(lowest), np.nan, lowest)


def lowest(readings: Array) -> Array:
    """Lowest reading of each case."""
    return np.asarray(readings.min(axis=(0, 1)))


def mean_of_day(readings: Array, day: Stretches) -> Array:
    """Mean over the day, each stretch by the mean of its ends."""
    return np.asarray((readings.mean(axis=1) * day.length_min[:, np.newaxis]).sum(0) / DAY_MIN)


def highest_mean(readings: Array, day: Stretches, hours: float) -> Array:
    """Highest mean over so many hours in a row, also across midnight, starting with any stretch."""
    length = np.concatenate([day.length_min, day.length_min])
    amount = np.concatenate([readings.mean(axis=1)] * 2) * length[:, np.newaxis]
    edges = np.concatenate([[0.0], np.cumsum(length)])
    sums = np.concatenate([np.zeros((1, readings.shape[-1])), np.cumsum(amount, axis=0)])
    best = np.zeros(readings.shape[-1])
    for index in range(day.count):
        end = edges[index] + 60.0 * hours
        last = int(np.searchsorted(edges, end) - 1)
        share = (end - edges[last]) / length[min(last, length.size - 1)] if last < length.size else 0.0
        part = share * amount[last] if last < length.size else 0.0
        best = np.maximum(best, (sums[last] + part - sums[index]) / (60.0 * hours))
    return best


def time_above_s(readings: Array, day: Stretches, limit: float) -> Array:
    """Time a day above a limit, straight from one end of a stretch to the other."""
    start, end = readings[:, 0] - limit, readings[:, 1] - limit
    gap = np.where(start == end, 1.0, np.abs(start) + np.abs(end))
    both = (start > 0.0) & (end > 0.0)
    one = (start > 0.0) ^ (end > 0.0)
    share = np.where(both, 1.0, np.where(one, np.maximum(np.maximum(start, end), 0.0) / gap, 0.0))
    return np.asarray(MINUTE_S * (share * day.length_min[:, np.newaxis]).sum(0))


def entries(day: Stretches) -> Mask:
    """The stretches with which people get in."""
    return day.bathing & ~np.roll(day.bathing, 1)


def wait_s(readings: Array, day: Stretches, limit: float) -> Array:
    """Time from the ozone's being switched off until a reading stays below a limit, the longest of the day.

    Until the ozone comes on again: inf where it is then still above, nan where the ozone never goes off.
    Between two ends of a stretch the reading is taken to fall by the same share each minute.
    """
    off = np.flatnonzero(~day.ozone & np.roll(day.ozone, 1))
    longest = np.full(readings.shape[-1], np.nan)
    for first in off:
        passed, found = 0.0, np.zeros(readings.shape[-1])
        index = int(first)
        while not day.ozone[index]:
            start, end = readings[index, 0], readings[index, 1]
            length = float(day.length_min[index])
            falls = (start > limit) & (end <= limit)
            with np.errstate(divide="ignore", invalid="ignore"):
                share = np.log(start / limit) / np.log(start / np.maximum(end, 1e-12 * limit))
            found = np.where(falls, passed + np.where(falls, share, 0.0) * length, found)
            passed += length
            found = np.where(end > limit, passed, found)
            still = end > limit
            index = (index + 1) % day.count
        found = np.where(still, np.inf, MINUTE_S * found)
        longest = np.fmax(longest, found)
    return longest
