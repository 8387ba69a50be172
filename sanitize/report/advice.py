"""The advice as text, the dangers first, as JSON and as CSV."""

import json
from collections.abc import Iterator, Sequence
from typing import Any

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.csv_rows import csv_text, ends_of
from sanitize.report.numbers import number_line
from sanitize.report.phrases import bare, figure, sentence, share, short_share, unit_of
from sanitize.report.record import plain
from sanitize.report.sources import citation
from sanitize.studies.advice.result import Advice, Advised, Refused
from sanitize.studies.cautions.caution import Caution

SCHEMA_VERSION = 1
WIDTH = 100
_SHARES = ("draws_share_ratio", "loaded_share_ratio")
_PUMP = ("pump_head_m", "pump_flow_m3s")


def advice_json(result: Advice) -> str:
    """The record as JSON: keys are the fields' names, figures {low, nominal, high}, what does not exist is null."""
    record = {"schema_version": SCHEMA_VERSION, "record": "advice", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def advice_csv(result: Advice) -> str:
    """The loop as it is, then every change and pair that is advised, the best first, then what is not and why."""
    return csv_text(_csv_rows(result))


def _csv_rows(result: Advice) -> Iterator[dict[str, Any]]:
    empty = dict.fromkeys(("changes", "words", "verdict", *_SHARES, *ends_of("flow_m3s", None), "flow_ratio"))
    empty |= dict.fromkeys((*ends_of("gas_flow_m3s", None), "pump_head_m", "pump_flow_m3s", "brings", "reasons"))
    now: dict[str, Any] = {"verdict": result.verdict, "draws_share_ratio": result.now_share_ratio, "flow_ratio": 1.0}
    now |= {"loaded_share_ratio": result.now_loaded_share_ratio}
    flows = ends_of("flow_m3s", result.now_flow_m3s) | ends_of("gas_flow_m3s", result.now_gas_flow_m3s)
    yield {"list": "as it is"} | empty | now | flows
    for title, rows in (("one change", result.changes), ("two changes", result.pairs)):
        for row in rows:
            told = {"changes": "; ".join(row.codes), "words": _sentences(row.words), "brings": " ".join(row.brings)}
            told |= {name: getattr(row, name) for name in ("verdict", *_SHARES, "flow_ratio", *_PUMP)}
            flows = ends_of("flow_m3s", row.flow_m3s) | ends_of("gas_flow_m3s", row.gas_flow_m3s)
            yield {"list": title} | empty | told | flows
    for item in result.refused:
        told = {"changes": "; ".join(item.codes), "words": _sentences(item.words), "reasons": " ".join(item.reasons)}
        yield {"list": "not advised"} | empty | told | {"draws_share_ratio": item.draws_share_ratio}


def advice_text(result: Advice, *, width: int = WIDTH) -> str:
    """The whole advice for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    blocks += danger_block(result.cautions, width)
    blocks.append(heading("As it is") + "\n" + _now(result, width))
    if result.never is not None:
        blocks.append(heading("What this loop cannot do") + "\n" + paragraph(result.never, width))
    if result.changes:
        blocks.append(heading("One change") + "\n" + _rows(result.changes, result, width))
    elif result.never is None:
        blocks.append(heading("One change") + "\n" + paragraph(_no_change(result), width))
    if result.pairs:
        blocks.append(heading("Two changes together") + "\n" + _rows(result.pairs, result, width))
    if result.refused:
        told = _refused(result.refused, width)
        blocks.append(heading("What would help the injector, and why it is not advised") + "\n" + told)
    blocks += caution_block(result.cautions, width)
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(result, width))
    return "\n\n".join(blocks) + "\n"


def danger_block(cautions: Sequence[Caution], width: int) -> list[str]:
    """The dangers under their headline, where there are any."""
    dangers = [caution for caution in cautions if caution.severity == "danger"]
    return [heading("DANGER") + "\n" + caution_lines(dangers, width)] if dangers else []


def caution_block(cautions: Sequence[Caution], width: int) -> list[str]:
    """The other cautions, where there are any."""
    others = [caution for caution in cautions if caution.severity != "danger"]
    return [heading("Cautions") + "\n" + caution_lines(others, width)] if others else []


def _now(result: Advice, width: int) -> str:
    family = result.units
    rows = [("Draws", f"In {share(result.now_share_ratio)} of the cases that the file allows.")]
    if result.now_loaded_share_ratio is not None:
        rows.append(("Filter loaded", f"In {share(result.now_loaded_share_ratio)} of the cases."))
    rows.append(("Water", f"{figure(result.now_flow_m3s, 'flow', family)}, gas line closed."))
    rows.append(("Gas", f"{figure(result.now_gas_flow_m3s, 'gas flow', family)}, gas line open."))
    rows.append(("Why", result.why))
    return labelled(rows, width)


def _no_change(result: Advice) -> str:
    if result.verdict == "draws":
        return f"It draws as it is; none of {result.tried_count} changes that were tried betters it by much."
    return f"None of {result.tried_count} changes that were tried betters it and passes every check."


def _rows(rows: Sequence[Advised], result: Advice, width: int) -> str:
    """A table of what each brings and costs, and under it what to do."""
    flow, gas = unit_of("flow", result.units), unit_of("gas flow", result.units)
    head = ("change", "draws", "filter loaded", f"water {flow}", "of today's", f"gas {gas}")
    cells = [
        (
            str(number),
            short_share(row.draws_share_ratio),
            "-" if row.loaded_share_ratio is None else short_share(row.loaded_share_ratio),
            bare(row.flow_m3s, "flow", flow),
            f"{100.0 * row.flow_ratio:.0f} %",
            bare(row.gas_flow_m3s, "gas flow", gas),
        )
        for number, row in enumerate(rows, 1)
    ]
    told = [paragraph(_words(row, result.units), width, f"{number:>2}  ", "    ") for number, row in enumerate(rows, 1)]
    legend = (
        f"The best first: by the share of the cases that draw, then by water. Each was solved again with "
        f"{_cases(result)}; in brackets low to high. Water with the gas line closed, gas with it open."
    )
    return "\n".join([table(head, cells, width), *told, paragraph(legend, width)])


def _cases(result: Advice) -> str:
    return "the one case computed" if result.cases_count == 0 else f"{result.cases_count} cases (seed {result.seed})"


def _words(row: Advised, family: Family) -> str:
    words = _sentences(row.words)
    if row.pump_head_m is not None and row.pump_flow_m3s is not None:
        words += (
            f" It has to give {show(row.pump_head_m, 'head', family)} of head at "
            f"{show(row.pump_flow_m3s, 'flow', family)}."
        )
    return " ".join([words, *row.brings])


def _sentences(words: Sequence[str]) -> str:
    return " ".join(word if word.endswith(".") else f"{word}." for word in words)


def _refused(rows: Sequence[Refused], width: int) -> str:
    """Refused changes by the reasons that they share."""
    grouped: dict[tuple[str, ...], list[str]] = {}
    for row in rows:
        grouped.setdefault(row.reasons, []).append(_sentences(row.words))
    lines = []
    for reasons, words in grouped.items():
        lines += [paragraph(word, width, "- ", "  ") for word in words]
        lines.append(
            paragraph(f"Not advised: {' '.join(sentence(reason) for reason in reasons)}", width, "    ", "    ")
        )
    return "\n".join(lines)


_NAMES = (
    "injector_loss_ratio",
    "gas_check_opening_pressure_pa_diff",
    "flexible_hose_bend_radius_ratio",
    "filter_loaded_ratio",
    "rated_pump_head_ratio",
    "gas_draw_factor_ratio",
)


def _numbers(result: Advice, width: int) -> str:
    """How far each change goes, and the numbers of the tables behind the answer."""
    lines = [
        paragraph(
            "How far each change goes (10 cm, one size, a quarter of the length) is a choice of this project; what it "
            "does is solved on this loop. The numbers behind it (value, low to high):",
            width,
        )
    ]
    entries = [(name, model_table("defaults")[(name,)]) for name in _NAMES]
    lines += [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in entries]
    keys = {entry.source for _, entry in entries} | {caution.source for caution in result.cautions}
    return "\n".join(lines + [citation(key, width) for key in sorted(keys - {""})])
