"""The root of many falling functions at once: Newton inside a bracket."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

RELATIVE_STEP = 4e-16
"""A step below this share of the root, or of the bracket, ends the search (rounding of a double)."""
MOST_STEPS = 200


def falling_root(
    function: Callable[[Floats], tuple[Floats, Floats]],
    low: Floats,
    high: Floats,
    start: Floats,
) -> Floats:
    """Root of a falling function in every element of an array, whatever the other elements hold.

    Parameters
    ----------
    function : callable
        Gives value and slope at an array of points; not negative at `low`, not positive at `high`.
    low, high, start : array of one shape
        Bracket, and where to begin.

    Returns
    -------
    array of that shape
        The roots; an element stops moving once its own step is at the rounding.

    Raises
    ------
    RuntimeError
        If an element has not settled after 200 steps, which only a function without value can cause.

    Notes
    -----
    Newton's step where it stays inside the bracket and at least halves the step before last, else the middle.

    References
    ----------
    Common practice.

    Examples
    --------
    >>> falling_root(lambda x: (2.0 - x**2, -2.0 * x), np.zeros(1), np.full(1, 4.0), np.ones(1)).tolist()
    [1.41421356]
    """
    low, high = low.copy(), high.copy()
    span = high - low
    x = np.clip(start, low, high)
    is_open = span > 0.0
    before_last = last = span
    for _ in range(MOST_STEPS):
        if not is_open.any():
            return x
        value, slope = function(x)
        low = np.where(value > 0.0, x, low)
        high = np.where(value < 0.0, x, high)
        is_falling = slope < 0.0
        newton = x - value / np.where(is_falling, slope, -1.0)
        keeps = is_falling & (newton >= low) & (newton <= high) & (np.abs(newton - x) <= 0.5 * before_last)
        candidate = np.where(keeps, newton, 0.5 * (low + high))
        candidate = np.where(value == 0.0, x, candidate)
        step = np.where(np.isnan(value), np.inf, np.abs(candidate - x))
        before_last, last = last, step
        x = np.where(is_open, candidate, x)
        is_open &= step > RELATIVE_STEP * (np.abs(x) + span)
    raise RuntimeError("a bracketed root did not settle")
