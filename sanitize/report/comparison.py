"""The comparison of loops as text: dangers, what differs in the files, what it does, what only some warn of."""

from collections.abc import Sequence

from sanitize.basis.units import Family, show
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, paragraph
from sanitize.report.comparison_words import GAS_FLOW, INJECTOR_FLOW, TELLINGS, WATER_FLOW, told_by_file
from sanitize.report.phrases import sentence, share, short_share
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.comparison.result import CautionOf, Comparison, Difference, FileAnswer, Measure, NoticeOf
from sanitize.studies.draws import NOMINAL_ALONE

WIDTH = 100
_VERDICTS = {"draws": "draws", "marginal": "may or may not draw", "does_not_draw": "does not draw"}


def comparison_text(result: Comparison, *, width: int = WIDTH) -> str:
    """The whole comparison for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = danger_blocks(result, width)
    blocks.append(heading("Files") + "\n" + "\n".join(_file_line(file, width) for file in result.files))
    blocks.append(heading("In short") + "\n" + "\n".join(_in_short(result, width)))
    blocks.append(heading("What differs in the files") + "\n" + _differences(result, width))
    blocks.append(heading("What it does") + "\n" + _effects(result, width))
    states = [
        "\n".join(
            [
                f"{state.state}, {'normal level' if state.level == 'normal' else 'full to the rim'}, "
                f"{'no check valve' if state.check_valve == 'none' else f'valve {state.check_valve}'}",
                *_by_file(result, state.texts, width),
            ]
        )
        for state in result.states
    ]
    if states:
        blocks.append(heading("Water and air at the port, where it is not the same") + "\n" + "\n".join(states))
    if result.hazards:
        blocks.append(heading("Which faults bring a hazard, where it is not the same") + "\n" + _hazards(result, width))
    return "\n\n".join([*blocks, *warning_blocks(result, width), _how(result, width)]) + "\n"


def comparison_warnings(result: Comparison, *, width: int = WIDTH) -> str:
    """Dangers of all files, and the cautions and notices of only some; ends with a line end unless there are none."""
    blocks = [*danger_blocks(result, width), *warning_blocks(result, width)]
    return "\n\n".join(blocks) + "\n" if blocks else ""


def danger_blocks(result: Comparison, width: int) -> list[str]:
    """The dangers of all files under their headline, each with the files that it holds for."""
    dangers = [item for item in result.cautions if item.caution.severity == "danger"]
    if not dangers:
        return []
    return [heading("DANGER") + "\n" + _caution_groups(dangers, width)]


def _caution_groups(items: Sequence[CautionOf], width: int) -> str:
    """Cautions under the files that they hold for."""
    groups: dict[tuple[str, ...], list[Caution]] = {}
    for item in items:
        groups.setdefault(item.files, []).append(item.caution)
    return "\n".join(f"{_holders(files)}\n{caution_lines(those, width)}" for files, those in groups.items())


def _notice_groups(items: Sequence[NoticeOf], width: int) -> str:
    """Notices under the files that they hold for."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for item in items:
        groups.setdefault(item.files, []).append(paragraph(sentence(item.notice.text), width, "- ", "  "))
    return "\n".join("\n".join([_holders(files), *those]) for files, those in groups.items())


def warning_blocks(result: Comparison, width: int) -> list[str]:
    """Cautions and notices that not all files give, what no drawn case means, and how many else they all give."""
    others = [item for item in result.cautions if item.caution.severity != "danger"]
    some = [item for item in others if len(item.files) < len(result.files)]
    blocks = []
    if some:
        blocks.append(heading("Cautions that not all files give") + "\n" + _caution_groups(some, width))
    blind = [item for item in result.notices if item.notice.code == NOMINAL_ALONE.code]
    few = [item for item in result.notices if len(item.files) < len(result.files) and item not in blind]
    if few:
        blocks.append(heading("Notices that not all files give") + "\n" + _notice_groups(few, width))
    cautions, notices = len(others) - len(some), len(result.notices) - len(few) - len(blind)
    told = (
        f"All files give {_count(cautions, 'caution')} and {_count(notices, 'notice')} more; `sanitize suction` tells "
        "them with what to do."
    )
    return [*blocks, *(paragraph(item.notice.text, width) for item in blind), paragraph(told, width)]


def _count(number: int, noun: str) -> str:
    """A number of things.

    >>> _count(1, "caution"), _count(0, "notice")
    ('1 caution', '0 notices')
    """
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _holders(files: Sequence[str]) -> str:
    return f"In {' and '.join([', '.join(files[:-1]), files[-1]] if len(files) > 1 else files)}:"


def _file_line(file: FileAnswer, width: int) -> str:
    title = f": {file.title}" if file.title else ""
    return paragraph(f"{file.path}{title}", width, f"{file.label}  ", "   ")


def _by_file(result: Comparison, texts: Sequence[str], width: int) -> list[str]:
    return [
        paragraph(text, width, f"  {file.label}  ", "     ") for file, text in zip(result.files, texts, strict=True)
    ]


