"""The run time's answer for machines: JSON with every field, CSV of the needs."""

import csv
import io
import json

from sanitize.report.plan_record import plan_record
from sanitize.report.record import ENDS, plain
from sanitize.studies.hours.result import Hours
from sanitize.studies.timer.result import Plan

SCHEMA_VERSION = 3
COLUMNS = ("name", "run_low_s", "run_nominal_s", "run_high_s", "counts", "above_a_day", "source", "standing", "decides")


def hours_json(result: Hours, plan: Plan) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null.

    The plan's switch times stand under `plan`, what it spends under `energy_j`, `energy_year_j`, `cost` and
    `cost_year`, all else about it under `timer`.
    """
    record = {"schema_version": SCHEMA_VERSION, "record": "hours", **plain(result), **plan_record(plan)}
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
