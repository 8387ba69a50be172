"""The simulated day for machines: JSON with every field, CSV of the moments."""

import csv
import io
import json
from dataclasses import fields
from typing import Any, get_type_hints

from sanitize.basis.figure import Figure
from sanitize.report.record import ENDS, plain
from sanitize.studies.day.result import Moment, SimulatedDay

SCHEMA_VERSION = 1
_UNITS = ("_mgl", "_ppmv", "_ntu", "_c")


def day_json(result: SimulatedDay) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "day", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def day_csv(result: SimulatedDay) -> str:
    """The day through its moments, a row each; a figure takes three columns, what does not exist is empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(day_columns())
    for moment in result.moments:
        writer.writerow(_cells(moment))
    return out.getvalue()


def day_columns() -> list[str]:
    """The names of the columns, each ending in its unit.

    >>> day_columns()[:5]
    ['time_s', 'ozone_low_mgl', 'ozone_nominal_mgl', 'ozone_high_mgl', 'oxidant_low_mgl']
    """
    names: list[str] = []
    for name, is_figure in _fields():
        names += [_end_name(name, end) for end in ENDS] if is_figure else [name]
    return names


def _fields() -> list[tuple[str, bool]]:
    hints = get_type_hints(Moment)
    return [(field.name, hints[field.name] in (Figure, Figure | None)) for field in fields(Moment)]


def _end_name(name: str, end: str) -> str:
    unit = next(unit for unit in _UNITS if name.endswith(unit))
    return f"{name.removesuffix(unit)}_{end}{unit}"


def _cells(moment: Moment) -> list[Any]:
    cells: list[Any] = []
    for name, is_figure in _fields():
        value = getattr(moment, name)
        if is_figure:
            cells += [None] * 3 if value is None else [getattr(value, end) for end in ENDS]
        else:
            cells.append(str(value).lower() if isinstance(value, bool) else value)
    return cells
