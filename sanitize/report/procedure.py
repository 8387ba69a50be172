"""A procedure as text to print, and JSON."""

import json

from sanitize.basis.units import show
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, paragraph
from sanitize.report.phrases import sentence
from sanitize.report.record import plain
from sanitize.report.sources import citation
from sanitize.studies.procedures.result import Action, Procedure

SCHEMA_VERSION = 1
WIDTH = 100


def procedure_json(result: Procedure) -> str:
    """The record as JSON: keys are the fields' names, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "procedure", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def procedure_text(result: Procedure, *, width: int = WIDTH) -> str:
    """The steps for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    blocks.append(heading(result.name) + "\n" + paragraph(f"For: {result.when}", width))
    blocks.append("\n".join(_step(number, action, result, width) for number, action in enumerate(result.actions, 1)))
    blocks.append(heading("When people may get in again") + "\n" + paragraph(result.back, width))
    blocks.append(heading("Whom to ask") + "\n" + paragraph(sentence(f"{result.ask}."), width))
    blocks.append(heading("Cautions") + "\n" + caution_lines(result.cautions, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    if result.sources:
        blocks.append(heading("Sources") + "\n" + "\n".join(citation(key, width) for key in result.sources))
    return "\n\n".join(blocks) + "\n"


def _step(number: int, action: Action, result: Procedure, width: int) -> str:
    wait = "" if action.wait_s is None else f" WAIT: {show(action.wait_s, 'time', result.units)} or more."
    rests = f"[{action.source}]" if action.source else f"({action.standing})"
    first = f"[ ] {number}. "
    return paragraph(f"{action.text}{wait} {rests}", width, first, " " * len(first))
