"""From total doses to steps: held back where reading error could carry too far, in portions, with waits."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.laws.chemistry.carbonate import alkalinity_moll
from sanitize.laws.chemistry.halogens import BROMINE_GMOL, CHLORINE_GMOL
from sanitize.laws.chemistry.products import BRINGS
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.products import ACIDS, HALOGENS, SOUR, AtHand
from sanitize.studies.dosing.result import Item, Step, Stock
from sanitize.studies.dosing.targets import Wanted
from sanitize.studies.dosing.water import Holds, alkalinity_eq, alkalinity_mgl
from sanitize.studies.dosing.words import how_of, why_of
from sanitize.studies.draws import Array
from sanitize.studies.figures import figure

INSIDE_RATIO = 0.95
"""Share of the cases that a dose must not carry past the far end of a range."""
_SHARES = np.linspace(1.0, 0.1, 19)
_LEAST_AMOUNT = 0.05
_MOVES: Mapping[str, tuple[tuple[Item, int], ...]] = {
    "sodium bicarbonate": (("total_alkalinity", 1), ("ph", 1)),
    "sodium carbonate": (("ph", 1), ("total_alkalinity", 1)),
    "hydrochloric acid": (("ph", -1), ("total_alkalinity", -1)),
    "sodium bisulfate": (("ph", -1), ("total_alkalinity", -1)),
    "calcium chloride": (("calcium_hardness", 1),),
    "sodium hypochlorite": (("free_chlorine", 1), ("bromine", 1)),
    "calcium hypochlorite": (("free_chlorine", 1), ("bromine", 1), ("calcium_hardness", 1)),
    "dichlor": (("free_chlorine", 1), ("cyanuric_acid", 1)),
    "bromine tablets": (("bromine", 1),),
    "hydrogen peroxide": (("peroxide", 1),),
    "potassium monopersulfate": (("bromine", 1), ("ph", -1)),
    "sodium bromide": (),
}
"""Which items a product moves, and whether up or down; it must not carry the first past its far end."""
_LED = 1


@dataclass(frozen=True)
class Plan:
    """The steps and the water after them.

    held_back: share of the dose that the reading error leaves; left_over: share behind the portions listed; used_up:
    by how much the alkalinity falls when the oxidizers have done their work [eq/L].
    """

    steps: tuple[Step, ...]
    after: Holds
    held_back: Mapping[str, float]
    left_over: Mapping[str, float]
    used: tuple[str, ...]
    used_up: Array


@dataclass(frozen=True)
class Tools:
    """Smallest steps of the keeper's scale and syringe."""

    scale_step_g: float
    syringe_step_ml: float

    def step(self, unit: str) -> float:
        """The smallest step of what measures this unit."""
        return self.scale_step_g if unit == "g" else self.syringe_step_ml


