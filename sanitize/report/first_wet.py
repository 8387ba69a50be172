"""The sheet for the first filling: text to print, and JSON."""

import json

from sanitize.basis.units import show, significant, to_shown
from sanitize.plant.measured import Measured
from sanitize.plant.spec import specs
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph
from sanitize.report.phrases import bare, figure, sentence, share, unit_of
from sanitize.report.record import plain
from sanitize.studies.first_wet.result import FirstWet, Line, Suspect
from sanitize.studies.first_wet.study import NAMES_FROM_RATIO
from sanitize.studies.suction.predicted import CONDITIONS

SCHEMA_VERSION = 1
WIDTH = 100


def first_wet_json(result: FirstWet) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "first_wet", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def first_wet_text(result: FirstWet, *, width: int = WIDTH) -> str:
    """The sheet for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(heading("First filling: the ozone unit stays unplugged to the end") + "\n" + _about(result, width))
    steps = [*_before(result), *_running(result), *_after(result)]
    blocks += [
        f"[ ] {number}. {title}\n" + labelled(rows, width) for number, (title, rows) in enumerate(steps, start=1)
    ]
    if result.unseen:
        told = (
            f"This sheet does not show, in at least half of their cases: {', '.join(result.unseen)}. Narrower ranges "
            "in the file, or `sanitize fit` after the readings, tell more."
        )
        blocks.append(heading("What the sheet does not see") + "\n" + paragraph(told, width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    return "\n\n".join(blocks) + "\n"


Rows = list[tuple[str, str]]


def _about(result: FirstWet, width: int) -> str:
    return paragraph(
        "Take the readings in this order and write them down. The bands are as wide as lets "
        f"{share(result.passes_ratio)} of the sound loops that the file allows pass every line, reading errors "
        f"included ({result.cases_count} cases, seed {result.seed}). A stop line means: switch the pump off before "
        "anything else. A pass is no proof that nothing is wrong.",
        width,
    )


def _before(result: FirstWet) -> list[tuple[str, Rows]]:
    """What comes before the pump runs."""
    highest = figure(result.highest_point_m, "length", result.units)
    height = figure(result.off_water_height_m, "length", result.units)
    line: Rows = [
        ("Do", "Fill to the normal level, slowly. Set every hand valve as the loop file has it, fully open where it "
         "says nothing. Look at each joint, then at the gas line."),
        ("Expect", f"Dry joints. Water in the gas line no higher than {height} over the mark of all heights."),
        ("Stop", f"Water rises towards the highest point of the gas line, at {highest}: close the gas line, drain, and "
         "lead it higher."),
    ]  # fmt: skip
    if result.has_check_valve:
        line.append(("A miss", "Water above the check valve: the valve leaks or stands the wrong way round."))
    return [
        (
            "Dry",
            [
                ("Do", "Ozone unit unplugged, its gas line closed with a clamp. Pump on a residual-current device "
                 "(GFCI), its cable with a drip loop. Suction covers screwed on, unions hand-tight."),
                ("Stop", "A cover is missing or cracked."),
            ],
        ),
        ("Filled, pump off", line),
        (
            "Pump on",
            [
                ("Do", "Start the pump and watch the return."),
                ("Expect", "A steady stream without air within a minute (common practice)."),
                ("Stop", "No stream after a minute, a rattling pump, or a gauge behind the pump near "
                 f"{show(result.shut_off_pressure_pa_gauge, 'pressure', result.units)}, which is its pressure with the "
                 "return shut."),
                ("A miss", "Bubbles in the stream or under the pump's lid: air leaks in before the pump. No stream: a "
                 "closed valve, or a pump above the water that does not prime."),
            ],
        ),
    ]  # fmt: skip


_TITLES = {
    "bucket_flow_m3s": ("Bucket flow", "No flow, or the pump heats up."),
    "pump_inlet_pa_gauge": (
        "Gauge before the pump",
        "It falls while the stream dies or the pump rattles, as a suction is blocked: pump off first, then free it.",
    ),
    "pump_pa_gauge": ("Gauge behind the pump", "The gauge climbs while the stream dies: a return is shut."),
    "filter_drop_pa": ("Gauges before and behind the filter", "The housing's lid weeps or lifts."),
    "chiller_drop_k": (
        "Thermometer at both hoses of the chiller",
        "Its display reports too little flow, or ice shows: chiller off, and let the pump run on.",
    ),
    "port_vacuum_pa": (
        "Vacuum at the closed port",
        "The gauge pushes instead of pulling: water would run up the gas line; keep it clamped.",
    ),
    "port_vacuum_open_pa": (
        "Vacuum at the port, gas line open",
        "Water appears in the gas line above the check valve: clamp it.",
    ),
    "gas_flow_m3s": (
        "Gas flow, or bubbles in the return",
        "Water appears in the gas line above the check valve: clamp it.",
    ),
}


def _running(result: FirstWet) -> list[tuple[str, Rows]]:
    """The readings with their bands."""
    found = []
    for line in result.lines:
        title, stop = _TITLES[line.reading]
        spec = specs(Measured)[line.reading]
        unit = unit_of(line.kind, result.units)
        rows: Rows = [
            ("Do", f"{spec.help} Write it down as `{spec.key}`: ______ {unit}{_beside(line.reading, result)}"),
            ("Expect", f"{bare(line.expected, line.kind, unit)} {unit}"),
            ("Pass", _band(line, unit)),
            ("Too low", _names(line.too_low)),
            ("Too high", _names(line.too_high)),
            ("Stop", stop),
        ]
        found.append((title, rows))
    return found


def _beside(reading: str, result: FirstWet) -> str:
    """The temperatures to write down beside the chiller's, which hangs on them."""
    if reading != "chiller_drop_k":
        return ""
    unit = unit_of("temperature", result.units)
    water, air = (specs(Measured)[name].key for name in CONDITIONS)
    return f"; and beside it the tub as `{water}`: ______ {unit}, the air at the chiller as `{air}`: ______ {unit}"


def _band(line: Line, unit: str) -> str:
    low, high = (significant(to_shown(end, line.kind, unit), 2) for end in (line.low_limit, line.high_limit))
    if line.low_limit <= 0.0 and line.kind in ("flow", "gas flow"):
        return f"up to {high} {unit}; nothing at all is within the band too"
    return f"{low} to {high} {unit}"


def _names(suspects: tuple[Suspect, ...]) -> str:
    if not suspects:
        return "Read again: no single fault of this loop brings it there in a tenth of its cases."
    told = "; ".join(f"{item.fault} ({share(item.share_ratio)} of its cases)" for item in suspects)
    if suspects[0].share_ratio < NAMES_FROM_RATIO:
        return f"Read again: no single fault brings it there in half of its cases; nearest come {told}."
    return f"{told}."


def _after(result: FirstWet) -> list[tuple[str, Rows]]:
    """What comes after the readings."""
    return [
        (
            "Pump off again",
            [
                ("Do", "Switch the pump off and watch the gas line for ten minutes."),
                ("Expect", "No water above the check valve; the water in the tub at the level of before."),
                ("Stop", "Water creeps up the gas line: the check valve leaks. Replace it before any ozone unit is "
                 "connected."),
            ],
        ),
        (
            "Ozone unit last",
            [
                ("Do", "Only when every line has passed: connect the unit with the pump running, so that it cannot run "
                 "without it, with an ozone meter where people breathe and nobody in the tub."),
                ("Stop", "The meter rises, anybody smells ozone, or a bubble stream turns back: unplug the unit, "
                 "everybody out, ventilate."),
            ],
        ),
    ]  # fmt: skip
