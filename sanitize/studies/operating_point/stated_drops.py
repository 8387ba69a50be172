"""Parts known by a pressure drop at a flow: filter, chiller, data sheets."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.tables import default
from sanitize.laws import water as water_laws
from sanitize.laws.hydraulics.known_drop import (
    exponent_from_points,
    filter_drop,
    known_drop,
    loading_for_drop_ratio,
    medium_share_from_two_points,
)
from sanitize.plant.machines import Chiller, Filter, Points
from sanitize.plant.part import Part
from sanitize.plant.pipework import KnownDrop
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.builder import Builder
from sanitize.studies.operating_point.rows import Loss, Row, Water

RATED_TEMPERATURE_C = 20.0
"""Water in which a drop is stated unless said (common practice)."""
RATED_DENSITY_KGM3 = float(water_laws.density_kgm3(RATED_TEMPERATURE_C))
RATED_VISCOSITY_PAS = float(water_laws.viscosity_pas(RATED_TEMPERATURE_C))

LEAST_MEDIUM_RATIO = 1e-9
"""Stands for a medium without any resistance of its own, so that dirt on it is still a factor of something."""


@dataclass(frozen=True, slots=True, eq=False)
class PowerDrop:
    """A drop stated at a flow, which grows with a power of the flow."""

    drop_pa: Array
    at_flow_m3s: float
    exponent: Array

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """The stated drop, carried to this flow and water."""
        return known_drop(
            flow_m3s, self.drop_pa, self.at_flow_m3s, self.exponent, water.density_kgm3, water.viscosity_pas,
            RATED_DENSITY_KGM3, RATED_VISCOSITY_PAS,
        )  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class FilterDrop:
    """A filter's drop: the medium's share follows the viscosity and the loading, the housing's the flow's square."""

    drop_pa: Array
    at_flow_m3s: float
    medium_ratio: Array
    loading_ratio: Array | float

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """The stated drop, carried to this flow, water and loading."""
        return filter_drop(
            flow_m3s, self.drop_pa, self.at_flow_m3s, self.medium_ratio, self.loading_ratio,
            water.density_kgm3, water.viscosity_pas, RATED_DENSITY_KGM3, RATED_VISCOSITY_PAS,
        )  # fmt: skip


def _stated_points(part: Filter | Chiller, builder: Builder) -> tuple[Array, float, Points]:
    """Rated drop over the cases, its flow, and further points where the file gives pairs."""
    if part.drops:
        flow, drop = part.drops[-1]
        tolerance = default("measured_tolerance_ratio").value
        band = Band(drop * (1.0 - tolerance), drop, drop * (1.0 + tolerance), "log")
        return builder.stated(part, "drop", band, "with a gauge before and behind it"), flow, part.drops
    if part.drop_pa is None or part.at_flow_m3s is None:
        raise ValueError(f"{part.name} has no drop at a flow")
    return builder.stated(part, "drop", part.drop_pa, "with a gauge before and behind it"), part.at_flow_m3s, ()


def filter_row(part: Filter, builder: Builder) -> Row:
    """The filter's drop: the medium's share follows the viscosity, the housing's the square of the flow."""
    drop, flow, points = _stated_points(part, builder)
    if len(points) >= 2:
        (q1, p1), (q2, p2) = points[0], points[-1]
        share = np.full(builder.draws.size, float(medium_share_from_two_points(q1, p1, q2, p2)))
    elif part.medium_ratio is not None:
        share = builder.stated(part, "medium_share", part.medium_ratio, "with the drop at two flows")
    else:
        share = builder.draws.value(
            f"{part.name}.medium_share",
            default("filter_medium_share_ratio").band,
            f"share of the cartridge in the drop of {part.name}",
            "with the drop at two flows",
        )
    share = np.maximum(share, LEAST_MEDIUM_RATIO)
    loading: Array | float = 1.0
    if part.fouling_ratio is not None:
        fouling = builder.stated(part, "fouling", part.fouling_ratio, "with a gauge before and behind it")
        loading = np.asarray(loading_for_drop_ratio(fouling, share))
    if builder.condition.filter == "torn":
        loading = 0.0
    elif builder.condition.filter == "loaded":
        ratio = default("filter_loaded_ratio").value if part.loaded_ratio is None else part.loaded_ratio
        loading = np.maximum(loading, loading_for_drop_ratio(ratio, share))
    elif part.name in builder.condition.filter_drop_ratios:
        loading = np.asarray(loading_for_drop_ratio(builder.condition.filter_drop_ratios[part.name], share))
    return FilterDrop(drop, flow, share, loading)


def chiller_row(part: Chiller, builder: Builder) -> Row:
    """The chiller's drop, with the exponent of its points, of the file or of the table.

    Where a share of its passages is blocked, all of the water goes through the others, and the drop grows with the
    same exponent.
    """
    drop, flow, points = _stated_points(part, builder)
    if len(points) >= 2:
        exponent = np.full(
            builder.draws.size, float(exponent_from_points([q for q, _ in points], [p for _, p in points]))
        )
    elif part.exponent_ratio is not None:
        exponent = builder.stated(part, "exponent", part.exponent_ratio)
    else:
        exponent = builder.draws.value(
            f"{part.name}.exponent",
            default("exchanger_drop_exponent").band,
            f"exponent with which the drop of {part.name} grows",
            "with the drop at two flows",
        )
    left = 1.0 - np.asarray(builder.condition.chiller_blocked_ratio, dtype=np.float64)
    return PowerDrop(drop * left**-exponent, flow, exponent)


def known_drop_row(part: KnownDrop, builder: Builder) -> Row:
    """A data sheet's drop with its exponent."""
    drop = builder.stated(part, "drop", part.drop_pa, "with a gauge before and behind it")
    exponent = builder.stated(part, "exponent", part.exponent_ratio, "with the drop at two flows")
    return PowerDrop(drop, part.at_flow_m3s, exponent)


def stated_square_row(part: Part, drop_pa: Band, at_flow_m3s: float, builder: Builder) -> Row:
    """A valve's measured drop, which goes with the square of the flow."""
    drop = builder.stated(part, "drop", drop_pa, "with a gauge before and behind it")
    return PowerDrop(drop, at_flow_m3s, np.full(builder.draws.size, 2.0))
