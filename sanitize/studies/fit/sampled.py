"""Cases of a loop's unknowns that explain its readings, each as likely as the readings and the file's ranges make it.

Particles start as the file's ranges allow. The readings' weight grows in steps so small that each keeps half of them in
effect; after every step the particles are drawn again by their weights and moved by random steps of their own shape,
which are accepted by Metropolis' rule.
"""

from typing import NamedTuple

import numpy as np

from sanitize.studies.draws import Array
from sanitize.studies.fit.scores import ScoredLoop

KEPT_RATIO = 0.5
"""Share of the particles that stays in effect from step to step."""
MOVES = 8
STRIDE = 2.38
"""Length of a random step over the particles' own spread and the root of their dimensions, the usual best choice."""
SHRINKAGE_RATIO = 0.1
"""Share of the particles' correlations that a step leaves out, as few particles show more than there are."""
MOST_STEPS = 40


class Sampled(NamedTuple):
    """Scores that explain the readings, shape (unknowns, particles), and the mean share of accepted moves."""

    scores: Array
    accepted_ratio: float


def sampled(loop: ScoredLoop, measured: Array, errors: Array, start: Array, seed: int) -> Sampled:
    """Particles that follow the unknowns' distribution given the readings.

    measured, errors: of the readings, shape (readings); start: scores drawn from the ranges, shape
    (unknowns, particles).
    """
    random = np.random.default_rng(seed)
    scores, count = start.copy(), start.shape[1]

    def fits(scores: Array) -> Array:
        values = loop.at(scores).readings
        miss = np.sum(((values - measured[:, None]) / errors[:, None]) ** 2, axis=0)
        return np.where(np.isnan(miss), -np.inf, -0.5 * miss)

    log_fit, power, accepted = fits(scores), 0.0, 0.0
    for _ in range(MOST_STEPS):
        grown = _next_power(log_fit, power)
        weights = _weights(log_fit, grown - power)
        power = grown
        places = (random.random() + np.arange(count)) / count
        picked = np.searchsorted(np.cumsum(weights), places).clip(0, count - 1)
        scores, log_fit = scores[:, picked], log_fit[picked]
        root, stride = _shape(scores), STRIDE / np.sqrt(len(scores))
        for _ in range(MOVES):
            trial = scores + stride * root @ random.standard_normal(scores.shape)
            trial_fit = fits(trial)
            gain = power * (trial_fit - log_fit) - 0.5 * np.sum(trial**2 - scores**2, axis=0)
            goes = np.log(random.random(count)) < gain
            scores, log_fit = np.where(goes, trial, scores), np.where(goes, trial_fit, log_fit)
            accepted = float(np.mean(goes))
            stride *= 1.5 if accepted > 0.3 else 0.7 if accepted < 0.15 else 1.0
        if power >= 1.0:
            break
    return Sampled(scores, accepted)


def _shape(scores: Array) -> Array:
    """A root of the particles' covariance with its correlations shrunk, shape (unknowns, unknowns)."""
    covariance = np.atleast_2d(np.cov(scores))
    own = np.diag(np.diag(covariance) + 1e-9)
    return np.asarray(np.linalg.cholesky((1.0 - SHRINKAGE_RATIO) * covariance + SHRINKAGE_RATIO * own))


def _weights(log_fit: Array, by: float) -> Array:
    logs = by * np.where(np.isfinite(log_fit), log_fit, -1e300)
    weights = np.exp(logs - logs.max())
    return np.asarray(weights / weights.sum())


def _next_power(log_fit: Array, power: float) -> float:
    """The weight of the readings at which as many particles stay in effect as wanted, at most 1."""

    def effective_ratio(to: float) -> float:
        weights = _weights(log_fit, to - power)
        return float(1.0 / np.sum(weights**2)) / log_fit.size

    if effective_ratio(1.0) >= KEPT_RATIO:
        return 1.0
    low, high = power, 1.0
    for _ in range(30):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if effective_ratio(middle) >= KEPT_RATIO else (low, middle)
    return max(low, power + 1e-6)
