"""The parts list for machines: JSON with every field, CSV of what to buy, cut and seal with."""

import csv
import io
import json
from collections.abc import Iterator
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.report.record import ENDS, plain
from sanitize.studies.shopping.result import PartsList

SCHEMA_VERSION = 1
COLUMNS = (
    "list",
    "item",
    "size",
    "to_size",
    "ends",
    "bore_m",
    "schedule",
    "count",
    "missing_count",
    "length_low_m",
    "length_nominal_m",
    "length_high_m",
    "serves",
)


def parts_json(result: PartsList) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "parts", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def parts_csv(result: PartsList) -> str:
    """A row for each line to buy, to cut and to seal with; the first column says which list it belongs to."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(_rows(result))
    return out.getvalue()


def _rows(result: PartsList) -> Iterator[dict[str, Any]]:
    for line in result.buy:
        row = {"list": "buy", "item": line.item, "size": line.size, "to_size": line.to_size, "ends": line.ends}
        counts = {"count": line.count, "missing_count": line.missing_count} if line.length_m is None else {}
        bore = {} if line.bore_m is None else {"bore_m": line.bore_m}
        yield row | bore | counts | _lengths(line.length_m) | {"serves": "; ".join(line.serves)}
    for cut in result.cut:
        row = {"list": "cut", "item": cut.item, "size": cut.size, "schedule": cut.schedule}
        yield row | {"count": cut.count} | _lengths(cut.length_m) | {"serves": "; ".join(cut.serves)}
    for seal in result.seal:
        row = {"list": "seal", "item": seal.sealant, "size": seal.size, "ends": seal.kind}
        yield row | {"count": seal.joints_count} | _lengths(seal.length_m)


def _lengths(length: Figure | None) -> dict[str, Any]:
    return {} if length is None else {f"length_{end}_m": getattr(length, end) for end in ENDS}
