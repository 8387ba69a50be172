"""The injector of the file as dry coefficients over the cases: from its bores, from two bench figures or bench rows."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.constants import ONE_SIDED_90_PERCENT
from sanitize.basis.tables import default
from sanitize.laws import water as water_laws
from sanitize.laws.injector import bench, geometry
from sanitize.laws.injector.diffuser_angle import diffuser_loss_by_angle
from sanitize.laws.injector.diffuser_fit import SMALLEST_DIFFUSER_LOSS
from sanitize.plant.injector import Injector
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.bores import area_m2, nominal_bore
from sanitize.studies.operating_point.builder import Builder

BENCH_TEMPERATURE_C = 20.0
"""Temperature of the water of a bench test when none is stated (common practice)."""
WIDEST_THROAT_RATIO = 0.9
"""Widest throat over inlet bore that a range may reach (an estimate: a wider one is no venturi)."""
DIFFUSER_SCATTER = Band(0.5, 1.0, 2.0, "log")
"""How far published diffuser losses differ at one angle (an estimate from five methods side by side)."""
CONE_FRICTION = 0.023
"""Friction factor in a diffuser's cone at tub flows (an estimate; it moves the loss by a few percent)."""


@dataclass(frozen=True, eq=False)
class InjectorModel:
    """Dry coefficients over the cases, on the throat's dynamic pressure, and the areas that they stand on.

    nozzle_drop: (p1 - po)/Z; recovery: (p2 - po)/Z; loss_ratio: static; total_loss: loss of total pressure over Z.
    """

    throat_m2: Array
    inlet_m2: float
    outlet_m2: float
    nozzle_drop: Array
    recovery: Array
    density_kgm3: float
    basis: str

    @property
    def loss_ratio(self) -> Array:
        """Share of the pressure fall to the port that is not won back."""
        return np.asarray(geometry.loss_ratio(self.nozzle_drop, self.recovery))

    @property
    def dynamic_pa_s2m6(self) -> Array:
        """Z over the square of the flow."""
        return np.asarray(geometry.throat_dynamic_pressure(1.0, self.throat_m2, self.density_kgm3))

    @property
    def recovery_pa_s2m6(self) -> Array:
        """k2 = (p2 - po) over the square of the flow."""
        return np.asarray(self.recovery * self.dynamic_pa_s2m6)

    @property
    def inlet_pa_s2m6(self) -> float:
        """Velocity head at the inlet over the square of the flow."""
        return 0.5 * self.density_kgm3 / self.inlet_m2**2

    @property
    def outlet_pa_s2m6(self) -> float:
        """Velocity head at the outlet over the square of the flow."""
        return 0.5 * self.density_kgm3 / self.outlet_m2**2

    @property
    def total_pa_s2m6(self) -> Array:
        """Loss of total pressure over the square of the flow."""
        fall = (self.nozzle_drop - self.recovery) * self.dynamic_pa_s2m6
        return np.asarray(fall + self.inlet_pa_s2m6 - self.outlet_pa_s2m6)


def injector_model(part: Injector, builder: Builder) -> InjectorModel:
    """The coefficients of an injector in every case."""
    bore = nominal_bore(part)
    inlet, outlet = area_m2(bore.inlet_m), area_m2(bore.outlet_m)
    density = builder.water.density_kgm3
    constants = _bench_constants(part, builder)
    if constants is not None:
        at_work = bench.constants_at_density(constants, float(water_laws.density_kgm3(BENCH_TEMPERATURE_C)), density)
        if part.throat_m is not None:
            throat = _throat_m2(part, builder, bore.inlet_m)
            unit = 0.5 * density / throat**2
            drop, recovery = at_work.nozzle_pa_s2m6 / unit, at_work.recovery_pa_s2m6 / unit
        else:
            discharge = _discharge(part, builder)
            ratio = np.asarray(bench.loss_ratio_from_constants(at_work))
            first = bench.coefficients_without_throat(at_work, discharge, inlet, density)
            least = _least_discharge(ratio, np.asarray(first.throat_m2), inlet, outlet)
            found = bench.coefficients_without_throat(at_work, np.maximum(discharge, least), inlet, density)
            throat, drop, recovery = (
                np.asarray(found.throat_m2), np.asarray(found.nozzle_drop), np.asarray(found.recovery)
            )  # fmt: skip
        return InjectorModel(throat, inlet, outlet, np.asarray(drop), np.asarray(recovery), density, "bench")
    throat = _throat_m2(part, builder, bore.inlet_m)
    discharge = _discharge(part, builder)
    if part.loss_ratio is None and part.diffuser_deg is not None:
        drop = np.asarray(geometry.nozzle_drop_coefficient(discharge, throat / inlet))
        recovery = _recovery_by_angle(part, builder, throat, outlet)
        return InjectorModel(throat, inlet, outlet, drop, recovery, density, "geometry with the diffuser's angle")
    ratio, basis = _loss_ratio(part, builder)
    least = _least_discharge(ratio, throat, inlet, outlet)
    drop = np.asarray(geometry.nozzle_drop_coefficient(np.maximum(discharge, least), throat / inlet))
    recovery = np.asarray(geometry.recovery_from_loss_ratio(drop, ratio))
    return InjectorModel(throat, inlet, outlet, drop, recovery, density, basis)


