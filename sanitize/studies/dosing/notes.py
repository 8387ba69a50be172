"""What the plan left: held-back doses, rests, targets out of reach, doses too small for the scale."""

from collections.abc import Mapping, Sequence
from math import log

from sanitize.basis.notices import Notice
from sanitize.basis.units import significant
from sanitize.laws.chemistry.cyanurate import COLDEST_READ_C, WARMEST_READ_C
from sanitize.laws.chemistry.halogens import WARMEST_HYPOCHLOROUS_C
from sanitize.studies.dosing.change import IN_ROUNDS
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.plan import INSIDE_RATIO, Plan, Tools
from sanitize.studies.dosing.products import AtHand
from sanitize.studies.dosing.result import FIELDS, SPOKEN, Expected, Item, Unreached
from sanitize.studies.dosing.targets import Wanted
from sanitize.studies.dosing.water import Holds

_RESIDUALS: tuple[Item, ...] = ("free_chlorine", "bromine", "peroxide")


def plan_notices(plan: Plan, products: Sequence[AtHand], start: Holds, tools: Tools) -> tuple[Notice, ...]:
    """What was assumed or left while planning."""
    found = []
    for product, share in plan.held_back.items():
        found.append(
            Notice(
                "held-back",
                f"Of {product} only {100.0 * share:.0f} % of the dose is planned: with more, the reading error could "
                f"carry the water past the far end of its range in over {100.0 * (1.0 - INSIDE_RATIO):.0f} % of the "
                "cases. A closer test narrows that.",
            )
        )
    for product, rest in plan.left_over.items():
        found.append(
            Notice(
                "more-portions",
                f"Of {product} {100.0 * rest:.0f} % of the dose is left after the portions listed: test everything and "
                "ask again before more of it.",
            )
        )
    for step in plan.steps:
        if step.portion == 1 and step.stock is None and step.steps_of_scale_count < number("scale_steps_count").value:
            unit, tool = ("g", "scale") if step.mass_g is not None else ("mL", "syringe")
            found.append(
                Notice(
                    "dose-below-scale",
                    f"A portion of {step.product} is only {significant(step.steps_of_scale_count)} steps of "
                    f"{tools.step(unit):g} {unit}, and it must not be dissolved beforehand or so much would not "
                    f"dissolve: a finer {tool} is needed, or another product.",
                )
            )
        least_ml = number("scale_steps_count").value * tools.syringe_step_ml
        if step.portion == 1 and step.stock is not None and step.stock.add_ml < least_ml:
            found.append(
                Notice(
                    "stock-below-syringe",
                    f"Of the solution of {step.product} only {significant(step.stock.add_ml)} mL are added, less than "
                    f"ten steps of {tools.syringe_step_ml:g} mL: a finer syringe is needed.",
                )
            )
    used = set(plan.used)
    found += [
        Notice(
            "to-buy",
            f"{item.product} is not among the products of the file: it is reckoned at the usual strength "
            "and must be bought; put the strength of its label into a [[product]].",
        )
        for item in products
        if item.product in used and not item.at_hand
    ]
    if plan.after.chlorine[0] > 0.0 and start.temperature_c > WARMEST_HYPOCHLOROUS_C:
        found.append(
            Notice(
                "hypochlorous-range",
                f"The share of hypochlorous acid was measured up to {WARMEST_HYPOCHLOROUS_C:g} degC; here it goes on.",
            )
        )
    if start.cyanuric[0] > 0.0 and not COLDEST_READ_C <= start.temperature_c <= WARMEST_READ_C:
        found.append(
            Notice(
                "cyanurate-range",
                f"The constants of chlorinated cyanurates were measured from {COLDEST_READ_C:g} to "
                f"{WARMEST_READ_C:g} degC; here they are carried on.",
            )
        )
    return tuple(found)


def destroyed_of(uses: str, destroyer: Item | None, before: Expected) -> tuple[Unreached, ...]:
    """The residual that is not added, as what the water holds would destroy it."""
    if destroyer is None:
        return ()
    item: Item = "free_chlorine" if uses == "chlorine" else "bromine" if uses == "bromine" else "peroxide"
    held = _told(destroyer, getattr(before, FIELDS[destroyer]).ends[1])
    text = (
        f"No {uses} is added while a test reads {held} of {SPOKEN[destroyer]}: the two destroy each other. Nobody "
        f"bathes; let it fall to 0 by a test of its own, or change the water, then test and ask again."
    )
    return (Unreached(item, text),)


def unreached_of(
    plan: Plan, after: Expected, wanted: Mapping[Item, Wanted], known: Sequence[Unreached]
) -> tuple[Unreached, ...]:
    """Targets outside which the water still stands after the plan, and what brings it there."""
    told = {one.item for one in known}
    found = []
    for item, one in wanted.items():
        if item in told:
            continue
        value, band = getattr(after, FIELDS[item]).ends[1], one.band
        slack = 0.02 * (band.high - band.low)
        if item == "combined_chlorine" and "potassium monopersulfate" in plan.used:
            found.append(
                Unreached(item, "The monopersulfate itself reads as combined chlorine: test that again after a day.")
            )
            continue
        if value > band.high + slack:
            found.append(Unreached(item, _above(item, value, band.high)))
        elif value < band.low - slack:
            rest = plan.left_over or plan.held_back
            found.append(Unreached(item, _below(item, value, band.low, bool(rest))))
    return tuple(found)


def _above(item: Item, value: float, high: float) -> str:
    head = f"The {SPOKEN[item]} still stands at {_told(item, value)}, above {_told(item, high)}"
    if item in _RESIDUALS:
        rate = number("chlorine_decay_per_h").band
        hours = [log(value / max(high, 1e-6)) / end for end in (rate.high, rate.nominal, rate.low)]
        if item == "peroxide":
            return (
                f"{head}: add none, nobody bathes, test every day until it has fallen, or change a part of the water."
            )
        low, middle, up = (significant(max(hour, 0.1)) for hour in hours)
        return (
            f"{head}: add none, nobody bathes until a test reads less. In covered, clean, unused water that takes "
            f"about {middle} h ({low} to {up}); with the cover off in daylight it is sooner."
        )
    if item == "total_alkalinity":
        return f"{head}: {IN_ROUNDS}"
    if item in ("combined_chlorine", "cyanuric_acid", "calcium_hardness"):
        lowers = "monopersulfate or fresh water" if item == "combined_chlorine" else "only fresh water"
        return f"{head}, perhaps by reading error alone: test again; {lowers} lowers it."
    if item == "ph":
        return f"{head}: after these portions test again and ask again."
    return f"{head}: test again and ask again after these steps."


def _below(item: Item, value: float, low: float, more: bool) -> str:
    head = f"The {SPOKEN[item]} still stands at {_told(item, value)}, below {_told(item, low)}"
    if item == "ph":
        return (
            f"{head}: {'the plan stops before that; ' if more else ''}carbon dioxide holds it down and leaves by "
            "itself while the pump runs with the gas line open and the cover off; test once a day and ask again."
        )
    return f"{head}: {'the plan stops before that; ' if more else ''}test after the last step and ask again."


def _told(item: Item, value: float) -> str:
    return f"{value:.2f}" if item == "ph" else f"{significant(value)} mg/L"
