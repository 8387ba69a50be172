"""Ozone where people breathe, and what ozone attacks."""

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show, significant, to_shown
from sanitize.plant.tub import Room
from sanitize.studies.cautions.caution import Severity
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.room_air import (
    cover_ozone_ppmv,
    minutes_to_ceiling,
    slowest_exchange_per_h,
    steady_ozone_ppmv,
    volume_for_ceiling_m3,
)
from sanitize.studies.cautions.rule import AUTHORITY, LOCAL_CODE, MAKER, Rule, always, limit


def _ppm(value: float) -> str:
    return f"{significant(value)} ppm"


def _space(volume_m3: float, family: Family) -> str:
    """A room's volume, which nobody counts in litres or gallons."""
    unit = "m3" if family == "metric" else "ft3"
    return f"{significant(to_shown(volume_m3, 'volume', unit))} {unit}"


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
    ozone, room = facts.ozone, facts.room
    if ozone is None or room is None:
        return 0.0
    return steady_ozone_ppmv(ozone.output_mg_per_h, room.volume_m3, slowest_exchange_per_h(room))


def _room_severity(facts: Facts) -> Severity:
    return "danger" if _known_room_ppmv(facts) >= limit("ozone_ceiling_ppmv") else "caution"


def _room_text(facts: Facts) -> str:
    room = facts.room
    volume = _space(room.volume_m3, facts.family) if room is not None else ""
    exchange = significant(slowest_exchange_per_h(room))
    stated = "" if room is not None and room.changes_per_h is not None else ", as with door and window shut"
    return (
        f"If all the ozone that the unit makes ends in the air, this room of {volume} with {exchange} air changes an "
        f"hour{stated} and bare walls comes to {_ppm(_known_room_ppmv(facts))}; the ceiling for people at work is "
        f"{_ppm(limit('ozone_ceiling_ppmv'))}."
    )


def _unknown_room_text(facts: Facts) -> str:
    where = "indoors" if facts.place == "indoors" else "where the file does not say, which counts as indoors"
    ozone = facts.ozone
    if ozone is None:
        return f"The tub stands {where}: what an ozone unit on this injector makes ends for a good part in that air."
    closed = slowest_exchange_per_h(None)
    least = _space(volume_for_ceiling_m3(ozone.output_mg_per_h, closed), facts.family)
    bathroom = _space(limit("bathroom_volume_m3"), facts.family)
    there = _ppm(steady_ozone_ppmv(ozone.output_mg_per_h, limit("bathroom_volume_m3"), closed))
    return (
        f"The tub stands {where}, in a room that the file does not describe. If all the ozone ends in the air of a "
        f"shut room, it takes {least} to stay below {_ppm(limit('ozone_ceiling_ppmv'))}, the ceiling for people at "
        f"work; a bathroom of {bathroom} comes to {there}."
    )


def _bathroom_size(room: Room | None) -> bool:
    return room is not None and room.volume_m3 <= model_table("caution_limits")[("bathroom_volume_m3",)].high


def _bathroom_text(facts: Facts) -> str:
    if facts.ozone is None or facts.room is None:
        return "The room is no larger than a bathroom: ozone reaches the ceiling in it within minutes."
    time = show(60.0 * minutes_to_ceiling(facts.ozone.output_mg_per_h, facts.room.volume_m3), "time", facts.family)
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
    there = _ppm(cover_ozone_ppmv(ozone.output_mg_per_h, ozone.at_gas_flow_m3s))
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
        when=lambda facts: _indoors(facts) and _bathroom_size(facts.room),
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
