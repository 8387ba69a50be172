"""The air around a plant's water and what warms the water, over the cases."""

from dataclasses import replace

import numpy as np

from sanitize.basis.notices import Notice
from sanitize.laws.air import atmospheric_pressure_pa_abs
from sanitize.laws.ozone.conversions import mgm3_of_ppmv
from sanitize.plant.day import DAY_S
from sanitize.plant.loop import Plant
from sanitize.studies.day.parts import AirSide
from sanitize.studies.day.ranges import CORNERS, Ranges
from sanitize.studies.day.schedule import MINUTE_S
from sanitize.studies.day.warmth import Warmth
from sanitize.studies.draws import Array
from sanitize.studies.hours.cooling import Chilling
from sanitize.studies.hours.gains import Gains
from sanitize.studies.ozone.air import air_of as room_of
from sanitize.studies.ozone.numbers import number
from sanitize.studies.ozone.rooms import assumed_notice


def air_of(plant: Plant, ranges: Ranges, gains: Gains) -> tuple[AirSide, tuple[Notice, ...]]:
    """The air of the room and over the water; indoors without a room a small closed one, which is said."""
    pressure = float(atmospheric_pressure_pa_abs(plant.tub.altitude_m))
    drawn, *corners = (room_of(plant, pressure, numbers) for numbers in (ranges.drawn, *ranges.corners))

    def joined(name: str) -> Array:
        return ranges.joined(*(getattr(air, name) for air in (drawn, *corners)))

    notices: list[Notice] = []
    if drawn.is_assumed and plant.ozone is not None:
        notices.append(assumed_notice(plant))
    area, rim = gains.areas.surface_m2, plant.tub.rim_m
    if rim is not None and rim.nominal > plant.tub.water_level_m.nominal:
        depth = np.full(ranges.size, rim.nominal - plant.tub.water_level_m.nominal)
    else:
        depth = ranges("headspace_depth_m")
    destroyed = 0.0 if plant.ozone is None else plant.ozone.destruct_ratio
    return AirSide(
        indoors=not drawn.is_open,
        room_m3=joined("volume_m3"),
        changes_per_h=joined("changes_per_h"),
        removal_per_h=joined("removal_per_h"),
        headspace_m3=area * depth,
        leak_m3_min=np.zeros(ranges.size),
        film_still_m_min=MINUTE_S * ranges("surface_film_still_ms"),
        film_moving_m_min=MINUTE_S * ranges("surface_film_moving_ms"),
        film_people_m_min=MINUTE_S * ranges("surface_film_jets_ms"),
        surface_m2=area,
        mixing_m3_min=np.pi * number("near_radius_m") ** 2 * joined("speed_m_per_min"),
        destroyed_ratio=np.full(ranges.size, destroyed),
        per_ppm_mgm3=mgm3_of_ppmv(1.0, joined("temperature_c"), pressure),
    ), tuple(notices)


def warmth_of(plant: Plant, gains: Gains, chiller: Chilling | None) -> Warmth:
    """What warms and cools the water, with the lid closed and without; without a chiller it stays as warm as stated.

    The corners are as the nominal case.
    """
    drawn = gains.air_c.size
    shut, bare = (replace(gains, covered_ratio=np.full(drawn, share)) for share in (1.0, 0.0))
    set_c = plant.tub.temperature_c
    none = np.zeros(drawn)

    def standing_w(water_c: Array, lid: bool) -> Array:
        water = water_c[:drawn]
        sides = (shut if lid else bare).at(water, gains.air_c)
        return Ranges.cases(sides.standing_w + gains.daily_j(water)["fresh water"] / DAY_S)

    def moving_w(water_c: Array) -> Array:
        return Ranges.cases(gains.at(water_c[:drawn], gains.air_c).moving_w)

    def capacity_w(water_c: Array) -> Array:
        return Ranges.cases(none if chiller is None else chiller.capacity_w(water_c[:drawn], gains.air_c))

    bathers = 0.0 if plant.bathers is None else plant.bathers.per_day
    dips = gains.daily_j(set_c)["bathers"] / bathers if bathers else none
    return Warmth(
        start_c=np.full(drawn + CORNERS, set_c),
        set_c=set_c,
        heat_capacity_jk=Ranges.cases(gains.heat_capacity_jk(set_c) + none),
        standing_w=standing_w,
        moving_w=moving_w,
        capacity_w=None if chiller is None else capacity_w,
        bather_j=Ranges.cases(dips),
        is_held=chiller is None,
    )
