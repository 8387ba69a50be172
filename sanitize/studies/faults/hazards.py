"""Which faults are dangerous, and why: to each row its hazards, and to each hazard its faults."""

from collections.abc import Sequence
from dataclasses import dataclass

from sanitize.basis.units import show
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller
from sanitize.studies.cautions.caution import Caution, Severity
from sanitize.studies.cautions.rule import AUTHORITY, ELECTRICIAN, LOCAL_CODE, MAKER, joined
from sanitize.studies.faults.result import FaultRow, Hazard, HazardCode
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.result import BlockedSuction


@dataclass(frozen=True)
class Kind:
    """What a hazard means to people, whatever the fault; gravest: how far it can go."""

    gravest: Severity
    text: str
    action: str
    source: str
    defers_to: str


KINDS: dict[HazardCode, Kind] = {
    "water-in-ozone-unit": Kind(
        "danger",
        "Water runs up the gas line into the ozone unit: electric shock, a ruined unit, a tub that empties itself.",
        "Lead the gas line in a loop well above the rim, mount the unit higher than that with a water trap before it, "
        "and replace the check valve every year.",
        "dguv_103_015",
        MAKER,
    ),
    "suction-holds": Kind(
        "danger",
        "A covered suction holds hair, a hand or a body under water as long as the pump runs.",
        "Stop the pump first, then free what is held; keep its switch within reach of the tub, and show it to "
        "everybody.",
        "cpsc_vgb_2011",
        AUTHORITY,
    ),
    "ozone-from-unit": Kind(
        "danger",
        "The ozone unit runs on while no gas is drawn: what it makes fills its line and leaves into the air that "
        "people breathe, through the unit's air inlet and every joint.",
        "Let the unit run only with the pump on and vacuum at the port (a flow or vacuum switch, or one timer for "
        "both); after such a fault switch it off and ventilate before anybody goes near.",
        "ccdeh_2007",
        LOCAL_CODE,
    ),
    "pump-overheats": Kind(
        "caution",
        "A pump that moves no water heats what stands in it, burns its seal and may scald or leak.",
        "Switch it off at once, let it cool, find why the water stands, and fill it before the next start.",
        "",
        MAKER,
    ),
    "chiller-freezes": Kind(
        "caution",
        "Too little water passes the chiller: ice can burst its exchanger, and its coolant then mixes with the water.",
        "Give the chiller a flow switch that stops it, and switch it off by hand when the flow fails.",
        "",
        MAKER,
    ),
    "water-overflows": Kind(
        "caution",
        "A tub this full runs over when somebody gets in: water on the floor near plugs and machines.",
        "Let water out to the normal level, and keep every plug and machine above and away from where it would run.",
        "",
        ELECTRICIAN,
    ),
    "gas-line-wet": Kind(
        "caution",
        "Water stands in the gas line: its check valve has let it through, and wet ozone makes nitric acid.",
        "Switch the unit off, drain the line away from the unit, and replace the check valve before the next start.",
        "",
        MAKER,
    ),
    "water-untreated": Kind(
        "caution",
        "The water is no longer filtered, or no ozone reaches it: germs and dirt grow meanwhile.",
        "Until it is mended keep the other sanitizer at its upper limit, test it before every use, and stay out when "
        "the water is cloudy.",
        "ccdeh_2007",
        AUTHORITY,
    ),
}
"""In the order of their weight."""


def hazards_of(
    plant: Plant, row: FaultRow, running: Run | None, blocked: Sequence[BlockedSuction]
) -> tuple[Hazard, ...]:
    """Every hazard of one fault in this loop, the gravest first."""
    found = [
        *_water_in_unit(plant, row),
        *_suction(plant, row, blocked),
        *_ozone(plant, row),
        *_pump(row),
        *_chiller(plant, row, running),
        *_wet(row),
        *_untreated(row),
    ]
    return tuple(sorted(found, key=lambda hazard: hazard.severity != "danger"))


def gathered(sound: FaultRow, rows: Sequence[FaultRow]) -> tuple[Caution, ...]:
    """Each kind of hazard once, with the faults that bring it: as danger, and as caution where it is less."""
    found: list[Caution] = []
    severities: tuple[Severity, ...] = ("danger", "caution")
    for severity in severities:
        for code, kind in KINDS.items():
            faults = [row.fault for row in rows if _has(row, code, severity)]
            already = _has(sound, code, severity)
            if not faults and not already:
                continue
            may = "may " if severity == "caution" else ""
            told = f"Faults that {may}do this: {joined(faults)}." if faults else ""
            if already:
                told = f"{'It may happen' if may else 'It happens'} with nothing wrong already. {told}"
            text = f"{kind.text} {told}".rstrip()
            found.append(_caution(code, severity, text))
    return tuple(found)


def all_fault_cautions() -> tuple[Caution, ...]:
    """Every hazard that a fault may bring, in general words and at its gravest."""
    return tuple(_caution(code, kind.gravest, kind.text) for code, kind in KINDS.items())


def _caution(code: HazardCode, severity: Severity, text: str) -> Caution:
    kind = KINDS[code]
    return Caution(f"fault-{code}", severity, text, kind.action, kind.source, kind.defers_to)


