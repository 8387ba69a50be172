"""The water over the cases: what it holds, what a test of it reads, and what an addition makes of it."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from sanitize.laws.chemistry.activity import ionic_strength_moll
from sanitize.laws.chemistry.carbonate import Acids, Water, alkalinity_moll, carbon_moll, ph_of
from sanitize.laws.chemistry.cyanurate import CYANURIC_GMOL, hypochlorous_moll, pk_cyanuric
from sanitize.laws.chemistry.halogens import (
    BROMINE_GMOL,
    CHLORINE_GMOL,
    PEROXIDE_GMOL,
    acid_share_ratio,
    pk_hypochlorous,
)
from sanitize.laws.chemistry.products import BRINGS
from sanitize.laws.chemistry.saturation import CALCIUM_CARBONATE_GMOL, calcite_index, simplified_index
from sanitize.studies.dosing.result import Expected
from sanitize.studies.draws import Array
from sanitize.studies.figures import figure

ALKALINITY_GEQ = 0.5 * CALCIUM_CARBONATE_GMOL
"""Calcium carbonate, as which alkalinity is counted, for each equivalent [g/eq]."""
_LEAST_CARBONATE_MOLL = 2e-6


def alkalinity_eq(alkalinity_mgl: Array | float) -> Array:
    """Alkalinity as calcium carbonate in equivalents [eq/L]."""
    return np.asarray(alkalinity_mgl) / (1e3 * ALKALINITY_GEQ)


def alkalinity_mgl(alkalinity: Array | float) -> Array:
    """Alkalinity in equivalents [eq/L] as calcium carbonate [mg/L]."""
    return np.asarray(alkalinity) * 1e3 * ALKALINITY_GEQ


@dataclass(frozen=True)
class Holds:
    """What the water holds over the cases, all [mol/L] but the solids [mg/L]; chlorine and bromine as Cl2 and Br2."""

    temperature_c: float
    hypobromous_pk: Array
    alkalinity: Array
    carbon: Array
    calcium: Array
    sodium: Array
    chlorine: Array
    combined: Array
    bromine: Array
    bromide: Array
    cyanuric: Array
    peroxide: Array
    persulfate: Array
    solids_mgl: Array

    @property
    def acids(self) -> Acids:
        """The weak acids besides carbonic acid; chlorine counts as free, as if none were bound to cyanurate."""
        t = self.temperature_c
        return (
            (self.chlorine, pk_hypochlorous(t)),
            (self.cyanuric, pk_cyanuric(t)),
            (self.bromine, self.hypobromous_pk),
        )

    @property
    def water(self) -> Water:
        """What the equilibrium needs besides alkalinity and carbon."""
        return Water(self.calcium, self.sodium, ionic_strength_moll(self.solids_mgl), self.temperature_c, self.acids)

    @cached_property
    def ph(self) -> Array:
        """pH over the cases."""
        return ph_of(self.alkalinity, self.carbon, self.water)

    @property
    def cyanurate_alkalinity(self) -> Array:
        """Part of the alkalinity that cyanurate holds [eq/L]."""
        return np.asarray(self.cyanuric * (1.0 - acid_share_ratio(self.ph, pk_cyanuric(self.temperature_c))))

    @property
    def hypochlorous_mgl(self) -> Array:
        """Hypochlorous acid, as chlorine."""
        found = hypochlorous_moll(self.chlorine, self.cyanuric, self.ph, self.temperature_c)
        return np.asarray(1e3 * CHLORINE_GMOL * found)

    def with_ph(self, ph: Array) -> "Holds":
        """The same water with the carbon that makes a tested pH, at its alkalinity."""
        return replace(self, carbon=carbon_moll(ph, self.alkalinity, self.water))

    def with_added(self, product: str, active_moll: Array | float, *, converts: bool = False) -> "Holds":
        """The water after an addition of a product's active part [mol/L]; converts: oxidizers turn into bromine."""
        brings = BRINGS[product]
        mol = np.asarray(active_moll)
        oxidizer = (brings.chlorine + brings.persulfate) * mol if converts else 0.0
        return replace(
            self,
            alkalinity=self.alkalinity + brings.alkalinity * mol,
            carbon=self.carbon + brings.carbon * mol,
            calcium=self.calcium + brings.calcium * mol,
            sodium=self.sodium + brings.sodium * mol,
            chlorine=self.chlorine + (0.0 if converts else brings.chlorine) * mol,
            bromine=self.bromine + brings.bromine * mol + oxidizer,
            bromide=np.maximum(self.bromide + brings.bromide * mol - oxidizer, 0.0),
            cyanuric=self.cyanuric + brings.cyanuric * mol,
            peroxide=self.peroxide + brings.peroxide * mol,
            persulfate=self.persulfate + (0.0 if converts else brings.persulfate) * mol,
            solids_mgl=self.solids_mgl + 1e3 * brings.solids_g * mol,
        )

    def mixed(self, fill: "Holds", share_ratio: Array) -> "Holds":
        """The water after a share of it was replaced by fill water."""

        def mix(ours: Array, theirs: Array) -> Array:
            return np.asarray((1.0 - share_ratio) * ours + share_ratio * theirs)

        return replace(
            self,
            alkalinity=mix(self.alkalinity, fill.alkalinity),
            carbon=mix(self.carbon, fill.carbon),
            calcium=mix(self.calcium, fill.calcium),
            sodium=mix(self.sodium, fill.sodium),
            chlorine=mix(self.chlorine, fill.chlorine),
            combined=mix(self.combined, fill.combined),
            bromine=mix(self.bromine, fill.bromine),
            bromide=mix(self.bromide, fill.bromide),
            cyanuric=mix(self.cyanuric, fill.cyanuric),
            peroxide=mix(self.peroxide, fill.peroxide),
            persulfate=mix(self.persulfate, fill.persulfate),
            solids_mgl=mix(self.solids_mgl, fill.solids_mgl),
        )

    def expected(self) -> Expected:
        """What a test of it would read, with its range."""
        ph, water = self.ph, self.water
        carbonate = alkalinity_mgl(self.alkalinity - self.cyanurate_alkalinity)
        hardness = 1e3 * CALCIUM_CARBONATE_GMOL * self.calcium
        positive = (hardness > 0.0) & (carbonate > 0.0) & (self.solids_mgl > 0.0)
        simplified = np.where(
            positive,
            simplified_index(
                ph, np.where(positive, hardness, 1.0), np.where(positive, carbonate, 1.0),
                np.where(positive, self.solids_mgl, 1.0), self.temperature_c,
            ),
            np.nan,
        )  # fmt: skip
        hypobromous = 1e3 * BROMINE_GMOL * self.bromine * acid_share_ratio(ph, self.hypobromous_pk)
        return Expected(
            ph=figure(ph),
            total_alkalinity_mgl=figure(alkalinity_mgl(self.alkalinity)),
            carbonate_alkalinity_mgl=figure(carbonate),
            calcium_hardness_mgl=figure(hardness),
            free_chlorine_mgl=figure(1e3 * CHLORINE_GMOL * self.chlorine),
            combined_chlorine_mgl=figure(1e3 * CHLORINE_GMOL * (self.combined + self.persulfate)),
            bromine_mgl=figure(1e3 * BROMINE_GMOL * self.bromine),
            cyanuric_acid_mgl=figure(1e3 * CYANURIC_GMOL * self.cyanuric),
            peroxide_mgl=figure(1e3 * PEROXIDE_GMOL * self.peroxide),
            dissolved_solids_mgl=figure(self.solids_mgl),
            saturation_index=figure(calcite_index(ph, self.carbon, water)),
            simplified_index=figure(simplified),
            hocl_mgl=figure(self.hypochlorous_mgl),
            hobr_mgl=figure(np.asarray(hypobromous)),
        )


def least_alkalinity(ph: Array, holds: Holds) -> Array:
    """Least alkalinity that a water of a pH can have [eq/L]: its weak acids, hydroxide and a trace of carbonate."""
    return np.asarray(alkalinity_moll(ph, np.zeros_like(ph), holds.water) + _LEAST_CARBONATE_MOLL)
