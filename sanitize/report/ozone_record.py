"""The ozone answer for machines: JSON with every field, CSV of the limits."""

import csv
import io
import json
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.report.record import ENDS, plain
from sanitize.studies.ozone.result import Ozone

SCHEMA_VERSION = 1
COLUMNS = (
    "body",
    "averaged",
    "limit_ppmv",
    *(f"room_{end}_ppmv" for end in ENDS),
    *(f"over_water_{end}_ppmv" for end in ENDS),
    "over_share_ratio",
    "source",
)


def ozone_json(result: Ozone) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "ozone", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def ozone_csv(result: Ozone) -> str:
    """A row for each published limit, with the air against it; what does not exist, or is not worked out, is empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for row in result.limits:
        writer.writerow(
            [row.body, row.averaged, row.limit_ppmv, *_ends(row.room_ppmv), *_ends(row.over_water_ppmv),
             row.over_share_ratio, row.source]
        )  # fmt: skip
    return out.getvalue()


def _ends(value: Figure | None) -> list[Any]:
    return [None] * len(ENDS) if value is None else [getattr(value, end) for end in ENDS]
