"""Ozone in the air of a room at its worst end: all that the unit makes ends in the room."""

from sanitize.basis.tables import model_table
from sanitize.plant.tub import Room
from sanitize.studies.cautions.rule import limit


def slowest_exchange_per_h(room: Room | None) -> float:
    """Air changes an hour as stated, else those of a shut room."""
    if room is not None and room.changes_per_h is not None:
        return room.changes_per_h
    return model_table("caution_limits")[("room_air_changes_per_h",)].low


def steady_ozone_ppmv(output_mg_per_h: float, volume_m3: float, changes_per_h: float) -> float:
    """Ozone in a well-mixed room in the end: c = E / (V (n + k)), with the least removal k at its surfaces.

    output_mg_per_h: E, the unit's output [mg/h]; volume_m3: V [m3]; changes_per_h: n [1/h]; returns [ppm by volume].
    Valid for even mixing and clean outdoor air; the source gives no range.
    Key: lee_1999 for k, whose low end is common practice.

    >>> steady_ozone_ppmv(30.0, 30.0, 0.5)
    0.34
    """
    removal_per_h = model_table("caution_limits")[("ozone_removal_per_h",)].low
    return output_mg_per_h / (volume_m3 * (changes_per_h + removal_per_h)) / limit("ozone_mass_mgm3")


def minutes_to_ceiling(output_mg_per_h: float, volume_m3: float) -> float:
    """Time [min] in which the unit fills a room to the ceiling, with nothing removed.

    >>> minutes_to_ceiling(90.0, 12.0)
    1.57
    """
    return 60.0 * volume_m3 * limit("ozone_ceiling_ppmv") * limit("ozone_mass_mgm3") / output_mg_per_h


def volume_for_ceiling_m3(output_mg_per_h: float, changes_per_h: float) -> float:
    """Volume [m3] of the smallest room that stays below the ceiling in the end.

    >>> steady_ozone_ppmv(90.0, volume_for_ceiling_m3(90.0, 0.2), 0.2)
    0.1
    """
    return steady_ozone_ppmv(output_mg_per_h, 1.0, changes_per_h) / limit("ozone_ceiling_ppmv")


def cover_ozone_ppmv(output_mg_per_h: float, gas_flow_m3s: float) -> float:
    """Ozone under a closed cover that only the unit's own gas sweeps.

    >>> round(cover_ozone_ppmv(39.15, 1.5 / 60000))
    222
    """
    return output_mg_per_h / (gas_flow_m3s * 3600.0) / limit("ozone_mass_mgm3")
