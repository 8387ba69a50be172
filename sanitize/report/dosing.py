"""The doses as text: dangers, where the water stands, the steps in the order of carrying out, and what is expected."""

from collections.abc import Sequence

from sanitize.basis.figure import Figure
from sanitize.basis.units import Family, show, significant
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.phrases import sentence
from sanitize.report.sources import citation
from sanitize.studies.dosing.result import FIELDS, SPOKEN, Conflict, Dosing, Expected, Item, Step, Target, WaterChange

WIDTH = 100


def dosing_text(result: Dosing, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    blocks = [heading(result.title)] if result.title else []
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    grave = [conflict for conflict in result.conflicts if conflict.severity == "danger"]
    if dangers or grave:
        lines = [conflict_lines(grave, width)] if grave else []
        lines += [caution_lines(dangers, width)] if dangers else []
        blocks.append(heading("DANGER") + "\n" + "\n".join(lines))
    blocks.append(heading("What to add?") + "\n" + _answer(result, width))
    blocks.append(heading("Where the water stands") + "\n" + _stands(result, width))
    if result.water_change is not None:
        blocks.append(heading("First change water") + "\n" + _change(result.water_change, result.units, width))
    if result.steps:
        blocks.append(heading("The steps, in their order") + "\n" + _steps(result.steps, result.units, width))
    if result.unreached:
        told = "\n".join(paragraph(sentence(one.text), width, "- ", "  ") for one in result.unreached)
        blocks.append(heading("What these steps do not reach") + "\n" + told)
    if result.steps or result.water_change is not None:
        blocks.append(heading("The test to expect after all of it") + "\n" + _expected(result, width))
    if result.drift:
        blocks.append(heading("What happens to the pH by itself") + "\n" + _drift(result, width))
    mild = [conflict for conflict in result.conflicts if conflict.severity != "danger"]
    if mild:
        blocks.append(heading("What must not meet") + "\n" + conflict_lines(mild, width))
    if result.advice:
        blocks.append(heading("For this tub") + "\n" + _list(result.advice, width))
    if result.blind_spots:
        blocks.append(heading("What the tests cannot see") + "\n" + _list(result.blind_spots, width))
    mild_cautions = [caution for caution in result.cautions if caution.severity != "danger"]
    if mild_cautions:
        blocks.append(heading("Cautions") + "\n" + caution_lines(mild_cautions, width))
    if result.notices:
        told = "\n".join(paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices)
        blocks.append(heading("Notices") + "\n" + told)
    blocks.append(heading("Where the targets come from") + "\n" + _origins(result, width))
    return "\n\n".join(blocks) + "\n"


def conflict_lines(conflicts: Sequence[Conflict], width: int) -> str:
    """Each conflict in one paragraph: what meets, what happens, what to do, and its source's key."""
    return "\n".join(
        paragraph(
            f"{sentence(one.between[0])} and {one.between[1]}: {one.text} DO: {one.action}"
            + (f" [{one.source}]" if one.source else ""),
            width,
            "! " if one.severity == "danger" else "- ",
            "  ",
        )
        for one in conflicts
    )


def number_words(value: Figure, unit: str = "", decimals: int | None = None) -> str:
    """A figure in a unit that is the same for every family, or with fixed decimals.

    >>> number_words(Figure(40.0, 50.0, 61.0), "mg/L"), number_words(Figure(7.81, 7.9, 8.04), decimals=1)
    ('50 mg/L (40 to 61)', '7.9 (7.8 to 8.0)')
    """
    ends = [None if end is None else _decimal(end, decimals) for end in (value.low, value.nominal, value.high)]
    low, nominal, high = ("none" if end is None else end for end in ends)
    space = f" {unit}" if unit else ""
    return f"{nominal}{space}" if low == high == nominal else f"{nominal}{space} ({low} to {high})"


def _decimal(value: float, decimals: int | None) -> str:
    if decimals is None:
        return significant(value)
    text = f"{value:.{decimals}f}"
    return text.removeprefix("-") if float(text) == 0.0 else text


def item_words(item: Item, value: Figure) -> str:
    """A figure of an item as a test reads it."""
    return number_words(value, decimals=1) if item == "ph" else number_words(value, "mg/L")


def _list(texts: Sequence[str], width: int) -> str:
    return "\n".join(paragraph(sentence(text), width, "- ", "  ") for text in texts)


def _answer(result: Dosing, width: int) -> str:
    products = list(dict.fromkeys(step.product for step in result.steps))
    if products:
        said = f"{', then '.join(products)}: {len(result.steps)} portions with a test after each."
    elif result.water_change is not None:
        said = "Nothing: a part of the water is changed."
    else:
        said = "Nothing now." if not result.unreached else "Nothing; what is too high must fall first."
    rows = [("Add", said), ("The tub", _tub_words(result))]
    index = number_words(result.saturation_index, decimals=1)
    rows.append(
        (
            "Saturation index",
            f"{index} as tested (calcite; 0 in balance, chalk falls above, cement and copper are attacked below); the "
            f"simplified index of the trade reads {number_words(result.simplified_index, decimals=1)}.",
        )
    )
    if result.uses == "chlorine":
        rows.append(("Chlorine that acts", f"{number_words(result.hocl_mgl, 'mg/L')} as hypochlorous acid."))
    if result.uses == "bromine":
        rows.append(("Bromine that acts", f"{number_words(result.before.hobr_mgl, 'mg/L')} as hypobromous acid."))
    return labelled(rows, width)


def _tub_words(result: Dosing) -> str:
    volume = show(result.volume_l.ends[1] / 1000.0, "volume", result.units)
    at = show(result.temperature_c, "temperature", result.units)
    text = f"{volume} of water at {at}"
    if result.turnover_s is not None:
        text += f", turned over once in {show(result.turnover_s.ends[2], 'time', result.units)} at the slowest"
    return f"{text}; {'tested on ' + result.tested_on if result.tested_on else 'tested on an unknown day'}."


def _stands(result: Dosing, width: int) -> str:
    head = ("item", "as tested", "wanted", "it stands")
    rows = [(SPOKEN[one.item], item_words(one.item, one.tested), _wanted(one), one.stands) for one in result.targets]
    return table(head, rows, width)


def _wanted(target: Target) -> str:
    low, _, high = target.wanted.ends
    if target.item == "ph":
        return f"{low:.1f} to {high:.1f}"
    if low == 0.0:
        return f"at most {significant(high)} mg/L"
    return f"{significant(low)} to {significant(high)} mg/L"


def amount_words(step: Step, family: Family) -> str:
    """What to weigh or measure, with its range."""
    kind, value = ("mass", step.mass_g) if step.mass_g is not None else ("dose volume", step.volume_ml)
    low, nominal, high = significant(step.low), significant(value or 0.0), significant(step.high)
    unit = "g" if kind == "mass" else "mL"
    spread = "" if low == high == nominal else f" ({low} to {high})"
    return f"{nominal} {unit}{spread}"


def _steps(steps: Sequence[Step], family: Family, width: int) -> str:
    blocks = []
    for step in steps:
        tests = " and ".join(SPOKEN[item] for item in step.retest) or "nothing"
        what = f"{amount_words(step, family)} of {step.product}"
        head = f"{what} ({step.strength}), portion {step.portion} of {step.portions_count}: {step.why}."
        if step.only_if_retest:
            head = f"If the test still asks for it, the same again, portion {step.portion}: {step.why}."
        wait = f"Wait {show(step.wait_s, 'time', family)}, then test {tests}."
        how = f" {step.how}" if step.portion == 1 else ""
        blocks.append(paragraph(f"{head}{how} {wait}", width, f"{step.number:>2}. ", "    "))
    return "\n".join(blocks)


def _change(change: WaterChange, family: Family, width: int) -> str:
    low, middle, high = (100.0 * end for end in change.share_ratio.ends)
    litres = show(change.volume_l.ends[1] / 1000.0, "volume", family)
    text = (
        f"Let out {middle:.0f} % ({low:.0f} to {high:.0f}) of the water, {litres}, with the pump off, and fill up "
        f"again: {change.why}. Then run a turnover and test before the steps below."
    )
    return paragraph(text, width)


def _expected(result: Dosing, width: int) -> str:
    rows = [(SPOKEN[one.item], _of(result.before, one.item), _of(result.after, one.item)) for one in result.targets]
    rows.append(
        (
            "saturation index",
            number_words(result.saturation_index, decimals=1),
            number_words(result.after.saturation_index, decimals=1),
        )
    )
    if result.uses == "chlorine":
        rows.append(("of it acts", number_words(result.hocl_mgl, "mg/L"), number_words(result.after.hocl_mgl, "mg/L")))
    lines = [table(("item", "before", "after"), rows, width)]
    fall = result.used_up_alkalinity_mgl.ends[1]
    if fall > 0.0:
        lines.append(
            paragraph(
                f"As the oxidizer is used up, total alkalinity falls by {significant(fall)} mg/L again, and the pH a "
                "little with it.",
                width,
            )
        )
    return "\n".join(lines)


def _of(expected: Expected, item: Item) -> str:
    return item_words(item, getattr(expected, FIELDS[item]))


def _drift(result: Dosing, width: int) -> str:
    told = "; ".join(f"after {one.days:.0f} d {number_words(one.ph, decimals=1)}" for one in result.drift)
    start = result.after.ph.ends[1]
    ways = "the injector's bubbles and the surface" if result.gas_flow_m3s.ends[1] > 0.0 else "the surface"
    way = "rises" if result.drift[-1].ph.ends[1] >= start else "falls"
    return paragraph(
        f"Carbon dioxide passes between water and air through {ways}, so the pH {way} "
        f"from {start:.1f} though nothing is added: {told}. The alkalinity stays; the more of it, the higher "
        "the pH ends.",
        width,
    )


def _origins(result: Dosing, width: int) -> str:
    alike: dict[tuple[str, str, str], list[str]] = {}
    for one in result.targets:
        alike.setdefault((one.origin, one.standing, one.source), []).append(SPOKEN[one.item])
    lines = [
        paragraph(
            f"{', '.join(names)}: "
            + ("stated in the file" if origin == "own" else f"{origin}, {standing}")
            + (f" [{source}]" if source else ""),
            width,
            "- ",
            "  ",
        )
        for (origin, standing, source), names in alike.items()
    ]
    lines.append(
        paragraph(
            "Reading errors, strengths and waits are mostly common practice: `sanitize tables test_errors`, "
            "`dosing_products`, `dosing_numbers`.",
            width,
        )
    )
    return "\n".join([*lines, *(citation(key, width) for key in result.sources)])
