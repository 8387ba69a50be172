"""What speaks against a change: every caution and every fault, against the loop as it is."""

from collections.abc import Sequence

from sanitize.basis.units import show
from sanitize.studies.advice.change import Change, Code
from sanitize.studies.advice.tried import Examined
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.rule import joined

NEVER = ("injector-on-suction-side", "suction-above-cover-rating")
"""Cautions under which no change is advised, even where they stand already."""

KEEPING_UP: tuple[Code, ...] = ("clean-filter", "clear-cover")
"""Changes that only bring back the loop as it was built."""

FLOODED = "water-reaches-ozone-unit"


def keeps_up(changes: Sequence[Change]) -> bool:
    """Whether changes only bring back the loop as it was built."""
    return all(change.code in KEEPING_UP for change in changes)


def brought(now: Examined, then: Examined, *, keeping_up: bool = False) -> tuple[str, ...]:
    """What is told beside a change, not held against it.

    An injector that must leave the pumps' suction side meets a leaking check valve's flood behind any pump; that is
    borne as long as a sound check valve holds the water back. keeping_up: whether the change brings back the loop as it
    was built, whose new cautions are told unless they are dangers.
    """
    before = {caution.code for caution in now.cautions}
    bears = _bears_leaks(now, then)
    return tuple(
        caution.text
        for caution in then.cautions
        if (bears and caution.code == FLOODED) or (keeping_up and caution.code not in before and _is_mild(caution))
    )


def _is_mild(caution: Caution) -> bool:
    return caution.severity != "danger" and caution.code not in NEVER


def _bears_leaks(now: Examined, then: Examined) -> bool:
    sound = all(flood[3] == "leaking" or flood in now.floods for flood in then.floods)
    return now.facts.injector_on_suction_side and not then.facts.injector_on_suction_side and sound


def objections(now: Examined, then: Examined, *, keeping_up: bool = False) -> tuple[str, ...]:
    """Why a change is not advised: a sentence for each reason, none where it may be.

    A caution that is new or graver; the injector before a pump, more water than a cover is rated for, a chiller outside
    its window, whether or not it is so today; water that newly reaches the ozone unit, and a chiller that newly
    lacks water, in any state and with any fault. Of an injector taken from before a pump, and of a change that only
    brings back the loop as it was built (keeping_up), see `brought`.
    """
    bears = _bears_leaks(now, then)
    before = {caution.code: caution.severity for caution in now.cautions}
    found = []
    outside = _outside_window(then)
    for caution in then.cautions:
        graver = caution.severity == "danger" and before.get(caution.code) == "caution"
        if caution.code in NEVER or caution.code not in before or graver:
            if caution.code == "chiller-outside-window" and outside:
                continue
            if not (bears and caution.code == FLOODED) and not (keeping_up and _is_mild(caution)):
                found.append(caution.text)
    found += outside
    floods = [] if bears else sorted(then.floods - now.floods)
    if floods:
        told = joined(sorted({_told(flood) for flood in floods}))
        found.append(f"Water would newly reach the ozone unit: {told}.")
    freezes = sorted(then.freezes - now.freezes)
    if freezes and not outside:
        told = joined([f"{chiller} ({fault})" for fault, chiller in freezes])
        found.append(f"Less water than its maker wants would newly pass {told}.")
    return tuple(found)


def _told(flood: tuple[str, str, str, str]) -> str:
    fault, level, pump, valve = flood
    more = [f"pump {pump}"]
    if level == "rim":
        more.append("tub full to the rim")
    if valve == "leaking":
        more.append("check valve leaking")
    return f"{fault} ({', '.join(more)})"


def _outside_window(then: Examined) -> list[str]:
    """Chillers whose flow leaves what their makers allow, in some of the cases."""
    found = []
    for chiller in then.facts.chillers:
        low, high = then.facts.chiller_flows_m3s[chiller.name]
        family = then.facts.family
        if chiller.min_flow_m3s is not None and low < chiller.min_flow_m3s:
            found.append(
                f"{chiller.name} may get only {show(low, 'flow', family)} of the "
                f"{show(chiller.min_flow_m3s, 'flow', family)} that its maker wants."
            )
        if chiller.max_flow_m3s is not None and high > chiller.max_flow_m3s:
            found.append(
                f"{chiller.name} may get {show(high, 'flow', family)}; its maker allows "
                f"{show(chiller.max_flow_m3s, 'flow', family)}."
            )
    return found


def lacking_with_gas(then: Examined, closed_m3s: float, open_m3s: float) -> tuple[str, ...]:
    """Chillers that get too little once gas flows: the water falls from its flow with the gas line closed to that open.

    The two nominal flows of all the water stand for the chiller's own.
    """
    if closed_m3s <= 0.0:
        return ()
    found = []
    for chiller in then.facts.chillers:
        low = then.facts.chiller_flows_m3s[chiller.name][0]
        with_gas = low * open_m3s / closed_m3s
        if chiller.min_flow_m3s is not None and with_gas < chiller.min_flow_m3s <= low:
            family = then.facts.family
            found.append(
                f"With gas flowing {chiller.name} may get only {show(with_gas, 'flow', family)} of the "
                f"{show(chiller.min_flow_m3s, 'flow', family)} that its maker wants."
            )
    return tuple(found)
