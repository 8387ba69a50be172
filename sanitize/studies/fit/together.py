"""Which unknowns the readings tell only together, and which further reading would part them."""

from collections.abc import Sequence

import numpy as np

from sanitize.plant.loop import walk
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.plant.measured import Measured
from sanitize.studies.draws import Array
from sanitize.studies.fit.result import Together
from sanitize.studies.fit.scores import ScoredLoop
from sanitize.studies.suction.predicted import AT_INJECTOR, CONDITIONS, reading_error

TOGETHER_RATIO = 0.5
"""Correlation after the fit from which two unknowns count as told only together."""
MOST_PAIRS = 5
STEP = 0.2


def told_together(
    loop: ScoredLoop, keys: Sequence[str], covariance: Array, scores: Array, taken: Sequence[str]
) -> tuple[Together, ...]:
    """The pairs that move together most, each with the reading that shrinks their joint spread most.

    keys: the taught unknowns, in the order of the covariance, shape (n, n); scores: of all unknowns, shape (inputs);
    taken: the readings that the fit has used.
    """
    spread = np.sqrt(np.diag(covariance))
    correlation = covariance / np.outer(spread, spread)
    pairs = [
        (first, second)
        for first in range(len(keys))
        for second in range(first + 1, len(keys))
        if abs(correlation[first, second]) >= TOGETHER_RATIO
    ]
    pairs.sort(key=lambda pair: -abs(correlation[pair]))
    if not pairs:
        return ()
    further = _further(loop, keys, covariance, scores, taken)
    found = []
    for first, second in pairs[:MOST_PAIRS]:
        pair = np.ix_([first, second], [first, second])
        now = float(np.linalg.det(covariance[pair]))
        best = min(further, key=lambda name: float(np.linalg.det(further[name][pair])), default=None)
        left = None if best is None else float(np.sqrt(np.linalg.det(further[best][pair]) / now))
        useful = left is not None and left < 0.9
        found.append(
            Together(
                loop.inputs[keys[first]].label,
                loop.inputs[keys[second]].label,
                float(correlation[first, second]),
                best if useful else None,
                left if useful else None,
            )
        )
    return tuple(found)


def readings_of(loop: ScoredLoop) -> list[str]:
    """Every reading that can be taken on a loop."""
    parts = walk(loop.plant.loop)
    has_injector = loop.at(np.zeros((len(loop.inputs), 1))).running.port is not None
    lacking: set[str] = {*CONDITIONS, *(() if has_injector else AT_INJECTOR)}
    if loop.plant.chiller is None or not any(isinstance(part, Chiller) for part in parts):
        lacking.add("chiller_drop_k")
    if not any(isinstance(part, Filter) for part in parts):
        lacking.add("filter_drop_pa")
    if not any(isinstance(part, Pump) for part in parts):
        lacking |= {"pump_pa_gauge", "pump_inlet_pa_gauge"}
    return [name for name in Measured.model_fields if name not in lacking]


def _further(
    loop: ScoredLoop, keys: Sequence[str], covariance: Array, scores: Array, taken: Sequence[str]
) -> dict[str, Array]:
    """The covariance that each further reading would leave, by its slopes at the fitted scores."""
    names = [name for name in readings_of(loop) if name not in taken]
    if not names:
        return {}
    other = ScoredLoop(loop.plant, [*taken, *names])
    known = dict(zip(loop.inputs, scores, strict=True))
    values, slopes = other.slopes(np.array([known.get(key, 0.0) for key in other.inputs]), STEP)
    columns = [list(other.inputs).index(key) for key in keys]
    found = {}
    for index, name in enumerate(names, start=len(taken)):
        row = slopes[index, columns]
        if np.isnan(values[index]) or np.isnan(row).any():
            continue
        error = float(reading_error(name, values[index]))
        pull = covariance @ row
        found[name] = covariance - np.outer(pull, pull) / (error**2 + float(row @ pull))
    return found
