"""What the makers of rows share: draws, water, tables, and the notices that they leave."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default, model_table
from sanitize.laws import air, water
from sanitize.laws.hydraulics.friction import Bridge, transition
from sanitize.plant.loop import Plant
from sanitize.plant.part import Part
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.bores import Bore
from sanitize.studies.operating_point.rows import Quadratic, Row, Shut, SmallReynolds, Water

if TYPE_CHECKING:
    from sanitize.studies.operating_point.injector_model import InjectorModel


@dataclass
class Made:
    """The rows of one part; of an injector also its model, its own row, and which rows stand behind its outlet."""

    rows: list[Row]
    behind: list[Row] = field(default_factory=list)
    core: Row | None = None
    model: InjectorModel | None = None


@dataclass
class PartRows:
    """A part in its link: its rows, bores and the height of its outlet over the cases."""

    part: Part
    link: int
    made: Made
    bore: Bore
    height_m: Array

    @property
    def rows(self) -> list[Row]:
        """Its rows."""
        return self.made.rows


@dataclass(frozen=True)
class Condition:
    """The state of the tub in which a loop is solved: water level [m] over cases, and whether the filter is loaded."""

    level_m: Array
    filter_loaded: bool = False


def water_of(plant: Plant) -> Water:
    """Properties of the tub's water and of the air over it."""
    t = plant.tub.temperature_c
    return Water(
        temperature_c=t,
        density_kgm3=float(water.density_kgm3(t)),
        viscosity_pas=float(water.viscosity_pas(t)),
        vapour_pa_abs=float(water.vapour_pressure_pa_abs(t)),
        atmosphere_pa_abs=float(air.atmospheric_pressure_pa_abs(plant.tub.altitude_m)),
    )


class Builder:
    """What the row makers need besides the part: draws, water, the parts before and behind."""

    def __init__(self, plant: Plant, draws: Draws, condition: Condition) -> None:
        self.plant = plant
        self.draws = draws
        self.condition = condition
        self.water = water_of(plant)
        self.notices: list[Notice] = []
        self._bridges: dict[int, tuple[Array, Bridge]] = {}
        self.roughness_m = draws.value(
            "roughness of smooth plastic", default("smooth_plastic_roughness_m").band, "roughness of the pipe's wall"
        )

    def bridge(self, bore_m: Array) -> Bridge:
        """The friction law's constants for a bore, worked out once for each."""
        known = self._bridges.get(id(bore_m))
        if known is None:
            known = (bore_m, transition(self.roughness_m / bore_m))
            self._bridges[id(bore_m)] = known
        return known[1]

    def stated(self, part: Part, key: str, band: Band, measure: str = "") -> Array:
        """A number that the file states for one part."""
        return self.draws.value(f"{part.name}.{key}", band, f"{key.replace('_', ' ')} of {part.name}", measure)

    def table_k(self, word: str, size: str) -> Array:
        """A loss coefficient from the table, one draw for all parts of a kind."""
        return self.draws.value(
            f"loss of {word}", model_table("fitting_losses")[(word, size)].band, f"loss coefficient of {word}"
        )

    def local(self, k: Array | float, bore_m: Array | float) -> Quadratic:
        """A loss coefficient on a bore, as a row."""
        area = np.pi * np.asarray(bore_m, dtype=np.float64) ** 2 / 4.0
        return Quadratic(
            np.broadcast_to(
                np.asarray(k, dtype=np.float64) * self.water.density_kgm3 / (2.0 * area * area), self.draws.size
            )
        )

    def fittings(self, k: Array, bore_m: float, count: float) -> list[Row]:
        """Elbows, tees and valves, with what they lose on top at small Reynolds numbers; an infinite K is shut."""
        shut = np.isinf(k)
        rows: list[Row] = [self.local(count * np.where(shut, 0.0, k), bore_m), SmallReynolds(count, bore_m)]
        return [*rows, Shut(shut)] if shut.any() else rows

    def note(self, code: str, text: str) -> None:
        """Keep a notice once."""
        notice = Notice(code, text)
        if notice not in self.notices:
            self.notices.append(notice)
