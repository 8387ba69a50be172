"""The timer's plan for machines."""

import csv
import io
from typing import Any

from sanitize.plant.day import clock
from sanitize.report.hours_plan import stop_clock
from sanitize.report.record import plain
from sanitize.studies.timer.result import Plan, PlanRun

COLUMNS = ("what", "start", "stop", "start_s", "stop_s")


def plan_record(plan: Plan) -> dict[str, Any]:
    """The switch times as `plan`, what it spends as `energy_j` and so on, all else about it as `timer`."""
    timer = plain(plan)
    del timer["runs"]
    spent = timer.pop("spent")
    return {"plan": [dict(zip(COLUMNS, _cells(run), strict=True)) for run in plan.runs], **spent, "timer": timer}


def plan_csv(plan: Plan) -> str:
    """The switch times, a row for each run."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for run in plan.runs:
        writer.writerow(_cells(run))
    return out.getvalue()


def _cells(run: PlanRun) -> tuple[str, str, str, float, float]:
    return run.what, clock(run.start_s), stop_clock(run), run.start_s, run.stop_s
