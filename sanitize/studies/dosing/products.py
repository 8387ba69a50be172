"""The products that may be used: at hand by the file, or to buy where none at hand serves."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.laws.chemistry.halogens import strength_left_ratio
from sanitize.laws.chemistry.products import active_mol, chlorine_of_hypochlorite_ratio
from sanitize.plant.loop import Plant
from sanitize.plant.water import HYPOCHLORITE_SOLUTION, LIQUIDS, Product
from sanitize.studies.dosing.numbers import number
from sanitize.studies.draws import Array, Draws

ACIDS = ("hydrochloric acid", "sodium bisulfate")
SOUR = (*ACIDS, "potassium monopersulfate")
STABILISED = ("dichlor", "trichlor")
CHLORINE = ("sodium hypochlorite", "calcium hypochlorite", *STABILISED)
HALOGENS = (*CHLORINE, "bromine tablets")
ORDER = (
    "sodium bicarbonate", "sodium carbonate", *ACIDS, "calcium chloride", "sodium bromide", *CHLORINE,
    "bromine tablets", "hydrogen peroxide", "potassium monopersulfate",
)  # fmt: skip
"""Alkalinity, pH, calcium, sanitizer, oxidizer (common practice)."""
_STEELS = {"stainless steel", "aluminium"}
_CEMENTS = {"concrete", "tile"}
_DAY_S = 86400.0


@dataclass(frozen=True)
class AtHand:
    """A product: moles of its active part in a gram or millilitre over the cases, and what is said of it.

    unit: in which it is measured; strength: in words; reluctance: by how much its grams count more than others', as
    where it harms a metal, brings stabiliser, or, as soda, would serve the alkalinity in place of bicarbonate.
    """

    product: str
    unit: Literal["g", "mL"]
    mol_per_unit: Array
    strength: str
    at_hand: bool
    may_dissolve: bool
    reluctance: float


def harms_lining(product: str, lining: str | None) -> bool:
    """Whether an acid is the wrong one for what the tub is made of: sulfate on cement, chloride on steel."""
    return (product == "sodium bisulfate" and lining in _CEMENTS) or (
        product == "hydrochloric acid" and lining in _STEELS
    )


def serving(uses: str, combined_is_high: bool, lining: str | None) -> list[tuple[str, ...]]:
    """What the plan needs, each as the products that serve, the one to buy first; no acid that harms the lining."""
    needs: list[tuple[str, ...]] = [
        ("sodium bicarbonate",),
        ("sodium carbonate",),
        tuple(acid for acid in ("sodium bisulfate", "hydrochloric acid") if not harms_lining(acid, lining)),
        ("calcium chloride",),
    ]
    if uses == "chlorine":
        needs.append(("sodium hypochlorite", "calcium hypochlorite", "dichlor"))
        if combined_is_high:
            needs.append(("potassium monopersulfate",))
    elif uses == "bromine":
        needs.append(("bromine tablets",))
    elif uses == "peroxide":
        needs.append(("hydrogen peroxide",))
    return needs


def usable(
    plant: Plant, uses: str, combined_is_high: bool, draws: Draws, *, stabiliser_is_high: bool = False
) -> list[AtHand]:
    """The products that the plan may choose from, in the order of use; none brings more of a stabiliser too high."""
    needs = serving(uses, combined_is_high, plant.tub.lining)
    wanted = {product for need in needs for product in need}
    if stabiliser_is_high:
        wanted -= set(STABILISED)
    if uses == "bromine":
        owned = {item.product for item in plant.product}
        if "sodium bromide" in owned and owned & {"sodium hypochlorite", "potassium monopersulfate"}:
            wanted |= {"sodium bromide", "sodium hypochlorite", "potassium monopersulfate"} & owned
            needs = [need for need in needs if need != ("bromine tablets",)]
    found = [_owned(item, plant, draws) for item in plant.product if item.product in wanted]
    have = {item.product for item in found}
    for need in needs:
        if not have & set(need):
            found.append(_bought(need[0], plant, draws))
    return sorted(found, key=lambda item: ORDER.index(item.product))


def density_gml(product: str, strength_ratio: float) -> float:
    """Density of a liquid product by its strength by weight.

    >>> density_gml("hydrochloric acid", 0.3145), density_gml("hydrogen peroxide", 0.06)
    (1.16, 1.021)
    """
    rows = [(float(key[1]), entry.value) for key, entry in model_table("liquid_densities").entries.items()
            if key[0] == product]  # fmt: skip
    return float(np.interp(100.0 * strength_ratio, [row[0] for row in rows], [row[1] for row in rows])) / 1000.0


def peroxide_by_weight(item: Product) -> float | None:
    """Strength by weight of a peroxide at hand, as rules count it."""
    if item.product != "hydrogen peroxide" or item.strength_ratio is None:
        return None
    if item.by != "volume":
        return item.strength_ratio
    return item.strength_ratio / density_gml("hydrogen peroxide", item.strength_ratio)


def liquid_strength(product: str, strength_ratio: float, by: str | None) -> float:
    """Active mass in a millilitre of a liquid as labelled [g/mL]; hypochlorite as chlorine.

    >>> round(liquid_strength("sodium hypochlorite", 0.125, "weight"), 3)
    0.139
    >>> liquid_strength("sodium hypochlorite", 0.125, "volume")
    0.125
    """
    if by == "volume":
        return strength_ratio
    active = strength_ratio * density_gml(product, strength_ratio)
    return float(chlorine_of_hypochlorite_ratio(active)) if product == HYPOCHLORITE_SOLUTION else active


def _owned(item: Product, plant: Plant, draws: Draws) -> AtHand:
    liquid = item.product in LIQUIDS
    rows = model_table("dosing_products")
    if liquid:
        by = "volume" if item.by == "volume" else "weight"
        strength = liquid_strength(item.product, item.strength_ratio or 0.0, by)
        words = f"{_percent(item.strength_ratio or 0.0)} by {by}"
        active = np.full(draws.size, strength)
        if item.product == HYPOCHLORITE_SOLUTION and item.age_s > 0.0:
            half_life_s = draws.value("hypochlorite.half_life", number("hypochlorite_half_life_s").band)
            left = strength_left_ratio(item.age_s, half_life_s)
            active = active * left
            words += f", {item.age_s / _DAY_S:.0f} days old: reckoned at {_percent(float(left[0]))} of that"
    elif item.strength_ratio is not None:
        active, words = np.full(draws.size, item.strength_ratio), f"{_percent(item.strength_ratio)}"
    else:
        usual = rows[(item.product, "usual_strength_ratio")].band
        active = draws.value(f"{item.product}.strength", usual)
        words = f"strength not stated, taken as {_percent(usual.nominal)}"
    may = item.may_dissolve
    if may is None:
        may = rows[(item.product, "may_dissolve_ratio")].value > 0.5
    return _made(item.product, active, words, True, may, plant)


def _bought(product: str, plant: Plant, draws: Draws) -> AtHand:
    rows = model_table("dosing_products")
    usual = rows[(product, "usual_strength_ratio")].band
    active = draws.value(f"{product}.strength", usual)
    words = f"to buy; reckoned at {_percent(usual.nominal)}"
    if product == HYPOCHLORITE_SOLUTION:
        words += " by volume"
    elif product in LIQUIDS:
        words += " by weight"
        active = active * density_gml(product, usual.nominal)
    return _made(product, active, words, False, rows[(product, "may_dissolve_ratio")].value > 0.5, plant)


def _made(product: str, active: Array, words: str, at_hand: bool, may: bool, plant: Plant) -> AtHand:
    metals, lining = set(plant.tub.wetted_metals), plant.tub.lining or ""
    reluctance = 1.0 if at_hand else 5.0
    if product == "hydrochloric acid" and _STEELS & {*metals, lining}:
        reluctance *= 4.0
    if product == "sodium bisulfate" and lining in _CEMENTS:
        reluctance *= 4.0
    if product in STABILISED:
        reluctance *= 40.0
    if product == "sodium carbonate":
        reluctance *= 2.0
    unit: Literal["g", "mL"] = "mL" if product in LIQUIDS else "g"
    return AtHand(product, unit, active_mol(product, 1.0, active), words, at_hand, may, reluctance)


def _percent(ratio: float) -> str:
    return f"{100.0 * ratio:.3g} %"


def names(items: Sequence[AtHand]) -> set[str]:
    """The products' words."""
    return {item.product for item in items}
