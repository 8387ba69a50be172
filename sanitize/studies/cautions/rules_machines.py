"""Pumps, pipes and chillers run as they should not."""

from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.plant.machines import Filter
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.rule import AUTHORITY, MAKER, Rule, always, joined, limit


def _below_air(facts: Facts) -> dict[str, float]:
    return {name: low for name, low in facts.pump_inlet_pressure_low_pa_gauge.items() if low < 0.0}


def _below_air_text(facts: Facts) -> str:
    told = joined(
        [
            f"{name} may draw at {show(-low, 'vacuum', facts.family)} below the air"
            for name, low in _below_air(facts).items()
        ]
    )
    return f"{told}: every leaking joint before the pump lets air in, not water out."


def _past_curve(facts: Facts) -> dict[str, float]:
    most = limit("pump_past_curve_ratio")
    return {name: share for name, share in facts.pump_past_curve_ratio.items() if share > most}


def _outside_window(facts: Facts) -> list[str]:
    told = []
    worst = " with the filters loaded" if any(isinstance(part, Filter) for part in facts.parts) else ""
    for chiller in facts.chillers:
        low, high = facts.chiller_flows_m3s.get(chiller.name, (0.0, facts.flow_high_m3s))
        if chiller.min_flow_m3s is None:
            told.append(f"The least flow of {chiller.name} is not given: below it, ice can burst the exchanger.")
        elif low < chiller.min_flow_m3s:
            told.append(
                f"{chiller.name} may get only {show(low, 'flow', facts.family)}{worst}; its maker wants at least "
                f"{show(chiller.min_flow_m3s, 'flow', facts.family)}, below which ice can burst it."
            )
        if chiller.max_flow_m3s is not None and high > chiller.max_flow_m3s:
            told.append(
                f"{chiller.name} may get {show(high, 'flow', facts.family)}; its maker allows "
                f"{show(chiller.max_flow_m3s, 'flow', facts.family)}, above which its tubes wear."
            )
    return told


def _frost_comes(facts: Facts) -> bool:
    """Whether the file tells of frost, or says nothing that rules it out."""
    around = facts.plant.surroundings
    if around is not None and around.coldest_air_c is not None:
        return around.coldest_air_c < 0.0
    return facts.place != "indoors"


def _frost_text(facts: Facts) -> str:
    around = facts.plant.surroundings
    cold = None if around is None else around.coldest_air_c
    air = "in frost" if cold is None else f"in air of {show(cold, 'temperature', facts.family)}"
    return (
        f"Water that stands {air} freezes in pipes, pump, filter and chiller and bursts them; a power cut is enough, "
        "and ice in the gas line or its check valve lets no gas in and may hold no water back."
    )


