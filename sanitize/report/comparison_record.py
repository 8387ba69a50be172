"""The comparison for machines: JSON with every field, CSV with a row for each file."""

import csv
import io
import json
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.report.record import ENDS, end_name, plain
from sanitize.studies.comparison.result import Comparison, FileAnswer, Measure

SCHEMA_VERSION = 1


def comparison_json(result: Comparison) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "comparison", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def comparison_csv(result: Comparison) -> str:
    """A row for each file: its figures, and behind each its difference from the first file's, empty for that itself."""
    rows = [_row(result, number, file) for number, file in enumerate(result.files)]
    out = io.StringIO()
    writer = csv.DictWriter(out, list(rows[-1]), restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def _row(result: Comparison, number: int, file: FileAnswer) -> dict[str, Any]:
    change = file.draws_change
    row: dict[str, Any] = {
        "label": file.label,
        "path": file.path,
        "title": file.title,
        "verdict": file.verdict,
        "draws_share_ratio": file.draws_share_ratio,
        "draws_only_here_ratio": None if change is None else change.only_here_ratio,
        "draws_only_first_ratio": None if change is None else change.only_first_ratio,
        "same_cases": str(file.same_cases).lower(),
    }
    for measure in result.measures:
        row |= _figure(measure.name, measure.values[number])
        if number > 0:
            row |= _change(measure, number)
    return row


def _figure(name: str, value: Figure) -> dict[str, Any]:
    return {end_name(name, end): getattr(value, end) for end in ENDS}


def difference_name(name: str) -> str:
    """The name of a measure's difference; that of two gauge pressures is a plain difference of pressure.

    >>> difference_name("pump_head_m"), difference_name("port_pressure_closed_pa_gauge")
    ('pump_head_difference_m', 'port_pressure_closed_difference_pa_diff')
    """
    return end_name(name, "difference").replace("_pa_gauge", "_pa_diff")


def _change(measure: Measure, number: int) -> dict[str, Any]:
    change = measure.changes[number - 1]
    stem = end_name(measure.name, "difference").partition("_difference")[0]
    return {
        **_figure(difference_name(measure.name), change.difference),
        f"{stem}_more_ratio": change.more_ratio,
        f"{stem}_less_ratio": change.less_ratio,
        f"{stem}_compared_ratio": change.compared_ratio,
        f"{stem}_tendency": change.tendency,
    }
