"""The uncertain numbers of the model: drawn over the cases, or each at the end that is worst for somebody."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, Protocol

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.tables import Entry, model_table
from sanitize.studies.draws import Array, Draws

Worst = Literal["air", "entry"]
"""Whom a worst end serves: those who breathe the room's air, those who get into the water."""
_NUMBERS = ("ozone_numbers", "ozone_water", "day_numbers")
LABELS: Mapping[str, str] = {
    "damp_feed_ratio": "what the unit makes with undried air",
    "dispersed_lying_ratio": "how well bubbles stay apart in lying pipe",
    "decay_at_10c_per_min": "how fast ozone decays in this water",
}
_LEAST_DESTROYED: Mapping[str, str] = {
    "damp_feed_ratio": "high", "dry_feed_ratio": "high", "decay_at_10c_per_min": "low",
    "fast_demand_l_per_mg_min": "low", "slow_demand_l_per_mg_min": "low", "bather_demand_g": "low",
    "hypochlorite_speed_l_per_mol_s": "low", "hypobromite_speed_l_per_mol_s": "low", "hypobromous_pk": "high",
    "peroxide_speed_l_per_mol_s": "low", "bromide_bank_mgl": "low", "bromide_speed_l_per_mol_s": "low",
    "chlorine_fast_l_per_mg_min": "high", "chlorine_slow_l_per_mg_min": "high", "peroxide_slower_ratio": "high",
    "oxidant_loss_per_h": "high", "headspace_depth_m": "low", "still_air_m_per_min": "low",
    "outdoor_air_m_per_min": "low", "room_air_c": "high", "surface_film_jets_ms": "high",
}  # fmt: skip
"""Ends that are worst for everybody: most ozone is made, least is destroyed in water and room, and people in the water
drive most of it into air that hardly moves. Another oxidant that is soon used up, also by what bathers bring, spares
the ozone."""
WORST_ENDS: Mapping[Worst, Mapping[str, str]] = {
    "air": {
        **_LEAST_DESTROYED, "injector_gas_units": "low", "dispersed_upright_ratio": "low",
        "dispersed_lying_ratio": "low", "slow_pipe_ratio": "low", "bubble_mean_ratio": "high",
        "eddy_film_ratio": "low", "plume_bubble_m": "high", "solubility_cold_ratio": "low",
        "solubility_warm_ratio": "low", "surface_film_moving_ms": "high", "surface_film_still_ms": "high",
        "water_depth_m": "low",
    },
    "entry": {
        **_LEAST_DESTROYED, "injector_gas_units": "high", "dispersed_upright_ratio": "high",
        "dispersed_lying_ratio": "high", "slow_pipe_ratio": "high", "bubble_mean_ratio": "low",
        "eddy_film_ratio": "high", "plume_bubble_m": "low", "solubility_cold_ratio": "high",
        "solubility_warm_ratio": "high", "surface_film_moving_ms": "low", "surface_film_still_ms": "low",
        "water_depth_m": "high",
    },
}  # fmt: skip
"""The end of each number that is worst, by whom it serves."""


def entry(name: str) -> Entry:
    """A row of the tables of this study by its name."""
    for table in _NUMBERS:
        found = model_table(table).entries.get((name,))
        if found is not None:
            return found
    return model_table("caution_limits")[(name,)]


def number(name: str) -> float:
    """The nominal value of a row of the tables of this study."""
    return entry(name).value


class Source(Protocol):
    """What gives uncertain numbers over cases, some of which may stand at worst ends."""

    def __call__(self, name: str, end: str = "") -> Array:
        """A number of the tables; end: the one that is worst, where the lists of worst ends cannot know it."""

    def of_band(self, name: str, band: Band, label: str, end: str = "") -> Array:
        """A number with a range of its own."""


@dataclass(frozen=True)
class Numbers:
    """Gives every uncertain number over the cases: drawn, or at the end that is worst; others stay nominal there."""

    draws: Draws
    worst: Worst | None = None

    def __call__(self, name: str, end: str = "") -> Array:
        """One number of the tables, shape (1 + cases); end: the one that is worst, where the list cannot know it."""
        return self.of_band(name, entry(name).band, LABELS.get(name, name), end)

    def of_band(self, name: str, band: Band, label: str, end: str = "") -> Array:
        """A number with a range of its own; end: the one that is worst, where the list cannot know it."""
        if self.worst is None:
            return self.draws.value(f"ozone.{name}", band, label)
        which = end or WORST_ENDS[self.worst].get(name, "nominal")
        return np.full(self.draws.size, float(getattr(band, which)))
