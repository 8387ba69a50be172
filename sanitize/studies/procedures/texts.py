"""The procedures themselves: each a list of steps, made with the figures of one tub."""

from collections.abc import Callable
from dataclasses import dataclass

from sanitize.basis.tables import Standing
from sanitize.studies.cautions.rule import AUTHORITY, MAKER, PHYSICIAN
from sanitize.studies.procedures.result import Action, Kind
from sanitize.studies.procedures.tub import Facts

PRACTICE: Standing = "common practice"


@dataclass(frozen=True)
class Recipe:
    """A procedure before it meets a tub."""

    name: str
    when: str
    actions: Callable[[Facts], list[Action]]
    back: Callable[[Facts], str]
    ask: str


def do(text: str, wait_s: float | None = None, standing: Standing = PRACTICE, source: str = "") -> Action:
    """A step, of common practice unless it says otherwise."""
    return Action(text, wait_s, standing, source)


def _shock(facts: Facts) -> list[Action]:
    """Chlorine once through the water and all pipes, and the night in which it is held."""
    level = facts.number("shock_chlorine_mgl")
    left = facts.number("shock_keep_ratio") * level
    found = []
    if facts.uses == "peroxide":
        found.append(
            do("Peroxide and chlorine destroy each other with heat and gas: use fresh water that has had no peroxide, "
               "or wait until a peroxide strip reads 0 twice, an hour apart.")
        )  # fmt: skip
    found += [
        do(f"Pump on, every way and valve open, chiller and ozone off, cover open, nobody in. Add "
           f"{facts.chlorine(level)}, in two halves a quarter of an hour apart: that is {level:.0f} mg/L in "
           f"{facts.volume}, if the water holds none yet. Test after it has mixed.",
           facts.time_s("mix_turnovers_count", "mix_least_s")),
        do("Hold it over night with the pump on and the cover open.", facts.number("shock_hold_s")),
        do(f"Test again. Below {left:.0f} mg/L the pipes still use it up: drain, and do the purge once more. Above it, "
           "let it fall by itself, or drain by the local rules with the chlorine gone."),
    ]  # fmt: skip
    return found


def _drain(facts: Facts) -> list[Action]:
    """All the water out, and everything that it touched cleaned."""
    found = [
        do("Pump, chiller and ozone off at the plug. Drain everything: tub, hoses, pump, chiller, filter housing and "
           "strainer; blow or lift out what stands in low places. Let it out where the local rules allow it."),
        do("Wear gloves and eye protection. Scrub walls, floor, suction covers and returns, rinse, and scrub again."),
    ]  # fmt: skip
    if facts.has_filter:
        found.append(do("Throw the cartridge away in a closed bag, wipe the housing out, and fit a new one last."))
    return found


def _refill(facts: Facts) -> list[Action]:
    """Fresh water, and what must be right before anybody gets in."""
    return [
        do(f"Fill to the normal level, {facts.volume}, and start the pump; look at every joint and at the gas line."),
        do("Test, and follow `sanitize dose`: alkalinity, pH, calcium, then what keeps the residual. Ozone only when "
           "that stands."),
    ]  # fmt: skip


def _first_fill(facts: Facts) -> list[Action]:
    found = [
        do("Before anything goes in, test the water that you fill with, or ask the waterworks: alkalinity, calcium, "
           "pH, iron, manganese and copper. Write them into [fill_water]: metals stain and cloud as soon as an "
           "oxidizer meets them."),
        do("Rinse tub, pipes and hoses of dust, swarf and cement; let cement cure as its label says."),
        do(f"Fill slowly to the normal level, {facts.volume}, and go through `sanitize fit LOOP --first-wet`; the "
           "ozone unit stays unplugged."),
        do("Let the pump run before the first test, so that one sample stands for all of it.",
           facts.time_s("mix_turnovers_count", "mix_least_s")),
    ]  # fmt: skip
    if facts.uses != "none":
        found += _shock(facts)
    found += [
        do("Follow `sanitize dose` with a test of this water."),
        do("Test again over the next days, morning and evening. Nobody gets in before two tests in a row, half a day "
           "apart, read inside the targets without anything added between them.",
           facts.number("drop_test_days_count") * 86400.0),
        do("Plug the ozone unit in last, as that sheet says, with a meter for the room's air."),
        do("After the first week rinse the cartridge: new pipes and people shed most then."),
    ]  # fmt: skip
    return found


def _after_lay_up(facts: Facts) -> list[Action]:
    return [
        do("Water that stood, above all where it was warmer than 20 degC, may hold Legionella, which grows best from "
           "25 to 42 degC: no jets, no spray, windows open, nobody leaning over it, and a well-fitting mask for "
           "whoever drains it.", None, "published", "cdc_han_00422"),
        do("Do not start the pump with the old water in it."),
        *_drain(facts),
        do("Look at what ages while it stands: check valve of the gas line (replace it), seals of unions and pump, "
           "suction covers, cables and plugs; look for ice damage in pump, chiller and filter housing."),
        *_refill(facts)[:1],
        do("Take the readings of `sanitize fit LOOP --first-wet` again: pump, valves or injector may have changed."),
        *_shock(facts),
        *_refill(facts)[1:],
    ]  # fmt: skip


