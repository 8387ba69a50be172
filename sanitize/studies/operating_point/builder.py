"""What the makers of rows share: draws, water, tables, and the notices that they leave."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default, model_table
from sanitize.laws import air, water
from sanitize.laws.hydraulics.friction import Bridge, transition
from sanitize.plant.loop import Plant
from sanitize.plant.part import BORE, Part
from sanitize.plant.pipework import Barb, Hose, Pipe
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.bores import Bore, bore_band
from sanitize.studies.operating_point.rows import Quadratic, Row, Shut, SmallReynolds, Water

if TYPE_CHECKING:
    from sanitize.studies.operating_point.injector_model import InjectorModel


@dataclass
class Made:
    """The rows of one part, and of them the step in front of it where there is one.

    Of an injector also its model, its own row, and which rows stand behind its outlet.
    """

    rows: list[Row]
    behind: list[Row] = field(default_factory=list)
    core: Row | None = None
    model: InjectorModel | None = None
    step: Row | None = None


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


FilterState = Literal["clean", "loaded", "torn"]


@dataclass(frozen=True)
class Condition:
    """The state of tub and parts in which a loop is solved, single numbers or arrays over the cases.

    level_m: of the water; filter: clean, loaded as far as its owner lets it come, or torn, its medium gone;
    filter_drop_ratios: by the name of a filter that stands between, its drop at the rated flow over its clean one;
    return_blocked_ratio, suction_blocked_ratio: share of every return's or suction's opening that is covered, 1: shut;
    chiller_blocked_ratio: share of every chiller's passages that ice or dirt fills, less than 1;
    pump_head_ratio: head that the pumps still give at equal flow over their own.
    """

    level_m: Array
    filter: FilterState = "clean"
    return_blocked_ratio: Array | float = 0.0
    suction_blocked_ratio: Array | float = 0.0
    pump_head_ratio: Array | float = 1.0
    chiller_blocked_ratio: Array | float = 0.0
    filter_drop_ratios: Mapping[str, Array] = field(default_factory=dict)

    def of_cases(self, cases: NDArray[np.intp]) -> Condition:
        """The same condition for some of the cases only."""

        def some(value: Array | float) -> Array | float:
            return value[cases] if isinstance(value, np.ndarray) else value

        return replace(
            self,
            level_m=self.level_m[cases],
            return_blocked_ratio=some(self.return_blocked_ratio),
            suction_blocked_ratio=some(self.suction_blocked_ratio),
            pump_head_ratio=some(self.pump_head_ratio),
            chiller_blocked_ratio=some(self.chiller_blocked_ratio),
            filter_drop_ratios={name: ratio[cases] for name, ratio in self.filter_drop_ratios.items()},
        )


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
        self._bores: dict[str, Array] = {}
        self._bridges: dict[int, tuple[Array, Bridge]] = {}
        self.roughness_m = draws.value(
            "roughness of smooth plastic", default("smooth_plastic_roughness_m").band, "roughness of the pipe's wall"
        )

    def bore(self, part: Pipe | Hose | Barb) -> Array:
        """Bore of a pipe, hose, tube or barb in every case [m]: one array for all parts that share the draw."""
        key, band = bore_band(part)
        known = self._bores.get(key)
        if known is None:
            label = key if part.bore_m is None else f"bore of {part.name}"
            known = self._bores[key] = self.draws.value(key, band, label, BORE.measure)
        return known

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
        return [*self.opening(count * k, bore_m), SmallReynolds(count, bore_m)]

    def opening(self, k: Array, bore_m: Array | float) -> list[Row]:
        """A loss coefficient on a bore that may be shut in some cases, where it is infinite."""
        shut = np.isinf(k)
        rows: list[Row] = [self.local(np.where(shut, 0.0, k), bore_m)]
        return [*rows, Shut(shut)] if shut.any() else rows

    def note(self, code: str, text: str) -> None:
        """Keep a notice once."""
        notice = Notice(code, text)
        if notice not in self.notices:
            self.notices.append(notice)
