"""Dangers that a simulated day shows, each at its own worst end."""

from collections.abc import Callable
from dataclasses import dataclass

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show, significant
from sanitize.studies.cautions.caution import Caution, Severity
from sanitize.studies.cautions.rule import AUTHORITY, LOCAL_CODE, MAKER, limit
from sanitize.studies.day.water import Kept
from sanitize.studies.ozone.numbers import number


@dataclass(frozen=True)
class DayFacts:
    """What one simulated day says about danger.

    face_ppmv: highest right over the water while people bathe, or in the room then; room_ppmv: highest of the room;
    room_above_s: time a day above the ceiling; under_lid_ppmv: highest under the closed lid, 0 without;
    entry_mgl: highest in the water when people get in; oxidant_low_mgl: lowest of the other oxidant; brought_g,
    left_over_g: what bathers bring a day, and what of it is left from day to day, as ozone.
    """

    family: Family
    has_ozone: bool
    kept: Kept
    indoors: bool
    face_ppmv: float
    room_ppmv: float
    room_above_s: float
    under_lid_ppmv: float
    entry_mgl: float
    oxidant_low_mgl: float
    brought_g: float
    left_over_g: float


@dataclass(frozen=True, slots=True)
class DayRule:
    """When a caution about a day is given and what it says; general: without a day."""

    code: str
    severity: Callable[[DayFacts], Severity]
    when: Callable[[DayFacts], bool]
    text: Callable[[DayFacts], str]
    general: str
    action: str
    source: str
    defers_to: str

    def caution(self, facts: DayFacts) -> Caution:
        """The caution for a day on which the rule fires."""
        return Caution(self.code, self.severity(facts), self.text(facts), self.action, self.source, self.defers_to)

    def without_day(self) -> Caution:
        """The caution as it stands in the list of all, at its gravest."""
        return Caution(self.code, "danger", self.general, self.action, self.source, self.defers_to)


def entry_limit_mgl() -> float:
    """Ozone in the water above which nobody gets in."""
    return number("entry_limit_mgl")


def least_oxidant_mgl(kept: Kept) -> float:
    """The other oxidant below which the water is not kept; 0 for what no guideline takes as enough alone."""
    names = {"chlorine": "least_chlorine_mgl", "bromine": "least_bromine_mgl"}
    return model_table("day_numbers")[(names[kept],)].value if kept in names else 0.0


def _ppm(value: float) -> str:
    return f"{significant(value)} ppm"


def _bather_text(facts: DayFacts) -> str:
    return (
        f"While people bathe, the air that they breathe may come to {_ppm(facts.face_ppmv)} of ozone; the ceiling for "
        f"people at work is {_ppm(limit('ozone_ceiling_ppmv'))}, and {_ppm(limit('ozone_target_ppmv'))} is the most "
        "that a device may let gather in an occupied closed space."
    )


def _room_text(facts: DayFacts) -> str:
    time = show(facts.room_above_s, "time", facts.family)
    return (
        f"The room's air may come to {_ppm(facts.room_ppmv)} of ozone on such a day and may stay above "
        f"{_ppm(limit('ozone_ceiling_ppmv'))}, the ceiling for people at work, for {time}."
    )


def _lid_text(facts: DayFacts) -> str:
    return (
        f"On this day ozone gathers under the closed lid and may come to {_ppm(facts.under_lid_ppmv)}; "
        f"{_ppm(limit('ozone_idlh_ppmv'))} is immediately dangerous to life or health."
    )


def _entry_text(facts: DayFacts) -> str:
    return (
        f"When people get in, the water may hold {significant(facts.entry_mgl)} mg/L of ozone; it should hold none "
        f"that a test shows, and never more than {significant(entry_limit_mgl())} mg/L."
    )


def _oxidant_text(facts: DayFacts) -> str:
    return (
        f"The {facts.kept} may fall to {significant(facts.oxidant_low_mgl)} mg/L on this day, below the "
        f"{significant(least_oxidant_mgl(facts.kept))} mg/L that it is to hold at least."
    )


