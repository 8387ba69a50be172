"""How long the jar test takes for each kind of particle, at the water's temperature."""

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.laws import water
from sanitize.laws.clarity.settling import crossing_time_s, settling_velocity_ms
from sanitize.studies.cloudy.result import JarTime

JAR_HEIGHT_M = 0.10
"""Depth of the water in the jar that the test asks for."""
_GAS_DENSITY_KGM3 = 1.2


def jar_times(temperature_c: float) -> tuple[JarTime, ...]:
    """Bubbles and particles by the time that they need through the jar, the fastest first."""
    table = model_table("jar_particles")
    found = []
    for particle in table.words("particle"):
        diameter = table[particle, "diameter"].value
        density = table.entries.get((particle, "density"))
        velocity = settling_velocity_ms(
            diameter,
            _GAS_DENSITY_KGM3 if density is None else density.value,
            water.density_kgm3(temperature_c),
            water.viscosity_pas(temperature_c),
        )
        time = float(crossing_time_s(JAR_HEIGHT_M, velocity))
        found.append(JarTime(particle, diameter, bool(np.asarray(velocity) < 0.0), time))
    return tuple(sorted(found, key=lambda item: item.time_s))
