"""All rules of the cautions, and which of them fire."""

from sanitize.basis.units import Family
from sanitize.studies.cautions import (
    rules_air,
    rules_backflow,
    rules_entrapment,
    rules_machines,
    rules_ozone,
    rules_people,
)
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.joining import SOLVENT_CEMENT
from sanitize.studies.cautions.rule import Rule

RULES: tuple[Rule, ...] = (
    *rules_backflow.RULES,
    *rules_entrapment.RULES,
    *rules_ozone.RULES,
    *rules_air.RULES,
    *rules_machines.RULES,
    *rules_people.RULES,
)


def fire(facts: Facts) -> tuple[Caution, ...]:
    """The cautions of a loop, dangers first, else in the order of the rules."""
    found = [rule.caution(facts) for rule in RULES if rule.when(facts)]
    return tuple(sorted(found, key=lambda caution: caution.severity != "danger"))


ABOUT_OZONE = (*rules_ozone.RULES, *rules_air.RULES, *rules_backflow.RULES, *rules_people.RULES)
"""The rules that belong to an answer about ozone; pumps, pipes and covers have their own."""


def fire_about_ozone(facts: Facts) -> tuple[Caution, ...]:
    """The cautions of an answer about ozone, dangers first, else in the order of the rules."""
    found = [rule.caution(facts) for rule in ABOUT_OZONE if rule.when(facts)]
    return tuple(sorted(found, key=lambda caution: caution.severity != "danger"))


def all_cautions(family: Family = "metric") -> tuple[Caution, ...]:
    """Every caution that there is, in general words, at its gravest."""
    return (*(rule.without_loop(family) for rule in RULES), SOLVENT_CEMENT)
