"""Free chlorine and bromine: which share is the acid that acts, and how their units compare."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K

CHLORINE_GMOL = 70.906
"""Cl2, as which chlorine is counted [g/mol]."""
BROMINE_GMOL = 159.808
"""Br2, as which bromine is counted [g/mol]."""
PEROXIDE_GMOL = 34.0147
"""H2O2 [g/mol]."""
WARMEST_HYPOCHLOROUS_C = 35.0
"""Upper end of the range of the dissociation of hypochlorous acid, from memory [degC]; above it is carried on."""

Array = NDArray[np.float64]


def pk_hypochlorous(temperature_c: ArrayLike) -> Array:
    """pK of hypochlorous acid, HOCl = OCl- + H+.

    Parameters
    ----------
    temperature_c : float or array
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        pK at no ionic strength [-].

    Notes
    -----
    pK = 3000.00/T - 10.0686 + 0.0253 T, T in kelvin.
    The source's range is remembered as 0 to 35 degC; beyond it the formula is carried on.

    References
    ----------
    morris_1966, from memory.

    Examples
    --------
    >>> np.round(pk_hypochlorous([5.0, 25.0]), 3)
    array([7.754, 7.537])
    """
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    return np.asarray(3000.00 / kelvin - 10.0686 + 0.0253 * kelvin)


def acid_share_ratio(ph: ArrayLike, pk: ArrayLike) -> Array:
    """Share of a weak acid that is not dissociated, such as hypochlorous or hypobromous acid.

    Parameters
    ----------
    ph : float or array
        pH [-].
    pk : float or array, broadcasting
        pK of the acid [-].

    Returns
    -------
    array of the broadcast shape
        Share [-].

    Notes
    -----
    1 / (1 + 10^(pH - pK)), which leaves the activity of the anion out.
    The source gives no range.

    References
    ----------
    morris_1966, from memory.

    Examples
    --------
    >>> np.round(100.0 * acid_share_ratio(7.5, pk_hypochlorous([5.0, 25.0])), 1)
    array([64.2, 52.1])
    """
    return np.asarray(1.0 / (1.0 + 10.0 ** (np.asarray(ph, dtype=np.float64) - np.asarray(pk, dtype=np.float64))))


def bromine_of_chlorine_mgl(chlorine_mgl: ArrayLike) -> Array:
    """Bromine that oxidizes as much as a chlorine.

    Parameters
    ----------
    chlorine_mgl : float or array
        Chlorine, counted as Cl2 [mg/L].

    Returns
    -------
    array of the same shape
        Bromine, counted as Br2 [mg/L].

    Notes
    -----
    Mole for mole: 159.808 / 70.906; the source prints 2.25.

    References
    ----------
    new_hampshire_1102, read primary.

    Examples
    --------
    >>> float(bromine_of_chlorine_mgl(1.0))
    2.254
    """
    return np.asarray(BROMINE_GMOL / CHLORINE_GMOL * np.asarray(chlorine_mgl, dtype=np.float64))


def peroxide_for_chlorine_mgl(chlorine_mgl: ArrayLike) -> Array:
    """Hydrogen peroxide that a free chlorine destroys, and is destroyed by.

    Parameters
    ----------
    chlorine_mgl : float or array
        Free chlorine, counted as Cl2 [mg/L].

    Returns
    -------
    array of the same shape
        Hydrogen peroxide [mg/L].

    Notes
    -----
    H2O2 + OCl- = O2 + Cl- + H2O, mole for mole: 34.015 / 70.906 (stoichiometry).

    Examples
    --------
    >>> float(peroxide_for_chlorine_mgl(1.0))
    0.4797
    """
    return np.asarray(PEROXIDE_GMOL / CHLORINE_GMOL * np.asarray(chlorine_mgl, dtype=np.float64))


def strength_left_ratio(age_s: ArrayLike, half_life_s: ArrayLike) -> Array:
    """Share of its strength that a hypochlorite solution has left.

    Parameters
    ----------
    age_s : float or array
        Time since the strength held [s].
    half_life_s : float or array, broadcasting
        Time in which half is lost [s].

    Returns
    -------
    array of the broadcast shape
        Share left [-].

    Raises
    ------
    ValueError
        If an age is negative or a half-life is not positive.

    Notes
    -----
    2^(-age / half-life); a first-order decay is a simplification, as strong solutions lose faster.
    The half-life is common practice (no source).

    Examples
    --------
    >>> float(strength_left_ratio(1.0, 2.0))
    0.7071
    """
    age, half = np.asarray(age_s, dtype=np.float64), np.asarray(half_life_s, dtype=np.float64)
    if not (np.all(age >= 0.0) and np.all(half > 0.0)):
        raise ValueError("an age is 0 or more and a half-life is positive")
    return np.asarray(0.5 ** (age / half))
