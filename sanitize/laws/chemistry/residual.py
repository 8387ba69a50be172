"""A residual that decays by itself and is used up at a steady rate."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def residual_after_mgl(
    start_mgl: ArrayLike, decay_per_day: ArrayLike, use_mgl_per_day: ArrayLike, days: ArrayLike
) -> Array:
    """Residual after some days of decay and use.

    Parameters
    ----------
    start_mgl : float or array
        C0, 0 or more [mg/L].
    decay_per_day : float or array, broadcasting
        k of the decay in proportion to the residual, above 0 [1/d].
    use_mgl_per_day : float or array, broadcasting
        u, what bathers use up, 0 or more [mg/(L d)].
    days : float or array, broadcasting
        t, 0 or more [d].

    Returns
    -------
    array of the broadcast shape
        C [mg/L]; 0 from the time on at which it is used up.

    Raises
    ------
    ValueError
        If the decay is not above 0, or another number is negative.

    Notes
    -----
    dC/dt = -k C - u, so C = (C0 + u/k) exp(-k t) - u/k.
    Validity: the source gives no range; u is spread over the day, as if bathers came evenly.

    References
    ----------
    None; a first-order balance, derived here.

    Examples
    --------
    >>> float(residual_after_mgl(3.0, 0.24, 0.0, 1.0)), float(residual_after_mgl(3.0, 0.24, 5.0, 1.0))
    (2.36, 0.0)
    """
    c0, k, u, t = _checked(start_mgl, decay_per_day, use_mgl_per_day, days)
    return np.asarray(np.maximum((c0 + u / k) * np.exp(-k * t) - u / k, 0.0))


def days_between(
    high_mgl: ArrayLike, low_mgl: ArrayLike, decay_per_day: ArrayLike, use_mgl_per_day: ArrayLike
) -> Array:
    """Days in which a residual falls from one level to another, the inverse of `residual_after_mgl`.

    Parameters
    ----------
    high_mgl, low_mgl : float or array, broadcasting
        Levels, the second no higher than the first [mg/L].
    decay_per_day, use_mgl_per_day : float or array, broadcasting
        As `residual_after_mgl`.

    Returns
    -------
    array of the broadcast shape
        t [d]; np.inf where the low level is 0 and nothing but decay draws on it.

    Raises
    ------
    ValueError
        If the levels are the wrong way round, the decay is not above 0, or another number is negative.

    Notes
    -----
    t = ln((k Ch + u)/(k Cl + u))/k.
    Validity: as `residual_after_mgl`.

    References
    ----------
    As `residual_after_mgl`.

    Examples
    --------
    >>> float(days_between(4.0, 2.0, 0.24, 0.0))
    2.888
    """
    high, k, u, low = _checked(high_mgl, decay_per_day, use_mgl_per_day, low_mgl)
    if np.any(low > high):
        raise ValueError("the residual falls from the high level to the low one")
    bottom = k * low + u
    safe = np.where(bottom > 0.0, bottom, 1.0)
    return np.asarray(np.where(bottom > 0.0, np.log(np.maximum((k * high + u) / safe, 1.0)) / k, np.inf))


def _checked(first: ArrayLike, decay: ArrayLike, use: ArrayLike, last: ArrayLike) -> tuple[Array, Array, Array, Array]:
    a, k, u, b = (np.asarray(x, dtype=np.float64) for x in (first, decay, use, last))
    if not (np.all(k > 0.0) and np.all(a >= 0.0) and np.all(u >= 0.0) and np.all(b >= 0.0)):
        raise ValueError("the decay must be above 0, and nothing else may be negative")
    return a, k, u, b
