"""Each fault in plain words: what is assumed, where water, air and ozone go, what a person sees, what to do."""

from dataclasses import dataclass

from sanitize.basis.figure_words import against_air
from sanitize.basis.figure_words import figure as told
from sanitize.basis.tables import default, model_table
from sanitize.basis.units import show, show_range
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter
from sanitize.studies.faults.fixed_words import FIXED
from sanitize.studies.faults.result import FaultName, FaultRow, Standing

SAME_RATIO = 0.02
"""Change of flow that nobody sees in a bucket (an estimate)."""
MORE_GAS_RATIO = 1.3
"""Change of the gas flow that is seen in the bubbles (an estimate)."""


@dataclass(frozen=True)
class Told:
    """The sentences of one row."""

    assumed: str
    water: str
    air: str
    ozone: str
    seen: str
    action: str


def tell(plant: Plant, row: FaultRow, sound: FaultRow | None) -> Told:
    """The sentences of a row; `sound` is the row with nothing wrong, to compare with."""
    seen = (
        _flow_seen(plant, row, sound),
        _bubbles(row, sound) + (PINCHED if row.air_enters_before_pump and row.water_moves else ""),
        _gauges(plant, row),
        FIXED[row.fault].sound,
    )
    return Told(
        assumed=_assumed(plant, row.fault),
        water=_water(plant, row),
        air=_air(plant, row, sound),
        ozone=_ozone(plant, row),
        seen=" ".join(seen),
        action=FIXED[row.fault].action,
    )


NOT_STEADY = "No steady flow is found: the pump no longer lifts the water, or a way would run backwards."
PINCHED = " Bubbles come back with the water that go on when the gas line is pinched shut."


def _size(name: str) -> str:
    entry = model_table("fault_sizes")[(name,)]
    return f"{100.0 * entry.value:.0f} % ({100.0 * entry.low:.0f} to {100.0 * entry.high:.0f})"


def _assumed(plant: Plant, fault: FaultName) -> str:
    lost = model_table("fault_sizes")[("low_level_drop_m",)]
    texts: dict[FaultName, str] = {
        "nothing wrong": "Everything as the file says, the pump running, the tub at its normal level.",
        "return shut": "Every return is shut while the pump runs at the upper end of its curve.",
        "return partly blocked": f"{_size('return_blocked_ratio')} of every return's opening is covered.",
        "gas check valve leaking": "The gas line's check valve lets water back, and opens without any vacuum.",
        "gas check valve stuck shut": "The gas line's check valve does not open.",
        "filter loaded": f"The filter's drop at its rated flow has grown {_loaded(plant)} times.",
        "filter torn": "The filter's cloth is torn or taken out: only its housing resists.",
        "suction blocked": "Every suction is covered wholly while the pump runs.",
        "suction partly blocked": f"{_size('suction_blocked_ratio')} of every suction's opening is covered.",
        "air leak before the pump": (
            f"Air that leaks in leaves the pump {_size('air_leak_head_ratio')} of its head, in those cases in which "
            "its inlet stands below the pressure of the air."
        ),
        "pump stopped": "The pump stands, the ozone unit may run on.",
        "pump worn": (
            f"The pump gives {_size('worn_pump_head_ratio')} of its head at equal flow; that it moves less at no head, "
            "as a worn pump does, is left out."
        ),
        "tub over-full": "The water stands at the rim, the pump runs.",
        "tub low": (
            f"The water stands {show_range(lost.low, lost.value, lost.high, 'length', plant.units)} below its normal "
            "level, but still over the suction; the pump runs."
        ),
        "suction uncovered": "The water has sunk to the middle of the highest suction while the pump runs.",
        "chiller blocked": f"{_size('chiller_blocked_ratio')} of the chiller's passages are filled with ice or dirt.",
        "gas line kinked": "Nothing passes the gas line in either direction.",
        "gas line full of water": "Water fills the gas line from the port up to its highest point.",
    }
    return texts[fault]


def _loaded(plant: Plant) -> str:
    stated = [part.loaded_ratio for part in walk(plant.loop) if isinstance(part, Filter)]
    ratios = {default("filter_loaded_ratio").value if ratio is None else ratio for ratio in stated}
    return " or ".join(f"{ratio:g}" for ratio in sorted(ratios))


def _water(plant: Plant, row: FaultRow) -> str:
    has_valve = plant.gas_line is None or plant.gas_line.check_valve
    text = FIXED[row.fault].water
    for item in row.standings:
        if item.level != row.level or (item.check_valve == "sound" and has_valve):
            continue
        if item.water_height_m.nominal is None:
            continue
        if row.fault == "gas check valve leaking":
            start = f"With the pump {item.pump}"
        elif item.pump == row.standings[0].pump and item.port_pressure_pa_gauge.ends[2] > 0.0:
            start = "Should the gas line's check valve leak as well" if has_valve else "With no check valve"
        else:
            continue
        told_of_line = _in_line(plant, item, start)
        text += "" if told_of_line in text else f" {told_of_line}"
    return text


def _in_line(plant: Plant, item: Standing, start: str) -> str:
    """Where the water can stand in the gas line that nothing holds back, after a few words that say when."""
    height = show(item.water_height_m.ends[2], "length", plant.units)
    if item.passes_highest_point:
        return f"{start}, water can rise to {height} in the gas line, over its top, and run into the ozone unit."
    if item.port_pressure_pa_gauge.ends[2] <= 0.0:
        return f"{start}, no water rises in the gas line."
    return f"{start}, water can stand up to {height} in the gas line, below its top."


