"""Sudden changes of bore, and the flow coefficient of a valve as a loss coefficient."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

_BAR_PA = 1e5
_KV_DENSITY_KGM3 = 1000.0


def contraction_loss_coefficient(bore_ratio: ArrayLike, factor: ArrayLike = 0.5) -> NDArray[np.float64]:
    """Loss coefficient of a sudden contraction, on the velocity in the small bore.

    Parameters
    ----------
    bore_ratio : float or array
        Small bore, behind the step, over the large one before it, up to 1 [-].
    factor : float or array, broadcasting
        0.5 for a sharp step; up to 0.75 covers other sources [-].

    Returns
    -------
    array of the broadcast shape
        K [-].

    Raises
    ------
    ValueError
        If a ratio is not above 0 and up to 1.

    Notes
    -----
    K = factor (1 - b^2).
    The source gives no range.

    References
    ----------
    crane_tp410_2009 for 0.5, through another.

    Examples
    --------
    >>> float(contraction_loss_coefficient(20.6 / 26.2))
    0.191
    """
    return np.asarray(np.asarray(factor, dtype=np.float64) * _one_less_area_ratio(bore_ratio))


def expansion_loss_coefficient(bore_ratio: ArrayLike, factor: ArrayLike = 1.0) -> NDArray[np.float64]:
    """Loss coefficient of a sudden expansion, on the velocity in the small bore.

    Parameters
    ----------
    bore_ratio : float or array
        Small bore, before the step, over the large one behind it, up to 1 [-].
    factor : float or array, broadcasting
        1 for a sharp step; 0.4 for one with a short taper [-].

    Returns
    -------
    array of the broadcast shape
        K [-].

    Raises
    ------
    ValueError
        If a ratio is not above 0 and up to 1.

    Notes
    -----
    K = factor (1 - b^2)^2, exact for uniform velocities by the balance of momentum (Borda).
    The source gives no range.

    References
    ----------
    crane_tp410_2009, through another; derived here as well.

    Examples
    --------
    >>> float(expansion_loss_coefficient(26.2 / 40.4))
    0.336
    """
    closed = _one_less_area_ratio(bore_ratio)
    return np.asarray(np.asarray(factor, dtype=np.float64) * closed * closed)


def kv_to_loss_coefficient(kv_m3h: ArrayLike, bore_m: ArrayLike) -> NDArray[np.float64]:
    """Loss coefficient of a valve from its metric flow coefficient.

    Parameters
    ----------
    kv_m3h : float or array
        Flow of water of 1000 kg/m3 at a drop of 1 bar [m3/h].
    bore_m : float or array, broadcasting
        The bore that the loss coefficient shall belong to [m].

    Returns
    -------
    array of the broadcast shape
        K [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    K = 2 dp / (rho V^2) with dp = 1 bar and V = 4 Kv / (pi D^2); exact by the definition of Kv.

    References
    ----------
    crane_tp410m, example 7-2, through another.

    Examples
    --------
    >>> float(kv_to_loss_coefficient(500.0, 0.154))
    3.60
    """
    velocity = np.asarray(kv_m3h, dtype=np.float64) / (900.0 * np.pi * np.asarray(bore_m, dtype=np.float64) ** 2)
    return np.asarray(2.0 * _BAR_PA / (_KV_DENSITY_KGM3 * velocity * velocity))


def _one_less_area_ratio(bore_ratio: ArrayLike) -> NDArray[np.float64]:
    ratio = np.asarray(bore_ratio, dtype=np.float64)
    if not np.all((ratio > 0.0) & (ratio <= 1.0)):
        raise ValueError("a step's small bore over its large one must lie above 0 and not above 1")
    return np.asarray(1.0 - ratio * ratio)
