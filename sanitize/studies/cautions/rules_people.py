"""People in and around the tub: electricity, cold, warmth and drowning."""

from sanitize.basis.units import show
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.rule import AUTHORITY, ELECTRICIAN, PHYSICIAN, Rule, always, limit


def _warm_text(facts: Facts) -> str:
    here = show(facts.water_temperature_c, "temperature", facts.family)
    if facts.water_temperature_c >= limit("warm_water_c"):
        return f"At {here} Legionella grows well, and jets or bubbles carry it into the air that people breathe."
    return f"At {here} Legionella can grow in water that stands, and bubbles carry it into the air that people breathe."


RULES = (
    Rule(
        code="electric-shock",
        severity="caution",
        when=lambda facts: bool(facts.parts),
        text=always("Mains current beside water: a fault in the pump, chiller or ozone unit can kill."),
        general=always("Mains current beside water: a fault in the pump, chiller or ozone unit can kill."),
        action=always(
            "Every circuit on its own residual-current device (GFCI or RCD), bonding as the code asks; plugs and units "
            "above the water line and where they cannot fall in, a drip loop in each cord, no extension cords."
        ),
        source="nfpa_70_680",
        defers_to=ELECTRICIAN,
    ),
    Rule(
        code="cold-water",
        severity="caution",
        when=lambda facts: facts.water_temperature_c <= limit("cold_water_c"),
        text=lambda facts: (
            f"Water of {show(facts.water_temperature_c, 'temperature', facts.family)} makes people gasp and can stop "
            "the heart's rhythm in the first minutes, in healthy people too; later hands fail and the body cools on "
            "after leaving."
        ),
        general=lambda family: (
            f"Water at or below {show(limit('cold_water_c'), 'temperature', family)} makes people gasp and can stop "
            "the heart's rhythm in the first minutes."
        ),
        action=always(
            "Never alone, never after alcohol, feet first, head out, minutes only; out when numb or confused. Ask a "
            "physician first with heart disease, high blood pressure, asthma, epilepsy, diabetes, pregnancy, Raynaud "
            "or medication."
        ),
        source="shattock_tipton_2012",
        defers_to=PHYSICIAN,
    ),
    Rule(
        code="warm-water",
        severity="caution",
        when=lambda facts: facts.water_temperature_c > limit("standing_water_c"),
        text=_warm_text,
        general=lambda family: (
            f"From {show(limit('warm_water_c'), 'temperature', family)}, or standing above "
            f"{show(limit('standing_water_c'), 'temperature', family)}, water breeds Legionella, and bubbles carry it "
            "into the air."
        ),
        action=always(
            "Keep a tested sanitizer residual at all times, let no part of the loop stand, drain and scrub often."
        ),
        source="cdc_han_00422",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="drowning",
        severity="caution",
        when=lambda facts: bool(facts.parts),
        text=always("A child drowns in a tub within minutes and without a sound."),
        general=always("A child drowns in a tub within minutes and without a sound."),
        action=always(
            "A cover that carries a child and opens from inside, locked only when nobody is in; never a child alone "
            "near the tub."
        ),
        source="",
        defers_to=AUTHORITY,
    ),
)
