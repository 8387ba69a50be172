"""The answer about clouded water: text in ranks and words, and JSON with the figures, marked as judgement."""

import json

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show
from sanitize.plant.measured import Measured
from sanitize.plant.spec import specs
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.numbers import number_line
from sanitize.report.phrases import bare, figure, sentence, short_share, unit_of
from sanitize.report.record import plain
from sanitize.report.sources import citation
from sanitize.studies.cloudy.causes import CAUSES
from sanitize.studies.cloudy.health import HEALTH
from sanitize.studies.cloudy.result import Because, CauseRow, Cloudy, FaultOdds, HeatRates, NextTest, Outcome
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.cloudy.study import word_of

SCHEMA_VERSION = 1
WIDTH = 100
_MOST_CAUSES = 6
_MOST_TESTS = 3
_MOST_FAULTS = 4


def cloudy_json(result: Cloudy) -> str:
    """The record as JSON: every chance stands under `standing`, which says judgement."""
    record = {"schema_version": SCHEMA_VERSION, "record": "cloudy", **plain(result)}
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def cloudy_text(result: Cloudy, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(heading("What clouds the water") + "\n" + _ranking(result, width))
    if result.gaps:
        blocks.append(heading("Readings against the model") + "\n" + _readings(result, width))
    blocks.append(heading(f"If it is this: {CAUSES[result.steps.cause].name}") + "\n" + _steps(result, width))
    if result.next_tests:
        blocks.append(heading("Test next") + "\n" + _tests(result, width))
    if result.witnesses:
        lines = [paragraph(_witness(item.text, item.share_ratio, item.odds_factor_ratio, item.moves), width, "- ", "  ")
                 for item in result.witnesses]  # fmt: skip
        blocks.append(heading("What the loop file says by itself") + "\n" + "\n".join(lines))
    blocks.append(heading("Answers taken") + "\n" + _answers(result, width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(width))
    return "\n\n".join(blocks) + "\n"


def signs_text(*, width: int = WIDTH) -> str:
    """Every observation by its code, with its question and how to find out."""
    blocks = [
        paragraph("Answer with --saw CODE, --not CODE or --unsure CODE, or let --ask put the questions.", width),
        heading("About people's health"),
    ]
    for title, signs in (("", HEALTH), ("About the cause", SIGNS)):
        if title:
            blocks.append(heading(title))
        for code, sign in signs.items():
            blocks.append(f"{code}\n{paragraph(f'{sign.asks} {sign.how}', width, '  ', '  ')}")
    return "\n\n".join(blocks) + "\n"


def words_of(code: str) -> str:
    """An observation in a few words."""
    return (SIGNS.get(code) or HEALTH[code]).words


def _ranking(result: Cloudy, width: int) -> str:
    """Rank, word and reasons of the first causes; those that the range may lift or lower are marked."""
    shown = [row for row in result.causes if row.word != "unlikely"] or list(result.causes[:3])
    lines = []
    for rank, row in enumerate(shown[:_MOST_CAUSES], start=1):
        lines.append(paragraph(f"{sentence(row.name)}: {row.word}.{_why(row)}", width, f"{rank}. ", "   "))
    left = len(result.causes) - len(shown[:_MOST_CAUSES])
    legend = f"{left} others are less likely. The rank is judgement, not measurement."
    if result.causes[0].word != "likely":
        legend += " No cause is likely yet: test on."
    tail = [paragraph(legend, width)]
    for pair in result.pairs[:1]:
        names = " and ".join(CAUSES[code].name for code in pair.causes)
        tail.append(paragraph(f"Two at once are possible: {names}. After curing the first ask again.", width))
    return "\n".join([*lines, *tail])


def _why(row: CauseRow) -> str:
    told = [_reason(item) for item in row.because[:3]]
    return f" Speaks for it: {', '.join(told)}." if told else ""


def _reason(item: Because) -> str:
    if item.source == "readings":
        return "the readings"
    words = words_of(item.sign)
    text = words if item.seen else f"not seen: {words}"
    return text if item.source == "answer" else f"{text} (the {item.source} says so)"


def _steps(result: Cloudy, width: int) -> str:
    steps = result.steps
    rows = [
        ("Make sure", steps.confirm),
        ("Do", steps.do),
        ("Do not", steps.dont),
        ("Stop using", steps.stop_using),
        ("Drain", steps.drain),
    ]
    return labelled(rows, width)


def _tests(result: Cloudy, width: int) -> str:
    """The first tests: question, work, how, and what each outcome would mean."""
    blocks = []
    for number, test in enumerate(result.next_tests[:_MOST_TESTS], start=1):
        rows = [
            ("   How", test.how),
            ("   Takes", _takes(test)),
            *_outcomes(test),
        ]
        if test.sign in ("water_warm", "chiller_no_cold") and result.heat_rates is not None:
            rows.append(("   Expect", _heat(result.heat_rates, result.units)))
        if test.sign.startswith("jar_"):
            rows.append(("   Times", _jar(result)))
        blocks.append(
            f"{paragraph(f'{test.asks} [{test.sign}]', width, f'{number}. ', '   ')}\n{labelled(rows, width)}"
        )
    legend = "Ordered by what a test is expected to teach for each minute of work."
    return "\n".join([*blocks, paragraph(legend, width)])


def _outcomes(test: NextTest) -> list[tuple[str, str]]:
    """What each answer would mean, in one line where the first causes stay as they are."""
    yes, no = _outcome(test.if_yes), _outcome(test.if_no)
    if yes == no:
        return [("   Either way", f"{yes}; it tells more of the causes behind")]
    return [("   If yes", yes), ("   If no", no)]


def _takes(test: NextTest) -> str:
    work = f"{test.work_s / 60.0:.2g} min of work"
    return f"{work}, then {_long(test.wait_s)} of waiting" if test.wait_s > 0.0 else work


def _long(time_s: float) -> str:
    """A time in the unit that reads best.

    >>> _long(28.0), _long(700.0), _long(6500.0), _long(86400.0), _long(3.5e6)
    ('28 s', '12 min', '1.8 h', '24 h', '41 days')
    """
    for limit, size, unit in ((100.0, 1.0, "s"), (6000.0, 60.0, "min"), (172800.0, 3600.0, "h")):
        if time_s < limit:
            return f"{time_s / size:.2g} {unit}"
    return f"{time_s / 86400.0:.2g} days"


def _outcome(outcome: Outcome) -> str:
    """The causes that are not unlikely then; where all are, the first of them."""
    found = list(zip(outcome.first, outcome.words, strict=True))
    kept = [item for item in found if item[1] != "unlikely"] or found[:1]
    return "; ".join(f"{CAUSES[code].name} ({word})" for code, word in kept)


def _jar(result: Cloudy) -> str:
    told = [
        f"{item.particle} of {1e6 * item.diameter_m:.0f} um {'rises' if item.rises else 'sinks'} "
        f"in {_long(item.time_s)}"
        for item in result.jar_times
    ]
    return f"Through {100.0 * result.jar_height_m:.0f} cm as cold as the tub: {', '.join(told)}."


def _heat(rates: HeatRates, units: Family) -> str:
    """What a thermometer shows with nothing wrong."""
    settles = show(rates.settles_c.ends[1], "temperature", units)
    cools, warms = (
        figure(value, "temperature difference", units) for value in (rates.cooling_k_per_h, rates.warming_k_per_h)
    )
    return (
        f"With nothing wrong the water settles at {settles}; near the set {show(rates.set_c, 'temperature', units)} it "
        f"cools by {cools} an hour with pump and chiller on, and warms by {warms} an hour with the chiller off."
    )


def _witness(text: str, share: float, factor: float, moves: str) -> str:
    """What the model says, how surely, and what that does to the odds of the cause that it is about."""
    by = f"{factor:.2g} times" if factor >= 1.0 else f"1/{1.0 / factor:.2g}"
    return (
        f"{sentence(text)} (the sign is there in {short_share(share)} of its cases). This takes the odds of "
        f'"{CAUSES[moves].name}" to {by} of what they were.'
    )


def _readings(result: Cloudy, width: int) -> str:
    """Measured and predicted with nothing wrong, then the faults that would explain it."""
    rows = []
    for gap in result.gaps:
        unit = unit_of(gap.kind, result.units)
        rows.append(
            (
                _reading(gap.key),
                show(gap.measured, gap.kind, result.units),
                f"{bare(gap.predicted, gap.kind, unit)} {unit}",
                _side(gap.miss_errors),
            )
        )
    head = ("reading", "measured", "nothing wrong", "measured is")
    marks = ", ".join(_reading(gap.key) for gap in result.gaps)
    faults = [
        (f"{rank}. {', '.join(item.faults)}", " ".join(item.signs), _word(item))
        for rank, item in enumerate(result.faults[:_MOST_FAULTS], start=1)
    ]
    legend = (
        f"How a fault moves the readings, in the order {marks}: + up, - down, 0 not seen. Faults in one line these "
        "readings cannot tell apart."
    )
    lines = [
        paragraph(f"{name}; moves the readings {signs}; {word}.", width, "", "   ") for name, signs, word in faults
    ]
    if result.unexplained_readings:
        names = ", ".join(_reading(name) for name in result.unexplained_readings)
        lines.append(paragraph(f"No fault comes near the {names}: read again, or mend the file.", width, "! ", "  "))
    first = result.faults[0]
    for fault, action in zip(first.faults, first.actions, strict=True):
        if len(first.faults) <= _MOST_FAULTS:
            lines.append(paragraph(f"Against {fault}: {action}", width, "", "   "))
    return "\n".join([table(head, rows, width), "By the readings alone:", *lines, paragraph(legend, width)])


def _reading(name: str) -> str:
    """A reading as its key in the file has it, in words."""
    return specs(Measured)[name].key.replace("_", " ")


def _side(miss_errors: float) -> str:
    if abs(miss_errors) < 2.0:
        return "as predicted"
    return "above" if miss_errors > 0.0 else "below"


def _word(item: FaultOdds) -> str:
    return word_of(item.chance_ratio)


def _answers(result: Cloudy, width: int) -> str:
    told = [
        (label, "; ".join(f"{words_of(code)} [{code}]" for code in codes) or "nothing")
        for label, codes in (
            ("Seen", result.answers.saw),
            ("Not seen", result.answers.not_seen),
            ("Not known", result.answers.unsure),
        )
    ]
    return labelled(told, width)


def _numbers(width: int) -> str:
    """The rules behind the ranking and what the tables are."""
    text = (
        "How likely each cause is and how often it shows each sign is judgement, no publication: tables cloudy_causes, "
        "cloudy_signs, cloudy_shows and cloudy_times (`sanitize tables NAME`). Your own judgement goes in with "
        "--judgement FILE."
    )
    found = [
        (f"{name[0]}", entry)
        for name, entry in model_table("cloudy_rules").entries.items()
        if not name[0].startswith("reading")
    ]
    lines = [paragraph(text, width)]
    lines += [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in found]
    lines.append(citation("stokes_1851", width))
    return "\n".join(lines)
