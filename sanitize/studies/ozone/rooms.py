"""The room around a tub: as the file describes it, or the small shut one that stands in, the same for every answer."""

from dataclasses import dataclass

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, significant, to_shown
from sanitize.plant.loop import Plant
from sanitize.studies.ozone.numbers import entry

_REMOVAL = {None: "removal_unknown_per_h", "bare": "removal_bare_per_h", "furnished": "removal_furnished_per_h"}


@dataclass(frozen=True)
class RoomNumbers:
    """Volume [m3], air changes and what its surfaces take of the ozone [1/h]; low is the end at which most gathers.

    is_assumed: the file describes no room; are_changes_stated: it says the air changes.
    """

    volume_m3: Band
    changes_per_h: Band
    removal_per_h: Band
    is_assumed: bool
    are_changes_stated: bool


def room_numbers(plant: Plant) -> RoomNumbers:
    """The room of a file; where it describes none a shut one the size of a bathroom, with bare walls."""
    room = plant.room
    shut = entry("shut_room_changes_per_h").band
    if room is None:
        return RoomNumbers(_assumed_m3(plant.tub.volume_m3), shut, entry("removal_bare_per_h").band, True, False)
    surfaces = "bare" if room.surfaces is None and is_bathroom_size(room.volume_m3) else room.surfaces
    return RoomNumbers(
        volume_m3=Band.exact(room.volume_m3),
        changes_per_h=shut if room.changes_per_h is None else Band.exact(room.changes_per_h),
        removal_per_h=entry(_REMOVAL[surfaces]).band,
        is_assumed=False,
        are_changes_stated=room.changes_per_h is not None,
    )


def is_bathroom_size(volume_m3: float) -> bool:
    """Whether a room is no larger than a bathroom."""
    return volume_m3 <= entry("bathroom_volume_m3").high


def assumed_notice(plant: Plant) -> Notice:
    """What stands in for the room that a file does not describe."""
    return Notice(
        "room-assumed",
        f"The file describes no [room]: {assumed_words(plant)} stands in. `volume` and `air_changes_per_hour` in "
        "[room] say it.",
    )


def assumed_words(plant: Plant) -> str:
    """The room that stands in, in words: how large, and how little its air changes."""
    room = room_numbers(plant)
    changes = room.changes_per_h
    return (
        f"a shut room the size of a bathroom, {space_range(room.volume_m3, plant.units)}, with {changes.low:g} to "
        f"{changes.high:g} air changes an hour and bare walls,"
    )


def space(volume_m3: float, family: Family) -> str:
    """A room's volume, which nobody counts in litres or gallons.

    >>> space(12.0, "metric"), space(12.0, "us")
    ('12 m3', '420 ft3')
    """
    unit = "m3" if family == "metric" else "ft3"
    return f"{significant(to_shown(volume_m3, 'volume', unit))} {unit}"


def space_range(volume_m3: Band, family: Family) -> str:
    """A room's volume from low to high.

    >>> space_range(Band(6.0, 12.0, 20.0), "metric")
    '6.0 to 20 m3'
    """
    low = space(volume_m3.low, family).split(" ")[0]
    return f"{low} to {space(volume_m3.high, family)}"


def _assumed_m3(water_m3: float) -> Band:
    """A bathroom, or larger where the tub itself would fill one."""
    band = entry("bathroom_volume_m3").band
    least_m3 = model_table("caution_limits")[("room_over_water_ratio",)].value * water_m3
    larger = max(1.0, least_m3 / band.low)
    return Band(larger * band.low, larger * band.nominal, larger * band.high, band.scale)
