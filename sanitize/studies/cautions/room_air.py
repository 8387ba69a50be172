"""Ozone in the air of a room at its worst end: all that the unit makes ends in the room."""

from sanitize.laws.air import atmospheric_pressure_pa_abs
from sanitize.laws.ozone.conversions import mgm3_of_ppmv, ppmv_of_mgm3
from sanitize.laws.ozone.room_air import steady_mgm3
from sanitize.plant.gas import OzoneUnit
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.rule import limit
from sanitize.studies.ozone.numbers import entry
from sanitize.studies.ozone.rooms import room_numbers

SECONDS_PER_H = 3600.0
MINUTES_PER_H = 60.0


def room_ozone_ppmv(plant: Plant, unit: OzoneUnit) -> float:
    """Ozone in the room in the end, in the smallest that it may be, its air and surfaces taking the least."""
    room = room_numbers(plant)
    ozone = steady_mgm3(unit.output_mg_per_h, room.volume_m3.low, room.changes_per_h.low, room.removal_per_h.low)
    return float(ppmv_of_mgm3(ozone, entry("room_air_c").high, _pressure_pa_abs(plant)))


def room_for_ceiling_m3(plant: Plant, unit: OzoneUnit) -> float:
    """Volume of the smallest room that stays at the ceiling in the end, changed and lined as this one [m3]."""
    return room_numbers(plant).volume_m3.low * room_ozone_ppmv(plant, unit) / limit("ozone_ceiling_ppmv")


def minutes_to_ceiling(plant: Plant, unit: OzoneUnit) -> float:
    """Time [min] in which the unit fills the room to the ceiling, with nothing removed."""
    ceiling_mgm3 = float(mgm3_of_ppmv(limit("ozone_ceiling_ppmv"), entry("room_air_c").high, _pressure_pa_abs(plant)))
    return MINUTES_PER_H * room_numbers(plant).volume_m3.low * ceiling_mgm3 / unit.output_mg_per_h


def cover_ozone_ppmv(plant: Plant, unit: OzoneUnit, gas_flow_m3s: float) -> float:
    """Ozone under a closed cover that only the unit's own gas sweeps."""
    ozone_mgm3 = unit.output_mg_per_h / (gas_flow_m3s * SECONDS_PER_H)
    return float(ppmv_of_mgm3(ozone_mgm3, entry("room_air_c").high, _pressure_pa_abs(plant)))


def _pressure_pa_abs(plant: Plant) -> float:
    return float(atmospheric_pressure_pa_abs(plant.tub.altitude_m))
