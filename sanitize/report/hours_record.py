"""The run time's answer for machines: JSON with every field, CSV of the needs."""

import csv
import io
import json

from sanitize.report.record import ENDS, plain
from sanitize.studies.hours.result import Hours

SCHEMA_VERSION = 1
COLUMNS = ("name", "run_low_s", "run_nominal_s", "run_high_s", "counts", "above_a_day", "source", "standing", "decides")


def hours_json(result: Hours) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "hours", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def hours_csv(result: Hours) -> str:
    """The needs in the order of the answer, a row each; an end that no run time meets is empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for need in result.needs:
        ends = [getattr(need.run_s, end) for end in ENDS]
        flags = [str(flag).lower() for flag in (need.counts, need.above_a_day)]
        writer.writerow([need.name, *ends, *flags, need.source, need.standing, need.decides])
    return out.getvalue()
