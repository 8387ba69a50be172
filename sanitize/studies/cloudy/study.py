"""The study of clouded water: causes by what was answered, by what the model says and by readings."""

from collections.abc import Sequence

import numpy as np

from sanitize.basis.notices import Notice
from sanitize.laws.ozone.metals import metal_ozone_demand_mgl
from sanitize.plant.answers import Answers
from sanitize.plant.loop import Plant
from sanitize.studies.cloudy.asking import next_tests
from sanitize.studies.cloudy.causes import CAUSES, ELSE
from sanitize.studies.cloudy.health import health_cautions
from sanitize.studies.cloudy.jar import JAR_HEIGHT_M, jar_times
from sanitize.studies.cloudy.knowledge import Knowledge, rule
from sanitize.studies.cloudy.posterior import log_likelihoods, posterior
from sanitize.studies.cloudy.prepared import Prepared
from sanitize.studies.cloudy.readings import without_covered
from sanitize.studies.cloudy.result import Because, CauseRow, Cloudy, PairRow, Steps, Witness, Word
from sanitize.studies.cloudy.signs import EXCLUDE, NEEDS, SIGNS
from sanitize.studies.cloudy.told import Teller, Told
from sanitize.studies.cloudy.witness import (
    absent_causes,
    told_by_thermometer,
)
from sanitize.studies.draws import Array, Mask
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.run import injector_of

MOST_PAIRS = 5
_BECAUSE_BITS = 0.2


def word_of(chance: float) -> Word:
    """How a chance is told to people.

    >>> word_of(0.7), word_of(0.2), word_of(0.02)
    ('likely', 'possible', 'unlikely')
    """
    if chance >= rule("likely_from_ratio"):
        return "likely"
    return "possible" if chance >= rule("possible_from_ratio") else "unlikely"


def evidence_of(prepared: Prepared, answers: Answers) -> dict[str, float]:
    """How surely each sign is there: the model's word first, a person's answer over it, readings over both."""
    found = {item.sign: sure_of_told(item) for item in prepared.told if item.sign not in answers.unsure}
    found |= {sign: 1.0 for sign in answers.saw if sign in SIGNS} | {
        sign: 0.0 for sign in answers.not_seen if sign in SIGNS
    }
    covered = without_covered(prepared.plant, list(found)) if prepared.explained is not None else ()
    void = void_signs(prepared.plant)
    return {sign: value for sign, value in found.items() if sign not in covered and sign not in void}


def sure_of(share: float, error: float) -> float:
    """A share of the model's cases, drawn towards one half as it may err either way.

    >>> sure_of(1.0, 0.1), sure_of(0.5, 0.1), sure_of(0.0, 0.1)
    (0.9, 0.5, 0.1)
    """
    return error + (1.0 - 2.0 * error) * share


def sure_of_told(item: Told) -> float:
    """How surely a sign is there by what the file says: where a part may break, a denial counts for less."""
    sure = sure_of(item.share_ratio, rule("witness_error_ratio"))
    if not item.may_break or sure >= 0.5:
        return sure
    return 0.5 - (0.5 - sure) * (1.0 - rule("broken_ratio"))


