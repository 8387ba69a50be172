"""The water's own state: what was tested, what is assumed, and how fast it destroys ozone."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.laws.chemistry.cyanurate import hypochlorous_moll
from sanitize.laws.chemistry.halogens import acid_share_ratio, pk_hypochlorous
from sanitize.laws.ozone.decay import REFERENCE_C, REFERENCE_PH, self_decay_per_min
from sanitize.laws.ozone.reactions import (
    CHLORINE_GMOL,
    bromide_rate_per_min,
    hypobromite_rate_per_min,
    hypochlorite_rate_per_min,
    peroxide_rate_per_min,
)
from sanitize.plant.loop import Plant
from sanitize.plant.water import Uses
from sanitize.studies.dosing.reading import in_order, with_error
from sanitize.studies.draws import Array
from sanitize.studies.ozone.numbers import Source, entry

CYANURIC_GMOL = 129.074
"""Cyanuric acid [g/mol]."""
MG_PER_G = 1000.0


@dataclass(frozen=True)
class KnownWater:
    """What the latest test of the file says, with its reading errors; None where it says nothing."""

    ph: Band | None = None
    free_chlorine_mgl: Band | None = None
    cyanuric_mgl: Band | None = None
    bromine_mgl: Band | None = None
    peroxide_mgl: Band | None = None
    kept_with: Uses | None = None

    @property
    def has_bromide(self) -> bool:
        """Whether the water holds bromide: bromine was found in it, or it is kept with bromine."""
        found = self.bromine_mgl is not None and self.bromine_mgl.nominal > 0.0
        return found or self.kept_with == "bromine"


def known_water(plant: Plant) -> KnownWater:
    """The latest water test of a file and what the water is kept with."""
    kept_with = None if plant.sanitizer is None else plant.sanitizer.uses
    if not plant.water_test:
        return KnownWater(kept_with=kept_with)
    latest = in_order(plant.water_test)[-1]

    def read(value: Band | None, item: str) -> Band | None:
        return None if value is None else with_error(value, latest.method, item)

    return KnownWater(
        ph=read(latest.ph, "ph"),
        free_chlorine_mgl=read(latest.free_chlorine_mgl, "free_chlorine"),
        cyanuric_mgl=read(latest.cyanuric_mgl, "cyanuric_acid"),
        bromine_mgl=read(latest.bromine_mgl, "bromine"),
        peroxide_mgl=read(latest.peroxide_mgl, "peroxide"),
        kept_with=kept_with,
    )


@dataclass(frozen=True, eq=False)
class WaterState:
    """The water over the cases, and the rate at which it destroys ozone, all of its own matter counted."""

    ph: Array
    free_chlorine_mgl: Array
    bromine_mgl: Array
    bromide_mgl: Array
    peroxide_mgl: Array
    own_decay_per_min: Array
    decay_per_min: Array


def ph_of(band: Band | None, numbers: Source) -> Array:
    """pH over the cases, that of the table where none is known; at a worst end low, where ozone lasts longest."""
    return numbers.of_band("water_ph", band or entry("water_ph").band, "pH of the water", "low")


def own_decay(ph: Array, numbers: Source) -> Callable[[Array | float], Array]:
    """The rate [1/min] at which ozone decays in this water by itself, by the water's temperature [degC].

    At a worst end it rises with temperature and with pH as slows it most there: steeply below its reference, little
    above.
    """
    rate = numbers("decay_at_10c_per_min")
    little_by_c, steep_by_c = (numbers("decay_activation_jmol", end) for end in ("low", "high"))
    little_by_ph, steep_by_ph = (numbers("decay_ph_slope", end) for end in ("low", "high"))
    slope = np.where(ph > REFERENCE_PH, little_by_ph, steep_by_ph)

    def at(water_c: Array | float) -> Array:
        activation = np.where(np.asarray(water_c) > REFERENCE_C, little_by_c, steep_by_c)
        return self_decay_per_min(water_c, ph, rate, activation, slope)

    return at


def hypochlorite_mgl(chlorine_mgl: Array, cyanuric: Band | None, ph: Array, water_c: float, numbers: Source) -> Array:
    """Of the free chlorine, the part that destroys ozone [mg/L as chlorine]; cyanuric acid, which binds it, worst high.

    chlorine_mgl: above 0 or 0, over the cases.
    """
    bound = numbers.of_band("water_cyanuric", cyanuric or Band.exact(0.0), "cyanuric acid in the water", "high")
    acid = hypochlorous_moll(chlorine_mgl / (MG_PER_G * CHLORINE_GMOL), bound / (MG_PER_G * CYANURIC_GMOL), ph, water_c)
    return np.asarray(acid * 10.0 ** (ph - pk_hypochlorous(water_c)) * MG_PER_G * CHLORINE_GMOL)


def water_state(tested: KnownWater, temperature_c: float, numbers: Source) -> WaterState:
    """The water at its temperature; what was not tested stands at its table value, other oxidants at none.

    At a worst end whatever destroys ozone counts as least: oxidants and pH low, cyanuric acid high.
    """
    nothing = Band.exact(0.0)

    def of(name: str, band: Band | None, label: str) -> Array:
        return numbers.of_band(f"water_{name}", band or nothing, label, "low")

    ph = ph_of(tested.ph, numbers)
    chlorine = of("chlorine", tested.free_chlorine_mgl, "free chlorine in the water")
    bromine = of("bromine", tested.bromine_mgl, "bromine in the water")
    peroxide = of("peroxide", tested.peroxide_mgl, "hydrogen peroxide in the water")
    bank = entry("bromide_bank_mgl").band if tested.has_bromide else None
    bromide = of("bromide", bank, "bromide in the water")
    own = own_decay(ph, numbers)(temperature_c)
    hypochlorite = hypochlorite_mgl(chlorine, tested.cyanuric_mgl, ph, temperature_c, numbers)
    hypobromite = bromine * (1.0 - acid_share_ratio(ph, numbers("hypobromous_pk")))
    others = (
        peroxide_rate_per_min(peroxide, ph, numbers("peroxide_speed_l_per_mol_s"))
        + hypochlorite_rate_per_min(hypochlorite, numbers("hypochlorite_speed_l_per_mol_s"))
        + hypobromite_rate_per_min(hypobromite, numbers("hypobromite_speed_l_per_mol_s"))
        + bromide_rate_per_min(bromide, numbers("bromide_speed_l_per_mol_s"))
    )
    return WaterState(ph, chlorine, bromine, bromide, peroxide, own, np.asarray(own + others))
