"""What the chiller makes of the heat: run time, time to the set temperature, warmest air at which it holds."""

from dataclasses import dataclass

import numpy as np

from sanitize.laws.air import COLDEST_AIR_C, WARMEST_AIR_C
from sanitize.laws.heat.cooling import chiller_capacity_w, cooling_time_s, holding_run_s
from sanitize.plant.day import DAY_S
from sanitize.plant.heat import ChillerUnit
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.gains import Gains
from sanitize.studies.hours.numbers import heat_number

STEPS = 31
"""Temperatures between start and set temperature at which the balance is taken."""
HALVINGS = 24
"""Halvings of the air's range: to about 1e-5 K."""


@dataclass(frozen=True, eq=False)
class Chilling:
    """A chiller over the cases; rated_w: what is left of its rating in use."""

    rated_w: Array
    electric_w: Array
    rated_water_c: Array
    rated_air_c: Array
    water_slope_per_k: Array
    air_slope_per_k: Array

    def capacity_w(self, water_c: float | Array, air_c: Array) -> Array:
        """Heat that it takes out of the water."""
        return chiller_capacity_w(
            self.rated_w,
            water_c,
            air_c,
            self.rated_water_c,
            self.rated_air_c,
            self.water_slope_per_k,
            self.air_slope_per_k,
        )


def chilling_of(unit: ChillerUnit, draws: Draws) -> Chilling:
    """A chiller as stated; capacity from its power or power from its capacity where one is missing."""

    def drawn(name: str, stated: float | None = None, label: str = "", measure: str = "") -> Array:
        return heat_number(draws, stated, name, label, measure).values

    def ratio() -> Array:
        label = "heat out of the water over the chiller's power"
        return drawn("chiller_cop_ratio", None, label, "with a plug-in meter")

    if unit.capacity_w is not None:
        rated = np.full(draws.size, unit.capacity_w)
        electric = rated / ratio() if unit.electric_w is None else np.full(draws.size, unit.electric_w)
    elif unit.electric_w is not None:
        electric = np.full(draws.size, unit.electric_w)
        rated = ratio() * electric
    else:
        raise ValueError("a chiller names its capacity or its power")
    water, air = (
        drawn("rated_water_c", unit.rated_water_c, "water temperature at which the chiller is rated"),
        drawn("rated_air_c", unit.rated_air_c, "air temperature at which the chiller is rated"),
    )
    by_water = drawn("capacity_per_water_per_k", None, "chiller's capacity against the water")
    by_air = drawn("capacity_per_air_per_k", None, "chiller's capacity against the air")
    kept = drawn("chiller_kept_ratio", None, "chiller's heat over its rating")
    return Chilling(
        rated_w=rated * kept,
        electric_w=electric,
        rated_water_c=water,
        rated_air_c=air,
        water_slope_per_k=by_water,
        air_slope_per_k=by_air,
    )


def alone_run_s(plant: Plant, gains: Gains, chiller: Chilling) -> Array:
    """Time a day that pump and chiller run together to hold the set temperature [s]; inf where they cannot."""
    water = plant.tub.temperature_c
    sides = gains.at(water, gains.air_c)
    once = sum(gains.daily_j(water).values(), np.zeros(()))
    return holding_run_s(sides.standing_w, once, chiller.capacity_w(water, gains.air_c), sides.moving_w)


def chiller_run_s(plant: Plant, gains: Gains, chiller: Chilling, pump_run_s: Array) -> Array:
    """Time a day that the chiller runs where the pump runs that long, never less than both alone [s].

    t Q = 86400 G + H + t_pump P; where the pump runs no longer than both alone, that is their time.
    """
    water = plant.tub.temperature_c
    sides = gains.at(water, gains.air_c)
    capacity = chiller.capacity_w(water, gains.air_c)
    alone = alone_run_s(plant, gains, chiller)
    heat = DAY_S * sides.standing_w + sum(gains.daily_j(water).values(), np.zeros(())) + pump_run_s * sides.moving_w
    longer = np.maximum(heat, 0.0) / np.where(capacity > 0.0, capacity, 1.0)
    return np.where((pump_run_s > alone) & (capacity > 0.0), longer, alone)


def reach_s(plant: Plant, gains: Gains, chiller: Chilling, start_c: float) -> Array:
    """Time from a start temperature to the set one with pump and chiller running, without bathers [s]; inf: never."""
    end = plant.tub.temperature_c
    if start_c <= end:
        return np.zeros(gains.air_c.size)
    water = np.linspace(start_c, end, STEPS)[:, None]
    sides = gains.at(water, gains.air_c)
    net = chiller.capacity_w(water, gains.air_c) - sides.standing_w - sides.moving_w
    return cooling_time_s(water, net, gains.heat_capacity_jk(0.5 * (start_c + end)))


def warmest_air_c(plant: Plant, gains: Gains, chiller: Chilling) -> Array:
    """Warmest air at which pump and chiller, running all day, hold the set temperature [degC].

    inf where they hold up to the warmest air of the laws, the coldest of the laws where they hold at none.
    """
    water = plant.tub.temperature_c
    once = sum(gains.daily_j(water).values(), np.zeros(())) / DAY_S

    def spare(air_c: Array) -> Array:
        sides = gains.at(water, air_c)
        return np.asarray(chiller.capacity_w(water, air_c) - sides.standing_w - sides.moving_w - once)

    low, high = np.full(gains.air_c.size, COLDEST_AIR_C), np.full(gains.air_c.size, WARMEST_AIR_C)
    always = spare(high) >= 0.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        holds = spare(middle) >= 0.0
        low, high = np.where(holds, middle, low), np.where(holds, high, middle)
    return np.where(always, np.inf, low)


def warming_k_per_h(plant: Plant, gains: Gains) -> Array:
    """How fast the water warms at first with pump and chiller off [K/h]."""
    water = plant.tub.temperature_c
    return np.asarray(3600.0 * gains.at(water, gains.air_c).standing_w / gains.heat_capacity_jk(water))
