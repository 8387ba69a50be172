"""What resists or drives the flow in a link, over the cases: each row gives a loss of total pressure and its slope.

A loss is positive in the direction of positive flow [Pa]; its slope is the derivative with the flow [Pa s/m3].
Rows add up along a link; `merged` gathers rows of one pipe or one bore so that a solver pass stays short.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.laws.hydraulics.bends import coil_multiplier
from sanitize.laws.hydraulics.friction import Bridge, pipe_loss
from sanitize.laws.hydraulics.local_loss import small_reynolds_loss
from sanitize.laws.hydraulics.pump_curve import PumpCurve, pump_head
from sanitize.studies.draws import Array, Mask

Loss = tuple[Array, Array]


@dataclass(frozen=True, slots=True)
class Water:
    """The water of the tub and the air over it."""

    temperature_c: float
    density_kgm3: float
    viscosity_pas: float
    vapour_pa_abs: float
    atmosphere_pa_abs: float


class Row(Protocol):
    """One resistance or drive."""

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """Loss [Pa] and slope [Pa s/m3] at a flow, arrays over cases."""
        ...


@dataclass(frozen=True, slots=True, eq=False)
class Friction:
    """Wall friction of a pipe, hose or tube."""

    bore_m: Array
    length_m: Array
    multiplier: Array | float
    bridge: Bridge

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """Darcy-Weisbach."""
        return pipe_loss(
            flow_m3s,
            self.bore_m,
            self.length_m,
            0.0,
            water.density_kgm3,
            water.viscosity_pas,
            self.multiplier,
            self.bridge,
        )


@dataclass(frozen=True, slots=True, eq=False)
class Coil:
    """Wall friction of a hose that lies in a coil."""

    bore_m: Array
    length_m: Array
    multiplier: Array | float
    bridge: Bridge
    coil_diameter_m: float

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """Darcy-Weisbach times the coil's factor, which grows slowly with the Reynolds number."""
        loss, slope = Friction(self.bore_m, self.length_m, self.multiplier, self.bridge).loss(flow_m3s, water)
        per_flow = 4.0 * water.density_kgm3 / (np.pi * self.bore_m * water.viscosity_pas)
        factor, factor_slope = coil_multiplier(np.abs(flow_m3s) * per_flow, self.bore_m, self.coil_diameter_m)
        return loss * factor, slope * factor + np.abs(loss) * factor_slope * per_flow


@dataclass(frozen=True, slots=True, eq=False)
class Quadratic:
    """A loss that grows with the square of the flow: `coefficient` times flow times its magnitude [Pa s2/m6]."""

    coefficient: Array

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """coefficient Q |Q|."""
        size = np.abs(flow_m3s)
        return self.coefficient * flow_m3s * size, 2.0 * self.coefficient * size


@dataclass(frozen=True, slots=True, eq=False)
class SmallReynolds:
    """What `count` fittings of one bore lose on top below Reynolds number 1e4."""

    count: float
    bore_m: float

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """The viscous term of the two-constant method."""
        return small_reynolds_loss(flow_m3s, self.count, self.bore_m, water.density_kgm3, water.viscosity_pas)


@dataclass(frozen=True, slots=True, eq=False)
class Opening:
    """A constant pressure that a spring needs before it lets water through [Pa]."""

    pressure_pa: Array

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """The opening pressure, whatever the flow: a balance at backward flow means that the valve stays shut."""
        return np.broadcast_to(self.pressure_pa, np.shape(flow_m3s)), np.zeros_like(flow_m3s)


@dataclass(frozen=True, slots=True, eq=False)
class Shut:
    """A hand valve that is shut in some cases: no water passes there, and what it holds is no loss of its own."""

    is_shut: Mask

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """Nothing."""
        return np.zeros_like(flow_m3s), np.zeros_like(flow_m3s)


@dataclass(frozen=True, slots=True, eq=False)
class Lift:
    """A static lift [Pa]: positive where the water leaves above the surface and falls free."""

    pressure_pa: Array

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """The lift, whatever the flow."""
        return np.broadcast_to(self.pressure_pa, np.shape(flow_m3s)), np.zeros_like(flow_m3s)


@dataclass(frozen=True, slots=True, eq=False)
class Drive:
    """A running pump: a negative loss."""

    curve: PumpCurve
    speed_ratio: float
    head_factor: Array

    def loss(self, flow_m3s: Array, water: Water) -> Loss:
        """Minus the pump's head, as pressure."""
        head_m, slope_s_m2 = pump_head(self.curve, flow_m3s, self.speed_ratio, self.head_factor)
        weight = water.density_kgm3 * GRAVITY_MS2
        return -weight * head_m, -weight * slope_s_m2


def total(rows: Sequence[Row], flow_m3s: Array, water: Water) -> Loss:
    """Sum of the rows' losses and slopes."""
    loss = np.zeros_like(flow_m3s)
    slope = np.zeros_like(flow_m3s)
    for row in rows:
        more, steeper = row.loss(flow_m3s, water)
        loss += more
        slope += steeper
    return loss, slope


def merged(rows: Sequence[Row]) -> list[Row]:
    """The same rows with those of one pipe, one bore or of square law added up."""
    friction: dict[tuple[int, int, int], Friction] = {}
    small: dict[float, float] = {}
    square: Array | None = None
    rest: list[Row] = []
    for row in rows:
        if isinstance(row, Friction):
            key = (id(row.bore_m), id(row.multiplier), id(row.bridge))
            known = friction.get(key)
            length = row.length_m if known is None else known.length_m + row.length_m
            friction[key] = Friction(row.bore_m, length, row.multiplier, row.bridge)
        elif isinstance(row, SmallReynolds):
            small[row.bore_m] = small.get(row.bore_m, 0.0) + row.count
        elif isinstance(row, Quadratic):
            square = row.coefficient if square is None else square + row.coefficient
        else:
            rest.append(row)
    found: list[Row] = [*friction.values(), *(SmallReynolds(count, bore) for bore, count in small.items()), *rest]
    if square is not None:
        found.append(Quadratic(square))
    return found
