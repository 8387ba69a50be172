"""The suction answer as text: dangers, answer, reasons, states, cautions, notices, and where the numbers come from."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import Family, show
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.gas import gas_rows
from sanitize.report.numbers import numbers_lines
from sanitize.report.phrases import against_air, bare, figure, percent, sentence, share, short_share, unit_of
from sanitize.report.readings import readings_rows
from sanitize.studies.suction.result import PartAlong, State, Suction

WIDTH = 100
LOOP_WAY = "loop"
"""The way that the parts of the loop itself carry."""

_VERDICTS = {
    "draws": "the injector draws",
    "marginal": "the injector may or may not draw",
    "does_not_draw": "the injector does not draw",
}


def suction_text(result: Suction, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(_answer(result, width))
    blocks.append(heading("Why") + "\n" + paragraph(result.why, width) + "\n\n" + parts_table(result, width))
    blocks.append(heading("Water and air at the port, state by state") + "\n" + states_table(result, width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        told = "\n".join(paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices)
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + told)
    blocks.append(heading("Numbers used, and where they come from") + "\n" + numbers_lines(result, width))
    return "\n\n".join(blocks) + "\n"


def verdict_line(result: Suction) -> str:
    """The verdict with its share of the cases."""
    verdict = _VERDICTS[result.verdict]
    if result.cases_count == 0:
        return f"{verdict}, in the one case computed; no ranges were drawn."
    return (
        f"{verdict}: it does in {share(result.draws_share_ratio)} of the {result.cases_count} cases that the file "
        f"leaves open (seed {result.seed})."
    )


def _answer(result: Suction, width: int) -> str:
    family = result.units
    rows = [
        ("Verdict", sentence(verdict_line(result))),
        ("Vacuum at the port", _vacuum(result)),
        ("Water flow", figure(result.flow_port_closed_m3s, "flow", family) + _through_injector(result)),
        *gas_rows(result),
        ("Onset", onset_words(result)),
        ("To spare", _to_spare(result)),
        ("Rule of thumb", _rule_of_thumb(result)),
        ("At the injector", _pressures(result)),
        ("Pump", _pump(result)),
        ("Tub volume passes in", figure(result.turnover_s, "time", family)),
        *readings_rows(result),
    ]
    return heading("Will the injector draw?") + "\n" + labelled(rows, width)


def _vacuum(result: Suction) -> str:
    family = result.units
    pressure = result.port_pressure_closed_pa_gauge
    text = f"{against_air(pressure, family)}, gas line closed, water running at its normal level."
    if pressure.ends[1] >= 0.0:
        return f"None: the pressure pushes water out, {text}"
    if pressure.ends[2] > 0.0:
        text += " At the high end the pressure pushes water out."
    opens = figure(result.check_valve_opens_at_pa, "vacuum", family)
    return text + (f" The check valve opens at {opens}." if result.check_valve_opens_at_pa.ends[2] > 0.0 else "")


def _through_injector(result: Suction) -> str:
    total, own = result.flow_port_closed_m3s.ends[1], result.injector_flow_port_closed_m3s.ends[1]
    if abs(total - own) <= 0.005 * abs(total):
        return ", gas line closed."
    return (
        f", gas line closed; through the injector {figure(result.injector_flow_port_closed_m3s, 'flow', result.units)}."
    )


def onset_words(result: Suction) -> str:
    """From which flow through the injector it draws, or below which, or that it never does.

    Onset 0 means any flow; none means at no flow up to the pump's largest.
    """
    onset, below = result.onset_flow_m3s, result.draws_below_flow_m3s
    if onset.nominal is None:
        can = "" if onset.low is None else " (at the good end from " + _flow(onset.low, result.units) + ")"
        return f"Never, up to the pump's largest flow{can}."
    if onset.nominal > 0.0:
        return f"Draws once {_ends(onset, 'any flow', 'never', result.units)} pass the injector."
    if below.nominal is not None:
        return f"Draws only below {figure(below, 'flow', result.units, never='no limit')}: more flow stops it."
    worst = []
    if onset.high is None or onset.high > 0.0:
        worst.append("never" if onset.high is None else f"only from {_flow(onset.high, result.units)} on")
    if below.low is not None:
        worst.append(f"only below {_flow(below.low, result.units)}")
    return f"Draws at any flow; at the bad end {' or '.join(worst)}." if worst else "Draws at any flow."


def _flow(value: float, family: Family) -> str:
    return "any flow" if value == 0.0 else show(value, "flow", family)


def _ends(onset: Figure, zero: str, never: str, family: Family) -> str:
    text = figure(onset, "flow", family, never=never)
    return text.replace("(0 to", f"({zero} to")


def _to_spare(result: Suction) -> str:
    extra = result.extra_return_pressure_pa_diff
    if extra.nominal is None or extra.nominal <= 0.0:
        good = "" if extra.high is None or extra.high <= 0.0 else f"; at the good end {_pressure(extra.high, result)}"
        return f"Nothing: the return has no pressure left to gain{good}."
    return f"The return could gain {figure(extra, 'pressure', result.units)} before it stops drawing."


def _pressure(value: float, result: Suction) -> str:
    return show(value, "pressure", result.units)


def _rule_of_thumb(result: Suction) -> str:
    return (
        f"The pressure lost across an injector should be about {100.0 * result.rule_of_thumb_ratio:.0f} % of its inlet "
        f"pressure. Here it is {percent(result.differential_share_ratio)}; this injector's own figure, its loss ratio, "
        f"is {percent(result.loss_ratio)}, of the inlet pressure and the check valve's opening together."
    )


def _pressures(result: Suction) -> str:
    family = result.units
    return (
        f"Inlet {figure(result.injector_inlet_pressure_pa_gauge, 'pressure', family)}, outlet "
        f"{figure(result.injector_outlet_pressure_pa_gauge, 'pressure', family)} over the air; it draws while the "
        f"outlet stays below {figure(result.outlet_pressure_limit_pa_gauge, 'pressure', family)}."
    )


def _pump(result: Suction) -> str:
    return (
        f"Gives {figure(result.pump_head_m, 'head', result.units)} of head, "
        f"{figure(result.pump_power_to_water_w, 'power', result.units)} to the water."
    )


def parts_table(result: Suction, width: int = WIDTH) -> str:
    """The loop part by part in the order of the water."""
    family = result.units
    flow, velocity, head, pressure = (unit_of(kind, family) for kind in ("flow", "velocity", "head", "pressure"))
    names = ("part", f"flow {flow}", f"speed {velocity}", f"loss {head}", "share", f"behind {pressure}")

    def row(part: PartAlong) -> tuple[str, ...]:
        nominal = part.power_share_ratio.ends[1]
        return (
            _row_name(part),
            bare(part.flow_m3s, "flow", flow).split(" ")[0],
            bare(part.velocity_ms, "velocity", velocity).split(" ")[0],
            bare(part.head_loss_m, "head", head),
            "-" if nominal == 0.0 else short_share(nominal),
            bare(part.pressure_behind_pa_gauge, "pressure", pressure),
        )

    lines = table(names, [row(part) for part in result.parts], width)
    legend = (
        "Loss is of head; a pump's is negative, as it gives head. Share is of all the power that the water loses. "
        "Behind is the pressure over the air behind the part. In brackets, low to high. Gas line closed."
    )
    return f"{lines}\n{paragraph(legend, width)}"


def _row_name(part: PartAlong) -> str:
    """A part's name, set in where it stands in a way; of a way's tee only what the way does there."""
    if part.way in ("", LOOP_WAY):
        return part.name
    return "  " + (part.name.partition(": ")[2] if part.part == "tee" and ": " in part.name else part.name)


def states_table(result: Suction, width: int = WIDTH) -> str:
    """What the port sees in every state, with the gas line's check valve sound and leaking, or without one."""
    groups: dict[tuple[str, str], list[State]] = {}
    for state in result.states:
        groups.setdefault((state.state, state.level), []).append(state)
    lines = []
    for (name, level), states in groups.items():
        water = "normal level" if level == "normal" else "full to the rim"
        lines.append(f"{name}, {water}: {against_air(states[0].port_pressure_pa_gauge, result.units)}")
        if len({state.text for state in states}) == 1 and len(states) > 1:
            lines.append(paragraph(states[0].text, width, "  valve sound or leaking: ", "    "))
            continue
        for state in states:
            valve = "no check valve" if state.check_valve == "none" else f"valve {state.check_valve}"
            lines.append(paragraph(state.text, width, f"  {valve}: ", "    "))
    return "\n".join(lines)
