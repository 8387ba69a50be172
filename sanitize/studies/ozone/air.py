"""The air around the tub over the cases: the room as described, or a small shut one; or the open air."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array
from sanitize.studies.ozone.numbers import Numbers, entry

_REMOVAL = {None: "removal_unknown_per_h", "bare": "removal_bare_per_h", "furnished": "removal_furnished_per_h"}


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


def is_bathroom_size(volume_m3: float) -> bool:
    """Whether a room is no larger than a bathroom."""
    return volume_m3 <= model_table("caution_limits")[("bathroom_volume_m3",)].high


def air_of(plant: Plant, pressure_pa_abs: float, numbers: Numbers) -> Air:
    """The air around a tub; where the place or the room is not described, a shut room the size of a bathroom."""
    room = plant.room
    is_open = plant.tub.place == "outdoors"
    if room is None:
        band = entry("bathroom_volume_m3").band
        volume = numbers.of_band("room_volume", band, "volume of the room", "low")
    else:
        volume = np.full(numbers.draws.size, room.volume_m3)
    stated = None if room is None else room.changes_per_h
    changes = (
        numbers("shut_room_changes_per_h")
        if stated is None
        else numbers.of_band("room_changes", Band.exact(stated), "air changes of the room")
    )
    surfaces = None if room is None else room.surfaces
    bare = room is None or (surfaces is None and is_bathroom_size(room.volume_m3))
    return Air(
        is_open=is_open,
        is_assumed=room is None and not is_open,
        volume_m3=volume,
        changes_per_h=changes,
        removal_per_h=numbers(_REMOVAL["bare" if bare else surfaces]),
        speed_m_per_min=numbers("outdoor_air_m_per_min" if is_open else "still_air_m_per_min"),
        temperature_c=numbers("room_air_c"),
        pressure_pa_abs=pressure_pa_abs,
    )
