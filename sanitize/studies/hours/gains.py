"""Heat into the water of a tub at any temperature of water and air, side by side, over the cases."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from sanitize.basis.band import Band
from sanitize.laws.air import atmospheric_pressure_pa_abs, saturation_vapour_pa_abs
from sanitize.laws.heat.surface import still_vapour_wm2pa, surface_heat_wm2, wind_vapour_wm2pa
from sanitize.laws.heat.walls import sweating_heat_wm2
from sanitize.laws.water import density_kgm3, vapour_pressure_pa_abs
from sanitize.plant.day import DAY_S
from sanitize.plant.heat import Surroundings
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.numbers import heat_entry, heat_number
from sanitize.studies.hours.surfaces import Areas, Conductances, areas_of, conductances_of


@dataclass(frozen=True, eq=False)
class Sides:
    """Heat into the water side by side [W], arrays that broadcast; negative where it leaves.

    standing: all day, whether the water moves or not; moving: only while it moves.
    """

    standing: dict[str, Array]
    moving: dict[str, Array]

    @property
    def standing_w(self) -> Array:
        """All that comes all day."""
        return np.asarray(sum(self.standing.values(), np.zeros(())))

    @property
    def moving_w(self) -> Array:
        """All that comes with the moving water only."""
        return np.asarray(sum(self.moving.values(), np.zeros(())))


@dataclass(frozen=True, eq=False)
class Gains:
    """What warms the tub over the cases.

    air_c: mean temperature of the air; wind_ms: outdoors, the still vapour's figures and the colder floor indoors, 0
    elsewhere; pump_heat_w: what the running pumps give the water; covered_ratio: share of
    the day under the lid; leak_ratio: what the lid lets through of the open surface's heat.
    """

    plant: Plant
    areas: Areas
    through: Conductances
    air_c: Array
    humidity_ratio: Array
    wind_ms: Array
    still_cold_wm2pa: Array
    still_warm_wm2pa: Array
    covered_ratio: Array
    leak_ratio: Array
    floor_below_air_k: Array
    sweat_wm2pa: Array
    pump_heat_w: Array
    bather_j: Array
    fresh_c: Array
    specific_heat_jkgk: Array

    @property
    def _open_air(self) -> bool:
        return self.plant.tub.place == "outdoors"

    def at(self, water_c: ArrayLike, air_c: ArrayLike) -> Sides:
        """Heat at a temperature of the water, 0 to 45 degC, and of the air, -40 to 50 degC; both broadcast."""
        water, air = np.asarray(water_c, dtype=np.float64), np.asarray(air_c, dtype=np.float64)
        warmer = air - water
        floor_air = warmer - self.floor_below_air_k
        surface = self.areas.surface_m2 * self._surface_wm2(water, air)
        still = self.through.standing_ratio * self.through.pipes_wk * warmer
        return Sides(
            standing={
                "walls": self.through.walls_wk * warmer,
                "sweating walls": self.areas.wall_m2 * self.sweating_wm2(water, air),
                "floor": self.through.floor_wk * floor_air,
                "open surface": (1.0 - self.covered_ratio) * surface,
                "lid": self.covered_ratio * (self.through.lid_wk * warmer + self.leak_ratio * surface),
                "pipes, standing": still,
            },
            moving={
                "pipes, moving": self.through.pipes_wk * warmer - still,
                "pump": self.pump_heat_w,
            },
        )

    def sweating_wm2(self, water_c: ArrayLike, air_c: ArrayLike) -> Array:
        """Heat of the vapour that condenses on the walls' outside, 0 where they stay dry [W/m2]."""
        air = np.asarray(air_c, dtype=np.float64)
        outside = air - self.through.outside_ratio * (air - np.asarray(water_c, dtype=np.float64))
        in_air = self.humidity_ratio * saturation_vapour_pa_abs(air)
        return sweating_heat_wm2(outside, in_air, saturation_vapour_pa_abs(outside), self.sweat_wm2pa)

    def _surface_wm2(self, water_c: Array, air_c: Array) -> Array:
        """Open surface; what it sees is as warm as the air."""
        if self._open_air:
            vapour = wind_vapour_wm2pa(self.wind_ms)
        else:
            vapour = still_vapour_wm2pa(water_c, air_c, self.still_cold_wm2pa, self.still_warm_wm2pa)
        return surface_heat_wm2(
            water_c,
            air_c,
            air_c,
            vapour_pressure_pa_abs(water_c),
            self.humidity_ratio * saturation_vapour_pa_abs(air_c),
            vapour,
            atmospheric_pressure_pa_abs(self.plant.tub.altitude_m),
        )

    def daily_j(self, water_c: ArrayLike) -> dict[str, Array]:
        """Heat that comes once a day: of bathers, none in warm water, and of fresh water."""
        water = np.asarray(water_c, dtype=np.float64)
        bathers = 0.0 if self.plant.bathers is None else self.plant.bathers.per_day
        dips = np.where(water < heat_entry("bather_neutral_c").value, bathers * self.bather_j, 0.0)
        around = self.plant.surroundings
        fresh_m3 = 0.0 if around is None else around.fresh_water_m3
        fresh = density_kgm3(water) * fresh_m3 * self.specific_heat_jkgk * (self.fresh_c - water)
        return {"bathers": np.asarray(dips), "fresh water": np.asarray(fresh)}

    def heat_capacity_jk(self, water_c: float) -> Array:
        """Heat that warms all the water by a kelvin [J/K]."""
        return np.asarray(density_kgm3(water_c) * self.plant.tub.volume_m3 * self.specific_heat_jkgk)


def gains_of(plant: Plant, draws: Draws, power_w: Array) -> Gains:
    """What warms a tub whose pumps take that electric power [W] over the cases."""
    around = plant.surroundings or Surroundings()
    areas = areas_of(plant.tub, around)
    open_air = plant.tub.place == "outdoors"
    air = "air_outdoors_c" if open_air else "air_indoors_c"
    none = np.zeros(draws.size)

    def drawn(name: str, stated: float | None = None, label: str = "", measure: str = "") -> Array:
        return heat_number(draws, stated, name, label, measure).values

    covered = None if around.covered_s is None else around.covered_s / DAY_S
    return Gains(
        plant=plant,
        areas=areas,
        through=conductances_of(plant, draws, areas, around),
        air_c=drawn(air, around.air_c, "temperature of the air", "with a thermometer in the shade"),
        humidity_ratio=drawn("humidity_ratio", around.humidity_ratio, "humidity of the air", "with a hygrometer"),
        wind_ms=drawn("wind_at_the_rim_ms", around.wind_ms, "wind at the rim") if open_air else none,
        still_cold_wm2pa=none if open_air else drawn("vapour_still_cold_wm2pa"),
        still_warm_wm2pa=none if open_air else drawn("vapour_still_warm_wm2pa"),
        covered_ratio=drawn("covered_ratio", covered, "share of the day under the lid"),
        leak_ratio=drawn("lid_leak_ratio", None, "leak of the lid"),
        floor_below_air_k=none if open_air else drawn("floor_below_air_k"),
        sweat_wm2pa=drawn("vapour_wall_wm2pa"),
        pump_heat_w=power_w * drawn("pump_heat_ratio", None, "share of the pump's watts that warms the water"),
        bather_j=drawn("bather_cools_j", None, "heat that a bather gives the water"),
        fresh_c=drawn("fresh_water_c", around.fresh_water_c, "temperature of the fresh water", "with a thermometer"),
        specific_heat_jkgk=draws.value("specific_heat_jkgk", Band.exact(heat_entry("specific_heat_jkgk").value)),
    )
