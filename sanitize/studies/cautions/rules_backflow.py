"""Water in the gas line, and air where water should stand."""

from sanitize.basis.tables import default
from sanitize.basis.units import Family, show
from sanitize.studies.cautions.caution import Severity
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.rule import MAKER, Rule, always, joined, limit

_WORDS = {
    "off": "with the pump off",
    "running": "with the pump running",
    "returns shut": "with the returns shut",
    "filter loaded": "with the filter loaded",
}


def _rim_high_m(facts: Facts) -> float:
    tub = facts.plant.tub
    if tub.rim_m is not None:
        return tub.rim_m.high
    return tub.water_level_m.high + default("rim_above_water_m").high


def _flood_severity(facts: Facts) -> Severity:
    return "danger" if any(state in ("off", "running") for state, _, _ in facts.floods) else "caution"


def _flood_text(facts: Facts) -> str:
    levels: dict[str, set[str]] = {}
    for state, level, _ in facts.floods:
        levels.setdefault(state, set()).add(level)
    states = joined(
        [
            _WORDS[state] + (" and the tub full to the rim" if found == {"rim"} else "")
            for state, found in levels.items()
        ]
    )
    if any(valve == "sound" for _, _, valve in facts.floods):
        start = "Water reaches the ozone unit"
    elif facts.valve_missing:
        start = "With nothing in the gas line that holds it back, water reaches the ozone unit"
    else:
        start = "If the gas line's check valve leaks, water reaches the ozone unit"
    return f"{start} {states}: electric shock, a ruined unit, a tub that empties itself."


def _unit_may_stand_low(facts: Facts) -> bool:
    if not facts.ozone_possible:
        return False
    ozone = facts.ozone
    return ozone is None or ozone.height_m is None or ozone.height_m.low < _rim_high_m(facts)


def _unit_text(facts: Facts) -> str:
    rim = show(_rim_high_m(facts), "length", facts.family)
    ozone = facts.ozone
    if ozone is None or ozone.height_m is None:
        return f"The height of the ozone unit is not given, so it counts as standing below the rim ({rim})."
    return (
        f"The ozone unit may stand as low as {show(ozone.height_m.low, 'length', facts.family)}, below the highest "
        f"that the tub's rim may be ({rim}): nothing but a small valve then keeps a full tub out of it."
    )


def _loop(family: Family) -> str:
    return show(limit("gas_loop_above_rim_m"), "length", family)


RULES = (
    Rule(
        code="water-reaches-ozone-unit",
        severity=_flood_severity,
        when=lambda facts: bool(facts.floods),
        text=_flood_text,
        general=always(
            "Where a leaking check valve alone lets water reach the ozone unit, with the pump off or running, that is "
            "a danger; where the returns must be shut or the filter loaded as well, a caution."
        ),
        action=lambda family: (
            f"Lead the gas line at least {_loop(family)} above the rim, mount the unit higher than that, put a water "
            "trap before it, and replace the check valve every year."
        ),
        source="dguv_103_015",
        defers_to=MAKER,
    ),
    Rule(
        code="no-check-valve",
        severity="danger",
        when=lambda facts: facts.has_injector and facts.valve_missing,
        text=lambda facts: (
            (
                "The gas line has no check valve"
                if facts.gas_line is not None
                else "The file describes no [gas_line], so no check valve is known"
            )
            + ": whenever the port is not under vacuum, water runs up the line."
        ),
        general=always("Without a check valve at the port, water runs up the gas line whenever the vacuum fails."),
        action=always("Put a check valve that ozone does not attack right at the injector's port."),
        source="dguv_103_015",
        defers_to=MAKER,
    ),
    Rule(
        code="ozone-unit-below-rim",
        severity="caution",
        when=_unit_may_stand_low,
        text=_unit_text,
        general=always("An ozone unit below the rim can be flooded through its own gas line."),
        action=lambda family: (
            f"Mount the unit above the rim, and let the gas line rise at least {_loop(family)} above the rim first."
        ),
        source="dguv_103_015",
        defers_to=MAKER,
    ),
    Rule(
        code="air-enters-when-off",
        severity="caution",
        when=lambda facts: facts.air_enters_when_off,
        text=always(
            "With the pump off, air can enter at the injector's port; the raised part of the loop drains, and a pump "
            "that finds air at its inlet runs dry."
        ),
        general=always("An injector above the water line lets air into the loop when the pump stops."),
        action=always("Watch the first restarts; set the injector lower, or keep the pump's inlet well under water."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="ice-in-gas-line",
        severity="caution",
        when=lambda facts: facts.has_injector and facts.water_temperature_c <= limit("ice_c"),
        text=lambda facts: (
            f"At {show(facts.water_temperature_c, 'temperature', facts.family)} ice can form in a wet gas line: a "
            "frozen check valve either stops the gas or no longer holds the water back."
        ),
        general=lambda family: (
            f"At {show(limit('ice_c'), 'temperature', family)} and below, ice can form in the gas line and its valve."
        ),
        action=always("Keep the gas line drained and its valve out of the frost; look at it before every start."),
        source="",
        defers_to=MAKER,
    ),
)
