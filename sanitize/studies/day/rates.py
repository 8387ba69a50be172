"""The coefficients of every stretch of the day from what is switched and how warm the water is."""

from dataclasses import dataclass

import numpy as np

from sanitize.studies.day.parts import AirSide, Chemistry, Supply
from sanitize.studies.day.reactor import OVER, ROOM, Rates
from sanitize.studies.day.schedule import Stretches
from sanitize.studies.draws import Array

LITRES = 1000.0


@dataclass(frozen=True, eq=False)
class Flowing:
    """Ozone's ways over the stretches and cases, from which the masses follow.

    fed_mg_min: made; to_air_mg_min, to_air_l_min: leaves with the gas, without ozone in the water and for each mg/L of
    it; surface_l_min: through the surface for each mg/L; returned_l_min: back for each mg/m3 over the water;
    out_m3_min: air from under the lid into the room; changes_per_min, removal_per_min: of the room;
    room_m3: of the room's air outside the lid.
    """

    fed_mg_min: Array
    to_air_mg_min: Array
    to_air_l_min: Array
    surface_l_min: Array
    returned_l_min: Array
    decay_per_min: Array
    out_m3_min: Array
    changes_per_min: Array
    removal_per_min: Array
    room_m3: Array


def flowing(day: Stretches, water_c: Array, supply: Supply | None, air: AirSide, chemistry: Chemistry) -> Flowing:
    """Ozone's ways at those temperatures of the water, (stretches, cases)."""
    shape = water_c.shape
    pump, ozone, lid, people = (flag[:, np.newaxis] for flag in (day.pump, day.ozone, day.lid, day.bathing))
    film = np.where(people, air.film_people_m_min, np.where(pump, air.film_moving_m_min, air.film_still_m_min))
    surface_l_min = LITRES * film * air.surface_m2
    if supply is None:
        fed = to_air = stripped = gas = returned = np.zeros(shape)
    else:
        fed = np.where(ozone, supply.fed_mg_min, 0.0)
        to_air = fed * (1.0 - supply.dissolved_ratio(water_c))
        stripped = np.where(pump, supply.stripped_l_min(water_c), 0.0)
        gas = np.where(pump, supply.gas_m3_min, 0.0)
        returned = surface_l_min * supply.solubility_ratio(water_c) / LITRES
    indoors = 1.0 if air.indoors else 0.0
    return Flowing(
        fed_mg_min=fed,
        to_air_mg_min=to_air,
        to_air_l_min=stripped,
        surface_l_min=np.broadcast_to(surface_l_min, shape),
        returned_l_min=np.broadcast_to(returned, shape),
        decay_per_min=chemistry.decay_per_min(water_c),
        out_m3_min=np.where(lid, gas + air.leak_m3_min, 0.0),
        changes_per_min=np.broadcast_to(indoors * air.changes_per_h / 60.0, shape),
        removal_per_min=np.broadcast_to(indoors * air.removal_per_h / 60.0, shape),
        room_m3=np.where(lid, air.room_m3 - air.headspace_m3, air.room_m3),
    )


def rates_of(day: Stretches, ways: Flowing, bathers_per_day: float, air: AirSide, chemistry: Chemistry) -> Rates:
    """The coefficients, first axis the stretches; the bathers of a day come evenly while people bathe."""
    shape = ways.fed_mg_min.shape
    lid = np.broadcast_to(day.lid[:, np.newaxis], shape)
    volume, kept = chemistry.volume_l, 1.0 - air.destroyed_ratio
    bathing_min = float(day.length_min[day.bathing].sum())
    each_min = bathers_per_day / bathing_min if bathing_min else 0.0
    demand = np.where(day.bathing[:, np.newaxis, np.newaxis], each_min * chemistry.demand_each_mg / volume, 0.0)
    sink = ways.changes_per_min + ways.removal_per_min
    per_m3 = np.where(lid, 1.0 / air.headspace_m3, (1.0 if air.indoors else 0.0) / ways.room_m3)
    outside = 1.0 / ways.room_m3 if air.indoors else np.zeros(shape)

    def everywhere(values: Array) -> Array:
        return np.broadcast_to(values, (day.count, *values.shape))

    return Rates(
        feed_mgl_min=(ways.fed_mg_min - ways.to_air_mg_min) / volume,
        loss_per_min=(ways.to_air_l_min + ways.surface_l_min) / volume + ways.decay_per_min,
        from_air_l=ways.returned_l_min / volume,
        demand_mgl_min=demand,
        dilution_per_min=everywhere(chemistry.dilution_per_min),
        ozone_speed=everywhere(chemistry.ozone_speed),
        oxidant_speed=everywhere(chemistry.oxidant_speed),
        meeting_speed=everywhere(chemistry.meeting_speed),
        oxidant_each=everywhere(chemistry.oxidant_each),
        oxidant_each_ozone=everywhere(chemistry.oxidant_each_ozone),
        oxidant_loss_per_min=everywhere(chemistry.oxidant_loss_per_min + chemistry.dilution_per_min),
        over_feed_mgm3_min=kept * ways.to_air_mg_min * per_m3,
        over_of_ozone=(kept * ways.to_air_l_min + ways.surface_l_min) * per_m3,
        over_loss_per_min=ways.returned_l_min * per_m3 + np.where(lid, ways.out_m3_min / air.headspace_m3, sink),
        room_of_over_per_min=np.where(lid, ways.out_m3_min * outside, 0.0),
        room_loss_per_min=sink,
    )


def lid_moved(state: Array, air: AirSide, closes: bool) -> Array:
    """The state (6, cases) right after the lid was closed or opened: the air keeps its ozone.

    Closing parts the air over the water from the room's; opening mixes the two. Outdoors the wind takes it.
    """
    moved = state.copy()
    if closes:
        moved[ROOM] = state[OVER]
    elif air.indoors:
        share = air.headspace_m3 / air.room_m3
        moved[OVER] = share * state[OVER] + (1.0 - share) * state[ROOM]
        moved[ROOM] = 0.0
    else:
        moved[OVER], moved[ROOM] = 0.0, 0.0
    return moved
