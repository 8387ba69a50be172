"""How long the loop lasts between cleanings of its filter, as text, JSON and CSV."""

import json
from collections.abc import Iterator
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.basis.tables import Entry, model_table
from sanitize.basis.units import show
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.csv_rows import csv_text, ends_of
from sanitize.report.numbers import number_line
from sanitize.report.phrases import bare, figure, sentence, share, short_share, unit_of
from sanitize.report.record import plain
from sanitize.report.sources import citation
from sanitize.studies.loading.result import FilterLoading, Lasts, Limit, Moment

SCHEMA_VERSION = 1
WIDTH = 100
DAY_S = 86400.0
_NEVER = "never"
_LAWS = {"exponential": ("hermia_1982",), "cake": ("ruth_1935",)}
_SHARES = ("draws_share_ratio", "answered_share_ratio", "gas_answered_share_ratio")
_FIGURES = (
    "filter_drop_pa_diff",
    "flow_m3s",
    "injector_flow_m3s",
    "port_pressure_closed_pa_gauge",
    "gas_flow_m3s",
    "gauge_pa_gauge",
)


def lasts_json(result: Lasts) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "lasts", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def lasts_csv(result: Lasts) -> str:
    """The moments after the cleaning, a row each; a figure takes three columns, a chiller's flow after the others."""
    return csv_text(_csv_row(moment) for moment in result.moments)


def _csv_row(moment: Moment) -> dict[str, Any]:
    row: dict[str, Any] = {name: getattr(moment, name) for name in ("time_s", *_SHARES)}
    for name in _FIGURES:
        row |= ends_of(name, getattr(moment, name))
    for chiller in moment.chiller_flows:
        row |= ends_of(f"{chiller.name} flow_m3s", chiller.flow_m3s)
    return row


