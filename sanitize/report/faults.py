"""The answer about faults: text with the dangers first, JSON and CSV."""

import json
from collections.abc import Sequence
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.basis.tables import Entry, model_table
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.csv_rows import csv_text, ends_of
from sanitize.report.numbers import number_line
from sanitize.report.phrases import bare, sentence, short_share, unit_of
from sanitize.report.record import plain
from sanitize.report.sources import citation
from sanitize.studies.faults.result import FaultRow, Faults

SCHEMA_VERSION = 1
WIDTH = 100
_FIGURES = (
    "flow_m3s",
    "injector_flow_m3s",
    "port_pressure_closed_pa_gauge",
    "gas_flow_m3s",
    "pump_inlet_pressure_pa_gauge",
    "filter_drop_pa_diff",
    "water_height_m",
)
_ANSWERS = (
    "draws_share_ratio",
    "steady_share_ratio",
    "passes_highest_point",
    "reaches_ozone_unit",
    "air_enters",
    "air_enters_before_pump",
    "ozone_leaves_unit",
)


def faults_json(result: Faults) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "faults", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def faults_csv(result: Faults) -> str:
    """The loop with nothing wrong, then a row for each fault, the most dangerous first."""
    return csv_text(_csv_row(row) for row in _rows(result))


def _csv_row(row: FaultRow) -> dict[str, Any]:
    found: dict[str, Any] = {name: getattr(row, name) for name in ("fault", "severity", "level", "water_moves")}
    for name in _FIGURES:
        found |= ends_of(name, getattr(row, name))
    found |= {name: getattr(row, name) for name in _ANSWERS}
    return found | {"hazards": "; ".join(hazard.code for hazard in row.hazards), "assumed": row.assumed}


def faults_text(result: Faults, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(heading("One fault at a time") + "\n" + _overview(result, width))
    blocks.append(heading("Where water, air and ozone go") + "\n" + _ways(result, width))
    blocks.append(heading("Fault by fault"))
    blocks += [_block(row, width) for row in _rows(result)]
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(width))
    return "\n\n".join(blocks) + "\n"


def _rows(result: Faults) -> tuple[FaultRow, ...]:
    return (result.sound, *result.faults)


def _name(row: FaultRow) -> str:
    return f"{'! ' if row.severity == 'danger' else '  '}{row.fault}"


def _overview(result: Faults, width: int) -> str:
    """Every fault with its figures."""
    flow, gas, pressure = (unit_of(kind, result.units) for kind in ("flow", "gas flow", "pressure"))
    head = ("fault", f"water {flow}", f"gas {gas}", f"closed port {pressure}", "draws")
    rows = [
        (
            _name(row),
            _cell(row.flow_m3s, "flow", flow) if row.steady_share_ratio > 0.5 else "not steady",
            _cell(row.gas_flow_m3s, "gas flow", gas),
            _cell(row.port_pressure_closed_pa_gauge, "pressure", pressure),
            short_share(row.draws_share_ratio) if row.draws_share_ratio > 0.0 else "-",
        )
        for row in _rows(result)
    ]
    cases = "the one case computed" if result.cases_count == 0 else f"{result.cases_count} cases (seed {result.seed})"
    legend = (
        f"! marks a danger. Water and gas flow with the gas line open, the closed port's pressure over the air: below "
        f"zero it is a vacuum. In brackets low to high, of {cases}. Draws: share of the cases in which gas is drawn "
        "while water moves; - in none."
    )
    return f"{table(head, rows, width)}\n{paragraph(legend, width)}"


def _cell(value: Figure, kind: str, unit: str) -> str:
    return "not steady" if value.nominal is None else bare(value, kind, unit)


def _ways(result: Faults, width: int) -> str:
    """Every fault with where its water, air and ozone end."""
    length = unit_of("head", result.units)
    head = ("fault", f"water in gas line {length}", "in ozone unit", "air enters", "ozone leaves")
    rows = [
        (_name(row), _cell(row.water_height_m, "head", length), _in_unit(row), _air(row), _ozone(row))
        for row in _rows(result)
    ]
    legend = (
        "Heights as in the file, at the worst end of the range; water no higher than the port stands at its check "
        'valve. "If leaking": only where the gas line\'s check valve leaks as well; "if full": only with the tub full '
        'to its rim. Ozone leaves "return" with the bubbles, "unit" at the unit and its line.'
    )
    return f"{table(head, rows, width)}\n{paragraph(legend, width)}"


def _in_unit(row: FaultRow) -> str:
    if row.reaches_ozone_unit:
        return "YES"
    worse = [item for item in row.standings if item.reaches_ozone_unit]
    if not worse:
        return "no"
    if any(item.check_valve == "sound" or row.fault == "gas check valve leaking" for item in worse):
        return "if full"
    return "if leaking" if any(item.level == row.level for item in worse) else "if both"


def _air(row: FaultRow) -> str:
    if row.air_enters_before_pump:
        return "YES"
    if row.water_moves:
        return "gas only" if row.gas_flow_m3s.ends[2] > 0.0 else "no"
    return "at the port" if row.air_enters else "no"


def _ozone(row: FaultRow) -> str:
    if row.gas_flow_m3s.ends[2] <= 0.0:
        return "unit"
    return "return or unit" if row.ozone_leaves_unit else "return"


def _block(row: FaultRow, width: int) -> str:
    """One fault in sentences."""
    found = [(sentence(hazard.severity), hazard.text) for hazard in row.hazards]
    lines = [
        ("Assumed", row.assumed),
        *found,
        ("Water", row.water),
        ("Air and gas", row.air),
        ("Ozone", row.ozone),
        ("You see", row.seen),
        ("Do", row.action),
    ]
    return f"{sentence(row.fault)}\n{labelled([(f'  {label}', text) for label, text in lines], width)}"


def _numbers(width: int) -> str:
    """The sizes of the faults and the other numbers behind them, with their sources."""
    found: list[tuple[str, Entry]] = [(key[0], entry) for key, entry in model_table("fault_sizes").entries.items()]
    for table_name, key in _OTHERS:
        found.append((" ".join(key), model_table(table_name)[key]))
    lines = [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in found]
    lines += [citation(key, width) for key in _sources([entry for _, entry in found])]
    return "\n".join(lines)


_OTHERS = (
    ("defaults", ("pump_high_curve_ratio",)),
    ("defaults", ("filter_loaded_ratio",)),
    ("defaults", ("filter_medium_share_ratio",)),
    ("defaults", ("gas_check_opening_pressure_pa_diff",)),
    ("defaults", ("gas_draw_factor_ratio",)),
    ("nozzle_discharge", ("sharp",)),
)


def _sources(entries: Sequence[Entry]) -> list[str]:
    return sorted({entry.source for entry in entries if entry.source})
