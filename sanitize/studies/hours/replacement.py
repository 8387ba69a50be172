"""When to drain, by the published formula."""

from sanitize.laws.clarity.dilution import replacement_interval_d
from sanitize.plant.loop import Plant
from sanitize.studies.hours.numbers import hours_entry
from sanitize.studies.hours.result import Replacement


def replacement_of(plant: Plant) -> Replacement | None:
    """The days after which the water is replaced, and the rise of the solids, from one rule; None without bathers."""
    if plant.bathers is None or plant.bathers.per_day <= 0.0:
        return None
    days = float(replacement_interval_d(plant.tub.volume_m3, plant.bathers.per_day))
    rise = hours_entry("replacement_rise_ppm")
    return Replacement(
        bathers_per_day=plant.bathers.per_day,
        interval_d=days,
        whole_days_count=max(int(days + 0.5), 1),
        dissolved_rise_mgl=rise.value,
        source=rise.source,
        standing=rise.standing,
    )