def make_plan(
    holds: Holds,
    products: Sequence[AtHand],
    doses_moll: Array,
    wanted: Mapping[Item, Wanted],
    volume_l: Array,
    turnover_s: float | None,
    tools: Tools,
    uses: str,
) -> Plan:
    """Steps in the order of the products; doses: active moles per litre, shape (products, cases)."""
    converts = uses == "bromine"
    water, steps = holds, list[Step]()
    held_back, left_over = dict[str, float](), dict[str, float]()
    used_up = np.zeros(volume_l.size)
    chosen = [
        (item, dose) for item, dose in zip(products, doses_moll, strict=True)
        if dose[0] * volume_l[0] / item.mol_per_unit[0] > _LEAST_AMOUNT
    ]  # fmt: skip
    for index, (item, dose) in enumerate(chosen):
        share = _share(item, dose, water, wanted, volume_l, converts)
        if share < 1.0:
            held_back[item.product] = share
        amount = share * float(dose[0] * volume_l[0] / item.mol_per_unit[0])
        count = max(ceil(1.0 / number("first_portion_ratio").value), _portions(item, share * dose[0], water))
        listed = min(count, int(number("portions_count").value))
        if listed < count:
            left_over[item.product] = 1.0 - listed / count
        ranged = figure(dose * volume_l / item.mol_per_unit / count)
        later = chosen[index + 1][0].product if index + 1 < len(chosen) else None
        stock = stock_of(item, amount / count, tools)
        for portion in range(1, listed + 1):
            added = amount / count * item.mol_per_unit / volume_l
            brings = BRINGS[item.product]
            used_up = used_up + (brings.alkalinity - brings.used_alkalinity) * added
            before, water = water, water.with_added(item.product, added, converts=converts)
            last = portion == listed
            wait_s = wait_after(item.product, later if last else item.product, turnover_s)
            steps.append(
                Step(
                    number=len(steps) + 1,
                    product=item.product,
                    strength=item.strength,
                    at_hand=item.at_hand,
                    mass_g=amount / count if item.unit == "g" else None,
                    volume_ml=amount / count if item.unit == "mL" else None,
                    low=min(ranged.ends[0], amount / count),
                    high=max(ranged.ends[2], amount / count),
                    portion=portion,
                    portions_count=count,
                    only_if_retest=portion > 1,
                    stock=stock,
                    steps_of_scale_count=amount / count / tools.step(item.unit),
                    wait_s=wait_s,
                    retest=tuple(name for name, _ in _MOVES[item.product] if name in wanted),
                    why=why_of(item.product, before, water),
                    how=how_of(item, stock),
                    after=water.expected(),
                )
            )
    return Plan(tuple(steps), water, held_back, left_over, tuple(item.product for item, _ in chosen), used_up)


def wait_after(product: str, later: str | None, turnover_s: float | None) -> float:
    """Time before the next step: turnovers by the real flow, and no less than the least [s].

    After the last of a chlorine or bromine product (later: None) as before acid, with which the next plan may begin.
    """
    rows = model_table("dosing_products")
    turnovers = rows[(product, "least_turnovers_count")].value
    least_s = rows[(product, "least_wait_s")].value
    if product in HALOGENS and (later is None or later in SOUR):
        turnovers = max(turnovers, rows[(ACIDS[0], "least_turnovers_count")].value)
        least_s = max(least_s, rows[(ACIDS[0], "least_wait_s")].value)
    if {product, later} == {"sodium bicarbonate", "calcium chloride"}:
        least_s = max(least_s, number("calcium_and_bicarbonate_wait_s").value)
    return max(least_s, turnovers * (turnover_s or 0.0))


def stock_of(item: AtHand, amount: float, tools: Tools) -> Stock | None:
    """A stock solution for an amount below ten steps of the scale or syringe, unless it must not or will not dissolve.

    The amount dissolved is a round one of at least ten steps; so much of the solution is added that it holds the dose.
    """
    steps, made_ml = number("scale_steps_count").value, number("stock_volume_ml").value
    if amount >= steps * tools.step(item.unit) or not item.may_dissolve:
        return None
    most_ratio = number("most_stock_ml").value / made_ml
    taken = _round_up(max(steps * tools.step(item.unit), amount / most_ratio))
    if taken > number("most_dissolved_ratio").value * made_ml:
        return None
    add_ml = made_ml * amount / taken
    mass, volume = (taken, None) if item.unit == "g" else (None, taken)
    return Stock(mass, volume, made_ml, add_ml)


def _round_up(value: float) -> float:
    """The next of 1, 2, 5, 10 and so on.

    >>> [_round_up(value) for value in (10.0, 11.0, 0.3)]
    [10.0, 20.0, 0.5]
    """
    size = 10.0 ** floor(log10(value) + 1e-9)
    return float(next(step * size for step in (1.0, 2.0, 5.0, 10.0) if step * size >= value * (1.0 - 1e-9)))


