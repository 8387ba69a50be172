"""Parts known by a pressure drop at a flow: filter, chiller, data sheets."""

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.tables import default
from sanitize.laws import water as water_laws
from sanitize.laws.hydraulics.known_drop import (
    exponent_from_points,
    filter_drop,
    known_drop,
    loading_for_drop_ratio,
    medium_share_from_two_points,
)
from sanitize.plant.machines import Chiller, Filter, Points
from sanitize.plant.part import Part
from sanitize.plant.pipework import KnownDrop
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.builder import Builder
from sanitize.studies.operating_point.rows import Loss, Row, Stated, Water

RATED_TEMPERATURE_C = 20.0
"""Water in which a drop is stated unless said (common practice)."""
RATED_DENSITY_KGM3 = float(water_laws.density_kgm3(RATED_TEMPERATURE_C))
RATED_VISCOSITY_PAS = float(water_laws.viscosity_pas(RATED_TEMPERATURE_C))
