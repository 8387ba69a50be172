"""The suction answer for machines: JSON with every field, CSV of the parts."""

import csv
import io
import json
from dataclasses import fields, is_dataclass
from math import isfinite
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.plant.spec import Record
from sanitize.studies.suction.result import PartAlong, PumpLine, Suction

SCHEMA_VERSION = 1
ENDS = ("low", "nominal", "high")
_UNITS = ("_pa_gauge", "_pa_diff", "_m3s", "_ms", "_m", "_ratio", "_s")


def suction_json(result: Suction) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "suction", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def suction_csv(result: Suction) -> str:
    """The parts in the order of the water, a row each; a figure takes three columns, what does not exist is empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(csv_columns())
    for part in result.parts:
        writer.writerow(_cells(part))
    return out.getvalue()


def csv_columns() -> list[str]:
    """The names of the columns, each ending in its unit.

    >>> csv_columns()[:7]
    ['name', 'part', 'way', 'bore_m', 'height_low_m', 'height_nominal_m', 'height_high_m']
    """
    names: list[str] = []
    for field in fields(PartAlong):
        names += [end_name(field.name, end) for end in ENDS] if field.type is Figure else [field.name]
    return names


def end_name(name: str, end: str) -> str:
    """A column's name for one end of a figure, its unit last.

    >>> end_name("flow_m3s", "low"), end_name("turnover_s", "high")
    ('flow_low_m3s', 'turnover_high_s')
    """
    unit = next(unit for unit in _UNITS if name.endswith(unit))
    return f"{name.removesuffix(unit)}_{end}{unit}"


def _cells(part: PartAlong) -> list[Any]:
    cells: list[Any] = []
    for field in fields(PartAlong):
        value = getattr(part, field.name)
        cells += [getattr(value, end) for end in ENDS] if isinstance(value, Figure) else [value]
    return cells


def plain(value: Any) -> Any:
    """A result as JSON holds it: records as objects by their fields' names, what is no finite number as null."""
    if isinstance(value, PumpLine):
        return {
            "flow_m3s": plain(value.flow_m3s),
            "pump_head_m": [_ends(line) for line in value.pump_head_m],
            "system_head_m": [_ends(line) for line in value.system_head_m],
        }
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Record):
        return {name: plain(item) for name, item in value}
    if isinstance(value, tuple):
        return [plain(item) for item in value]
    if isinstance(value, float):
        return value if isfinite(value) else None
    return value


def _ends(line: tuple[float, ...]) -> dict[str, float | None]:
    return dict(zip(ENDS, plain(line), strict=True))
