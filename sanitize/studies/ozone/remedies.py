"""What would bring the air of a room under its limit, and what a needle valve would bring."""

from dataclasses import replace

import numpy as np

from sanitize.laws.ozone.conversions import mgm3_of_ppmv
from sanitize.laws.ozone.room_air import changes_for_per_h, emission_for_mg_per_h
from sanitize.plant.gas import OzoneUnit
from sanitize.studies.draws import Array, Mask
from sanitize.studies.figures import figure
from sanitize.studies.ozone.air import Air
from sanitize.studies.ozone.model import Flows, Steady, TubSide, steady
from sanitize.studies.ozone.numbers import Numbers, number
from sanitize.studies.ozone.result import NeedleValve, Remedy
from sanitize.studies.ozone.water import WaterState
from sanitize.studies.suction.gas_report import LARGEST_PUBLISHED_RATIO


def limit_mgm3(limit_ppmv: float, air: Air) -> Array:
    """A limit by volume as mass in this air, over the cases."""
    return mgm3_of_ppmv(np.full(air.volume_m3.size, limit_ppmv), air.temperature_c, air.pressure_pa_abs)


def emission_limit_mg_per_h(limit_ppmv: float, air: Air) -> Array:
    """What this room can bear, over the cases."""
    return emission_for_mg_per_h(limit_mgm3(limit_ppmv, air), air.volume_m3, air.changes_per_h, air.removal_per_h)


def remedy(found: Steady, unit: OzoneUnit, limit_ppmv: float, solved: Mask) -> Remedy:
    """Air changes, destruct share and output, each of which alone holds the room at the limit."""
    air = found.air
    bears = emission_limit_mg_per_h(limit_ppmv, air)
    vented, emission = np.maximum(found.vented_mg_per_h, 1e-12), np.maximum(found.emission_mg_per_h, 1e-12)
    left = (bears - found.surface_mg_per_h) / vented
    share = np.where(left > 0.0, np.clip(1.0 - left, 0.0, 1.0), np.inf)

    def shown(values: Array) -> Array:
        return np.where(solved & (found.feed_mg_per_h > 0.0), values, np.nan)

    changes = changes_for_per_h(found.emission_mg_per_h, limit_mgm3(limit_ppmv, air), air.volume_m3, air.removal_per_h)
    return Remedy(
        changes_per_h=figure(shown(changes)),
        destruct_ratio=figure(shown(share)),
        output_mg_per_h=figure(shown(unit.output_mg_per_h * bears / emission)),
    )


def needle_valve(
    unit: OzoneUnit, tub: TubSide, flows: Flows, state: WaterState, air: Air, need_gs: Array, numbers: Numbers
) -> NeedleValve | None:
    """The same balance with the gas held back, where more is drawn than the data cover or the unit is rated for."""
    gas, water = float(flows.gas_m3s[0]), float(flows.injector_m3s[0])
    rated = unit.at_gas_flow_m3s
    if water <= 0.0 or (gas <= LARGEST_PUBLISHED_RATIO * water and (rated is None or gas <= rated)):
        return None
    usual = number("needle_valve_ratio") * water
    wanted = usual if rated is None or rated > LARGEST_PUBLISHED_RATIO * water else rated
    held = replace(flows, gas_m3s=np.minimum(flows.gas_m3s, wanted))
    found = steady(unit, tub, held, state, air, need_gs, numbers)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(found.feed_mg_per_h > 0.0, found.dissolved_mg_per_h / found.feed_mg_per_h, np.nan)

    def shown(values: Array) -> Array:
        return np.where(flows.solved, values, np.nan)

    return NeedleValve(
        gas_flow_m3s=wanted,
        gas_to_water_ratio=figure(shown(found.gas_to_water_ratio)),
        transfer_ratio=figure(shown(ratio)),
        dissolved_mg_per_h=figure(shown(found.dissolved_mg_per_h)),
        emission_mg_per_h=figure(shown(found.emission_mg_per_h)),
    )
