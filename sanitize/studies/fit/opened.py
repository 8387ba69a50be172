"""The loop with what wears and fouls left open: pumps and filters about which the file says nothing else."""

from sanitize.basis.band import Band
from sanitize.basis.tables import default
from sanitize.plant.changed import with_part
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter, Pump


def opened(plant: Plant) -> tuple[Plant, dict[str, dict[str, str]]]:
    """The plant in which every running pump may be worn and every filter fouled, unless the file says how far.

    Gives also the keys that a loop file needs for it, by the part's name.
    """
    changes: dict[str, dict[str, str]] = {}
    for part in walk(plant.loop):
        if isinstance(part, Pump) and part.running and part.head_ratio is None:
            band = default("worn_pump_head_ratio").band
            plant = with_part(plant, part.name, head_ratio=band)
            changes[part.name] = {"head_share": _stated(band)}
        elif isinstance(part, Filter) and part.fouling_ratio is None:
            band = default("filter_fouling_ratio").band
            plant = with_part(plant, part.name, fouling_ratio=band)
            changes[part.name] = {"fouling": _stated(band)}
    return plant, changes


def _stated(band: Band) -> str:
    """A plain number with its range as a loop file states it."""
    return f"{band.nominal:g} ({band.low:g} to {band.high:g})"
