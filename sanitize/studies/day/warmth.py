"""How warm the water is through the day: walls, surface, lid, pump, bathers and the chiller with its thermostat."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from sanitize.studies.day.schedule import MINUTE_S, Stretches
from sanitize.studies.draws import Array, Mask

COLDEST_C, WARMEST_C = 0.0, 45.0
"""Ends of the laws of water; a tub that reaches them stays there, and that is said."""
NUDGE_K = 0.5


@dataclass(frozen=True, eq=False)
class Warmth:
    """What warms and cools the water, over the cases.

    standing_w: into the water by its temperature and by whether the lid is closed; moving_w: more while the pump runs;
    capacity_w: what the chiller takes out by the water's temperature, None without one; set_c: where its thermostat
    rests; bather_j: of one dip; heat_capacity_jk: of the water; is_held: whether the water stays as warm as it is.
    """

    start_c: Array
    set_c: float
    heat_capacity_jk: Array
    standing_w: Callable[[Array, bool], Array]
    moving_w: Callable[[Array], Array]
    capacity_w: Callable[[Array], Array] | None
    bather_j: Array
    is_held: bool = False

    def through(self, day: Stretches, start_c: Array, bathers_per_day: float) -> tuple[Array, Array]:
        """Temperatures at the edges of the stretches (stretches + 1, cases), and minutes that the chiller ran."""
        if self.is_held:
            return np.repeat(start_c[np.newaxis], day.count + 1, axis=0), np.zeros(start_c.size)
        bathing_s = MINUTE_S * float(day.length_min[day.bathing].sum())
        dips_w = bathers_per_day * self.bather_j / bathing_s if bathing_s else np.zeros(start_c.size)
        slopes = {
            (lid, pump): self._slope(start_c, lid, pump)
            for lid in set(day.lid.tolist())
            for pump in set(day.pump.tolist())
        }
        found, ran = [start_c], np.zeros(start_c.size)
        for index in range(day.count):
            water, length_s = found[-1], MINUTE_S * float(day.length_min[index])
            lid, pump = bool(day.lid[index]), bool(day.pump[index])
            gain = self._gain(water, lid, pump) + (dips_w if day.bathing[index] else 0.0)
            reach_k = self._reach(gain, slopes[lid, pump], length_s)
            share = np.zeros(water.size)
            if day.chiller[index] and self.capacity_w is not None:
                cooled_k = self._reach(self.capacity_w(water), slopes[lid, pump], length_s)
                wanted = water + reach_k - self.set_c
                share = np.clip(wanted / np.where(cooled_k > 0.0, cooled_k, 1.0), 0.0, 1.0) * (cooled_k > 0.0)
                reach_k = reach_k - share * cooled_k
            ran = ran + share * day.length_min[index]
            found.append(np.clip(water + reach_k, COLDEST_C, WARMEST_C))
        return np.stack(found), ran

    def _gain(self, water_c: Array, lid: bool, pump: bool) -> Array:
        gain = self.standing_w(water_c, lid)
        return gain + self.moving_w(water_c) if pump else gain

    def _slope(self, water_c: Array, lid: bool, pump: bool) -> Array:
        """By how much less warms the water for each kelvin [W/K]."""
        low = np.maximum(water_c - NUDGE_K, COLDEST_C)
        high = np.minimum(water_c + NUDGE_K, WARMEST_C)
        return np.asarray((self._gain(low, lid, pump) - self._gain(high, lid, pump)) / (high - low))

    def _reach(self, gain_w: Array, slope_wk: Array, length_s: float) -> Array:
        """Rise in a stretch: C dT/dt = gain - slope (T - T0), solved exactly."""
        rate = slope_wk * length_s / self.heat_capacity_jk
        apart = np.abs(rate) > 1e-9
        phi = np.where(apart, -np.expm1(-rate) / np.where(apart, rate, 1.0), 1.0)
        return np.asarray(gain_w * length_s / self.heat_capacity_jk * phi)


def at_an_end(water_c: Array) -> Mask:
    """Which cases reached an end of the laws' range."""
    return np.asarray(((water_c <= COLDEST_C) | (water_c >= WARMEST_C)).any(axis=0))
