"""What bathers bring a day that wants oxidizing, against what ozone dissolves."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.laws.ozone.reactions import CHLORINE_PER_OZONE

Array = NDArray[np.float64]


def oxidant_need_g_per_day(bathers_per_day: ArrayLike, each_g: ArrayLike) -> Array:
    """Oxidant that the bathers of a day call for, counted as ozone.

    Parameters
    ----------
    bathers_per_day : float or array
        Bathers a day [-].
    each_g : float or array, broadcasting
        What one of them brings, counted as ozone [g].

    Returns
    -------
    array of the broadcast shape
        Need [g/d].

    Raises
    ------
    ValueError
        If a count or an amount is negative.

    Notes
    -----
    n g. What a bather brings is an estimate: 1 g, 0.2 g after a shower, up to 4 g without.
    The source gives no range: a sum.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    >>> float(oxidant_need_g_per_day(2.0, 1.0))
    2.0
    """
    bathers, each = np.asarray(bathers_per_day, dtype=np.float64), np.asarray(each_g, dtype=np.float64)
    if not (np.all(bathers >= 0.0) and np.all(each >= 0.0)):
        raise ValueError("bathers and what they bring are 0 or more")
    return np.asarray(bathers * each)


def undersized_ratio(need_g_per_day: ArrayLike, supply_g_per_day: ArrayLike) -> Array:
    """How many times the need exceeds the supply; above 1 it falls short, inf where nothing is supplied.

    Parameters
    ----------
    need_g_per_day : float or array
        Oxidant called for, counted as ozone [g/d].
    supply_g_per_day : float or array, broadcasting
        Ozone that dissolves [g/d].

    Returns
    -------
    array of the broadcast shape
        Need over supply [-]; 0 where nothing is needed.

    Raises
    ------
    ValueError
        If a need or a supply is negative.

    Notes
    -----
    A supply that wholly went to the bathers' matter; part of it decays, so the shortfall is larger.
    The source gives no range: a ratio.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    >>> undersized_ratio(2.0, [0.5, 0.0]).tolist()
    [4.0, inf]
    """
    need, supply = np.asarray(need_g_per_day, dtype=np.float64), np.asarray(supply_g_per_day, dtype=np.float64)
    if not (np.all(need >= 0.0) and np.all(supply >= 0.0)):
        raise ValueError("need and supply are 0 or more")
    ratio = need / np.where(supply > 0.0, supply, 1.0)
    return np.where(supply > 0.0, ratio, np.where(need > 0.0, np.inf, 0.0))


def chlorine_left_to_carry_g_per_day(need_g_per_day: ArrayLike, supply_g_per_day: ArrayLike) -> Array:
    """Chlorine, or its equal, that must carry what the ozone does not.

    Parameters
    ----------
    need_g_per_day : float or array
        Oxidant called for, counted as ozone [g/d].
    supply_g_per_day : float or array, broadcasting
        Ozone that dissolves [g/d].

    Returns
    -------
    array of the broadcast shape
        Chlorine, counted as Cl2 [g/d]; 0 at least.

    Raises
    ------
    ValueError
        If a need or a supply is negative.

    Notes
    -----
    1.477 g of chlorine oxidize as much as 1 g of ozone, two electrons each (stoichiometry).

    References
    ----------
    None; stoichiometry.

    Examples
    --------
    >>> float(chlorine_left_to_carry_g_per_day(1.0, 0.0))
    1.477
    """
    need, supply = np.asarray(need_g_per_day, dtype=np.float64), np.asarray(supply_g_per_day, dtype=np.float64)
    if not (np.all(need >= 0.0) and np.all(supply >= 0.0)):
        raise ValueError("need and supply are 0 or more")
    return np.asarray(CHLORINE_PER_OZONE * np.maximum(need - supply, 0.0))
