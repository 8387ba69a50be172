"""Which throat to take, as text, JSON and CSV."""

import json

from sanitize.basis.units import show
from sanitize.report.advice import caution_block, danger_block
from sanitize.report.columns import heading, paragraph, table
from sanitize.report.csv_rows import csv_text, ends_of
from sanitize.report.phrases import bare, sentence, short_share, unit_of
from sanitize.report.record import plain
from sanitize.studies.advice.result import ThroatRow, Throats

SCHEMA_VERSION = 1
WIDTH = 100


def throats_json(result: Throats) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "throats", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def throats_csv(result: Throats) -> str:
    """A row for each throat, with its mark and what speaks against it."""
    return csv_text(
        {"throat_m": row.throat_m, "mark": mark_of(row, result), "draws_share_ratio": row.draws_share_ratio}
        | ends_of("gas_flow_m3s", row.gas_flow_m3s)
        | ends_of("flow_m3s", row.flow_m3s)
        | {"flow_ratio": row.flow_ratio, "objections": " ".join(row.objections)}
        for row in result.rows
    )


def throats_text(result: Throats, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    blocks += danger_block(result.cautions, width)
    blocks.append(heading("Which throat") + "\n" + paragraph(result.why, width))
    blocks.append(_rows(result, width))
    blocks += caution_block(result.cautions, width)
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    return "\n\n".join(blocks) + "\n"


def mark_of(row: ThroatRow, result: Throats) -> str:
    """What a row is marked with: the one to take, the present one, one that is not acceptable."""
    if row.throat_m == result.take_m:
        return "take"
    if row.objections:
        return "no"
    return "present" if row.throat_m == result.here_m else ""


def _rows(result: Throats, width: int) -> str:
    bore, flow, gas = (unit_of(kind, result.units) for kind in ("bore", "flow", "gas flow"))
    head = (f"throat {bore}", f"gas {gas}", f"water {flow}", "of today's", "draws", "")
    rows = [
        (
            show(row.throat_m, "bore", result.units).split()[0],
            bare(row.gas_flow_m3s, "gas flow", gas),
            bare(row.flow_m3s, "flow", flow),
            f"{100.0 * row.flow_ratio:.0f} %",
            short_share(row.draws_share_ratio),
            mark_of(row, result),
        )
        for row in result.rows
    ]
    told = [
        paragraph(
            f"{show(row.throat_m, 'bore', result.units)}: {' '.join(sentence(text) for text in row.objections)}",
            width, "- ", "  ",
        )
        for row in result.rows
        if row.objections
    ]  # fmt: skip
    cases = "the one case computed" if result.cases_count == 0 else f"{result.cases_count} cases (seed {result.seed})"
    legend = (
        f"The same injector with another throat, each solved with {cases}, gas line open; in brackets low to high. "
        f"Acceptable is what leaves {100.0 * result.least_flow_ratio:.0f} % of the present water flow (a choice of "
        "this project), keeps every chiller in its window, brings no new caution and draws at least as surely. Of "
        "these the throat with most gas is taken. How much gas that is rests on theory; which throat draws most is "
        "surer than how much."
    )
    return "\n".join([table(head, rows, width), *told, paragraph(legend, width)])