def _portions(item: AtHand, dose_moll: float, water: Holds) -> int:
    """How many portions keep each below the most at once."""
    brings = BRINGS[item.product]
    most: list[float] = []
    if item.product in (*ACIDS, "sodium carbonate"):
        if item.product in ACIDS:
            most.append(float(alkalinity_eq(number("acid_step_alkalinity_mgl").value)) / abs(brings.alkalinity))
        most.append(_to_move_ph(item, dose_moll, water))
    if item.product == "sodium bicarbonate":
        most.append(float(alkalinity_eq(number("alkalinity_step_mgl").value)))
    if item.product == "calcium chloride":
        most.append(number("calcium_step_mgl").value / 100_086.9)
    if brings.chlorine or brings.bromine or brings.persulfate:
        most.append(number("chlorine_step_mgl").value / (1e3 * CHLORINE_GMOL))
    if brings.peroxide:
        most.append(number("peroxide_step_mgl").value / (1e3 * brings.counted_gmol))
    return max((ceil(dose_moll / one - 1e-9) for one in most), default=1)


def _to_move_ph(item: AtHand, dose_moll: float, water: Holds) -> float:
    """Moles per litre that move the nominal pH by the most at once, where water of this dose buffers least.

    Acid from 8.6 down passes the weakest buffering near 8.3, where what moved the first portion by 0.2 moves 0.3.
    """
    spent, least = 0.0, np.inf
    while spent < dose_moll:
        one = _to_move_ph_here(item, water)
        spent, least = spent + one, min(least, one)
        water = water.with_added(item.product, one)
    return least


def _to_move_ph_here(item: AtHand, water: Holds) -> float:
    """The same for the next portion alone: alkalinity is linear in carbon at one pH."""
    brings, carbon, surroundings = BRINGS[item.product], water.carbon, water.water
    ph = water.ph + np.sign(brings.alkalinity) * number("ph_step").value
    there = alkalinity_moll(ph, carbon, surroundings)
    slope = (alkalinity_moll(ph, 1.02 * carbon, surroundings) - there) / (0.02 * carbon)
    found = (there - water.alkalinity) / (brings.alkalinity - slope * brings.carbon)
    return max(float(found[0]), 1e-7)


def _share(
    item: AtHand, dose: Array, water: Holds, wanted: Mapping[Item, Wanted], volume_l: Array, converts: bool
) -> float:
    """Largest share of the nominal dose that keeps the cases on this side of the far ends of what it moves."""
    amount = dose[0] * volume_l[0] / item.mol_per_unit[0]
    for share in _SHARES:
        added = water.with_added(item.product, share * amount * item.mol_per_unit / volume_l, converts=converts)
        if all(_kept(water, added, name, side, wanted) for name, side in _MOVES[item.product][:_LED]):
            return float(share)
    return float(_SHARES[-1])


def _kept(before: Holds, after: Holds, item: Item, side: int, wanted: Mapping[Item, Wanted]) -> bool:
    """Whether all but a few cases stay on this side of an item's far end, those left out that were beyond before."""
    if item not in wanted:
        return True
    band = wanted[item].band
    end = band.high if side > 0 else band.low
    was, now = side * (_value(before, item) - end) > 0.0, side * (_value(after, item) - end) > 1e-9
    inside = ~was
    return not inside.any() or float(np.mean(~now[inside])) >= INSIDE_RATIO


def _value(water: Holds, item: Item) -> Array:
    if item == "ph":
        return water.ph
    if item == "total_alkalinity":
        return alkalinity_mgl(water.alkalinity - water.cyanurate_alkalinity)
    factor, moles = {
        "calcium_hardness": (100_086.9, water.calcium),
        "free_chlorine": (1e3 * CHLORINE_GMOL, water.chlorine),
        "bromine": (1e3 * BROMINE_GMOL, water.bromine),
        "peroxide": (34_014.7, water.peroxide),
        "cyanuric_acid": (129_074.0, water.cyanuric),
    }[item]
    return np.asarray(factor * moles)
