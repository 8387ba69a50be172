"""What to test next: by the information that it is expected to bring for each minute of work."""

from collections.abc import Callable, Collection

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.studies.cloudy.causes import ELSE
from sanitize.studies.cloudy.knowledge import Knowledge
from sanitize.studies.cloudy.posterior import Evidence, answer_chance, expected_gain_bits, posterior
from sanitize.studies.cloudy.result import NextTest, Outcome, Word
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.draws import Array

LEAST_GAIN_BITS = 0.01
"""A test that is expected to bring less is not worth naming."""
FIRST_COUNT = 3
_MINUTE_S = 60.0


def next_tests(
    known: Knowledge,
    evidence: Evidence,
    readings: Array | None,
    settled: Collection[str],
    word_of: Callable[[float], Word],
) -> tuple[NextTest, ...]:
    """Every open test that is worth its work, the most bits a minute first.

    known: the nominal case alone; settled: signs that are not to be asked; word_of: a chance in words.
    """
    now = posterior(known, evidence, readings)
    found = []
    for sign in known.signs:
        if sign in settled:
            continue
        gain = expected_gain_bits(known, evidence, sign, readings)
        if gain < LEAST_GAIN_BITS:
            continue
        work = _time_s(sign, "work")
        yes = answer_chance(known, evidence, sign, now)
        found.append(
            NextTest(
                sign=sign,
                asks=SIGNS[sign].asks,
                how=SIGNS[sign].how,
                work_s=work,
                wait_s=_time_s(sign, "wait"),
                gain_bits=gain,
                gain_bits_per_minute=gain * _MINUTE_S / work,
                if_yes=_outcome(known, {**evidence, sign: 1.0}, readings, yes, word_of),
                if_no=_outcome(known, {**evidence, sign: 0.0}, readings, 1.0 - yes, word_of),
            )
        )
    return tuple(sorted(found, key=lambda test: -test.gain_bits_per_minute))


def _time_s(sign: str, kind: str) -> float:
    entry = model_table("cloudy_times").entries.get((sign, kind))
    return 0.0 if entry is None else entry.value


def _outcome(
    known: Knowledge, evidence: Evidence, readings: Array | None, chance: float, word_of: Callable[[float], Word]
) -> Outcome:
    """The first named causes after an answer."""
    by_cause = (posterior(known, evidence, readings) @ known.member)[0]
    order = [number for number in np.argsort(-by_cause) if known.causes[number] != ELSE][:FIRST_COUNT]
    return Outcome(
        chance, tuple(known.causes[number] for number in order), tuple(word_of(float(by_cause[n])) for n in order)
    )
