"""The doses for machines: JSON with every field, CSV of the steps."""

import csv
import io
import json

from sanitize.report.record import ENDS, plain
from sanitize.studies.dosing.result import Dosing

SCHEMA_VERSION = 1
_AFTER = ("ph", "total_alkalinity_mgl", "calcium_hardness_mgl", "free_chlorine_mgl", "bromine_mgl", "peroxide_mgl",
          "saturation_index", "hocl_mgl")  # fmt: skip
COLUMNS = (
    "number", "product", "at_hand", "mass_g", "volume_ml", "low", "high", "portion", "portions_count",
    "only_if_retest", "stock_mass_g", "stock_volume_ml", "stock_made_ml", "stock_add_ml", "wait_s", "why",
    *(f"after_{name}_{end}" for name in _AFTER for end in ENDS),
)  # fmt: skip


def dosing_json(result: Dosing) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "dose", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def dosing_csv(result: Dosing) -> str:
    """A row for each step; low and high are in the unit of what is given, mass or volume."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    for step in result.steps:
        row = {name: getattr(step, name) for name in COLUMNS if hasattr(step, name)}
        if step.stock is not None:
            row |= {
                "stock_mass_g": step.stock.mass_g,
                "stock_volume_ml": step.stock.volume_ml,
                "stock_made_ml": step.stock.made_ml,
                "stock_add_ml": step.stock.add_ml,
            }
        row |= {f"after_{name}_{end}": getattr(getattr(step.after, name), end) for name in _AFTER for end in ENDS}
        writer.writerow(row)
    return out.getvalue()
