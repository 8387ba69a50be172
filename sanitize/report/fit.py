"""A fit to readings: text, JSON, and the loop file that carries it."""

import json

from sanitize.basis.constants import ONE_SIDED_90_PERCENT
from sanitize.basis.figure import Figure
from sanitize.basis.units import significant, to_shown
from sanitize.plant.measured import Measured
from sanitize.plant.spec import specs
from sanitize.report.columns import heading, paragraph, table
from sanitize.report.phrases import bare, sentence, share, unit_of
from sanitize.report.record import plain
from sanitize.studies.fit.result import RELATIVE, Fit, ReadingFit, TakenAt, Together, Unknown

SCHEMA_VERSION = 1
WIDTH = 100


def fit_json(result: Fit) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "fit", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def fit_text(result: Fit, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    blocks.append(heading("The readings") + "\n" + _readings(result, width))
    blocks.append(heading("What they teach") + "\n" + _unknowns(result, width))
    blocks.append(heading("What they cannot tell apart") + "\n" + _together(result, width))
    if result.draws_share_before_ratio is not None and result.draws_share_after_ratio is not None:
        told = (
            f"The injector draws in {share(result.draws_share_before_ratio)} of the cases that the file allows before "
            f"the readings, and in {share(result.draws_share_after_ratio)} of those that explain them."
        )
        blocks.append(heading("The injector") + "\n" + paragraph(told, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    return "\n\n".join(blocks) + "\n"


def fitted_loop_text(result: Fit, based_on: str) -> str:
    """The loop file that is based on the fitted one and carries what the readings have taught."""
    lines = [
        "# Written by `sanitize fit`: what the readings below have taught about the loop of the file it is based on.",
        "# Take [fitted] out, and the ranges of that file hold again.",
        "format = 1",
        f"based_on = {_quoted(based_on)}",
        "",
    ]
    for name, fields in result.changes.items():
        lines.append(f"[change.{_quoted(name)}]")
        lines += [f'{key} = "{value}"' for key, value in fields.items()]
        lines.append("")
    lines += ["[measured]"]
    taken: tuple[ReadingFit | TakenAt, ...] = (*result.readings, *result.taken_at)
    lines += [f"{_key(item.reading)} = {_quoted(_stated(item, result))}" for item in taken]
    lines += ["", "# The unknowns after the fit, each with its range:"]
    lines += [f"# {unknown.label}: {_one_line(unknown, result)}" for unknown in result.unknowns]
    rows = ",\n  ".join("[" + ", ".join(f"{score:g}" for score in case) + "]" for case in result.fitted.cases)
    names = ", ".join(_quoted(name) for name in result.fitted.unknowns)
    lines += ["[fitted]", f"unknowns = [{names}]", f"cases = [\n  {rows},\n]"]
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _key(reading: str) -> str:
    return specs(Measured)[reading].key


def _words(reading: str) -> str:
    return _key(reading).replace("_", " ")


def _stated(item: ReadingFit | TakenAt, result: Fit) -> str:
    """A reading with its error as a loop file states it: half of the range of 90 %."""
    unit = unit_of(item.kind, result.units)
    value = to_shown(item.measured, item.kind, unit)
    spread = to_shown(item.measured + ONE_SIDED_90_PERCENT * item.error, item.kind, unit) - value
    return f"{significant(value, 4)} {unit} +- {significant(spread, 3)} {unit}"


def _readings(result: Fit, width: int) -> str:
    head = ("reading", "", "measured", "expected before", "after the fit", "miss")
    rows = []
    for item in result.readings:
        unit, measured = unit_of(item.kind, result.units), Figure.of(item.measured, item.measured, item.measured)
        rows.append(
            (
                _words(item.reading), unit, bare(measured, item.kind, unit),
                bare(item.before, item.kind, unit), bare(item.after, item.kind, unit), f"{item.miss_errors:+.1f}",
            )
        )  # fmt: skip
    legend = (
        "In brackets low to high. Expected before: by the file, with pumps worn and filters fouled as far as the file "
        "does not deny. Miss: measured less the best fit, in standard errors of the reading; between -2 and 2 is usual."
    )
    return f"{table(head, rows, width, 2)}\n{paragraph(legend, width)}"


def _unknowns(result: Fit, width: int) -> str:
    if not result.unknowns:
        return paragraph("Nothing that the file left open is narrowed much by these readings.", width)
    head = ("unknown", "", "before", "after", "left")
    rows = []
    for item in result.unknowns:
        unit = _unit(item, result)
        rows.append(
            (item.label, unit, _cell(item.before, item, unit), _cell(item.after, item, unit), _left(item.width_ratio))
        )
    legend = (
        f"Left: of the spread that the file allowed. A range over a range of its own kind has no number; % is of the "
        "value before. "
        f"{result.untouched_count} further unknowns do not touch these readings."
    )
    return f"{table(head, rows, width, 2)}\n{paragraph(legend, width)}"


def _cell(value: Figure, item: Unknown, unit: str) -> str:
    if value.nominal is None:
        return "-"
    if item.kind == RELATIVE:
        before = item.before.ends[1]
        low_text, text, high_text = (f"{100.0 * end / before:.3g}" for end in value.ends)
        return f"{text} ({low_text} to {high_text})"
    if item.kind != "number":
        return bare(value, item.kind, unit)
    low, nominal, high = value.ends
    return f"{nominal:.2g} ({low:.2g} to {high:.2g})"


def _unit(item: Unknown, result: Fit) -> str:
    if item.kind == RELATIVE:
        return "%"
    return "" if item.kind == "number" else unit_of(item.kind, result.units)


def _left(ratio: float) -> str:
    return f"{min(100.0 * ratio, 100.0):.0f} %"


def _one_line(item: Unknown, result: Fit) -> str:
    unit = _unit(item, result)
    cell = _cell(item.after, item, unit)
    return f"{cell} {unit}".rstrip() if cell != "-" else f"spread {_left(item.width_ratio)} of what it was"


def _together(result: Fit, width: int) -> str:
    if not result.together:
        return paragraph("No two unknowns are left that these readings tell only together.", width)
    return "\n".join(paragraph(_pair(item), width, "- ", "  ") for item in result.together)


def _pair(item: Together) -> str:
    same = item.correlation_ratio > 0.0
    how = "when one is larger so is the other" if same else "more of one goes with less of the other"
    told = f"{sentence(item.first)} and {item.second}: {how}."
    if item.reading is None:
        return f"{told} No single further reading parts them."
    return (
        f"{told} What would part them best: {_words(item.reading)} ({specs(Measured)[item.reading].help.rstrip('.')})."
    )