def diagnose(prepared: Prepared, answers: Answers) -> Cloudy:
    """Causes by their chance after the answers, why, what to test next, and what to do about the first.

    answers: their codes must be known.
    """
    known, plain = prepared.known, prepared.plain
    evidence = evidence_of(prepared, answers)
    before = posterior(plain, {})[0] @ plain.member
    chances = posterior(known, evidence, prepared.readings)
    by_cause = chances @ known.member
    reasons = _because(prepared, evidence, answers, chances[0])
    rows = [
        CauseRow(
            cause=code,
            name=CAUSES[code].name,
            word=word_of(float(by_cause[0, number])),
            chance_ratio=figure(by_cause[:, number]),
            before_ratio=float(before[number]),
            because=reasons[number],
        )
        for number, code in enumerate(known.causes)
        if known.weight[0, number] > 0.0
    ]
    rows.sort(key=lambda row: -row.chance_ratio.ends[1])
    leading = next((row for row in rows if row.cause != ELSE), rows[0]) if rows[0].word == "unlikely" else rows[0]
    heights = jar_times(prepared.plant.tub.temperature_c)
    return Cloudy(
        title=prepared.plant.title,
        units=prepared.plant.units,
        standing="judgement",
        cases_count=prepared.cases,
        seed=prepared.seed,
        answers=answers,
        own_numbers_count=prepared.own.count,
        causes=tuple(rows),
        pairs=_pairs(known, chances),
        two_at_once_ratio=figure(chances[:, len(known.causes) :].sum(axis=1)),
        witnesses=_witnesses(prepared, evidence, answers),
        gaps=() if prepared.explained is None else prepared.explained.gaps,
        faults=() if prepared.explained is None else prepared.explained.faults,
        unexplained_readings=() if prepared.explained is None else prepared.explained.unexplained,
        next_tests=next_tests(plain, evidence, prepared.readings, _settled(prepared, answers), word_of),
        steps=_steps(leading.cause),
        heat_rates=prepared.heat_rates,
        jar_height_m=JAR_HEIGHT_M,
        jar_times=heights,
        notices=(*prepared.notices, *_answer_notices(prepared, answers, rows)),
        cautions=health_cautions((*answers.saw, *_told_signs(prepared, answers))),
    )


def _told_signs(prepared: Prepared, answers: Answers) -> list[str]:
    """Signs that the file itself, or a test in it, shows more likely than not, and that nobody has answered."""
    return [
        item.sign
        for item in (*prepared.told, *told_by_thermometer(prepared.plant))
        if item.by != "model" and item.share_ratio >= 0.5 and item.sign not in answers.all
    ]


def void_signs(plant: Plant) -> tuple[str, ...]:
    """Signs that tell nothing in this tub: in peroxide an ORP meter reads low in any state (from memory)."""
    return ("orp_low",) if plant.sanitizer is not None and plant.sanitizer.uses == "peroxide" else ()


def _settled(prepared: Prepared, answers: Answers) -> tuple[str, ...]:
    """Signs that are not to be asked: answered, told by a reading, about what the tub has not, or void in it."""
    told = without_covered(prepared.plant, list(SIGNS)) if prepared.explained is not None else ()
    missing = absent_causes(prepared.plant)
    about = {
        "injector": ("no_vacuum", "no_gas_flow", "bubbles_stop_with_gas", "no_ozone_at_unit"),
        "filter": ("filter_drop_high", "filter_drop_low", "filter_old", "filter_damaged"),
        "chiller": ("chiller_flow_alarm", "chiller_no_cold"),
        "chlorine": ("combined_chlorine_high", "cyanuric_acid_high"),
    }
    gone = [sign for need in set(missing.values()) for sign in about[need]]
    return (*answers.all, *told, *gone, *void_signs(prepared.plant), *_implied(answers))


def _implied(answers: Answers) -> list[str]:
    """Signs whose answer follows from another one: asked, they could only contradict it."""
    found = []
    for one, other, _ in EXCLUDE:
        found += [other] if one in answers.saw else []
        found += [one] if other in answers.saw else []
    for one, other, _ in NEEDS:
        found += [one] if other in answers.not_seen else []
        found += [other] if one in answers.saw else []
    return found


def _because(
    prepared: Prepared, evidence: dict[str, float], answers: Answers, chances: Array
) -> tuple[tuple[Because, ...], ...]:
    """For every cause what speaks for it, in bits against the other hypotheses, the strongest first."""
    plain = prepared.plain
    terms: dict[str, Array] = {sign: term[0] for sign, term in log_likelihoods(plain, evidence).items()}
    if prepared.readings is not None:
        terms["readings"] = prepared.readings
    found = []
    for number in range(len(plain.causes)):
        mine = plain.member[:, number]
        reasons = []
        for sign, term in terms.items():
            bits = float(
                np.log2(_mean(np.exp(term), plain.weight[0], mine) / _mean(np.exp(term), plain.weight[0], ~mine))
            )
            if bits > _BECAUSE_BITS:
                reasons.append(_reason(sign, evidence, answers, prepared.told, bits))
        found.append(tuple(sorted(reasons, key=lambda item: -item.bits)))
    return tuple(found)


