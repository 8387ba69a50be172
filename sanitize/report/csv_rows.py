"""Tables as CSV: a row for each record, a figure in three columns, what does not exist empty."""

import csv
import io
from collections.abc import Iterable, Mapping
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.report.record import ENDS, end_name


def ends_of(name: str, value: Figure | None) -> dict[str, float | None]:
    """A figure's three columns; all empty where there is none."""
    return {end_name(name, end): None if value is None else getattr(value, end) for end in ENDS}


def csv_text(rows: Iterable[Mapping[str, Any]]) -> str:
    """Rows of the same columns as CSV, with the names of the columns above; truths are true and false."""
    out = io.StringIO()
    writer: csv.DictWriter[str] | None = None
    for row in rows:
        if writer is None:
            writer = csv.DictWriter(out, list(row), lineterminator="\n")
            writer.writeheader()
        writer.writerow({name: str(cell).lower() if isinstance(cell, bool) else cell for name, cell in row.items()})
    return out.getvalue()
