"""What is wanted of the water: own targets before the guideline's, and practice where both are silent."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from sanitize.basis.band import Band
from sanitize.basis.tables import Standing, model_table
from sanitize.plant.loop import Plant
from sanitize.plant.water import Sanitizer
from sanitize.studies.dosing.result import Item

PRACTICE = "private cold tub"
_OWN: Mapping[str, Item] = {
    "ph": "ph",
    "alkalinity_mgl": "total_alkalinity",
    "calcium_mgl": "calcium_hardness",
    "free_chlorine_mgl": "free_chlorine",
    "bromine_mgl": "bromine",
    "peroxide_mgl": "peroxide",
}
_RESIDUALS: Mapping[str, str] = {
    "free_chlorine": "chlorine",
    "combined_chlorine": "chlorine",
    "cyanuric_acid": "chlorine",
    "bromine": "bromine",
    "peroxide": "peroxide",
}
_NEED_CALCIUM = {"concrete", "tile", "copper", "brass", "bronze", "galvanized steel", "aluminium"}


@dataclass(frozen=True)
class Wanted:
    """The range of one item and where it comes from."""

    band: Band
    origin: str
    standing: Standing | Literal["stated"]
    source: str
    note: str


def calcium_matters(plant: Plant) -> bool | None:
    """Whether water that is short of calcium attacks something here; None where the file says neither metal nor lining.

    Plastic, wood, stainless steel and titanium do not need it (common practice).
    """
    tub = plant.tub
    if _NEED_CALCIUM & {tub.lining or "", *tub.wetted_metals}:
        return True
    return None if tub.lining is None else False


def targets_of(plant: Plant, sanitizer: Sanitizer) -> dict[Item, Wanted]:
    """The targets that apply, in the order of the table."""
    table = model_table("water_targets")
    own = {item: band for name, item in _OWN.items() if (band := getattr(sanitizer, name)) is not None}
    found: dict[Item, Wanted] = {}
    for item in get_args(Item):
        if (PRACTICE, item) not in table.entries:
            continue
        if _RESIDUALS.get(item, sanitizer.uses) != sanitizer.uses:
            continue
        if item in own:
            found[item] = Wanted(_wide(own[item], table[(PRACTICE, item)].band), "own", "stated", "", "")
            continue
        origin = sanitizer.profile if (sanitizer.profile, item) in table.entries else PRACTICE
        entry = table[(origin, item)]
        band = entry.band
        if item == "calcium_hardness" and calcium_matters(plant) is False:
            band = Band(0.0, min(band.nominal, band.high), band.high)
        found[item] = Wanted(band, origin, entry.standing, entry.source, entry.note)
    return found


def _wide(own: Band, practice: Band) -> Band:
    """An own target without a range takes the width of practice's, in proportion."""
    if not own.is_exact:
        return own
    return practice.scaled(own.nominal / practice.nominal)