def _biofilm(facts: Facts) -> list[Action]:
    loss = facts.number("overnight_loss_mgl")
    return [
        do("Chlorine alone does not do it: a film of 0.8 mm was not penetrated by 14 mg/L in two hours.", None,
           "published", "chen_1995_biofilm"),
        do("Nobody in. Ozone and chiller off, the cartridge out and the housing closed again. Add a cleaner made for "
           "the pipes of tubs, by its label and never together with another product; run the pump with every way and "
           "valve open, bypasses too, for as long as its label says."),
        do("Drain while all of it still floats, then fill and let the pump run for a rinse.",
           facts.time_s("rinse_turnovers_count", "rinse_least_s")),
        *_drain(facts),
        do("Replace corrugated pipe and old hose: their folds keep what the next film grows from.", None, "published",
           "hpa_hse_spa_2006"),
        *_refill(facts)[:1],
        *_shock(facts),
        do(f"Then watch one dark night without bathers: more than {loss:.0f} mg/L of free chlorine lost means that the "
           "pipes still hold slime.", facts.number("shock_hold_s")),
        *_refill(facts)[1:],
    ]  # fmt: skip


def _filter_soak(facts: Facts) -> list[Action]:
    soda_g_per_l = facts.number("soak_soda_mgl") / 1000.0
    return [
        do("Pump off at the plug, valves on both sides shut, air let in. Read the gauge before it, for the next time."),
        do("Rinse the cartridge pleat by pleat with a plain hose; no pressure washer, which tears the cloth."),
        do("Grease first: into a bucket of warm water with a filter cleaner by its label, or with "
           f"{soda_g_per_l:.0f} g of sodium carbonate in a litre; gloves and eye protection. Never acid on a greasy "
           "cartridge: it sets the grease. Never an acid after or with chlorine: it gives off chlorine gas.",
           facts.number("soak_s")),
        do("Rinse until no foam comes. Only where it is still chalky: a cleaner for scale by its label, in fresh "
           "water, then rinse again."),
        do("Let it dry through where you have a second one: dried dirt falls out, and what lives in it dies down."),
        do("Fit it, open the valves, let the air out, start the pump and write down the gauge and the bucket's flow: "
           "`sanitize suction LOOP --lasts` is reckoned from there. A cartridge whose drop does not come back near its "
           "clean one is done."),
    ]  # fmt: skip


def _release(what: str) -> Callable[[Facts], list[Action]]:
    def actions(facts: Facts) -> list[Action]:
        first = [
            do(f"Everybody out, and nobody in again before the end of this list. Pump, chiller and ozone off, so that "
               f"{what} does not go through pipes and filter."),
            do("Gloves, eye protection and a mask. Lift out what can be lifted with a net or a jug, into a closed bag; "
               "no vacuum cleaner. Everybody who was in showers with soap."),
            do("A tub this small is drained, not treated: the published chlorine figures for pools hold from 25 degC "
               "and up to pH 7.5, and none was found for cold water.", None, "published", "cdc_faecal_incident"),
        ]  # fmt: skip
        return [*first, *_drain(facts), *_refill(facts)[:1], *_shock(facts), *_refill(facts)[1:]]

    return actions


def _blood(facts: Facts) -> list[Action]:
    return [
        do("Everybody out; help the person first. Whoever bleeds stays out until it is closed."),
        do("A few drops: test. With the residual inside its target and the water clear, nobody in while the pump "
           "clears it. Six turnovers are the advice to pools after a release; they thin particles and kill nothing.",
           facts.time_s("clear_turnovers_count", "clear_least_s"), "published", "simmonds_2021"),
        do("Without a residual, with peroxide or ozone alone, or where the water was coloured or clouded: drain and "
           "clean as after vomit (`--procedure vomit`)."),
        do("Wipe drops beside the water up with gloves and a fresh bleach solution by its label, away from acids; wash "
           "your hands."),
        do("Test again, and follow `sanitize dose` before the next person gets in."),
    ]  # fmt: skip


def _back_after_shock(facts: Facts) -> str:
    return (
        "When the residual has fallen inside its target and inside the product's label, the pH stands in its own, the "
        "water is clear and two tests half a day apart say so. That is an estimate of good sense, never a clearance."
    )


RECIPES: dict[Kind, Recipe] = {
    "first-fill": Recipe(
        "First fill", "A new tub, or one that was rebuilt.", _first_fill, _back_after_shock, f"{AUTHORITY}, {MAKER}"
    ),
    "after-lay-up": Recipe(
        "After a lay-up",
        "Water that stood without pump or residual for more than a few days, or a tub that stood empty and wet.",
        _after_lay_up,
        _back_after_shock,
        f"{AUTHORITY}; {PHYSICIAN} where anybody gets fever or a cough within two weeks",
    ),
    "biofilm-purge": Recipe(
        "Biofilm purge",
        "Slime in a hose's bore, a residual that is gone over night, foam, a musty smell, haze that comes back.",
        _biofilm,
        _back_after_shock,
        f"{AUTHORITY}, {MAKER}",
    ),
    "filter-soak": Recipe(
        "Filter soak",
        "A cartridge whose drop does not come back by rinsing, at the latest every few months.",
        _filter_soak,
        lambda _: "When the pump runs again and the residual stands.",
        MAKER,
    ),
    "vomit": Recipe(
        "Vomit in the water", "Vomit, or food and drink in quantity.", _release("it"), _back_after_shock,
        f"{AUTHORITY}; {PHYSICIAN} where anybody was ill",
    ),
    "blood": Recipe(
        "Blood in the water", "A cut, a nosebleed.", _blood,
        lambda _: "When the residual stands inside its target and the water is clear; an estimate, never a clearance.",
        f"{AUTHORITY}; {PHYSICIAN} for the wound",
    ),
    "faeces": Recipe(
        "Faeces in the water", "Formed or loose, also a leaking swim nappy or an animal's.", _release("it"),
        _back_after_shock, f"{AUTHORITY}, at once after diarrhoea; {PHYSICIAN} where anybody swallowed water",
    ),
}  # fmt: skip
"""In the order of a tub's life."""
