"""What was assumed for a simulated day, and where it left a range."""

import numpy as np

from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.laws.ozone.solubility import HIGHEST_C, LOWEST_C
from sanitize.plant.loop import Plant
from sanitize.studies.day.ranges import CORNERS
from sanitize.studies.day.result import OzoneState
from sanitize.studies.day.simulate import Day
from sanitize.studies.day.warmth import COLDEST_C, WARMEST_C, at_an_end

DECAY_MEASURED_FROM_C, DECAY_MEASURED_TO_C = 15.0, 30.0
"""Coldest and warmest water in which the decay behind the model was measured [degC]."""


def notices_of_day(plant: Plant, day: Day, state: OzoneState) -> tuple[Notice, ...]:
    """The notices of a simulated day."""
    found: list[Notice] = []

    def told(temperature_c: float) -> str:
        return show(temperature_c, "temperature", plant.units)

    if state == "not drawn":
        found.append(
            Notice(
                "ozone-not-drawn",
                "No gas comes into the water: the injector draws none at any end of the range, or the loop has none. "
                "What the unit makes stays in its line or seeps into the air where it stands, which is not worked out.",
            )
        )
    if plant.ozone is not None:
        found.append(
            Notice(
                "judged-numbers",
                "How fast ozone reacts with what bathers bring, how much that is, and how fast chlorine takes it are "
                "estimates with wide ranges, which the figures carry.",
            )
        )
        if float(day.water_c.min()) < DECAY_MEASURED_FROM_C:
            found.append(
                Notice(
                    "decay-carried-on",
                    f"The decay of ozone was measured in a surface water of {told(DECAY_MEASURED_FROM_C)} to "
                    f"{told(DECAY_MEASURED_TO_C)}; for colder water it is carried on, and its range is wide.",
                )
            )
        if float(day.water_c.min()) < LOWEST_C or float(day.water_c.max()) > HIGHEST_C:
            found.append(
                Notice(
                    "solubility-carried-on",
                    f"The solubility of ozone was measured from {told(LOWEST_C)} to {told(HIGHEST_C)}; beyond that it "
                    "is carried on.",
                )
            )
        found.append(
            Notice(
                "outdoor-ozone-left-out",
                "Ozone in the air counts on top of what the outdoor air holds itself, often 0.02 to 0.06 ppm.",
            )
        )
    if plant.chiller is None:
        found.append(
            Notice("water-held", "Without [chiller] in the file the water stays at its stated temperature all day.")
        )
    repeats = day.repeats[:-CORNERS]
    if day.days_count > 1 and not repeats.all():
        share = int(np.count_nonzero(~repeats))
        found.append(
            Notice(
                "day-does-not-repeat",
                f"After {day.days_count} days {share} of {repeats.size} cases still change from day to day: more is "
                "brought than is oxidized, or the water has not come to rest.",
            )
        )
    if at_an_end(day.water_c[:, :-CORNERS]).any():
        found.append(
            Notice(
                "water-at-end-of-range",
                f"In some cases the water reaches {told(COLDEST_C)} or {told(WARMEST_C)}; it is held there.",
            )
        )
    return tuple(found)
