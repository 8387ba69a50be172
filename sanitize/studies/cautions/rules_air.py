"""Ozone where people breathe, and what ozone attacks."""

from sanitize.basis.units import Family, show, significant
from sanitize.studies.cautions.caution import Severity
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.room_air import (
    cover_ozone_ppmv,
    minutes_to_ceiling,
    room_for_ceiling_m3,
    room_ozone_ppmv,
)
from sanitize.studies.cautions.rule import AUTHORITY, LOCAL_CODE, MAKER, Rule, always, limit
from sanitize.studies.ozone.rooms import assumed_words, is_bathroom_size, room_numbers, space


def _ppm(value: float) -> str:
    return f"{significant(value)} ppm"


def meter_action(_: Family) -> str:
    """What to do where ozone may gather in the air."""
    return (
        f"Measure with an ozone meter where people breathe; from {_ppm(limit('ozone_ceiling_ppmv'))} on switch the "
        "unit off, everybody out of the tub and the room, and ventilate; do not come back before the meter reads below "
        f"{_ppm(limit('ozone_target_ppmv'))}."
    )


def _indoors(facts: Facts) -> bool:
    return facts.ozone_possible and facts.place != "outdoors"


def _known_room_ppmv(facts: Facts) -> float:
    return 0.0 if facts.ozone is None or facts.room is None else room_ozone_ppmv(facts.plant, facts.ozone)


def _room_severity(facts: Facts) -> Severity:
    return "danger" if _known_room_ppmv(facts) >= limit("ozone_ceiling_ppmv") else "caution"


def _room_text(facts: Facts) -> str:
    room = room_numbers(facts.plant)
    shut = "" if room.are_changes_stated else ", as with door and window shut"
    walls = "furniture" if facts.room is not None and facts.room.surfaces == "furnished" else "bare walls"
    return (
        f"If all the ozone that the unit makes ends in the air, this room of {space(room.volume_m3.low, facts.family)} "
        f"with {significant(room.changes_per_h.low)} air changes an hour{shut} and "
        f"{walls} comes to {_ppm(_known_room_ppmv(facts))}; the ceiling for people at work is "
        f"{_ppm(limit('ozone_ceiling_ppmv'))}."
    )


def _unknown_room_text(facts: Facts) -> str:
    where = "indoors" if facts.place == "indoors" else "where the file does not say, which counts as indoors"
    ozone = facts.ozone
    if ozone is None:
        return f"The tub stands {where}: what an ozone unit on this injector makes ends for a good part in that air."
    smallest = space(room_numbers(facts.plant).volume_m3.low, facts.family)
    least = space(room_for_ceiling_m3(facts.plant, ozone), facts.family)
    return (
        f"The tub stands {where}, in a room that the file does not describe: {assumed_words(facts.plant)} stands in. "
        f"If all the ozone ends in its air, that of {smallest} comes to {_ppm(room_ozone_ppmv(facts.plant, ozone))}; "
        f"it takes {least} to stay below {_ppm(limit('ozone_ceiling_ppmv'))}, the ceiling for people at work."
    )


def _bathroom_size(facts: Facts) -> bool:
    return facts.room is None or is_bathroom_size(facts.room.volume_m3)


def _bathroom_text(facts: Facts) -> str:
    if facts.ozone is None:
        return "The room is no larger than a bathroom: ozone reaches the ceiling in it within minutes."
    time = show(60.0 * minutes_to_ceiling(facts.plant, facts.ozone), "time", facts.family)
    return (
        f"The room is no larger than a bathroom: the unit makes enough ozone to bring all of its air to "
        f"{_ppm(limit('ozone_ceiling_ppmv'))} in {time}."
    )


def _cover_text(facts: Facts) -> str:
    ozone = facts.ozone
    idlh = _ppm(limit("ozone_idlh_ppmv"))
    if facts.ozone_found is not None and facts.ozone_is_found:
        there = _ppm(facts.ozone_found.under_cover_high_ppmv)
        return f"Under a closed cover ozone may come to {there}; {idlh} is immediately dangerous to life or health."
    if ozone is None or ozone.at_gas_flow_m3s is None:
        return f"Under a closed cover ozone gathers far above {idlh}, which is immediately dangerous to life."
    there = _ppm(cover_ozone_ppmv(facts.plant, ozone, ozone.at_gas_flow_m3s))
    return f"Under a closed cover ozone may come to {there}; {idlh} is immediately dangerous to life or health."


