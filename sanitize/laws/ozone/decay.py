"""How fast dissolved ozone decays by itself, by temperature and pH."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K

GAS_CONSTANT_JMOLK = 8.314462618
"""Molar gas constant [J/(mol K)], exact by definition."""
REFERENCE_C = 10.0
"""Temperature at which the rate of decay is stated [degC]."""
REFERENCE_PH = 7.4
"""pH at which the rate of decay is stated [-]."""

Array = NDArray[np.float64]


def self_decay_per_min(
    temperature_c: ArrayLike,
    ph: ArrayLike,
    rate_at_10c_per_min: ArrayLike,
    activation_jmol: ArrayLike,
    ph_slope: ArrayLike,
) -> Array:
    """First-order rate at which dissolved ozone decays, its slow reactions with the water's own matter included.

    Parameters
    ----------
    temperature_c : float or array
        Water temperature [degC].
    ph : float or array, broadcasting
        pH [-].
    rate_at_10c_per_min : float or array, broadcasting
        Rate at 10 degC and pH 7.4 [1/min].
    activation_jmol : float or array, broadcasting
        Activation energy [J/mol].
    ph_slope : float or array, broadcasting
        Rise of the rate's common logarithm with pH [-]; 1 where hydroxide alone starts the decay.

    Returns
    -------
    array of the broadcast shape
        Rate [1/min].

    Raises
    ------
    ValueError
        If a rate or an activation energy is negative.

    Notes
    -----
    k = k10 exp(-(E/R) (1/T - 1/283.15)) 10^(m (pH - 7.4)), T in kelvin.
    The rates behind it were measured in a surface water at 15 to 30 degC: below that it is carried on.
    The form in pH is common practice.

    References
    ----------
    abada_2024, read primary.

    Examples
    --------
    >>> np.round(self_decay_per_min([5.0, 15.0, 30.0], 7.4, 0.0434, 65400.0, 0.4), 3)
    array([0.026, 0.07 , 0.271])
    """
    rate, activation = (np.asarray(value, dtype=np.float64) for value in (rate_at_10c_per_min, activation_jmol))
    if not (np.all(rate >= 0.0) and np.all(activation >= 0.0)):
        raise ValueError("a rate of decay and its activation energy are 0 or more")
    inverse = 1.0 / (np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K)
    warmer = 1.0 / (REFERENCE_C + CELSIUS_ZERO_K) - inverse
    alkaline = np.asarray(ph_slope, dtype=np.float64) * (np.asarray(ph, dtype=np.float64) - REFERENCE_PH)
    return np.asarray(rate * np.exp(activation / GAS_CONSTANT_JMOLK * warmer) * 10.0**alkaline)


def half_life_min(rate_per_min: ArrayLike) -> Array:
    """Time in which half decays at a first-order rate; never (inf) at no rate.

    Parameters
    ----------
    rate_per_min : float or array
        Rate [1/min].

    Returns
    -------
    array of the same shape
        Half-life [min].

    Raises
    ------
    ValueError
        If a rate is negative.

    Notes
    -----
    ln 2 / k.
    The source gives no range: a definition.

    References
    ----------
    None; derived from the first-order law.

    Examples
    --------
    >>> float(half_life_min(0.0433))
    16.0
    """
    rate = np.asarray(rate_per_min, dtype=np.float64)
    if not np.all(rate >= 0.0):
        raise ValueError("a rate is 0 or more")
    return np.where(rate > 0.0, np.log(2.0) / np.where(rate > 0.0, rate, 1.0), np.inf)
