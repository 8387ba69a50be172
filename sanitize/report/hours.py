"""The run time's answer as text, dangers first."""

from sanitize.basis.figure import Figure
from sanitize.basis.tables import model_table, sources
from sanitize.basis.units import show, significant
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.hours_energy import energy_block, speeds_block
from sanitize.report.hours_heat import heat_block
from sanitize.report.hours_plan import plan_block
from sanitize.report.numbers import number_line
from sanitize.report.phrases import bare, figure, sentence
from sanitize.report.sources import citation
from sanitize.studies.hours.result import Hours, Need, NeedName
from sanitize.studies.timer.result import Plan

WIDTH = 100
NEVER = "never"


def hours_text(result: Hours, plan: Plan, *, width: int = WIDTH) -> str:
    """The whole answer with its plan for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(heading("How long must the pump run?") + "\n" + labelled(_answer(result), width))
    blocks.append(heading("What the timer does") + "\n" + plan_block(result, plan, width))
    blocks.append(heading("What asks for it") + "\n" + _needs(result, width))
    blocks.append(heading("Heat") + "\n" + heat_block(result, width))
    if result.speeds is not None:
        blocks.append(heading("Other speeds") + "\n" + speeds_block(result, width))
    blocks.append(heading("Energy without a timer") + "\n" + energy_block(result, width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(result, width))
    return "\n\n".join(blocks) + "\n"


def hours_a_day(run_s: Figure) -> str:
    """A time a day in hours with its range.

    >>> hours_a_day(Figure(3600.0, 7200.0, None)), hours_a_day(Figure(None, None, None))
    ('2.0 h (1.0 to never)', 'never')
    """
    text = bare(run_s, "time", "h")
    number, space, rest = text.partition(" ")
    if number == "-":
        return NEVER if run_s.low is None else f"{NEVER} ({rest.strip('()')})".replace("-", NEVER)
    return f"{number} h{space}{rest}".replace("to -", f"to {NEVER}")


def _answer(result: Hours) -> list[tuple[str, str]]:
    family = result.units
    nominal = result.run_s.ends[1]
    decides = f"{hours_a_day(result.run_s)} a day: {result.binding_need} decide{_plural(result.binding_need)}."
    if nominal > 86400.0:
        decides += " A day does not suffice: the pump runs all 24 h and still falls short."
    rows = [("Run time", decides)]
    for need in result.needs:
        if need.above_a_day:
            what = "cannot be met by any run time" if not need.counts else f"asks for {hours_a_day(need.run_s)} a day"
            rows.append(("Not met", f"{sentence(need.name)} {what}: {need.decides}. What would help: {need.helps}."))
    clean, loaded = (figure(flow, "flow", family) for flow in (result.flow_m3s, result.loaded_flow_m3s))
    rows += [
        (
            "Flow",
            f"{clean} with clean filters, {loaded} at the end of the cleaning interval, on which the needs stand.",
        ),
        (
            "Tub volume passes in",
            f"{figure(result.turnover_s, 'time', family)}, at the end of the interval "
            f"{figure(result.loaded_turnover_s, 'time', family)}.",
        ),
        (
            "Takes part",
            f"{figure(result.effective_volume_m3, 'volume', family)} of {show(result.volume_m3, 'volume', family)}; "
            "the rest stands in corners that the return hardly reaches.",
        ),
    ]
    rows += _public(result)
    rows += _drain(result)
    return rows


def _plural(name: NeedName) -> str:
    return "" if name in ("turnovers", "idle gaps", "bathing times") else "s"


def _public(result: Hours) -> list[tuple[str, str]]:
    rule = result.public_rule
    if rule is None:
        return []
    limit = show(rule.limit_s, "time", result.units)
    here = figure(rule.value_s, "time", result.units, never=NEVER)
    word = "run time a day" if rule.rule == "hours a day" else f"{rule.rule}, clean filter"
    keeps = rule.meets_share_ratio >= 0.5
    return [
        (
            "Public rule",
            f"{rule.profile}: {word} {limit}, as published; here {here}, which "
            f"{'keeps' if keeps else 'does not keep'} it. The local authority decides. [{rule.source}]",
        )
    ]


def _drain(result: Hours) -> list[tuple[str, str]]:
    drain = result.replacement
    if drain is None:
        return []
    days = drain.whole_days_count
    when = "every day, or more often" if drain.interval_d < 1.0 else f"after {days} day{'' if days == 1 else 's'}"
    return [
        (
            "Drain",
            f"{sentence(when)} with {drain.bathers_per_day:g} bathers a day (the rule gives "
            f"{significant(drain.interval_d)} days), or as soon as the dissolved solids stand "
            f"{drain.dissolved_rise_mgl:.0f} mg/L over the fill water's: a rule for public spas. [{drain.source}]",
        )
    ]


def _needs(result: Hours, width: int) -> str:
    """Every need with its hours, and under the table what decides each."""
    head = ("need", "hours a day", "standing", "source")
    rows = [(_name(need, result), hours_a_day(need.run_s), need.standing, need.source or "-") for need in result.needs]
    legend = (
        "* decides. ! no run time of a day meets it. Needs in brackets do not count for an ordinary day. In brackets "
        "low to high: the 5th and the 95th of a hundred cases."
    )
    told = labelled([(sentence(need.name), sentence(need.decides) + ".") for need in result.needs], width)
    return f"{table(head, rows, width)}\n{paragraph(legend, width)}\n\n{told}"


def _name(need: Need, result: Hours) -> str:
    mark = "*" if need.name == result.binding_need else "!" if need.above_a_day else " "
    return f"{mark} {need.name}" if need.counts or need.above_a_day else f"{mark} ({need.name})"


_ROWS: dict[NeedName, tuple[str, ...]] = {
    "turnovers": ("turnovers_a_day_count", "turnovers_a_day_in_use_count"),
    "treated water": ("treated_water_per_bather_m3",),
    "clarity": ("haze_per_bather_m3", "haze_limit_ntu", "dead_zone_ratio"),
    "idle gaps": ("longest_idle_cold_s", "longest_idle_warm_s"),
    "bathing times": ("run_before_bathing_s", "run_after_bathing_s"),
    "frost": ("frost_idle_s",),
}


def _numbers(result: Hours, width: int) -> str:
    """The rows behind the needs, and the citations of those, of the needs and of the cautions."""
    named = [name for need in result.needs if need.standing != "stated" for name in _ROWS.get(need.name, ())]
    found = [(name, model_table("hours_numbers")[(name,)]) for name in named]
    if any(need.name == "clarity" for need in result.needs):
        kept = model_table("filter_efficiencies").entries.items()
        found += [(f"filter keeps {key[0]}", entry) for key, entry in kept]
    found += [(name, model_table("heat_numbers")[(name,)]) for name in result.assumed_heat]
    lines = [
        paragraph(
            "What the file states comes first; where it says nothing, these stand in (value, low to high). Walls and "
            "lids that the file names stand on the table heat_materials.",
            width,
        )
    ]
    lines += [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in found]
    keys = {entry.source for _, entry in found} | {need.source for need in result.needs}
    keys |= {caution.source for caution in result.cautions}
    if result.replacement is not None:
        keys.add(result.replacement.source)
    lines += [citation(key, width) for key in sorted(keys - {""}) if key in sources()]
    return "\n".join(lines)
