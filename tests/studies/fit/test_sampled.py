"""Cases that explain readings: a linear loop has a normal distribution in closed form."""

import numpy as np
import pytest

from sanitize.studies.draws import Array
from sanitize.studies.fit.sampled import sampled


class _Linear:
    """Readings that are a matrix times the scores."""

    def __init__(self, matrix: Array) -> None:
        self.matrix = matrix

    def at(self, scores: Array) -> "_Linear":
        self.readings = self.matrix @ scores
        return self


def test_particles_of_a_linear_loop_follow_the_closed_form() -> None:
    """Prior N(0, I), readings A z with errors e: covariance (A' A / e2 + I)^-1, mean = covariance A' m / e2."""
    matrix, measured, errors = np.array([[1.0, 1.0, 0.0], [0.0, 0.0, 2.0]]), np.array([1.2, -1.0]), np.array([0.2, 0.5])
    scaled = matrix / errors[:, None]
    covariance = np.linalg.inv(scaled.T @ scaled + np.eye(3))
    mean = covariance @ scaled.T @ (measured / errors)
    start = np.random.default_rng(3).standard_normal((3, 4000))
    found = sampled(_Linear(matrix), measured, errors, start, 7)  # type: ignore[arg-type]
    # 4000 particles, some of them alike: about 0.03 in a mean, 3 % in a spread
    assert mean == pytest.approx(found.scores.mean(axis=1), abs=0.06)
    assert covariance == pytest.approx(np.cov(found.scores), abs=0.06)
    assert 0.1 < found.accepted_ratio < 0.6


def test_particles_without_an_answer_are_left_behind() -> None:
    class Half(_Linear):
        def at(self, scores: Array) -> "_Linear":
            self.readings = np.where(scores[:1] > 0.0, scores[:1], np.nan)
            return self

    start = np.random.default_rng(3).standard_normal((1, 256))
    found = sampled(Half(np.eye(1)), np.array([0.5]), np.array([0.3]), start, 7)  # type: ignore[arg-type]
    assert found.scores.min() > 0.0
    assert 0.4 < found.scores.mean() < 0.6
