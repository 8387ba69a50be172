"""What the ozone study found: in the water at entry, in the room, over the water, and what the feed brings along."""

from sanitize.basis.tables import model_table
from sanitize.basis.units import significant
from sanitize.studies.cautions.caution import Severity
from sanitize.studies.cautions.facts import Facts, OzoneFound
from sanitize.studies.cautions.rule import AUTHORITY, LOCAL_CODE, MAKER, Rule, always, limit
from sanitize.studies.cautions.rules_air import meter_action


def _ppm(value: float) -> str:
    return f"{significant(value)} ppm"


def _entry_limit_mgl() -> float:
    return model_table("ozone_numbers")[("entry_limit_mgl",)].value


def _found(facts: Facts) -> OzoneFound:
    if facts.ozone_found is None:
        raise ValueError("the ozone was not worked out")
    return facts.ozone_found


def _room_ppmv(facts: Facts) -> float:
    found = facts.ozone_found
    return 0.0 if found is None or found.room_high_ppmv is None else found.room_high_ppmv


def _room_severity(facts: Facts) -> Severity:
    return "danger" if _room_ppmv(facts) >= limit("ozone_ceiling_ppmv") else "caution"


def _over_water_severity(facts: Facts) -> Severity:
    found = facts.ozone_found
    return "danger" if found is not None and found.over_water_high_ppmv >= limit("ozone_ceiling_ppmv") else "caution"


def _room_text(facts: Facts) -> str:
    assumed = _found(facts).room_is_assumed
    room = "a small shut room, which is assumed as the file describes none," if assumed else "this room"
    return (
        f"While the ozone runs, the air of {room} may come to {_ppm(_room_ppmv(facts))}; the ceiling for people at "
        f"work is {_ppm(limit('ozone_ceiling_ppmv'))}, the strictest published limit "
        f"{_ppm(limit('ozone_target_ppmv'))}."
    )


def _residual_text(facts: Facts) -> str:
    return (
        f"Right after the ozone ran the water may hold {significant(_found(facts).residual_high_mgl)} mg/L; more than "
        f"{significant(_entry_limit_mgl())} mg/L is not even let into drinking water, and jets bring it into the air."
    )


RULES = (
    Rule(
        code="ozone-room-above-limit",
        severity=_room_severity,
        when=lambda facts: facts.ozone_found is not None and _room_ppmv(facts) >= limit("ozone_target_ppmv"),
        text=_room_text,
        general=always(
            "The ozone that does not dissolve fills the room; it is a danger where its air may reach 0.1 ppm, the "
            "ceiling for people at work."
        ),
        action=meter_action,
        source="niosh_idlh_ozone",
        defers_to=LOCAL_CODE,
    ),
    Rule(
        code="ozone-over-water",
        severity=_over_water_severity,
        when=lambda facts: (
            facts.ozone_found is not None and facts.ozone_found.over_water_high_ppmv >= limit("ozone_target_ppmv")
        ),
        text=lambda facts: (
            "Right over the water, where a bather breathes, the air may hold "
            f"{_ppm(_found(facts).over_water_high_ppmv)} while the ozone runs; the ceiling for people at work is "
            f"{_ppm(limit('ozone_ceiling_ppmv'))}."
        ),
        general=always(
            "Right over the water the air holds more ozone than in the room; it is a danger where it may reach 0.1 "
            "ppm, the ceiling for people at work."
        ),
        action=always("Nobody in the tub while the ozone runs, and none leaning over it."),
        source="cfr_21_801_415",
        defers_to=LOCAL_CODE,
    ),
    Rule(
        code="ozone-at-entry",
        severity="caution",
        when=lambda facts: facts.ozone_found is not None and _found(facts).residual_high_mgl > _entry_limit_mgl(),
        text=_residual_text,
        general=always("Ozone left in the water when people get in comes out into the air that they breathe."),
        action=always(
            "Switch the ozone off well before people get in, and let the pump run on with the gas line shut; measure "
            "ozone in the water by a test made for it, as tests for chlorine cannot tell the two apart."
        ),
        source="austria_codex_b1",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="ozone-damp-feed",
        severity="caution",
        when=lambda facts: facts.ozone_found is not None and facts.ozone is not None and facts.ozone.feed == "room air",
        text=always(
            "Undried air makes nitric acid in the unit and its line: it eats metal, fouls the cell and lowers the "
            "water's alkalinity; nitrogen dioxide, which no ozone meter shows, comes with it."
        ),
        general=always("A corona unit fed with undried air makes nitric acid, which eats metal and fouls the cell."),
        action=always("Dry the air before the unit, clean the cell as its maker says, and test alkalinity every week."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="ozone-attacks-parts",
        severity="caution",
        when=lambda facts: facts.ozone_found is not None and bool(facts.ozone_found.attacked),
        text=lambda facts: " ".join(_found(facts).attacked),
        general=always("Ozone attacks the material of a part that it meets: it cracks, leaks and lets ozone out."),
        action=always("Replace it by a material that withstands ozone there; `sanitize parts` names them."),
        source="ozone_materials_table",
        defers_to=MAKER,
    ),
    Rule(
        code="ozone-with-bromide",
        severity="caution",
        when=lambda facts: facts.ozone_found is not None and facts.ozone_found.has_bromide,
        text=always(
            "The water holds bromide: ozone makes bromate of it, which may cause cancer and stays until the water is "
            "replaced; how much is not worked out here."
        ),
        general=always("Ozone makes bromate of bromide; it stays until the water is replaced."),
        action=always("Do not run ozone in water that is kept with bromine, or replace that water first."),
        source="abada_2024",
        defers_to=AUTHORITY,
    ),
)