def _mean(likelihood: Array, weight: Array, mask: Mask) -> float:
    total = float(np.sum(weight[mask]))
    if total <= 0.0:
        return 1.0
    return max(float(np.sum((likelihood * weight)[mask]) / total), float(np.finfo(float).tiny))


def _reason(sign: str, evidence: dict[str, float], answers: Answers, told: Sequence[Told], bits: float) -> Because:
    if sign == "readings":
        return Because("readings", True, "readings", bits)
    if sign in (*answers.saw, *answers.not_seen):
        return Because(sign, evidence[sign] > 0.5, "answer", bits)
    teller: Teller = next(item.by for item in told if item.sign == sign)
    return Because(sign, evidence[sign] > 0.5, teller, bits)


def _pairs(known: Knowledge, chances: Array) -> tuple[PairRow, ...]:
    """The likeliest pairs, those at least possible."""
    start = len(known.causes)
    order = np.argsort(-chances[0, start:])[:MOST_PAIRS]
    return tuple(
        PairRow(
            (known.causes[known.pairs[number][0]], known.causes[known.pairs[number][1]]),
            figure(chances[:, start + number]),
        )
        for number in order
        if chances[0, start + number] >= rule("possible_from_ratio")
    )


def _witnesses(prepared: Prepared, evidence: dict[str, float], answers: Answers) -> tuple[Witness, ...]:
    """What the model said where nobody answered, and by how much it moved the odds of the cause that it is about."""
    found = []
    for item in prepared.told:
        if item.sign in answers.all or item.sign not in evidence or item.moves not in prepared.plain.causes:
            continue
        mine = prepared.plain.member[:, prepared.plain.causes.index(item.moves)]
        likelihood = np.exp(log_likelihoods(prepared.plain, {item.sign: evidence[item.sign]})[item.sign][0])
        weight = prepared.plain.weight[0]
        if float(np.sum(weight[mine])) <= 0.0:
            continue
        factor = _mean(likelihood, weight, mine) / _mean(likelihood, weight, ~mine)
        found.append(Witness(item.sign, item.share_ratio, evidence[item.sign], item.moves, factor, item.text, item.by))
    return tuple(found)


def _steps(code: str) -> Steps:
    cause = CAUSES[code]
    confirm = f"{cause.confirm} {_metals()}" if code == "iron_manganese" else cause.confirm
    return Steps(code, confirm, cause.do, cause.dont, cause.stop, cause.drain)


def _metals() -> str:
    iron, manganese = float(metal_ozone_demand_mgl(1.0, 0.0)), float(metal_ozone_demand_mgl(0.0, 1.0))
    return (
        f"Each mg/L of iron takes {iron:.2g} mg/L of ozone before any is left, each of manganese {manganese:.2g}: a "
        "residual that comes up late speaks for them."
    )


def _answer_notices(prepared: Prepared, answers: Answers, rows: Sequence[CauseRow]) -> list[Notice]:
    found = []
    if prepared.explained is not None:
        covered = without_covered(prepared.plant, [*answers.saw, *answers.not_seen])
        if covered:
            told = ", ".join(covered)
            found.append(
                Notice(
                    "answers-told-by-readings", f"The readings of the file tell {told}; the answers do not count twice."
                )
            )
    void = [sign for sign in void_signs(prepared.plant) if sign in (*answers.saw, *answers.not_seen)]
    if void:
        text = f"{', '.join(void)} is not weighed: in peroxide an ORP meter reads low in any state."
        found.append(Notice("void-in-peroxide", text))
    if answers.saw and rows[0].cause == ELSE:
        found.append(
            Notice("no-cause-fits", "No named cause fits the answers better than chance: check them, or test further.")
        )
    if injector_of(prepared.plant) is None:
        found.append(Notice("no-injector", "The loop has no injector, so the model says nothing of gas."))
    return found
