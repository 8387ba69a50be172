"""The parts list as text: what does not fit, what to buy, to cut and to seal with, and what was taken."""

from collections.abc import Sequence

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.units import Family, show, show_range
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.phrases import sentence
from sanitize.report.sources import citation
from sanitize.studies.mating.joints import PIECE_MISSING, missing_words, put_between
from sanitize.studies.mating.result import Joint, Mismatch
from sanitize.studies.shopping.result import BuyLine, CutLine, PartsList, SealLine

WIDTH = 100
_FIGURES = 3


def parts_text(result: PartsList, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    blocks.append(heading("Do the parts mate?") + "\n" + _answer(result, width))
    missing = missing_lines(result.joints, width)
    if missing:
        blocks.append(heading("Where a piece is missing, and which") + "\n" + missing)
    others = [problem for problem in result.problems if problem.code != PIECE_MISSING]
    if others:
        blocks.append(heading("What else does not fit, and what to do") + "\n" + problem_lines(others, width))
    blocks.append(heading("To buy") + "\n" + _buy(result, width))
    if result.cut:
        blocks.append(heading("To cut") + "\n" + _cut(result, width))
    if result.seal:
        blocks.append(heading("To seal the joints") + "\n" + _seal(result, width))
    if result.cautions:
        blocks.append(heading("Cautions") + "\n" + caution_lines(result.cautions, width))
    blocks.append(heading("Taken, because the file does not say it") + "\n" + notice_lines(result.assumptions, width))
    if result.notices:
        blocks.append(heading("Notices") + "\n" + notice_lines(result.notices, width))
    if result.sources:
        blocks.append(heading("Sources") + "\n" + "\n".join(citation(key, width) for key in result.sources))
    return "\n\n".join(blocks) + "\n"


def _answer(result: PartsList, width: int) -> str:
    verdicts = [joint.verdict for joint in result.joints]
    rows = [
        ("Joints", str(len(verdicts))),
        ("They mate at", str(verdicts.count("mates"))),
        ("A piece is missing at", str(verdicts.count("needs a piece"))),
        ("Not judged", str(verdicts.count("not judged"))),
        ("Other problems", str(sum(problem.code != PIECE_MISSING for problem in result.problems))),
    ]
    return labelled(rows, width)


def missing_lines(joints: Sequence[Joint], width: int) -> str:
    """The joints at which a piece is missing, those that need the same in one paragraph."""
    alike: dict[tuple[str, str, str], list[str]] = {}
    for joint in joints:
        if joint.missing:
            known = f"{joint.standing} [{joint.source}]" if joint.source else joint.standing
            places = alike.setdefault((missing_words(joint), put_between(joint), known), [])
            places.append(f"{joint.first} and {joint.second}")
    return "\n".join(
        paragraph(f"{sentence(found)} DO: {action} Between: {'; '.join(places)}. ({known})", width, "- ", "  ")
        for (found, action, known), places in alike.items()
    )


def problem_lines(problems: Sequence[Mismatch], width: int) -> str:
    """Each problem in one paragraph: what is wrong, what puts it right, how well that is known."""
    return "\n".join(
        paragraph(f"{sentence(problem.text)} DO: {problem.action} ({_known(problem)})", width, "- ", "  ")
        for problem in problems
    )


def _known(problem: Mismatch) -> str:
    return f"{problem.standing} [{problem.source}]" if problem.source else problem.standing


def notice_lines(notices: Sequence[Notice], width: int) -> str:
    """Each notice in one paragraph."""
    return "\n".join(paragraph(sentence(notice.text), width, "- ", "  ") for notice in notices)


def _buy(result: PartsList, width: int) -> str:
    head = ("item", "size in", "ends", "count", "of it missing")
    counted = [_buy_row(line) for line in result.buy if line.length_m is None]
    lengths = [paragraph(_length_row(line, result.units), width, "- ", "  ") for line in result.buy if line.length_m]
    return "\n".join([table(head, counted, width, left=3), *lengths])


def _buy_row(line: BuyLine) -> tuple[str, ...]:
    missing = str(line.missing_count) if line.missing_count else ""
    return (line.item, _sizes(line), line.ends, str(line.count), missing)


def _sizes(line: BuyLine) -> str:
    return f"{line.size} to {line.to_size}" if line.to_size else line.size


def _length_row(line: BuyLine, family: Family) -> str:
    size = f" {line.size} in" if line.size else ""
    bore = "" if line.bore_m is None else f" of {show(line.bore_m, 'bore', family)} bore"
    length = "" if line.length_m is None else length_words(line.length_m, family)
    return f"{line.item}{size}{bore}: {length}, allowances included."


def length_words(value: Figure, family: Family) -> str:
    """A length to cut or buy with its range.

    >>> length_words(Figure(0.0335, 0.035, 0.0365), "metric"), length_words(Figure(1.2, 1.2, 1.2), "metric")
    ('35.0 mm (33.5 to 36.5)', '1.20 m')
    """
    low, nominal, high = value.ends
    if low == high:
        return show(nominal, "length", family, _FIGURES)
    return show_range(low, nominal, high, "length", family, _FIGURES)


def _cut(result: PartsList, width: int) -> str:
    told = [paragraph(_cut_words(line, result.units), width, "- ", "  ") for line in result.cut]
    depths = [
        f"{depth.size} in {depth.kind} {length_words(depth.length_m, result.units)}"
        + (f" [{depth.source}]" if depth.source else "")
        for depth in result.depths
    ]
    if depths:
        rule = (
            "A piece between two fittings is as long as the gap between their faces and what goes into either of them: "
        )
        told.append(paragraph(f"{rule}{'; '.join(depths)}.", width))
    return "\n".join(told)


def _cut_words(line: CutLine, family: Family) -> str:
    schedule = f"Schedule {line.schedule} " if line.schedule else ""
    text = f"{line.count} x {schedule}{line.item} {line.size} in, {length_words(line.length_m, family)} long"
    if line.showing_m not in (line.length_m, Figure(0.0, 0.0, 0.0)):
        text += f", of which {length_words(line.showing_m, family)} show"
    return f"{text}: {'; '.join(line.serves)}."


def _seal(result: PartsList, width: int) -> str:
    head = ("sealant", "size in", "joints", "length")
    return table(head, [_seal_row(line, result.units) for line in result.seal], width, left=2)


def _seal_row(line: SealLine, family: Family) -> tuple[str, ...]:
    length = "" if line.length_m is None else length_words(line.length_m, family)
    return (line.sealant, line.size, str(line.joints_count), length)