def _has(row: FaultRow, code: HazardCode, severity: Severity) -> bool:
    return any(hazard.code == code and hazard.severity == severity for hazard in row.hazards)


def _water_in_unit(plant: Plant, row: FaultRow) -> list[Hazard]:
    def told(severity: Severity, height_m: float, more: str) -> list[Hazard]:
        height = show(height_m, "length", plant.units)
        return [
            Hazard(
                "water-in-ozone-unit",
                severity,
                f"Water can rise to {height} in the gas line and run into the ozone unit{more}.",
            )
        ]

    if row.reaches_ozone_unit:
        return told("danger", row.water_height_m.ends[2], "")
    worse = [item for item in row.standings if item.reaches_ozone_unit]
    if not worse:
        return []
    highest = max(item.water_height_m.ends[2] for item in worse)
    reasons = []
    if any(item.check_valve == "leaking" for item in worse) and row.fault != "gas check valve leaking":
        reasons.append("its check valve leaks as well")
    if all(item.level == "rim" for item in worse) and row.level != "rim":
        reasons.append("the tub is full to the rim")
    return told("caution", highest, f" where {joined(reasons)}" if reasons else "")


def _suction(plant: Plant, row: FaultRow, blocked: Sequence[BlockedSuction]) -> list[Hazard]:
    if row.fault not in ("suction blocked", "suction partly blocked"):
        return []
    pulls = "; ".join(
        f"{item.name} pulls with up to {show(item.vacuum_pa_diff, 'vacuum', plant.units)} of vacuum and holds with up "
        f"to {show(item.force_n, 'force', plant.units)}"
        for item in blocked
    )
    if row.fault == "suction blocked":
        return [Hazard("suction-holds", "danger", f"Fully covered, {pulls}.")]
    return [Hazard("suction-holds", "caution", f"What covers a part may come to cover all of it: then {pulls}.")]


def _ozone(plant: Plant, row: FaultRow) -> list[Hazard]:
    if not row.ozone_leaves_unit:
        return []
    outdoors = plant.tub.place == "outdoors"
    where = "the air over and around the tub" if outdoors else "the room's air"
    always = row.gas_flow_m3s.ends[2] <= 0.0
    text = f"Ozone that the unit goes on making {'leaves' if always else 'may leave'} into {where}."
    return [Hazard("ozone-from-unit", "danger" if always and not outdoors else "caution", text)]


def _pump(row: FaultRow) -> list[Hazard]:
    if row.fault == "pump stopped":
        return [
            Hazard(
                "pump-overheats", "caution", "A pump that hums without turning is stuck: it gets hot within minutes."
            )
        ]
    if row.water_moves:
        return []
    text = {
        "return shut": "The pump churns the same water: pump and water in it get hot.",
        "suction blocked": "The pump churns the same water under vacuum and gets hot.",
        "suction uncovered": "The pump runs dry: its seal is gone within minutes.",
    }.get(row.fault, "The pump moves no water.")
    return [Hazard("pump-overheats", "caution", text)]


def _chiller(plant: Plant, row: FaultRow, running: Run | None) -> list[Hazard]:
    short = []
    for part in walk(plant.loop):
        if not isinstance(part, Chiller):
            continue
        if running is None:
            short.append(f"{part.name} gets no water")
        elif part.min_flow_m3s is not None:
            low = figure(running.station(part.name).flow_m3s[running.solved]).low
            if low is None:
                short.append(f"{part.name} gets no steady water")
            elif low < part.min_flow_m3s:
                least = show(part.min_flow_m3s, "flow", plant.units)
                short.append(f"{part.name} may get only {show(low, 'flow', plant.units)} of the {least} that it needs")
        elif row.fault == "chiller blocked":
            short.append(f"{part.name} gets less water than its maker meant")
    return [Hazard("chiller-freezes", "caution", f"{joined(short)}: ice can burst it.")] if short else []


def _wet(row: FaultRow) -> list[Hazard]:
    if row.fault == "gas line full of water":
        return [Hazard("gas-line-wet", "caution", "The water came past the check valve, so that valve leaks.")]
    if row.fault == "tub over-full":
        return [Hazard("water-overflows", "caution", "The next person who gets in drives water over the rim.")]
    return []


def _untreated(row: FaultRow) -> list[Hazard]:
    if row.fault == "nothing wrong":
        return []
    if not row.water_moves:
        return [Hazard("water-untreated", "caution", "Nothing is filtered, and no ozone reaches the water.")]
    if row.flow_m3s.nominal is None:
        text = "Without a steady flow the water may be neither filtered nor given ozone."
        return [Hazard("water-untreated", "caution", text)]
    if row.gas_flow_m3s.ends[1] <= 0.0:
        most_likely = "No" if row.gas_flow_m3s.ends[2] <= 0.0 else "Most likely no"
        return [Hazard("water-untreated", "caution", f"{most_likely} ozone reaches the water.")]
    if row.fault == "filter torn":
        return [Hazard("water-untreated", "caution", "Dirt passes the filter and comes back into the tub.")]
    return []
