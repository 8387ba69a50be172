"""What a thermometer shows over the chiller: the heat that it takes out over the water that it gets."""

import numpy as np

from sanitize.basis.band import Band
from sanitize.laws.heat.cooling import chiller_drop_k
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.cooling import chilling_of
from sanitize.studies.hours.numbers import heat_entry, heat_number
from sanitize.studies.operating_point.run import Run

WATER_AS_READ, AIR_AS_READ = "water as read", "air as read"
"""Inputs that hold for the time of the readings alone."""


def chiller_drop(plant: Plant, draws: Draws, running: Run) -> Array:
    """Inlet less outlet of the chiller while it cools [K]; with several in the loop, of the last.

    Water and air as warm as they were read, else as the file states them. The flow through the chiller is that of the
    run. Raises ValueError where the loop has no chiller, or the file no [chiller].
    """
    names = [item.part.name for item in running.assembly.parts if isinstance(item.part, Chiller)]
    if not names or plant.chiller is None:
        raise ValueError("the loop has no chiller of a known capacity")
    flow = np.where(running.solved, np.abs(running.station(names[-1]).flow_m3s), 0.0)
    water = water_c(plant, draws)
    capacity = chilling_of(plant.chiller, draws).capacity_w(water, air_c(plant, draws))
    heat = running.assembly.water.density_kgm3 * flow * heat_entry("specific_heat_jkgk").value
    return chiller_drop_k(capacity, heat, water)


def water_c(plant: Plant, draws: Draws) -> Array:
    """Water of the tub while it was read [degC]."""
    read = None if plant.measured is None else plant.measured.water_temperature_c
    return draws.value(WATER_AS_READ, read or Band.exact(plant.tub.temperature_c), "water at the time of the readings")


def air_c(plant: Plant, draws: Draws) -> Array:
    """Air around the chiller while it was read; where nobody read it, as `hours` takes it [degC]."""
    read = None if plant.measured is None else plant.measured.air_temperature_c
    if read is not None:
        return draws.value(AIR_AS_READ, read, "air at the time of the readings")
    stated = None if plant.surroundings is None else plant.surroundings.air_c
    name = "air_outdoors_c" if plant.tub.place == "outdoors" else "air_indoors_c"
    return heat_number(draws, stated, name, "temperature of the air", "with a thermometer in the shade").values