def _least_discharge(loss_ratio: Array, throat_m2: Array, inlet_m2: float, outlet_m2: float) -> Array:
    """Discharge coefficient below which a loss ratio is not possible.

    No outlet wins back more than the throat's velocity head less its own, kappa <= 1 - (An/A2)^2 less the least loss
    of a diffuser, and kappa = (1 - xi)(1 - B4)/Cd^2: a good loss ratio excludes a poor entry cone.
    """
    most = 1.0 - SMALLEST_DIFFUSER_LOSS - (throat_m2 / outlet_m2) ** 2
    inlet_share = 1.0 - (throat_m2 / inlet_m2) ** 2
    return np.sqrt(np.maximum(1.0 - loss_ratio, 0.0) * inlet_share / np.maximum(most, 1e-6))


def _recovery_by_angle(part: Injector, builder: Builder, throat: Array, outlet: float) -> Array:
    """Recovery from the diffuser's full angle, with the scatter between published methods."""
    if part.mixing_bore_m is not None:
        b = np.asarray(throat / area_m2(part.mixing_bore_m))
    else:
        b = builder.draws.value(
            "injector throat over mixing bore",
            default("injector_throat_area_ratio").band,
            "area of the injector's throat over that of its mixing bore",
        )
    wall = builder.draws.value(
        "injector mixing loss", default("injector_mixing_loss_ratio").band, "loss in the injector's mixing bore"
    )
    cone = diffuser_loss_by_angle(part.diffuser_deg or 0.0, np.minimum(throat / (b * outlet), 1.0), CONE_FRICTION)
    scatter = builder.draws.value(
        "injector diffuser scatter",
        DIFFUSER_SCATTER,
        "scatter of published diffuser losses at one angle",
    )
    return np.asarray(geometry.recovery_coefficient(b, wall, cone * scatter, throat / outlet))


def _loss_ratio(part: Injector, builder: Builder) -> tuple[Array, str]:
    """Loss ratio as stated, or from the range of injectors of which only the throat is known."""
    if part.loss_ratio is not None:
        return builder.stated(part, "loss_ratio", part.loss_ratio, "on the bench, port closed"), "stated loss ratio"
    builder.note(
        "injector-by-geometry",
        f"{part.name} is known by its throat only: its loss ratio is taken from "
        "0.13 to 0.78, most likely 0.24; a bench test or one port reading narrows this most.",
    )
    return builder.draws.value(
        "injector loss ratio",
        default("injector_loss_ratio").band,
        f"loss ratio of {part.name}",
        "on the bench: inlet, outlet and closed-port pressure at one flow",
    ), "throat only"


def _throat_m2(part: Injector, builder: Builder, inlet_m: float) -> Array:
    band = part.throat_m
    if band is None:
        raise ValueError(f"{part.name} has neither a throat nor bench figures")
    widest = WIDEST_THROAT_RATIO * inlet_m
    if band.high > widest:
        shrink = widest / band.high
        band = band.scaled(shrink) if band.nominal > widest else Band(band.low, band.nominal, widest, band.scale)
        builder.note(
            "throat-range-fitted",
            f"The range of the throat of {part.name} is kept below {WIDEST_THROAT_RATIO:g} of its inlet bore.",
        )
    throat = builder.stated(part, "throat", band, "with the shank of the largest drill that slides in")
    return np.asarray(np.pi * throat**2 / 4.0)


def _discharge(part: Injector, builder: Builder) -> Array:
    if part.discharge_ratio is not None:
        return builder.stated(part, "discharge_coefficient", part.discharge_ratio)
    return builder.draws.value(
        "injector discharge coefficient",
        default("injector_discharge_ratio").band,
        f"discharge coefficient of {part.name}",
        "on the bench: inlet and closed-port pressure at one flow",
    )


def _bench_constants(part: Injector, builder: Builder) -> bench.Constants | None:
    tolerance = default("measured_tolerance_ratio").value
    if part.bench:
        rows = part.bench
        atmosphere = builder.water.atmosphere_pa_abs
        fit = bench.fit_constants(
            np.array([row.flow_m3s for row in rows]),
            np.array([atmosphere + row.inlet_pa_gauge for row in rows]),
            np.array([atmosphere + row.outlet_pa_gauge for row in rows]),
            np.array([atmosphere - row.port_vacuum_pa for row in rows]),
        )
        values = []
        for key, value, error in (
            ("inlet to port", fit.constants.nozzle_pa_s2m6, fit.nozzle_error_pa_s2m6),
            ("outlet to port", fit.constants.recovery_pa_s2m6, fit.recovery_error_pa_s2m6),
        ):
            middle = float(value)
            half = ONE_SIDED_90_PERCENT * error if np.isfinite(error) else tolerance * abs(middle)
            values.append(
                builder.stated(part, f"bench {key}", Band(middle - half, middle, middle + half), "with more bench rows")
            )
        dropped = int(np.sum(~fit.is_used))
        if dropped:
            builder.note(
                "bench-rows-dropped",
                f"{dropped} bench rows of {part.name} are left out: no flow, or a port below 20 kPa absolute.",
            )
        return bench.Constants(values[0], values[1])
    if part.inlet_to_port is None or part.outlet_to_port is None:
        return None
    drops = [
        builder.stated(
            part,
            f"bench {key}",
            Band(given.drop_pa * (1 - tolerance), given.drop_pa, given.drop_pa * (1 + tolerance)),
            "with bench rows at several flows",
        )
        for key, given in (("inlet to port", part.inlet_to_port), ("outlet to port", part.outlet_to_port))
    ]
    return bench.constants_from_pair(drops[0], part.inlet_to_port.flow_m3s, drops[1], part.outlet_to_port.flow_m3s)
