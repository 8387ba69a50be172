"""Ozone with pump and unit running on and on: one linear balance of gas, water and air, for every case at once."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.ozone.conversions import ppmv_of_mgm3
from sanitize.laws.ozone.feed import curve_output_mg_per_h, rated_flow_ratio, rated_output_ratio
from sanitize.laws.ozone.kla import diffusivity_m2s, surface_tension_nm
from sanitize.laws.ozone.plume import rise_units, rise_velocity_ms, swarm_film_ms
from sanitize.laws.ozone.room_air import over_water_mgm3
from sanitize.laws.ozone.solubility import solubility_ratio
from sanitize.laws.ozone.transfer import equilibrium_ratio, rising_ratio
from sanitize.plant.gas import OzoneUnit
from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.run import Run
from sanitize.studies.ozone.air import Air
from sanitize.studies.ozone.contact import SECONDS_PER_MIN, Passage, crossing
from sanitize.studies.ozone.numbers import Numbers, number
from sanitize.studies.ozone.water import WaterState

MG_PER_H_OF_GS = 3.6e6
"""Milligrams an hour in one gram a second, exact."""
GAS_FLOW_C = 20.0
"""Temperature at which gas flows are stated."""
COLD_TO_C, WARM_FROM_C = 15.0, 20.0
"""Between these temperatures the spread of the published solubilities widens."""
NO_GAS_M3S = 1e-12


@dataclass(frozen=True, eq=False)
class Flows:
    """What the suction study gives over the cases; gas_m3s at local atmosphere and 20 degC, gas line open."""

    running: Run
    way: Passage
    gas_m3s: Array
    injector_m3s: Array
    total_m3s: Array
    outlet_pa_gauge: Array
    solved: Mask


@dataclass(frozen=True, eq=False)
class TubSide:
    """The tub: volume [m3] and surface [m2] over the cases."""

    volume_m3: float
    surface_m2: Array


@dataclass(frozen=True, eq=False)
class Steady:
    """The balance over the cases; amounts [mg/h], concentrations as `Ozone` names them.

    feed = dissolved + vented; dissolved = decayed + surface (without bathers).
    """

    feed_mg_per_h: Array
    feed_gm3: Array
    gas_to_water_ratio: Array
    solubility: Array
    equilibrium: Array
    pipe_mg_per_h: Array
    plume_mg_per_h: Array
    vented_mg_per_h: Array
    surface_mg_per_h: Array
    emission_mg_per_h: Array
    strips_mg_per_h: Array
    residual_mgl: Array
    residual_in_use_mgl: Array
    pass_ct_mg_min_l: Array
    tub_ct_mg_min_l: Array
    stay_s: Array
    is_slow: Mask
    room_mgm3: Array
    over_water_mgm3: Array
    under_cover_mgm3: Array
    air: Air

    @property
    def dissolved_mg_per_h(self) -> Array:
        """What crosses into the water, net of what is stripped."""
        return self.pipe_mg_per_h + self.plume_mg_per_h

    def ppmv(self, ozone_mgm3: Array) -> Array:
        """Ozone in this air by volume."""
        return ppmv_of_mgm3(np.maximum(ozone_mgm3, 0.0), self.air.temperature_c, self.air.pressure_pa_abs)


def made_mg_per_h(unit: OzoneUnit, gas_m3s: Array, pressure_pa_abs: float, numbers: Numbers) -> Array:
    """What the unit makes at the gas flow that is drawn; nothing comes where none is.

    At a worst end it makes all that it is rated for at any flow below the rated one, as little gas holds more ozone.
    """
    derate = numbers("damp_feed_ratio" if unit.feed == "room air" else "dry_feed_ratio")
    if unit.outputs:
        flows, outputs = zip(*unit.outputs, strict=True)
        made = curve_output_mg_per_h(rated_flow_ratio(gas_m3s, 1.0, pressure_pa_abs, GAS_FLOW_C), flows, outputs)
        made = made if numbers.worst is None else np.maximum(made, outputs[0])
    elif unit.at_gas_flow_m3s is not None:
        ratio = rated_flow_ratio(gas_m3s, unit.at_gas_flow_m3s, pressure_pa_abs, GAS_FLOW_C)
        made = unit.output_mg_per_h * (rated_output_ratio(ratio) if numbers.worst is None else np.ones(ratio.size))
    else:
        made = np.full(gas_m3s.size, unit.output_mg_per_h)
    return np.where(gas_m3s > 0.0, derate * made, 0.0)


def contact_gas_m3s(flows: Flows) -> tuple[Array, Array]:
    """Gas at the tub and, squeezed by half of the pressure behind the injector, along the pipe; both above 0 [m3/s]."""
    water = flows.running.assembly.water
    kelvin_ratio = (water.temperature_c + CELSIUS_ZERO_K) / (GAS_FLOW_C + CELSIUS_ZERO_K)
    at_tub = np.maximum(flows.gas_m3s, NO_GAS_M3S) * kelvin_ratio
    pressure = water.atmosphere_pa_abs + 0.5 * np.maximum(flows.outlet_pa_gauge, -0.5 * water.atmosphere_pa_abs)
    return at_tub, at_tub * water.atmosphere_pa_abs / pressure


def solubility_of(temperature_c: float, numbers: Numbers) -> Array:
    """Solubility over the cases, with the spread of the published ones."""
    warm = float(np.clip((temperature_c - COLD_TO_C) / (WARM_FROM_C - COLD_TO_C), 0.0, 1.0))
    spread = (1.0 - warm) * numbers("solubility_cold_ratio") + warm * numbers("solubility_warm_ratio")
    return np.asarray(solubility_ratio(temperature_c) * spread)


def steady(
    unit: OzoneUnit, tub: TubSide, flows: Flows, state: WaterState, air: Air, need_gs: Array, numbers: Numbers
) -> Steady:
    """The balance of gas, water and air; need_gs: what bathers' matter takes while the unit runs, as ozone [g/s]."""
    water = flows.running.assembly.water
    solubility = solubility_of(water.temperature_c, numbers)
    at_tub, gas = contact_gas_m3s(flows)
    feed = made_mg_per_h(unit, flows.gas_m3s, water.atmosphere_pa_abs, numbers)
    start = feed / MG_PER_H_OF_GS / gas
    crossed = crossing(flows.way, flows.running, gas, solubility, state.decay_per_min, numbers)
    risen = rising(flows, solubility, numbers)

    # grams a second, each as a part from the feed and a part for each mg/L in the tub
    gas_end = gas * crossed.gas_of_gas * start, gas * crossed.gas_of_water
    plume = risen * gas_end[0], risen * (gas_end[1] - at_tub / solubility)
    vent = gas_end[0] - plume[0], gas_end[1] - plume[1]
    gain = (
        crossed.end_m3s * crossed.water_of_gas * start + plume[0],
        crossed.end_m3s * (crossed.water_of_water - 1.0) + plume[1],
    )
    film = numbers("surface_film_moving_ms") * tub.surface_m2
    back = film * solubility / 1000.0
    per_gs = 0.0 if air.is_open else MG_PER_H_OF_GS / (air.volume_m3 * (air.changes_per_h + air.removal_per_h))
    kept = 1.0 - unit.destruct_ratio
    room = (
        per_gs * kept * vent[0] / (1.0 + per_gs * back),
        per_gs * (kept * vent[1] + film) / (1.0 + per_gs * back),
    )
    loss = tub.volume_m3 * state.decay_per_min / SECONDS_PER_MIN + film - gain[1] - back * room[1]
    source = gain[0] + back * room[0]
    residual = source / loss
    in_use = np.maximum(source - need_gs, 0.0) / loss

    def at(pair: tuple[Array, Array], ozone: Array) -> Array:
        return pair[0] + pair[1] * ozone

    vented, room_air = at(vent, residual), at(room, residual)
    surface = film * residual - back * room_air
    emission = np.maximum(kept * vented + surface, 0.0) * MG_PER_H_OF_GS
    leaving = crossed.water_of_gas * start + crossed.water_of_water * residual
    return Steady(
        feed_mg_per_h=feed,
        feed_gm3=feed / MG_PER_H_OF_GS / np.maximum(flows.gas_m3s, NO_GAS_M3S),
        gas_to_water_ratio=flows.gas_m3s / np.maximum(flows.injector_m3s, NO_GAS_M3S),
        solubility=solubility,
        equilibrium=np.where(
            feed > 0.0, equilibrium_ratio(gas / np.maximum(flows.injector_m3s, NO_GAS_M3S), solubility), np.nan
        ),
        pipe_mg_per_h=feed - at(gas_end, residual) * MG_PER_H_OF_GS,
        plume_mg_per_h=at(plume, residual) * MG_PER_H_OF_GS,
        vented_mg_per_h=vented * MG_PER_H_OF_GS,
        surface_mg_per_h=surface * MG_PER_H_OF_GS,
        emission_mg_per_h=emission,
        strips_mg_per_h=np.where(flows.gas_m3s > 0.0, vent[1] * residual * MG_PER_H_OF_GS, 0.0),
        residual_mgl=residual,
        residual_in_use_mgl=in_use,
        pass_ct_mg_min_l=leaving * crossed.stay_s / SECONDS_PER_MIN,
        tub_ct_mg_min_l=residual
        * number("tub_baffling_ratio")
        * tub.volume_m3
        / np.maximum(flows.total_m3s, NO_GAS_M3S)
        / SECONDS_PER_MIN,
        stay_s=crossed.stay_s,
        is_slow=crossed.is_slow,
        room_mgm3=room_air,
        over_water_mgm3=room_air + over_water_mgm3(emission, number("near_radius_m"), air.speed_m_per_min),
        under_cover_mgm3=np.maximum(
            np.where(flows.gas_m3s > 0.0, 1000.0 * vented / at_tub, 0.0), 1000.0 * residual / solubility
        ),
        air=air,
    )


def rising(flows: Flows, solubility: Array, numbers: Numbers) -> Array:
    """Share of the way to equilibrium that the bubbles cover between return and surface."""
    water = flows.running.assembly.water
    nu = water.viscosity_pas / water.density_kgm3
    bubble = numbers("plume_bubble_m")
    velocity = rise_velocity_ms(bubble, surface_tension_nm(water.temperature_c), water.density_kgm3)
    film = swarm_film_ms(bubble, velocity, nu, diffusivity_m2s(water.temperature_c, nu))
    return rising_ratio(rise_units(film, solubility, flows.way.depth_m, bubble, velocity))
