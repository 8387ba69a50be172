"""The air around the tub over the cases: the room as described, or a small shut one; or the open air."""

from dataclasses import dataclass

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array
from sanitize.studies.ozone.numbers import Numbers
from sanitize.studies.ozone.rooms import room_numbers


@dataclass(frozen=True, eq=False)
class Air:
    """Volume [m3], changes and decay on surfaces [1/h]; `is_open`: outdoors, where these are not read.

    speed_m_per_min: of the air over the water; temperature_c, pressure_pa_abs: of the air.
    """

    is_open: bool
    is_assumed: bool
    volume_m3: Array
    changes_per_h: Array
    removal_per_h: Array
    speed_m_per_min: Array
    temperature_c: Array
    pressure_pa_abs: float


def air_of(plant: Plant, pressure_pa_abs: float, numbers: Numbers) -> Air:
    """The air around a tub; where the place or the room is not described, a shut room the size of a bathroom."""
    room = room_numbers(plant)
    is_open = plant.tub.place == "outdoors"
    return Air(
        is_open=is_open,
        is_assumed=room.is_assumed and not is_open,
        volume_m3=numbers.of_band("room_volume", room.volume_m3, "volume of the room", "low"),
        changes_per_h=numbers.of_band("room_changes", room.changes_per_h, "air changes of the room", "low"),
        removal_per_h=numbers.of_band("room_removal", room.removal_per_h, "what the room's surfaces take", "low"),
        speed_m_per_min=numbers("outdoor_air_m_per_min" if is_open else "still_air_m_per_min"),
        temperature_c=numbers("room_air_c"),
        pressure_pa_abs=pressure_pa_abs,
    )