def _left_text(facts: DayFacts) -> str:
    brought, left = (significant(value) for value in (facts.brought_g, facts.left_over_g))
    return (
        f"Of what the bathers of a day may bring, as much as {brought} g of ozone could take, up to {left} g are left "
        "over to the next: ozone and the other oxidant in the water do not keep up."
    )


RULES: tuple[DayRule, ...] = (
    DayRule(
        code="ozone-while-bathing",
        severity=lambda facts: "danger" if facts.face_ppmv >= limit("ozone_ceiling_ppmv") else "caution",
        when=lambda facts: facts.has_ozone and facts.face_ppmv > limit("ozone_target_ppmv"),
        text=_bather_text,
        general="On a day's plan people who bathe may breathe more ozone than the limits allow.",
        action=(
            "Switch the ozone off earlier, for fewer hours, or vent the gas outdoors; measure with an ozone meter "
            "where people breathe, and keep out of tub and room while it reads above 0.05 ppm."
        ),
        source="niosh_idlh_ozone",
        defers_to=LOCAL_CODE,
    ),
    DayRule(
        code="room-above-ceiling",
        severity=lambda _: "danger",
        when=lambda facts: facts.has_ozone and facts.indoors and facts.room_ppmv >= limit("ozone_ceiling_ppmv"),
        text=_room_text,
        general="On a day's plan the room's air may pass the ceiling for people at work, also while nobody bathes.",
        action=(
            "Nobody stays in the room then. Let a fan to the outside run with the ozone unit, run it for fewer hours, "
            "or let a smaller unit do; come back only once a meter reads below 0.05 ppm where people breathe."
        ),
        source="niosh_idlh_ozone",
        defers_to=LOCAL_CODE,
    ),
    DayRule(
        code="ozone-gathers-under-lid",
        severity=lambda _: "danger",
        when=lambda facts: facts.has_ozone and facts.under_lid_ppmv >= limit("ozone_idlh_ppmv"),
        text=_lid_text,
        general="On a day's plan ozone may gather under the closed lid above what is immediately dangerous to life.",
        action=(
            "Do not run ozone under a closed lid. If it ran: unit off, ventilate the room, open the lid from the side "
            "with nobody leaning over it, and keep away until a meter reads below 0.05 ppm, at least 15 min."
        ),
        source="niosh_idlh_ozone",
        defers_to=MAKER,
    ),
    DayRule(
        code="ozone-left-at-entry",
        severity=lambda _: "caution",
        when=lambda facts: facts.has_ozone and facts.entry_mgl > entry_limit_mgl(),
        text=_entry_text,
        general="On a day's plan the water may still hold ozone when people get in, and jets drive it into the air.",
        action="Let the ozone end earlier before people get in, and test the water for ozone before anybody does.",
        source="",
        defers_to=AUTHORITY,
    ),
    DayRule(
        code="oxidant-used-up",
        severity=lambda _: "caution",
        when=lambda facts: facts.oxidant_low_mgl < least_oxidant_mgl(facts.kept),
        text=_oxidant_text,
        general="On a day's plan what bathers bring may use the chlorine or bromine up.",
        action="Shower before bathing; test after it and dose what is missing before anybody goes in again.",
        source="",
        defers_to=AUTHORITY,
    ),
    DayRule(
        code="bathers-outpace-oxidants",
        severity=lambda _: "caution",
        when=lambda facts: facts.left_over_g > 0.05 * facts.brought_g,
        text=_left_text,
        general="What bathers bring a day may be more than ozone and the other oxidant take: it gathers in the water.",
        action="Let fewer people bathe, and showered; replace water; keep enough chlorine or bromine at all times.",
        source="ccdeh_2007",
        defers_to=AUTHORITY,
    ),
)  # fmt: skip


def cautions_of_day(facts: DayFacts) -> tuple[Caution, ...]:
    """The cautions of a day in the order of the rules."""
    return tuple(rule.caution(facts) for rule in RULES if rule.when(facts))


def all_day_cautions() -> tuple[Caution, ...]:
    """Every caution about a day in general words."""
    return tuple(rule.without_day() for rule in RULES)
