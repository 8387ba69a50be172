"""From evidence to the odds of every hypothesis, and what a further answer is expected to teach.

Evidence on a sign is the chance e with which it would be reported so if it is there: 1 for seen, 0 for not seen, in
between for a witness that is not sure. A hypothesis that shows the sign with P then has the likelihood
P e + (1 - P)(1 - e), and e = 1/2 tells nothing. Signs of one group say partly the same: m readings of equal variance s2
and correlation r have a mean of variance s2 (1 + (m - 1) r) / m, so that they tell as much as m / (1 + (m - 1) r)
independent ones; each of their logarithms is therefore weighed by 1 / (1 + (m - 1) r).
"""

from collections import Counter
from collections.abc import Mapping

import numpy as np

from sanitize.studies.cloudy.knowledge import Knowledge
from sanitize.studies.draws import Array

Evidence = Mapping[str, float]
"""How surely each sign is there, by its code: 1 seen, 0 not seen."""


def sign_weights(known: Knowledge, evidence: Evidence) -> dict[str, Array]:
    """Weight of each sign's logarithm over the cases, by the answered signs of its group."""
    group = dict(zip(known.signs, known.groups, strict=True))
    answered = Counter(group[sign] for sign in evidence if group[sign] != "alone")
    return {sign: 1.0 / (1.0 + known.correlation * max(answered[group[sign]] - 1, 0)) for sign in evidence}


def log_likelihoods(known: Knowledge, evidence: Evidence) -> dict[str, Array]:
    """What each sign adds to the logarithm of every hypothesis' likelihood, shape (cases, hypotheses)."""
    column = {sign: number for number, sign in enumerate(known.signs)}
    weights = sign_weights(known, evidence)
    found = {}
    for sign, sure in evidence.items():
        shown = known.shows[:, :, column[sign]]
        found[sign] = weights[sign][:, None] * np.log(shown * sure + (1.0 - shown) * (1.0 - sure))
    return found


def posterior(known: Knowledge, evidence: Evidence, readings: Array | None = None) -> Array:
    """Chance of every hypothesis, shape (cases, hypotheses); readings: their log likelihood, shape (hypotheses)."""
    with np.errstate(divide="ignore"):
        total = np.log(known.weight)
    for term in log_likelihoods(known, evidence).values():
        total = total + term
    if readings is not None:
        total = total + readings
    total = total - total.max(axis=1, keepdims=True)
    chance = np.exp(total)
    return np.asarray(chance / chance.sum(axis=1, keepdims=True))


def nominal(known: Knowledge) -> Knowledge:
    """The same judgement without its ranges: the nominal case alone."""
    return Knowledge(
        known.causes, known.signs, known.pairs, known.weight[:1], known.shows[:1], known.groups, known.correlation[:1],
        known.member,
    )  # fmt: skip


def entropy_bits(chance: Array) -> Array:
    """Entropy along the last axis [bit].

    >>> float(entropy_bits(np.array([0.5, 0.25, 0.25])))
    1.5
    """
    kept = np.where(chance > 0.0, chance, 1.0)
    return np.asarray(-np.sum(kept * np.log2(kept), axis=-1))


def answer_chance(known: Knowledge, evidence: Evidence, sign: str, now: Array) -> float:
    """Chance that the sign will be seen, given everything known so far; `now` is the posterior, nominal case alone."""
    shown = known.shows[0, :, known.signs.index(sign)]
    sure = evidence.get(sign, 0.5)
    seen = shown * sure / (shown * sure + (1.0 - shown) * (1.0 - sure))
    return float(np.sum(now[0] * seen))


def expected_gain_bits(known: Knowledge, evidence: Evidence, sign: str, readings: Array | None = None) -> float:
    """Entropy that an answer on one sign is expected to take away, on average over yes and no; nominal case alone."""
    now = posterior(known, evidence, readings)
    yes = answer_chance(known, evidence, sign, now)
    left = 0.0
    for chance, seen in ((yes, 1.0), (1.0 - yes, 0.0)):
        left += chance * float(entropy_bits(posterior(known, {**evidence, sign: seen}, readings))[0])
    return float(entropy_bits(now)[0]) - left
