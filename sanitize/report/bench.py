"""The bench: the procedure to carry out, and what its readings give for a loop file; text and JSON."""

import json

from sanitize.basis.figure import Figure
from sanitize.basis.units import significant, to_shown
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.phrases import bare, sentence, unit_of
from sanitize.report.record import plain
from sanitize.studies.bench.result import BenchInjector, BenchResult

SCHEMA_VERSION = 1
WIDTH = 100

_STEPS = (
    (
        "You need",
        "a barrel of water, the pump, a few metres of clear hose that fits its outlet, a bucket whose volume you have "
        "weighed or measured, a watch, a tape measure; for the injector two clear tubes, a tee before its inlet, and "
        "a jar of water.",
    ),
    (
        "Set up",
        "Stand the pump beside or in the barrel, below the water, with a short wide suction that cannot draw air. Plug "
        "it into an outlet with a residual-current device (GFCI); keep plug, cable and hands dry, with a drip loop in "
        "the cable. The ozone unit stays unplugged and away from all of this.",
    ),
    (
        "No flow",
        "Push the hose on the outlet, start the pump and raise the hose's end until the flow just stops. Measure from "
        "the barrel's water up to the end: no_flow_height. Not for longer than a minute, as still water heats up.",
    ),
    (
        "Three heights",
        "Hold the end at three heights spread from near the water to near the one before, and at each take the time "
        "that fills the bucket, three times; the middle one counts. Let the water run back into the barrel, so that "
        "its level stays. Write heights and flows into flows.",
    ),
    (
        "The injector",
        "Put the injector on the hose's end, level, its outlet open to the air and pouring back into the barrel. On a "
        "tee right before its inlet stands a clear tube: the height of its water over the injector's middle is the "
        "inlet's pressure. A second clear tube runs from the gas port down into the jar: the height of the water in "
        "it over the jar's is the vacuum. Take the bucket's flow at the same time.",
    ),
    (
        "Other flows",
        "Squeeze the hose for two more flows, as far apart as the tubes allow. If the port's tube pulls water into the "
        "injector, the vacuum is more than the tube is high: lower the jar, or squeeze more.",
    ),
    (
        "Then",
        "Fill in the table below, save it, and run `sanitize fit --bench --measured FILE`: it gives the pump's curve "
        "and the injector's constants as lines for a loop file.",
    ),
)


def procedure_text(blank: str, *, width: int = WIDTH) -> str:
    """The steps at the bench, and the file to fill in."""
    steps = labelled(_STEPS, width)
    told = paragraph(
        "Common practice, without a source: a pump's label flatters, and an injector's own figures decide more than "
        "anything else. Half an hour with a bucket tells both before anything is glued.",
        width,
    )
    file = heading("The file to fill in") + "\n" + blank
    return "\n\n".join([heading("Bucket bench") + "\n" + told, steps, file])


def bench_json(result: BenchResult) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "bench", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def bench_text(result: BenchResult, *, width: int = WIDTH) -> str:
    """What the bench gives, and the lines for a loop file; ends with a line end."""
    blocks = [heading("The pump") + "\n" + _pump(result, width)]
    if result.injector is not None:
        blocks.append(heading("The injector") + "\n" + _injector(result.injector, result, width))
    blocks.append(heading("Lines for a loop file") + "\n" + _lines(result))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    return "\n\n".join(blocks) + "\n"


def _pump(result: BenchResult, width: int) -> str:
    flow, head = unit_of("flow", result.units), unit_of("head", result.units)
    rows = [
        (significant(to_shown(point.flow_m3s, "flow", flow)), bare(point.head_m, "head", head))
        for point in result.curve
    ]
    low, _, high = result.head_share_ratio.ends
    told = (
        f"Head over the barrel's water with what the hose took, low to high in brackets. The whole curve lies within "
        f"{100.0 * (low - 1.0):.0f} to +{100.0 * (high - 1.0):.0f} % of this."
    )
    return f"{table((f'flow {flow}', f'head {head}'), rows, width, 0)}\n{paragraph(told, width)}"


def _injector(item: BenchInjector, result: BenchResult, width: int) -> str:
    pressure, flow = unit_of("pressure", result.units), unit_of("flow", result.units)
    at_m3s = max(row[0] for row in item.rows)
    at = significant(to_shown(at_m3s, "flow", flow))

    def drop(figure: Figure) -> str:
        low, nominal, high = (end * at_m3s**2 for end in figure.ends)
        return f"{bare(Figure(low, nominal, high), 'pressure', pressure)} {pressure} at {at} {flow}"

    low, nominal, high = item.loss_ratio.ends
    rows = [
        ("Inlet to port", drop(item.inlet_to_port_pa_s2m6)),
        ("Outlet to port", drop(item.outlet_to_port_pa_s2m6)),
        ("Loss ratio", f"{nominal:.2g} ({low:.2g} to {high:.2g}): share of the fall from inlet to port that is lost."),
    ]
    return labelled(rows, width)


def _lines(result: BenchResult) -> str:
    flow, head, pressure = (unit_of(kind, result.units) for kind in ("flow", "head", "pressure"))

    def value(number: float, kind: str, unit: str) -> str:
        return f'"{significant(to_shown(number, kind, unit), 3)} {unit}"'

    points = ", ".join(
        f"[{value(point.flow_m3s, 'flow', flow)}, {value(point.head_m.ends[1], 'head', head)}]"
        for point in result.curve
    )
    low, _, high = result.head_share_ratio.ends
    lines = ["# of the pump:", f"curve = [{points}]", f'head_share = "1 ({low:.3f} to {min(high, 1.1):.3f})"']
    if result.injector is not None:
        rows = ", ".join(
            f"[{value(q, 'flow', flow)}, {value(inlet, 'pressure', pressure)}, {value(0.0, 'pressure', pressure)}, "
            f"{value(vacuum, 'vacuum', unit_of('vacuum', result.units))}]"
            for q, inlet, vacuum in result.injector.rows
        )
        lines += ["# of the injector:", f"bench = [{rows}]"]
    return "\n".join(lines)
