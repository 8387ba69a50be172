"""How much ozone water takes up from a gas at equilibrium."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K, STANDARD_ATMOSPHERE_PA_ABS
from sanitize.laws.ozone.decay import GAS_CONSTANT_JMOLK

LOWEST_C, HIGHEST_C = 5.0, 30.0
"""Range of temperatures in which the law was measured [degC]."""

Array = NDArray[np.float64]


def solubility_ratio(temperature_c: ArrayLike) -> Array:
    """Ozone in water over ozone in the gas at equilibrium, both by volume at the water's temperature.

    Parameters
    ----------
    temperature_c : float or array
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        Ratio, that of Ostwald [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    S = R T / H, H = exp(12.19 - 2297/T) atm L/mol, T in kelvin, for water without salt; the salt of a tub takes less
    than 2 %. Measured from 5 to 30 degC; beyond that the formula is carried on.

    References
    ----------
    kosak_channing_1983, its equation from memory; at 25 degC it gives the constant that sander_2023 prints for it.

    Examples
    --------
    >>> np.round(solubility_ratio([5.0, 10.0, 20.0, 30.0]), 3)
    array([0.448, 0.394, 0.309, 0.247])
    """
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    litre_atmosphere = GAS_CONSTANT_JMOLK * 1e3 / STANDARD_ATMOSPHERE_PA_ABS
    return np.asarray(litre_atmosphere * kelvin / np.exp(12.19 - 2297.0 / kelvin))


def saturation_mgl(gas_gm3: ArrayLike, solubility: ArrayLike) -> Array:
    """Ozone that water takes up at most from a gas.

    Parameters
    ----------
    gas_gm3 : float or array
        Ozone in the gas at the water's temperature and pressure [g/m3].
    solubility : float or array, broadcasting
        Solubility ratio [-].

    Returns
    -------
    array of the broadcast shape
        Ozone in the water [mg/L].

    Raises
    ------
    ValueError
        If a concentration or a solubility is negative.

    Notes
    -----
    C = S c; g/m3 and mg/L are the same.
    The source gives no range: a definition.

    References
    ----------
    None; a definition.

    Examples
    --------
    One percent by weight in air (12.51 g/m3 at 10 degC) saturates water of 10 degC at 4.9 mg/L:

    >>> float(saturation_mgl(12.51, 0.394))
    4.93
    """
    gas, ratio = np.asarray(gas_gm3, dtype=np.float64), np.asarray(solubility, dtype=np.float64)
    if not (np.all(gas >= 0.0) and np.all(ratio >= 0.0)):
        raise ValueError("a concentration and a solubility are 0 or more")
    return np.asarray(gas * ratio)
