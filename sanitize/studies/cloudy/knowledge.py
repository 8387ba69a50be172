"""The judgement behind the causes as arrays over the cases: weights, and how often each cause shows each sign.

Two causes at once show a sign by a noisy-or: each shows it by a chance q of its own besides a leak l, from which it is
seen without any cause, so that 1 - P = (1 - l)(1 - q) for one and 1 - P = (1 - l)(1 - q1)(1 - q2) for two. With
q = 1 - (1 - P)/(1 - l) this is 1 - (1 - P1)(1 - P2)/(1 - l). The leak is the sign's usual chance, or less where one of
the two causes goes with a smaller one.
"""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.plant.answers import Judgement
from sanitize.studies.cloudy.causes import ELSE, NAMED
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.draws import Array, Draws

LEAST_RATIO, MOST_RATIO = 0.02, 0.98
"""No sign is surer than this, whatever the cause: people err, and so does this judgement (an estimate)."""


@dataclass(frozen=True, eq=False)
class Knowledge:
    """Hypotheses and what they show.

    causes: codes, the last is "something else"; signs: codes; pairs: indices of two causes each; weight: of every
    hypothesis, shape (cases, hypotheses), each row adds up to 1, single causes first, then pairs; shows: chance of
    every sign, shape (cases, hypotheses, signs); groups: of each sign, "alone" for none; correlation: within a group,
    shape (cases); member: whether a cause is in a hypothesis, shape (hypotheses, causes).
    """

    causes: tuple[str, ...]
    signs: tuple[str, ...]
    pairs: tuple[tuple[int, int], ...]
    weight: Array
    shows: Array
    groups: tuple[str, ...]
    correlation: Array
    member: NDArray[np.bool_]


def rule(name: str) -> float:
    """The nominal value of a row of the table of rules."""
    return model_table("cloudy_rules")[(name,)].value


def noisy_or(one: Array, other: Array, usual: Array) -> Array:
    """Chance of a sign with two causes at once, from its chance with each alone and with none; they broadcast.

    >>> float(noisy_or(np.array(0.6), np.array(0.5), np.array(0.2)))
    0.75
    """
    leak = np.minimum(usual, np.minimum(one, other))
    return np.asarray(1.0 - (1.0 - one) * (1.0 - other) / (1.0 - leak))


def own_band(value: float, *, odds: bool) -> Band:
    """The range of a number that is judged: half to twice, of its odds where it is a chance.

    >>> own_band(0.5, odds=True).low, own_band(0.5, odds=True).high
    (0.333, 0.667)
    """
    if not odds:
        return Band(value / 2.0, value, value * 2.0, "log")
    return Band(value / (2.0 - value), value, 2.0 * value / (1.0 + value))


def knowledge(draws: Draws, left_out: Collection[str] = (), own: Judgement | None = None) -> Knowledge:
    """The tables, with a person's own numbers in their place, drawn over the cases; causes left out have no weight."""
    mine = own or Judgement()
    table = model_table("cloudy_signs")
    signs = tuple(SIGNS)
    group_of = {key[0]: key[1] for key in table.entries}
    named = NAMED
    usual = np.stack([_usual(draws, sign, group_of[sign], mine) for sign in signs], axis=1)
    single = np.stack([_shown_by(draws, cause, signs, usual, mine) for cause in named], axis=1)
    weights = np.stack([_weight(draws, cause, mine) for cause in named], axis=1)
    weights = weights * np.array([cause not in left_out for cause in named])
    weights = weights / weights.sum(axis=1, keepdims=True)
    mean = np.sum(weights[:, :, None] * single, axis=1)
    pairs = tuple(combinations(range(len(named)), 2))
    first, second = (np.array([pair[end] for pair in pairs]) for end in (0, 1))
    together = noisy_or(single[:, first], single[:, second], usual[:, None, :])
    both = weights[:, first] * weights[:, second]
    both = both / np.maximum(both.sum(axis=1, keepdims=True), np.finfo(float).tiny)
    elsewhere = _drawn(draws, "something_else_ratio")
    twice = _drawn(draws, "pair_share_ratio")
    known = 1.0 / (1.0 + elsewhere)
    weight = np.concatenate(
        [
            (known * (1.0 - twice))[:, None] * weights,
            (known * elsewhere)[:, None],
            (known * twice)[:, None] * both,
        ],
        axis=1,
    )
    shows = np.clip(np.concatenate([single, mean[:, None, :], together], axis=1), LEAST_RATIO, MOST_RATIO)
    count = len(named) + 1
    member = np.zeros((count + len(pairs), count), dtype=bool)
    member[np.arange(count), np.arange(count)] = True
    member[count + np.arange(len(pairs)), first] = True
    member[count + np.arange(len(pairs)), second] = True
    return Knowledge(
        causes=(*named, ELSE),
        signs=signs,
        pairs=pairs,
        weight=weight,
        shows=shows,
        groups=tuple(group_of[sign] for sign in signs),
        correlation=_drawn(draws, "correlation_ratio"),
        member=member,
    )


def _drawn(draws: Draws, name: str) -> Array:
    return draws.value(f"cloudy {name}", model_table("cloudy_rules")[(name,)].band)


def _weight(draws: Draws, cause: str, mine: Judgement) -> Array:
    own = mine.weights.get(cause)
    band = model_table("cloudy_causes")[(cause,)].band if own is None else own_band(own, odds=False)
    return draws.value(f"weight of {cause}", band)


def _usual(draws: Draws, sign: str, group: str, mine: Judgement) -> Array:
    own = mine.usual.get(sign)
    band = model_table("cloudy_signs")[(sign, group)].band if own is None else own_band(own, odds=True)
    return draws.value(f"usual {sign}", band)


def _shown_by(draws: Draws, cause: str, signs: tuple[str, ...], usual: Array, mine: Judgement) -> Array:
    """Chance of every sign with one cause; where nothing is judged, the usual one."""
    entries = model_table("cloudy_shows").entries
    found = []
    for column, sign in enumerate(signs):
        own = mine.shows.get((cause, sign))
        entry = entries.get((cause, sign))
        if own is not None:
            found.append(draws.value(f"{sign} with {cause}", own_band(own, odds=True)))
        elif entry is not None:
            found.append(draws.value(f"{sign} with {cause}", entry.band))
        else:
            found.append(usual[:, column])
    return np.stack(found, axis=1)
