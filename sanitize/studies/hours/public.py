"""Published rules for public tubs: what they ask, and how this tub stands to them."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.tables import model_table, sources
from sanitize.basis.units import show
from sanitize.laws.clarity.dilution import turnover_s
from sanitize.plant.day import DAY_S
from sanitize.studies.draws import Array
from sanitize.studies.hours.flows import Flows
from sanitize.studies.hours.money import Shown
from sanitize.studies.hours.needs import MORE_FLOW, Moved, NeedCases
from sanitize.studies.hours.result import PublicRule
from sanitize.studies.hours.wishes import minutes_of


@dataclass(frozen=True)
class Rule:
    """A published rule for public tubs."""

    profile: str
    rule: str
    limit_s: float
    source: str


def rule_of(profile: str) -> Rule:
    """The rule of a profile."""
    entries = model_table("turnover_limits").entries
    (key,) = [key for key in entries if key[0] == profile]
    return Rule(profile, key[1], entries[key].value, entries[key].source)


def public_need(moved: Moved, profile: str) -> NeedCases:
    """A published limit: kept or not by the flow, and then the pump runs while the tub is open."""
    rule = rule_of(profile)
    title = sources()[rule.source].authors
    if rule.rule == "hours a day":
        run = np.full(moved.draws.size, rule.limit_s)
        told = f"{title}: filtration runs {show(rule.limit_s, 'time', moved.family)} a day"
    else:
        times = moved.plant.bathers.times if moved.plant.bathers is not None else ()
        opened = 60.0 * float(minutes_of(times).sum()) if times else DAY_S
        turnover = turnover_s(moved.plant.tub.volume_m3, moved.clean_flow_m3s)
        run = np.where(turnover <= rule.limit_s, opened, np.inf)
        told = (
            f"{title} asks public tubs for a turnover within {show(rule.limit_s, 'time', moved.family)}; that the pump "
            f"runs {'while people are in it' if times else 'all day, as no bathing times are given,'} is this "
            "program's reading"
        )
    return NeedCases("public rule", run, rule.source, "published", f"{told}; the local authority decides", MORE_FLOW)


def public_rule_of(moved: Moved, flows: Flows, run_s: Array, shown: Shown) -> PublicRule | None:
    """The rule beside this tub's figure; None for a private tub."""
    profile = moved.timer.public_profile
    if profile is None:
        return None
    rule = rule_of(profile)
    if rule.rule == "hours a day":
        value, keeps = run_s, run_s >= rule.limit_s
    else:
        value = turnover_s(moved.plant.tub.volume_m3, flows.clean_m3s)
        keeps = value <= rule.limit_s
    return PublicRule(
        profile=rule.profile,
        rule=rule.rule,
        limit_s=rule.limit_s,
        value_s=shown(value),
        meets_share_ratio=float(np.mean(keeps & flows.solved)),
        source=rule.source,
    )
