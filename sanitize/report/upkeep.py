"""The upkeep as text and JSON."""

import json
import math

from sanitize.basis.figure import Figure
from sanitize.basis.units import significant
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.phrases import sentence
from sanitize.report.record import plain
from sanitize.report.sources import citation
from sanitize.studies.upkeep.result import Dose, Upkeep

SCHEMA_VERSION = 1
WIDTH = 100


def upkeep_json(result: Upkeep) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "upkeep", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def upkeep_text(result: Upkeep, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    blocks.append(heading("How much, and how often") + "\n" + labelled(_answer(result), width))
    blocks.append(heading("What the tests say") + "\n" + _tests(result, width))
    blocks.append(heading("What uses it up") + "\n" + labelled(_use(result), width))
    blocks.append(heading("When to change the water") + "\n" + _drains(result, width))
    blocks.append(heading("Cautions") + "\n" + caution_lines(result.cautions, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    if result.sources:
        blocks.append(heading("Sources") + "\n" + "\n".join(citation(key, width) for key in result.sources))
    return "\n\n".join(blocks) + "\n"


def _range(value: Figure, unit: str) -> str:
    low, nominal, high = (significant(end) for end in value.ends)
    number = nominal if low == high else f"{nominal} ({low} to {high})"
    return f"{number} {unit}"


def _dose(dose: Dose) -> str:
    return f"{_range(dose.amount, dose.unit)} of {dose.product} ({dose.strength})"


def _answer(result: Upkeep) -> list[tuple[str, str]]:
    name = result.item.replace("_", " ")
    rows = [
        (
            "Target",
            f"{name} from {result.target_low_mgl:g} to {result.target_high_mgl:g} mg/L, {result.target_mgl:g} in "
            "between.",
        ),
        ("A day takes", f"{_range(result.use_mgl_per_day, 'mg/L')}, which is {_range(result.use_g_per_day, 'g')}."),
        ("Each day", f"{_dose(result.daily_dose)}: take the low end and test before the next one."),
        (
            "Or from end to end",
            f"It falls from {result.target_high_mgl:g} to {result.target_low_mgl:g} mg/L in "
            f"{_range(result.every_days, 'days')}; {_dose(result.dose_to_top)} bring it back. Test at the short end.",
        ),
    ]
    if result.after_dip_dose is not None:
        rows.append(
            (
                "After a dip",
                f"One takes {_range(result.one_dip_mgl, 'mg/L')}: {_dose(result.after_dip_dose)}. Test, then add.",
            )
        )
    if result.left_to_carry_g_per_day is not None:
        rows.append(
            (
                "With ozone",
                f"By the balance of `sanitize ozone`, {_range(result.left_to_carry_g_per_day, 'g')} of chlorine a day, "
                "or its equal, are left to carry even with the ozone on all day. The tests above hold what it did.",
            )
        )
    return rows


def _tests(result: Upkeep, width: int) -> str:
    head = ("days", "before mg/L", "added mg/L", "after mg/L", "expected mg/L")
    rows = [
        (
            f"{item.days:g}",
            _range(item.first_mgl, "").strip(),
            f"{item.added_mgl:g}",
            _range(item.second_mgl, "").strip(),
            _range(item.expected_mgl, "").strip(),
        )
        for item in result.intervals
    ]
    legend = (
        "In brackets low to high, with the reading error of the tests. Expected: by decay and bathers, in the cases "
        f"that explain all tests (about {result.effective_cases_count} of {result.cases_count}, seed {result.seed})."
    )
    return f"{table(head, rows, width, 0)}\n{paragraph(legend, width)}"


def _use(result: Upkeep) -> list[tuple[str, str]]:
    return [
        (
            "Decay",
            f"{_range(_lost(result.decay_per_day), '%')} of the residual goes in a day by itself; before the tests "
            f"{_range(_lost(result.decay_per_day_before), '%')} (common practice).",
        ),
        (
            "Bathers",
            f"{result.dips_per_day:g} dips a day, each {_range(result.dip_demand_g, 'g')}; before the tests "
            f"{_range(result.dip_demand_g_before, 'g')} (estimate).",
        ),
        (
            "Which of them",
            "Two tests tell the sum better than its parts. A night without bathers tells the decay alone, and more "
            "than 1 mg/L lost in such a night is a sign of slime in the pipes (common practice).",
        ),
    ]


def _lost(decay_per_day: Figure) -> Figure:
    """Share of a residual that a decay takes in a day, in percent."""
    low, nominal, high = (-100.0 * math.expm1(-end) for end in decay_per_day.ends)
    return Figure(low, nominal, high)


def _drains(result: Upkeep, width: int) -> str:
    if not result.drains:
        return paragraph("Nothing in the file tells: test dissolved solids against those of the fill water.", width)
    return "\n".join(
        paragraph(
            f"After {_range(item.days, 'days')} from a fresh filling: {item.why} "
            + (f"[{item.source}]." if item.source else f"({item.standing})."),
            width,
            "- ",
            "  ",
        )
        for item in result.drains
    )
