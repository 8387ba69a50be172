"""The drop of every filter over the time since its cleaning, over the cases."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default
from sanitize.basis.units import show_range
from sanitize.laws.clarity.filter_loading import (
    cake_drop_pa_diff,
    cake_solids_kg,
    exponential_drop_ratio,
    exponential_time_s,
)
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter
from sanitize.studies.draws import Array, Draws
from sanitize.studies.figures import figure
from sanitize.studies.loading.result import FilterLoading
from sanitize.studies.operating_point.run import Run
from sanitize.studies.operating_point.stated_drops import RATED_VISCOSITY_PAS, FilterDrop

DAY_S = 86400.0
GRAMS_PER_KG = 1000.0


@dataclass(frozen=True, eq=False)
class Exponential:
    """A drop that grows by equal factors in equal times."""

    loaded_time_s: Array
    loaded_drop_ratio: float

    def ratio(self, time_s: Array) -> Array:
        """Drop at the rated flow over the clean one."""
        return exponential_drop_ratio(time_s, self.loaded_time_s, self.loaded_drop_ratio)

    def time_s(self, ratio: float) -> Array:
        """Time until that ratio."""
        return exponential_time_s(ratio, self.loaded_time_s, self.loaded_drop_ratio)


@dataclass(frozen=True, eq=False)
class Cake:
    """Dirt that lies on the cloth: Ruth's cake at the rated flow, in rated water."""

    clean_drop_pa_diff: Array
    flow_m3s: float
    area_m2: float
    solids_kg_per_s: Array
    resistance_m_per_kg: Array

    def ratio(self, time_s: Array) -> Array:
        """Drop at the rated flow over the clean one."""
        solids = self.solids_kg_per_s * time_s
        cake = cake_drop_pa_diff(self.flow_m3s, self.area_m2, solids, self.resistance_m_per_kg, RATED_VISCOSITY_PAS)
        return np.asarray(1.0 + cake / self.clean_drop_pa_diff)

    def time_s(self, ratio: float) -> Array:
        """Time until that ratio."""
        added = (ratio - 1.0) * self.clean_drop_pa_diff
        solids = cake_solids_kg(added, self.flow_m3s, self.area_m2, self.resistance_m_per_kg, RATED_VISCOSITY_PAS)
        return np.asarray(solids / self.solids_kg_per_s)


Growth = Exponential | Cake


def refuse_without_loading(plant: Plant) -> None:
    """Raise InputError when a loop has no filter, or one that does not load."""
    parts = [part for part in walk(plant.loop) if isinstance(part, Filter)]
    unloaded = [part.name for part in parts if part.loaded_ratio == 1.0]
    if unloaded:
        found = "a filter that loads ends above its clean drop"
        raise InputError(
            [
                Problem(f"{name}, loaded_drop_ratio", found, "more than 1", "loaded_drop_ratio = 2.5")
                for name in unloaded
            ]
        )
    if not parts:
        write = '{part = "filter", drop = "6 kPa", at_flow = "40 L/min", days_to_loaded = "30 days"}'
        raise InputError([Problem("loop", "no filter, so nothing loads", 'one part = "filter"', write)])


def growths(running: Run, timing: Draws) -> tuple[dict[str, Growth], tuple[FilterLoading, ...], list[Notice]]:
    """How every filter of a loop loads, by its name; times and loads are drawn apart from what the water meets.

    A load of dirt gives a cake, which the days to a loaded filter calibrate where the file has them, else the table's
    resistance; without a load the drop grows exponentially, and without days the table's stand in.
    """
    found: dict[str, Growth] = {}
    told: list[FilterLoading] = []
    notices: list[Notice] = []
    for item in running.assembly.parts:
        if isinstance(item.part, Filter):
            row = next(row for row in item.rows if isinstance(row, FilterDrop))
            growth, loading = _growth(item.part, row, timing)
            found[item.part.name] = growth
            told.append(loading)
            notices += _notices(item.part, loading, running.assembly.plant)
    return found, tuple(told), notices


def _growth(part: Filter, row: FilterDrop, timing: Draws) -> tuple[Growth, FilterLoading]:
    ratio = default("filter_loaded_ratio").value if part.loaded_ratio is None else part.loaded_ratio
    if part.solids_g_per_day is None or part.media_area_m2 is None:
        band = default("filter_loading_time_s").band if part.loaded_time_s is None else part.loaded_time_s
        growth: Growth = Exponential(_time(part, band, timing), ratio)
        return growth, FilterLoading(
            part.name, "exponential", ratio, figure(growth.time_s(ratio)), part.loaded_time_s is not None, None, None
        )
    key = f"{part.name}.solids_load"
    grams = timing.value(key, part.solids_g_per_day, f"dirt a day on {part.name}", "by drying what a cleaning gives")
    solids = grams / GRAMS_PER_KG / DAY_S
    flow, area = row.at_flow_m3s, part.media_area_m2
    if part.loaded_time_s is None:
        resistance = timing.value(
            f"{part.name}.cake_resistance",
            default("cake_resistance_m_per_kg").band,
            f"how tight the dirt on {part.name} is",
        )
    else:
        added = (ratio - 1.0) * row.drop_pa
        held = solids * _time(part, part.loaded_time_s, timing)
        resistance = added / cake_drop_pa_diff(flow, area, held, 1.0, RATED_VISCOSITY_PAS)
    cake = Cake(row.drop_pa, flow, area, solids, np.asarray(resistance))
    return cake, FilterLoading(
        part.name, "cake", ratio, figure(cake.time_s(ratio)), part.loaded_time_s is not None, figure(grams),
        figure(cake.resistance_m_per_kg),
    )  # fmt: skip


def _time(part: Filter, band: Band, timing: Draws) -> Array:
    return timing.value(
        f"{part.name}.days_to_loaded", band, f"days until {part.name} is loaded", "by writing them down"
    )


def _notices(part: Filter, loading: FilterLoading, plant: Plant) -> list[Notice]:
    return [*_about_now(part), *_about_law(part, loading, plant)]


def _about_now(part: Filter) -> list[Notice]:
    if part.fouling_ratio is None:
        return []
    return [
        Notice(
            "days-from-next-cleaning",
            f"The dirt that is on {part.name} now (`fouling`) is left out: the days count from the next cleaning.",
        )
    ]


def _about_law(part: Filter, loading: FilterLoading, plant: Plant) -> list[Notice]:
    if loading.time_stated:
        return []
    if loading.law == "cake":
        entry = default("cake_resistance_m_per_kg")
        return [
            Notice(
                "cake-resistance-assumed",
                f"How tightly the dirt lies on {part.name} is not known: {entry.low:.0e} to {entry.high:.0e} m/kg "
                "stand in, a thousandfold range. Give `days_to_loaded` beside `solids_load`, from one cleaning to the "
                "next.",
            )
        ]
    low, nominal, high = loading.loaded_time_s.ends
    return [
        Notice(
            "days-to-loaded-assumed",
            f"No `days_to_loaded` is given for {part.name}: {show_range(low, nominal, high, 'time', plant.units)} "
            f"until its drop is {loading.loaded_drop_ratio:g} times the clean one stand in. Write down the days and "
            "the gauge's readings from one cleaning to the next.",
        )
    ]
