"""What the simulated day is made of, over the cases: the ozone's way in, the air, the water's chemistry, the filter."""

from collections.abc import Callable
from dataclasses import dataclass

from sanitize.studies.draws import Array

OfTemperature = Callable[[Array], Array]
"""A number by the water's temperature [degC], both (stretches, cases)."""


@dataclass(frozen=True, eq=False)
class Supply:
    """Ozone into the water while the pump runs.

    fed_mg_min: what the unit makes at the gas flow drawn; dissolved_ratio: share of it that dissolves in water
    without ozone; stripped_l_min: water that the gas would strip of all its ozone, gas on or off; solubility_ratio:
    ozone in water over ozone in gas; gas_m3_min: at the tub.
    """

    fed_mg_min: Array
    dissolved_ratio: OfTemperature
    stripped_l_min: OfTemperature
    solubility_ratio: OfTemperature
    gas_m3_min: Array


@dataclass(frozen=True, eq=False)
class AirSide:
    """The air over the water and in the room.

    indoors: without a room of its own what leaves the water is gone; removal_per_h: at the room's surfaces;
    headspace_m3: under a closed lid; leak_m3_min: through it; film_m_min: still, moving and with people in the water;
    mixing_m3_min: air that carries ozone away from over the open water; destroyed_ratio: of what leaves the water by
    the gas; per_ppm_mgm3: mass of 1 ppm.
    """

    indoors: bool
    room_m3: Array
    changes_per_h: Array
    removal_per_h: Array
    headspace_m3: Array
    leak_m3_min: Array
    film_still_m_min: Array
    film_moving_m_min: Array
    film_people_m_min: Array
    surface_m2: float
    mixing_m3_min: Array
    destroyed_ratio: Array
    per_ppm_mgm3: Array


@dataclass(frozen=True, eq=False)
class Chemistry:
    """What ozone meets in the water.

    decay_per_min: by itself; ozone_speed, oxidant_speed: with fast and slow demand, pairs (2, cases) [L/mg/min];
    meeting_speed: ozone with the other oxidant [L/mg/min]; oxidant_each, oxidant_each_ozone: other oxidant for each mg
    of demand and of ozone [mg/mg]; oxidant_loss_per_min: by itself; oxidant_start_mgl: to which it is brought each
    day; demand_each_mg: what a bather brings, fast and slow (2, cases); volume_l: of the water;
    dilution_per_min: by fresh water.
    """

    volume_l: float
    decay_per_min: OfTemperature
    ozone_speed: Array
    oxidant_speed: Array
    meeting_speed: Array
    oxidant_each: Array
    oxidant_each_ozone: Array
    oxidant_loss_per_min: Array
    oxidant_start_mgl: Array
    demand_each_mg: Array
    dilution_per_min: Array


@dataclass(frozen=True, eq=False)
class Clearing:
    """Haze and what takes it out: haze_each_ntu: what one bather adds; cleared_per_min: while the pump runs."""

    haze_each_ntu: Array
    cleared_per_min: Array
    dilution_per_min: Array
