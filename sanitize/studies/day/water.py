"""What ozone meets in the water of a plant: its own decay, the demand of bathers, the other oxidant."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.laws.chemistry.halogens import (
    CHLORINE_GMOL,
    acid_share_ratio,
    bromine_of_chlorine_mgl,
)
from sanitize.laws.ozone.reactions import (
    BROMINE_PER_OZONE,
    CHLORINE_PER_OZONE,
    PEROXIDE_GMOL,
    PEROXIDE_PER_OZONE,
    bromide_rate_per_min,
    hypobromite_rate_per_min,
    hypochlorite_rate_per_min,
    peroxide_rate_per_min,
)
from sanitize.plant.day import DAY_S
from sanitize.plant.loop import Plant
from sanitize.plant.water import Uses
from sanitize.studies.day.parts import Chemistry
from sanitize.studies.day.ranges import Ranges
from sanitize.studies.dosing.result import Item
from sanitize.studies.dosing.targets import targets_of
from sanitize.studies.draws import Array
from sanitize.studies.ozone.water import hypochlorite_mgl, known_water, own_decay, ph_of

Kept = Uses
"""What keeps a residual in the water beside ozone."""
_ITEMS: dict[Kept, Item] = {"chlorine": "free_chlorine", "bromine": "bromine", "peroxide": "peroxide"}
PEROXIDE_PER_DEMAND = 2.0 * PEROXIDE_PER_OZONE
"""Peroxide that oxidizes as much as ozone, two electrons each [mg/mg]."""


@dataclass(frozen=True)
class WaterKept:
    """What the file says of the water: which other oxidant keeps it, how much, pH and cyanuric acid [mg/L]."""

    kept: Kept
    start_mgl: Band
    ph: Band | None
    cyanuric_mgl: Band | None


@dataclass(frozen=True, eq=False)
class _Oxidant:
    """The other oxidant: with either demand and with ozone [L/mg/min], amounts [mg/mg], ozone lost to bromide."""

    fast: Array
    slow: Array
    meeting: Array
    each: float
    each_ozone: float
    bromide_per_min: Array


def chemistry_of(plant: Plant, tested: WaterKept, ranges: Ranges) -> Chemistry:
    """The water's chemistry over the cases; in the corners what bathers bring is the least of either kind."""
    nought = np.zeros(ranges.size)
    ph = ph_of(tested.ph, ranges)
    own = own_decay(ph, ranges)
    fast = ranges("fast_demand_l_per_mg_min")
    slow = ranges("slow_demand_l_per_mg_min")
    each_mg = 1000.0 * ranges("bather_demand_g")
    fast_ratio, slow_ratio = ranges("bather_fast_ratio", "low"), 1.0 - ranges("bather_fast_ratio", "high")
    start = ranges.of_band("water_oxidant", tested.start_mgl, "the other oxidant in the water", "low")
    other = _oxidant(plant, tested, ranges, ph, start)
    around = plant.surroundings
    fresh_m3 = 0.0 if around is None else around.fresh_water_m3
    loss = ranges("oxidant_loss_per_h")
    return Chemistry(
        volume_l=1000.0 * plant.tub.volume_m3,
        decay_per_min=lambda water_c: own(ranges.coldest(water_c)) + other.bromide_per_min,
        ozone_speed=np.stack([fast, slow]),
        oxidant_speed=np.stack([other.fast, other.slow]),
        meeting_speed=other.meeting,
        oxidant_each=other.each + nought,
        oxidant_each_ozone=other.each_ozone + nought,
        oxidant_loss_per_min=loss / 60.0,
        oxidant_start_mgl=start,
        demand_each_mg=np.stack([fast_ratio * each_mg, slow_ratio * each_mg]),
        dilution_per_min=60.0 * fresh_m3 / (plant.tub.volume_m3 * DAY_S) + nought,
    )


def _oxidant(plant: Plant, tested: WaterKept, ranges: Ranges, ph: Array, start_mgl: Array) -> _Oxidant:
    """Rate constants of what is kept in the water; all 0 where nothing is."""
    nought = np.zeros(ranges.size)
    if tested.kept == "none":
        return _Oxidant(nought, nought, nought, CHLORINE_PER_OZONE, CHLORINE_PER_OZONE, nought)
    fast = ranges("chlorine_fast_l_per_mg_min")
    slow = ranges("chlorine_slow_l_per_mg_min")
    if tested.kept == "chlorine":
        free = np.maximum(start_mgl, 1e-6)
        ion_ratio = hypochlorite_mgl(free, tested.cyanuric_mgl, ph, plant.tub.temperature_c, ranges) / free
        speed = ranges("hypochlorite_speed_l_per_mol_s")
        meeting = hypochlorite_rate_per_min(ion_ratio, speed)
        return _Oxidant(fast, slow, meeting, CHLORINE_PER_OZONE, CHLORINE_PER_OZONE, nought)
    if tested.kept == "bromine":
        heavier = float(bromine_of_chlorine_mgl(1.0))
        speed = ranges("hypobromite_speed_l_per_mol_s")
        meeting = hypobromite_rate_per_min(1.0 - acid_share_ratio(ph, ranges("hypobromous_pk")), speed)
        bank = ranges("bromide_bank_mgl")
        faster = ranges("bromide_speed_l_per_mol_s")
        lost = bromide_rate_per_min(bank, faster)
        return _Oxidant(fast / heavier, slow / heavier, meeting, BROMINE_PER_OZONE, BROMINE_PER_OZONE, lost)
    slower = ranges("peroxide_slower_ratio")
    speed = ranges("peroxide_speed_l_per_mol_s")
    meeting = peroxide_rate_per_min(1.0, ph, speed)
    lighter = PEROXIDE_GMOL / CHLORINE_GMOL
    return _Oxidant(slower * fast / lighter, slower * slow / lighter, meeting, PEROXIDE_PER_DEMAND, PEROXIDE_PER_OZONE,
                    nought)  # fmt: skip


def water_of(plant: Plant) -> tuple[WaterKept, tuple[Notice, ...]]:
    """What the file says of the water: the other oxidant at its target, pH and cyanuric acid as tested last.

    What it does not say is told.
    """
    sanitizer = plant.sanitizer
    known = known_water(plant)
    ph = known.ph
    if sanitizer is None or sanitizer.uses == "none":
        text = (
            "The file keeps no chlorine, bromine or peroxide in the water: none is counted on."
            if sanitizer is not None
            else "The file does not say what keeps a residual in the water: none is counted on. [sanitizer] says it."
        )
        return WaterKept("none", Band.exact(0.0), ph, None), (Notice("no-other-oxidant", text),)
    targets = targets_of(plant, sanitizer)
    item = _ITEMS[sanitizer.uses]
    notices = [
        Notice(
            "oxidant-at-its-target",
            f"Each day right after bathing the {sanitizer.uses} is taken to be dosed back to its target "
            f"({targets[item].origin}).",
        )
    ]
    if sanitizer.uses == "bromine":
        notices.append(
            Notice(
                "bromide-assumed",
                "The bromide that comes with bromine takes ozone within a minute; the bromine that ozone makes of it "
                "is not counted, nor the bromate.",
            )
        )
    wanted = ph if ph is not None else targets["ph"].band
    return WaterKept(sanitizer.uses, targets[item].band, wanted, known.cyanuric_mgl), tuple(notices)