def _air(plant: Plant, row: FaultRow, sound: FaultRow | None) -> str:
    if row.fault == "suction uncovered":
        return "Air enters at the suction and fills pump and pipes."
    if not row.water_moves:
        if row.air_enters:
            return "Air may enter at the port; then the raised part of the loop drains into the tub."
        return "No air enters at the port."
    inlet = row.pump_inlet_pressure_pa_gauge
    tight = None if sound is None else sound.pump_inlet_pressure_pa_gauge
    if row.fault == "air leak before the pump" and not row.air_enters_before_pump:
        start = (
            "The pump's inlet stands above the pressure of the air: a leak there drips water and lets no air in while "
            "the pump runs. "
        )
    elif row.fault == "air leak before the pump" and tight is not None:
        start = f"Air may enter at the leak: with nothing wrong the inlet stands at {against_air(tight, plant.units)}. "
    elif row.fault == "suction partly blocked" and inlet is not None and inlet.ends[0] < 0.0:
        start = "Every joint before the pump that is not tight may let air in. "
    else:
        start = ""
    return start + _gas(plant, row)


def _gas(plant: Plant, row: FaultRow) -> str:
    if row.gas_flow_m3s.nominal is None:
        return "Whether gas is drawn is not known, as no steady flow is found."
    low, nominal, high = row.gas_flow_m3s.ends
    if high <= 0.0:
        return "No gas is drawn at the port."
    if nominal <= 0.0:
        return f"Most likely no gas is drawn at the port, at the most {show(high, 'gas flow', plant.units)}."
    drawn = told(row.gas_flow_m3s, "gas flow", plant.units)
    return f"The injector draws {drawn} of gas{', at the low end none' if low <= 0.0 else ''}."


def _ozone(plant: Plant, row: FaultRow) -> str:
    out = "into the open air" if plant.tub.place == "outdoors" else "into the air of the room"
    off = f"What the ozone unit goes on making leaves at the unit and at every joint of its line, {out}."
    low, nominal, high = row.gas_flow_m3s.ends
    if row.gas_flow_m3s.nominal is None:
        return f"Whether ozone reaches the water is not known. Where it does not: {_small(off)}"
    if high <= 0.0:
        return f"No ozone reaches the water. {off}"
    if nominal <= 0.0:
        return f"Most likely no ozone reaches the water. {off}"
    text = f"Ozone goes into the water with the gas; what does not dissolve rises at the return and leaves {out}."
    return text + (" Where no gas is drawn, it leaves at the unit instead." if low <= 0.0 else "")


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]


def _flow_seen(plant: Plant, row: FaultRow, sound: FaultRow | None) -> str:
    if not row.water_moves:
        return "No water comes back into the tub."
    if row.flow_m3s.nominal is None:
        return NOT_STEADY
    flow = told(row.flow_m3s, "flow", plant.units)
    failing = 1.0 - row.steady_share_ratio
    if failing > 0.5:
        return f"{NOT_STEADY} That is so in {100.0 * failing:.0f} % of the cases; in the others the flow is {flow}."
    rest = "" if failing < 0.01 else f" In {100.0 * failing:.0f} % of the cases no steady flow is found."
    if sound is None or sound.flow_m3s.nominal is None:
        return f"The flow is {flow}.{rest}"
    change = row.flow_m3s.nominal / sound.flow_m3s.nominal - 1.0
    if abs(change) <= SAME_RATIO:
        return f"The flow stays much as it is, {flow}.{rest}"
    before = show(sound.flow_m3s.nominal, "flow", plant.units)
    return f"The flow {'rises' if change > 0.0 else 'falls'} from {before} to {flow}.{rest}"


def _bubbles(row: FaultRow, sound: FaultRow | None) -> str:
    _, nominal, high = row.gas_flow_m3s.ends
    if high <= 0.0 or row.gas_flow_m3s.nominal is None:
        return "No bubbles of gas at the return."
    if nominal <= 0.0:
        return "Most likely no bubbles of gas at the return."
    if sound is None:
        return "Fine bubbles at the return."
    before = sound.gas_flow_m3s.ends[1]
    if nominal > MORE_GAS_RATIO * before:
        return "More bubbles at the return than with nothing wrong."
    if nominal * MORE_GAS_RATIO < before:
        return "Fewer bubbles at the return than with nothing wrong."
    return "About as many bubbles at the return as with nothing wrong."


AT_INLET: tuple[FaultName, ...] = (
    "suction partly blocked",
    "air leak before the pump",
    "pump worn",
    "return partly blocked",
)
"""Faults that a gauge at the pump's inlet tells from each other."""
AT_FILTER: tuple[FaultName, ...] = ("nothing wrong", "filter loaded", "filter torn")
"""Faults that gauges around the filter tell from each other."""


def _gauges(plant: Plant, row: FaultRow) -> str:
    closed = row.port_pressure_closed_pa_gauge
    if closed.nominal is None:
        return "A vacuum gauge on the closed port shows nothing steady."
    text = f"A vacuum gauge on the closed port reads {against_air(closed, plant.units)}"
    inlet, drop = row.pump_inlet_pressure_pa_gauge, row.filter_drop_pa_diff
    if row.fault in AT_INLET and inlet is not None:
        text += f", a gauge at the pump's inlet {against_air(inlet, plant.units)}"
    if row.fault in AT_FILTER and drop is not None:
        text += f"; the filter takes {told(drop, 'pressure', plant.units)}"
    return text + "."