RULES = (
    Rule(
        code="oxygen-feed",
        severity="danger",
        when=lambda facts: facts.ozone is not None and facts.ozone.feed == "oxygen",
        text=always("The ozone unit is fed with oxygen: oxygen that leaks makes everything near it burn fiercely."),
        general=always("An ozone unit fed with oxygen is a fire hazard in a home."),
        action=always("Feed the unit with air, or leave the oxygen to a plant that is built and approved for it."),
        source="",
        defers_to="the local fire code",
    ),
    Rule(
        code="ozone-in-room",
        severity=_room_severity,
        when=lambda facts: (
            facts.ozone is not None
            and facts.place != "outdoors"
            and facts.room is not None
            and not facts.ozone_is_found
        ),
        text=_room_text,
        general=always(
            "Much of the ozone leaves the water into the air; indoors it can pass 0.1 ppm, the ceiling for people at "
            "work. It is a danger where this room may reach it."
        ),
        action=meter_action,
        source="niosh_idlh_ozone",
        defers_to=LOCAL_CODE,
    ),
    Rule(
        code="ozone-room-unknown",
        severity=lambda facts: "caution" if facts.ozone is None else "danger",
        when=lambda facts: _indoors(facts) and (facts.room is None or facts.ozone is None) and not facts.ozone_is_found,
        text=_unknown_room_text,
        general=always("Where the room is not known, ozone in its air is judged as in a shut bathroom."),
        action=lambda family: "Describe [ozone] and [room] in the file. " + meter_action(family),
        source="niosh_idlh_ozone",
        defers_to=LOCAL_CODE,
    ),
    Rule(
        code="bathroom-size-room",
        severity="caution",
        when=lambda facts: _indoors(facts) and facts.room is not None and _bathroom_size(facts),
        text=_bathroom_text,
        general=always("In a room the size of a bathroom ozone reaches the ceiling for people at work in minutes."),
        action=always("Move the tub or the ozone out of this room, or let a fan to the outside run with the unit."),
        source="niosh_idlh_ozone",
        defers_to=LOCAL_CODE,
    ),
    Rule(
        code="ozone-outdoors",
        severity="caution",
        when=lambda facts: facts.ozone_possible and facts.place == "outdoors",
        text=always(
            "Outdoors too, ozone lies in the air right over the water, where a bather breathes, until wind takes it."
        ),
        general=always("Outdoors ozone lies in the air right over the water, where a bather breathes."),
        action=always("Let the ozone run with nobody in the tub, and let the air clear before anybody goes in."),
        source="cfr_21_801_415",
        defers_to=LOCAL_CODE,
    ),
    Rule(
        code="ozone-under-cover",
        severity="caution",
        when=lambda facts: facts.ozone_possible,
        text=_cover_text,
        general=always("Under a closed cover ozone gathers far above what is immediately dangerous to life or health."),
        action=always(
            "Never run ozone under a closed cover; if it ran, switch it off, ventilate, open the cover from the side "
            "with nobody leaning over it, and wait at least 15 min."
        ),
        source="niosh_idlh_ozone",
        defers_to=MAKER,
    ),
    Rule(
        code="no-interlock",
        severity="caution",
        when=lambda facts: facts.ozone_possible and not (facts.ozone is not None and facts.ozone.interlock),
        text=always(
            "Nothing in the file stops the ozone when the water or the vacuum stops: the unit then fills the gas line "
            "and the air around it. And an injector that draws with the unit off strips ozone out of the water "
            "into the air."
        ),
        general=always("Ozone must stop by itself when the water or the vacuum stops."),
        action=always(
            "Let the unit run only with the pump on and vacuum at the port: a flow or vacuum switch, or one timer for "
            "both."
        ),
        source="ccdeh_2007",
        defers_to="a licensed electrician and " + MAKER,
    ),
    Rule(
        code="smell-is-no-guide",
        severity="caution",
        when=lambda facts: facts.ozone_possible,
        text=always("The nose tires of ozone within minutes, and harm to the lungs may show hours later."),
        general=always("The nose tires of ozone within minutes, and harm to the lungs may show hours later."),
        action=always("Use a meter. Whoever coughs or feels tight in the chest leaves at once and asks a physician."),
        source="cfr_21_801_415",
        defers_to="a physician",
    ),
    Rule(
        code="ozone-attacks-materials",
        severity="caution",
        when=lambda facts: facts.ozone_possible,
        text=always(
            "Ozone cracks natural rubber, nitrile and neoprene, and attacks nylon, acetal, aluminium and galvanized "
            "steel; undried air makes nitric acid in the unit and its line."
        ),
        general=always("Ozone cracks rubber, nitrile and neoprene, and attacks nylon, acetal, aluminium and zinc."),
        action=always(
            "From the unit to the port and in seals behind it use PTFE, PVDF, FKM or silicone, and look for leaks "
            "every month."
        ),
        source="ccdeh_2007",
        defers_to=MAKER,
    ),
    Rule(
        code="ozone-alone",
        severity="caution",
        when=lambda facts: facts.ozone_possible,
        text=always("An injector that draws does not hold germs down by itself: ozone leaves no lasting residual."),
        general=always("Ozone leaves no lasting residual in a tub and cannot be its only sanitizer."),
        action=always("Keep a residual of another sanitizer and test it before every use."),
        source="ccdeh_2007",
        defers_to=AUTHORITY,
    ),
)
