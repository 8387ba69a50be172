"""What a step says: why it is there and how it is carried out."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from sanitize.basis.units import significant
from sanitize.laws.chemistry.cyanurate import CYANURIC_GMOL
from sanitize.laws.chemistry.halogens import BROMINE_GMOL, CHLORINE_GMOL, PEROXIDE_GMOL
from sanitize.laws.chemistry.saturation import CALCIUM_CARBONATE_GMOL
from sanitize.studies.dosing.water import Holds, alkalinity_mgl
from sanitize.studies.draws import Array

if TYPE_CHECKING:
    from sanitize.studies.dosing.products import AtHand
    from sanitize.studies.dosing.result import Stock

_INTO_TUB = "Pump running, nobody in the water: spread it slowly where the return stirs the water."
_HOW = {
    "sodium bicarbonate": _INTO_TUB,
    "sodium carbonate": f"{_INTO_TUB} It clouds hard water for a while.",
    "hydrochloric acid": f"{_INTO_TUB} Acid into water, never water into acid; do not breathe its fumes.",
    "sodium bisulfate": f"{_INTO_TUB} It is an acid: into water, never water onto it.",
    "calcium chloride": f"{_INTO_TUB} It warms what it is dissolved in: into water, never water onto it.",
    "sodium bromide": _INTO_TUB,
    "sodium hypochlorite": f"{_INTO_TUB} A measure of its own, never one that has held acid.",
    "calcium hypochlorite": (
        f"{_INTO_TUB} A dry scoop of its own; grains must not lie on the floor or in the filter; never dissolve it "
        "beforehand unless its label says so."
    ),
    "dichlor": f"{_INTO_TUB} A dry scoop of its own.",
    "bromine tablets": "Into a floater of their own, never one that has held another product; take it out for bathing.",
    "hydrogen peroxide": f"{_INTO_TUB} Not with chlorine or bromine in the water.",
    "potassium monopersulfate": f"{_INTO_TUB} A dry scoop of its own.",
}


def how_of(item: "AtHand", stock: "Stock | None") -> str:
    """How a portion is carried out."""
    if stock is None:
        return _HOW[item.product]
    made = f"{stock.made_ml:.0f} mL"
    what = f"{stock.mass_g:g} g" if stock.mass_g is not None else f"{stock.volume_ml:g} mL"
    return (
        f"Too little to measure: put {what} into a clean jar of its own with water in it, fill up to {made}, mix, and "
        f"add {significant(stock.add_ml)} mL of it; label the rest, and pour it away by local rules the same day. "
        f"{_HOW[item.product]}"
    )


def why_of(product: str, before: Holds, after: Holds) -> str:
    """What the portion does to the water, nominal."""
    told = [
        _moved("pH", float(before.ph[0]), float(after.ph[0]), "", 0.005),
        _moved("total alkalinity", *_ends(alkalinity_mgl, before.alkalinity, after.alkalinity), "mg/L", 0.5),
        _moved("calcium hardness", *_scaled(CALCIUM_CARBONATE_GMOL, before.calcium, after.calcium), "mg/L", 0.5),
        _moved("free chlorine", *_scaled(CHLORINE_GMOL, before.chlorine, after.chlorine), "mg/L", 0.05),
        _moved("bromine", *_scaled(BROMINE_GMOL, before.bromine, after.bromine), "mg/L", 0.05),
        _moved("peroxide", *_scaled(PEROXIDE_GMOL, before.peroxide, after.peroxide), "mg/L", 0.5),
        _moved("cyanuric acid", *_scaled(CYANURIC_GMOL, before.cyanuric, after.cyanuric), "mg/L", 0.05),
    ]
    moved = [text for text in told if text]
    if product == "sodium bromide":
        return "a bank of bromide, which the oxidizer then turns into bromine"
    if product == "potassium monopersulfate" and not moved:
        return "oxidizes what binds chlorine; tests read it as combined chlorine for a while"
    return "; ".join(moved)


def _ends(scale: Callable[[Array], Array], before: Array, after: Array) -> tuple[float, float]:
    return float(scale(before)[0]), float(scale(after)[0])


def _scaled(gmol: float, before: Array, after: Array) -> tuple[float, float]:
    return 1e3 * gmol * float(before[0]), 1e3 * gmol * float(after[0])


def _moved(name: str, before: float, after: float, unit: str, least: float) -> str:
    if abs(after - before) < least:
        return ""
    if not unit:
        return f"{name} {before:.2f} to {after:.2f}"
    low, high = (significant(max(value, 0.0)) for value in (before, after))
    return f"{name} {low} to {high} {unit}" if low != high else ""
