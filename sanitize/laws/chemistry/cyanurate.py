"""Chlorine bound to cyanuric acid: what is left free, by the set of constants that goes with temperature."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.chemistry.halogens import pk_hypochlorous

CYANURIC_GMOL = 129.074
"""C3H3N3O3 [g/mol]."""
COLDEST_READ_C, WARMEST_READ_C = 5.0, 35.0
"""Range of the constants in their source [degC]; outside it they are carried on."""
_HALVINGS = 70

Array = NDArray[np.float64]


def pk_cyanuric(temperature_c: ArrayLike) -> Array:
    """First pK of cyanuric acid, H3Cy = H2Cy- + H+.

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
    pK = 1743/T + 1.12, T in kelvin.
    The source's range is 5 to 35 degC.

    References
    ----------
    wahman_2018, read primary (its abstract).

    Examples
    --------
    >>> float(pk_cyanuric(25.0))
    6.97
    """
    return np.asarray(1743.0 / (np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K) + 1.12)


def hypochlorous_moll(
    free_chlorine_moll: ArrayLike, cyanuric_moll: ArrayLike, ph: ArrayLike, temperature_c: ArrayLike
) -> Array:
    """Hypochlorous acid in water whose chlorine is partly bound to cyanuric acid.

    Parameters
    ----------
    free_chlorine_moll : float or array
        Free chlorine as tests read it, with all that is bound to cyanuric acid [mol/L of Cl2].
    cyanuric_moll : float or array, broadcasting
        All cyanuric acid, free and chlorinated [mol/L].
    ph : float or array, broadcasting
        pH [-].
    temperature_c : float or array, broadcasting
        Water temperature [degC].

    Returns
    -------
    array of the broadcast shape
        Hypochlorous acid [mol/L].

    Raises
    ------
    ValueError
        If a concentration is negative.

    Notes
    -----
    Cl2Cy- + H2O = HClCy- + HOCl, pK7a = 2028/T - 2.15; HClCy- + H2O = H2Cy- + HOCl, pK9a = 2229/T - 1.65;
    with x = [HOCl], D = 1 + h/K6 + x/K9a + x^2/(K9a K7a) and [H2Cy-] = Cy/D,
    FC = x (1 + K_HOCl/h) + [H2Cy-] (x/K9a + 2 x^2/(K9a K7a)), by halving between 0 and FC.
    All at no ionic strength. The source's range is 5 to 35 degC.
    Which species 7a and 9a stand for is inferred from the usual numbering, and held by the source's printed case.

    References
    ----------
    wahman_2018 and wahman_alexander_2019, read primary (their abstracts); morris_1966, from memory.

    Examples
    --------
    3 mg/L of free chlorine and 30 mg/L of cyanuric acid at pH 7.5, in mg/L of Cl2:

    >>> np.round(70906 * hypochlorous_moll(3 / 70906, 30 / 129074, 7.5, [5.0, 25.0]), 4)
    array([0.0114, 0.0286])
    """
    chlorine = np.asarray(free_chlorine_moll, dtype=np.float64)
    cyanuric = np.asarray(cyanuric_moll, dtype=np.float64)
    if not (np.all(chlorine >= 0.0) and np.all(cyanuric >= 0.0)):
        raise ValueError("concentrations are 0 or more")
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    proton = 10.0 ** -np.asarray(ph, dtype=np.float64)
    second, first = 10.0 ** -(2028.0 / kelvin - 2.15), 10.0 ** -(2229.0 / kelvin - 1.65)
    unchlorinated = 1.0 + proton * 10.0 ** pk_cyanuric(temperature_c)
    both = 1.0 + 10.0 ** -pk_hypochlorous(temperature_c) / proton
    low = np.zeros(np.broadcast_shapes(chlorine.shape, cyanuric.shape, proton.shape, kelvin.shape))
    high = low + chlorine
    for _ in range(_HALVINGS):
        x = 0.5 * (low + high)
        one, two = x / first, x**2 / (first * second)
        found = x * both + cyanuric / (unchlorinated + one + two) * (one + 2.0 * two)
        low, high = np.where(found < chlorine, x, low), np.where(found < chlorine, high, x)
    return np.asarray(0.5 * (low + high))