RULES = (
    Rule(
        code="injector-on-suction-side",
        severity="danger",
        when=lambda facts: facts.injector_on_suction_side,
        text=always(
            "The injector stands before a pump: the gas it draws collects in the pump, which stops moving water, and "
            "ozone wears its seals."
        ),
        general=always("An injector before a pump fills the pump with gas: it stops moving water and loses its seals."),
        action=always("Put the injector behind the last pump."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="gas-into-filter-or-chiller",
        severity="caution",
        when=lambda facts: bool(facts.injector_before),
        text=lambda facts: (
            f"Gas from the injector passes {joined(facts.injector_before)}: it collects at the top, and ozone wears "
            "what it touches there."
        ),
        general=always("Gas that passes a filter or chiller collects in it, and ozone wears what it touches."),
        action=always("Put the injector behind them, or vent them at their highest point to the outside."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="pump-suction-below-air",
        severity="caution",
        when=lambda facts: bool(_below_air(facts)),
        text=_below_air_text,
        general=always(
            "A pump that draws below the pressure of the air takes air in at every leaking joint before it."
        ),
        action=always("Set the pump lower or widen the suction line; seal threads and unions before the pump twice."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="pump-above-water",
        severity="caution",
        when=lambda facts: any(facts.pump_above_water.values()),
        text=lambda facts: (
            f"{joined([name for name, above in facts.pump_above_water.items() if above])} may stand above the water: "
            "it does not fill itself, and a pump that runs dry burns its seal."
        ),
        general=always("A pump above the water does not fill itself, and one that runs dry burns its seal."),
        action=always("Set the pump below the water line, or fit a foot valve and fill it by hand before each start."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="pump-past-curve",
        severity="caution",
        when=lambda facts: bool(_past_curve(facts)),
        text=lambda facts: (
            f"{joined(list(_past_curve(facts)))} may run past the end of its curve, where motors overheat and water "
            "boils in the wheel."
        ),
        general=always("A pump past the end of its curve can overheat its motor and boil water in its wheel."),
        action=always("Ask the maker for the largest flow allowed, or throttle behind the pump."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="suction-pipe-too-fast",
        severity="caution",
        when=lambda facts: facts.suction_velocity_high_ms > default("suction_velocity_limit_ms").value,
        text=lambda facts: (
            f"The water runs at up to {show(facts.suction_velocity_high_ms, 'velocity', facts.family)} through "
            f"{facts.suction_velocity_part} before the pump; public pools are held to "
            f"{show(default('suction_velocity_limit_ms').value, 'velocity', facts.family)}."
        ),
        general=lambda family: (
            f"Public pools are held to {show(default('suction_velocity_limit_ms').value, 'velocity', family)} in "
            "suction pipe: faster water pulls harder on whatever covers the suction."
        ),
        action=always("Take wider pipe before the pump."),
        source="nac_444_160",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="return-pipe-too-fast",
        severity="caution",
        when=lambda facts: facts.return_velocity_high_ms > default("return_velocity_limit_ms").value,
        text=lambda facts: (
            f"The water runs at up to {show(facts.return_velocity_high_ms, 'velocity', facts.family)} through "
            f"{facts.return_velocity_part}; public pools are held to "
            f"{show(default('return_velocity_limit_ms').value, 'velocity', facts.family)} behind the pump."
        ),
        general=lambda family: (
            f"Public pools are held to {show(default('return_velocity_limit_ms').value, 'velocity', family)} behind "
            "the pump: faster water hammers joints apart."
        ),
        action=always("Take wider pipe behind the pump, and close valves slowly."),
        source="nac_444_160",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="chiller-outside-window",
        severity="caution",
        when=lambda facts: bool(_outside_window(facts)),
        text=lambda facts: " ".join(_outside_window(facts)),
        general=always("Too little water lets ice burst a chiller's exchanger, too much wears its tubes."),
        action=always(
            "Where it gets too little, close what runs beside it or give it a pump of its own; where it gets too much, "
            "open a bypass beside it. Let a flow switch stop it."
        ),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="chiller-freezing",
        severity="caution",
        when=lambda facts: bool(facts.chillers) and facts.water_temperature_c <= limit("chiller_freezing_c"),
        text=lambda facts: (
            f"With the water at {show(facts.water_temperature_c, 'temperature', facts.family)} the wall in "
            f"{joined([chiller.name for chiller in facts.chillers])} is near freezing: with a clogged filter or little "
            "flow, ice bursts it."
        ),
        general=lambda family: (
            f"With the water at {show(limit('chiller_freezing_c'), 'temperature', family)} or below, ice can burst the "
            "chiller's exchanger."
        ),
        action=always("Do not set the chiller lower than its maker allows, and let a flow switch stop it."),
        source="",
        defers_to=MAKER,
    ),
    Rule(
        code="frost",
        severity="caution",
        when=_frost_comes,
        text=_frost_text,
        general=always(
            "Water that stands in frost freezes in pipes, pump, filter and chiller and bursts them; a power cut is "
            "enough."
        ),
        action=always(
            "In frost let the pump run often, as the hours command says, and drain pump, pipes, filter, chiller and "
            "gas line as soon as the power fails or nobody looks after the tub."
        ),
        source="",
        defers_to=MAKER,
    ),
)
