"""Ions in dilute water: ionic strength from dissolved solids, and activity coefficients."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K

STRENGTH_PER_MGL = 2.5e-5
"""Ionic strength for each mg/L of dissolved solids [mol/mg] (langelier_1936, from memory)."""
NEUTRAL_FACTOR = 0.1
"""log10 of the activity coefficient of a dissolved molecule for each mol/L of ionic strength (phreeqc_dat)."""

Array = NDArray[np.float64]


def ionic_strength_moll(dissolved_solids_mgl: ArrayLike) -> Array:
    """Ionic strength of a water of which only the dissolved solids are known.

    Parameters
    ----------
    dissolved_solids_mgl : float or array
        Total dissolved solids [mg/L].

    Returns
    -------
    array of the same shape
        Ionic strength [mol/L].

    Raises
    ------
    ValueError
        If dissolved solids are negative.

    Notes
    -----
    I = 2.5e-5 TDS.
    The source gives no range in what is remembered of it; a water of sodium chloride alone has 1.7e-5 TDS.

    References
    ----------
    langelier_1936, from memory.

    Examples
    --------
    >>> float(ionic_strength_moll(400.0))
    0.01
    """
    solids = np.asarray(dissolved_solids_mgl, dtype=np.float64)
    if not np.all(solids >= 0.0):
        raise ValueError("dissolved solids are 0 or more")
    return np.asarray(STRENGTH_PER_MGL * solids)


def debye_hueckel_slope(temperature_c: ArrayLike) -> Array:
    """The factor A of the Debye-Hueckel law in water.

    Parameters
    ----------
    temperature_c : float or array
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        A [(L/mol)^0.5].

    Notes
    -----
    A = 1.8246e6 / (e T)^1.5, T in kelvin,
    e = 87.740 - 0.40008 t + 9.398e-4 t^2 - 1.410e-6 t^3 the dielectric constant of water, t in degC.
    The dielectric constant was measured from 0 to 100 degC.

    References
    ----------
    malmberg_maryott_1956, from memory.

    Examples
    --------
    >>> np.round(debye_hueckel_slope([5.0, 25.0]), 4)
    array([0.4952, 0.5115])
    """
    t = np.asarray(temperature_c, dtype=np.float64)
    dielectric = 87.740 + t * (-0.40008 + t * (9.398e-4 - 1.410e-6 * t))
    return np.asarray(1.8246e6 / (dielectric * (t + CELSIUS_ZERO_K)) ** 1.5)


def log_activity_coefficient(charge: ArrayLike, ionic_strength_moll: ArrayLike, temperature_c: ArrayLike) -> Array:
    """log10 of the activity coefficient of an ion, or of a dissolved molecule for charge 0.

    Parameters
    ----------
    charge : int or array
        Charge of the ion [-].
    ionic_strength_moll : float or array, broadcasting
        Ionic strength [mol/L].
    temperature_c : float or array, broadcasting
        Water temperature [degC].

    Returns
    -------
    array of the broadcast shape
        log10 of the coefficient [-].

    Raises
    ------
    ValueError
        If an ionic strength is negative or above 0.5 mol/L.

    Notes
    -----
    log g = -A z^2 (sqrt(I) / (1 + sqrt(I)) - 0.3 I); for a molecule log g = 0.1 I.
    Davies' form is used to 0.5 mol/L.

    References
    ----------
    davies_1962, from memory; phreeqc_dat for molecules.

    Examples
    --------
    >>> float(log_activity_coefficient(1, 0.01, 25.0))
    -0.0450
    """
    strength = np.asarray(ionic_strength_moll, dtype=np.float64)
    if not np.all((strength >= 0.0) & (strength <= 0.5)):
        raise ValueError("an ionic strength must lie between 0 and 0.5 mol/L")
    z2 = np.asarray(charge, dtype=np.float64) ** 2
    root = np.sqrt(strength)
    ion = -debye_hueckel_slope(temperature_c) * z2 * (root / (1.0 + root) - 0.3 * strength)
    return np.where(z2 > 0.0, ion, NEUTRAL_FACTOR * strength)