def _in_short(result: Comparison, width: int) -> list[str]:
    """A line for each file behind the first."""
    first = result.files[0]
    by_name = {measure.name: measure for measure in result.measures}
    lines = []
    for number, file in enumerate(result.files[1:], start=1):
        here, there = (short_share(one.draws_share_ratio) for one in (file, first))
        told = [
            f"draws in {here} of the cases{f', as {first.label} does' if here == there else f' instead of {there}'}",
            _amount(by_name[WATER_FLOW], number, "water", "flow", result.units),
            _amount(by_name[GAS_FLOW], number, "gas", "gas flow", result.units),
            _dangers(result, first.label, file.label),
        ]
        lines.append(paragraph(f"{file.label} against {first.label}: {'; '.join(told)}.", width, "", "   "))
    return lines


def _amount(measure: Measure, number: int, what: str, kind: str, family: Family) -> str:
    change = measure.changes[number - 1]
    if change.tendency == "same":
        return f"as much {what}"
    if change.tendency not in ("more", "less"):
        return f"{what} more or less, the files do not tell which"
    return f"{show(abs(change.difference.ends[1]), kind, family)} {change.tendency} {what}"


def _dangers(result: Comparison, first: str, label: str) -> str:
    """How many dangers come and go; one of the same code that the other file has as a caution is told as that."""
    here, there = ({item.caution.code: item for item in result.cautions if one in item.files} for one in (label, first))
    graver = _of_danger(result, label, first)
    milder = _of_danger(result, first, label)
    told = [
        f"{_count(number, 'danger')} {word}"
        for number, word in (
            (sum(code not in there for code in graver), "new"),
            (sum(code in there for code in graver), "that was a caution"),
            (sum(code not in here for code in milder), "gone"),
            (sum(code in here for code in milder), "that is a caution now"),
        )
        if number
    ]
    same = any(item.caution.severity == "danger" and {first, label} <= {*item.files} for item in result.cautions)
    return " and ".join(told) or ("the same dangers" if same else "no danger named in either")


def _of_danger(result: Comparison, has: str, lacks: str) -> list[str]:
    """Codes of the dangers that only one of two files has."""
    dangers = [item for item in result.cautions if item.caution.severity == "danger"]
    both = {item.caution.code for item in dangers if lacks in item.files}
    return [item.caution.code for item in dangers if has in item.files and item.caution.code not in both]


def _differences(result: Comparison, width: int) -> str:
    if not result.differences:
        return paragraph("Nothing differs: the same parts, the same values.", width)
    lines: list[str] = []
    before: tuple[str, ...] = ()
    for item in result.differences:
        if item.places != before:
            lines.append(paragraph(", ".join(item.places), width))
            before = item.places
        values = [
            f"{file.label} {'not there' if text is None else text}"
            for file, text in zip(result.files, item.values, strict=True)
        ]
        lines.append(paragraph(f"{_what(item)}: {'; '.join(values)}", width, "  ", "      "))
    return "\n".join(lines)


def _what(item: Difference) -> str:
    """What of a part or table differs."""
    return {"value": item.key, "part": "part", "place": "stands", "name": "called"}[item.kind]


def _hazards(result: Comparison, width: int) -> str:
    return "\n".join(
        "\n".join(
            [
                f"{sentence(hazard.hazard.replace('-', ' '))} ({hazard.severity})",
                *_by_file(result, [", ".join(faults) or "none that was looked at" for faults in hazard.faults], width),
            ]
        )
        for hazard in result.hazards
    )


def _effects(result: Comparison, width: int) -> str:
    blocks = [
        "\n".join(["Does the injector draw?", *_by_file(result, [_draws(one, result) for one in result.files], width)])
    ]
    total = next(measure for measure in result.measures if measure.name == WATER_FLOW)
    for measure in result.measures:
        if measure.name == INJECTOR_FLOW and measure.values == total.values:
            continue
        title = TELLINGS[measure.name].title
        blocks.append("\n".join([title, *_by_file(result, told_by_file(measure, result), width)]))
    blocks.append("\n".join(["Why", *_by_file(result, [file.why for file in result.files], width)]))
    return "\n".join(blocks)


def _draws(file: FileAnswer, result: Comparison) -> str:
    if result.cases_count == 0:
        return f"{sentence(_VERDICTS[file.verdict])}, in the one case computed."
    text = f"{sentence(_VERDICTS[file.verdict])}: in {share(file.draws_share_ratio)} of the cases."
    change, first = file.draws_change, result.files[0].label
    if change is None:
        return text
    if change.only_here_ratio == change.only_first_ratio == 0.0:
        return f"{text} In every case as {first}."
    return (
        f"{text} Only {file.label} draws in {share(change.only_here_ratio)} of them, only {first} in "
        f"{share(change.only_first_ratio)}."
    )


def _how(result: Comparison, width: int) -> str:
    first = result.files[0].label
    if result.cases_count == 0:
        text = "One case was computed, at the nominal values; no ranges were drawn."
    else:
        text = (
            f"All files were solved over the same {result.cases_count} cases (seed {result.seed}): what they share has "
            f"the same value in both, so that the range of a difference is narrower than the ranges of {first} and of "
            "the other suggest. Where that range holds both more and less, the files do not tell which it is. "
            f"In brackets, low to high. The faults were solved over {result.fault_cases_count} cases."
        )
    return heading("How to read this") + "\n" + paragraph(text, width)