def lasts_text(result: Lasts, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    rows = [
        ("It lasts", _lasts(result)),
        *((sentence(limit.limit), _limit(limit, result)) for limit in result.limits if limit.ends_the_time),
        ("Tell it by", _gauge(result)),
        ("Usual rule", _rule(result)),
        *((sentence(loading.name), _filter(loading, result)) for loading in result.filters),
    ]
    blocks.append(heading("How long does it last between cleanings of the filter?") + "\n" + labelled(rows, width))
    blocks.append(heading("The days after a cleaning") + "\n" + moments_table(result, width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        told = "\n".join(paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices)
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + told)
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(result, width))
    return "\n\n".join(blocks) + "\n"


def _time(value: Figure, result: Lasts) -> str:
    return figure(value, "time", result.units, never=_NEVER)


def _cases(result: Lasts) -> str:
    if result.cases_count == 0:
        return "in the one case computed"
    return f"over {result.cases_count} cases (seed {result.seed})"


def _lasts(result: Lasts) -> str:
    if result.lasts_s == Figure(None, None, None):
        return "No limit is met that is not met with the filter clean, up to fifty times the clean drop."
    first = max((limit for limit in result.limits if limit.ends_the_time), key=lambda limit: limit.comes_first_ratio)
    others = [
        f"{_words(limit)} in {share(limit.comes_first_ratio)}"
        for limit in result.limits
        if limit.ends_the_time and limit is not first and limit.comes_first_ratio > 0.0
    ]
    rest = f", {', '.join(others)}" if others else ""
    met = " and ".join(_words(limit) for limit in result.limits if limit.ends_the_time and limit.nominal_met_when_clean)
    if met:
        rest += f". {sentence(met)}: so with the filter clean, which no cleaning mends; the days are those of the rest"
    of_cases = f" in {share(first.comes_first_ratio)} of the cases" if result.cases_count else ""
    return f"{_time(result.lasts_s, result)} {_cases(result)}. What ends it first: {_words(first)}{of_cases}{rest}."


def _words(limit: Limit) -> str:
    named = {"chiller below its least flow": f"{limit.part} below its least flow"}
    return named.get(limit.limit, limit.limit)


def _limit(limit: Limit, result: Lasts) -> str:
    met = "already with the filter clean"
    if limit.met_when_clean_ratio == 1.0:
        return f"{sentence(met)}."
    where = f"; {met} in {share(limit.met_when_clean_ratio)} of the cases" if limit.met_when_clean_ratio > 0.0 else ""
    if limit.nominal_met_when_clean:
        return f"{sentence(met)} in the likeliest case; in the others after {_time(limit.time_s, result)}{where}."
    if limit.time_s.low is None:
        return f"Not before the filter's drop is fifty times the clean one{where}."
    if limit.time_s.nominal is None:
        return (
            f"In the likeliest case not before the filter's drop is fifty times the clean one; at the low end after "
            f"{show(limit.time_s.low, 'time', result.units)}{where}."
        )
    flow = figure(limit.flow_m3s, "flow", result.units)
    rise = _rise(limit.gauge_rise_pa_diff, result)
    return f"After {_time(limit.time_s, result)}, at a flow of {flow} and a gauge {rise}{where}."


def _rise(value: Figure, result: Lasts) -> str:
    if value.low is None or value.nominal is None or value.high is None:
        return "without a reading"
    if value.nominal < 0.0:
        fall = Figure(-value.high, -value.nominal, -value.low)
        return f"{figure(fall, 'pressure', result.units)} below its clean reading"
    return f"{figure(value, 'pressure', result.units)} over its clean reading"


def _gauge(result: Lasts) -> str:
    clean = figure(result.gauge_clean_pa_gauge, "pressure", result.units)
    rise = result.gauge_rise_at_end_pa_diff
    if rise.nominal is None or rise.low is None or rise.high is None:
        return f"A gauge right behind {result.gauge} reads {clean} with the filter clean."
    end = figure(result.gauge_at_end_pa_gauge, "pressure", result.units)
    early = rise.low if rise.nominal > 0.0 else -rise.high
    text = (
        f"A gauge right behind {result.gauge}: {clean} over the air with the filter clean, {end} when the time is "
        f"over, which is {_rise(rise, result)}. Note the clean reading after each cleaning"
    )
    if early <= 0.0:
        return f"{text}; the range leaves open by how much it moves."
    verb = "risen" if rise.nominal > 0.0 else "fallen"
    return f"{text}, and clean when it has {verb} by {show(early, 'pressure', result.units)}."


def _rule(result: Lasts) -> str:
    low, high = (
        show(end, "pressure", result.units) for end in (result.gauge_rule_pa_diff, result.gauge_rule_high_pa_diff)
    )
    trade = "" if result.units == "us" else " (8 to 10 psi)"
    text = f"Pools are cleaned at {low} to {high}{trade} over the clean reading. "
    most = show(result.gauge_largest_rise_pa_diff.ends[2], "pressure", result.units)
    if not result.gauge_rule_can_trigger:
        return (
            f"{text}Here that sign never comes: with nothing moving the pump lifts its gauge by {most} at the most, "
            "however dirty the filter is."
        )
    rule = next(limit for limit in result.limits if not limit.ends_the_time)
    if rule.time_s.nominal is None:
        return (
            f"{text}Here that sign comes too late or never: with nothing moving the gauge rises by {most} at the most."
        )
    return f"{text}Here that comes after {_time(rule.time_s, result)}."


def _filter(loading: FilterLoading, result: Lasts) -> str:
    until = f"{loading.loaded_drop_ratio:g} times its clean drop after {_time(loading.loaded_time_s, result)}"
    stood = "as the file says" if loading.time_stated else "as assumed"
    if loading.law == "exponential":
        return f"{until}, {stood}; the drop grows by equal factors in equal times."
    if loading.solids_g_per_day is None or loading.cake_resistance_m_per_kg is None:
        raise ValueError("a cake has a load and a resistance")
    low, nominal, high = loading.cake_resistance_m_per_kg.ends
    return (
        f"{until}, {stood}; {figure(loading.solids_g_per_day, 'dirt rate', result.units)} of dirt lie on the cloth "
        f"as a cake of {nominal:.1e} ({low:.0e} to {high:.0e}) m/kg: the drop grows evenly."
    )


def moments_table(result: Lasts, width: int = WIDTH) -> str:
    """The loop day by day."""
    family = result.units
    pressure, flow, gas, vacuum = (unit_of(kind, family) for kind in ("pressure", "flow", "gas flow", "pressure"))
    head = ("days", f"filter {pressure}", f"water {flow}", f"port {vacuum}", "draws", f"gas {gas}", f"gauge {pressure}")

    def row(moment: Moment) -> tuple[str, ...]:
        return (
            f"{moment.time_s / DAY_S:.0f}" if moment.time_s >= 10.0 * DAY_S else f"{moment.time_s / DAY_S:.1f}",
            bare(moment.filter_drop_pa_diff, "pressure", pressure),
            bare(moment.flow_m3s, "flow", flow),
            bare(moment.port_pressure_closed_pa_gauge, "pressure", vacuum).split(" ")[0],
            short_share(moment.draws_share_ratio),
            bare(moment.gas_flow_m3s, "gas flow", gas),
            bare(moment.gauge_pa_gauge, "pressure", pressure).split(" ")[0],
        )

    lines = table(head, [row(moment) for moment in result.moments], width)
    legend = (
        "Filter is its drop; port the pressure over the air with the gas line closed, below 0 it pulls; draws the "
        f"share of the cases; gas with the line open; gauge the pressure behind {result.gauge}. In brackets, "
        "low to high."
    )
    chillers = "".join("\n" + paragraph(text, width) for text in _chillers(result))
    return f"{lines}\n{paragraph(legend, width)}{chillers}"


def _chillers(result: Lasts) -> Iterator[str]:
    first, last = result.moments[0], result.moments[-1]
    for clean, loaded in zip(first.chiller_flows, last.chiller_flows, strict=True):
        yield (
            f"Through {clean.name}: {figure(clean.flow_m3s, 'flow', result.units)} clean, "
            f"{figure(loaded.flow_m3s, 'flow', result.units)} at the last of these days."
        )


def _numbers(result: Lasts, width: int) -> str:
    names = [
        "filter_loaded_ratio",
        "filter_medium_share_ratio",
        "filter_loading_time_s",
        "filter_loading_tolerance_ratio",
    ]
    if any(loading.law == "cake" for loading in result.filters):
        names.append("cake_resistance_m_per_kg")
    names += ["flow_loss_limit_ratio", "filter_clean_rise_pa_diff", "rated_pump_head_ratio"]
    entries: list[tuple[str, Entry]] = [(name, model_table("defaults")[(name,)]) for name in names]
    lines = [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in entries]
    keys = {entry.source for _, entry in entries} | {caution.source for caution in result.cautions}
    keys |= {key for loading in result.filters for key in _LAWS[loading.law]}
    return "\n".join(lines + [citation(key, width) for key in sorted(keys - {""})])
