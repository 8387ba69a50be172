"""Ozone in a gas: by weight, by volume, by mass in a volume; never one taken for another."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.ozone.decay import GAS_CONSTANT_JMOLK
from sanitize.laws.ozone.reactions import OZONE_GMOL

AIR_GMOL = 28.96
"""Dry air [g/mol]."""
OXYGEN_GMOL = 31.998
"""Oxygen, O2 [g/mol]."""
PER_MILLION = 1e6

Array = NDArray[np.float64]


def volume_ratio_of_weight(weight_ratio: ArrayLike, carrier_gmol: ArrayLike = AIR_GMOL) -> Array:
    """Share of a gas that is ozone by volume, from its share by weight.

    Parameters
    ----------
    weight_ratio : float or array
        Share by weight, 0 to 1 [-]; "1 wt %" is 0.01.
    carrier_gmol : float or array, broadcasting
        Molar mass of the rest [g/mol]; air 28.96, oxygen 31.998.

    Returns
    -------
    array of the broadcast shape
        Share by volume, of moles too [-].

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    y = (w/48.0) / (w/48.0 + (1 - w)/M).
    The source gives no range: a definition, for ideal gases.

    References
    ----------
    None; a definition.

    Examples
    --------
    One percent by weight in air is 0.61 % by volume, not 1 %:

    >>> np.round(volume_ratio_of_weight([0.01, 0.01], [AIR_GMOL, OXYGEN_GMOL]), 5)
    array([0.00606, 0.00669])
    """
    weight = np.asarray(weight_ratio, dtype=np.float64)
    if not np.all((weight >= 0.0) & (weight <= 1.0)):
        raise ValueError("a share by weight lies between 0 and 1")
    ozone = weight / OZONE_GMOL
    return np.asarray(ozone / (ozone + (1.0 - weight) / np.asarray(carrier_gmol, dtype=np.float64)))


def weight_ratio_of_volume(volume_ratio: ArrayLike, carrier_gmol: ArrayLike = AIR_GMOL) -> Array:
    """Share of a gas that is ozone by weight, from its share by volume.

    Parameters
    ----------
    volume_ratio : float or array
        Share by volume, 0 to 1 [-].
    carrier_gmol : float or array, broadcasting
        Molar mass of the rest [g/mol].

    Returns
    -------
    array of the broadcast shape
        Share by weight [-].

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    w = 48.0 y / (48.0 y + M (1 - y)), the inverse of volume_ratio_of_weight.
    The source gives no range: a definition, for ideal gases.

    References
    ----------
    None; a definition.

    Examples
    --------
    >>> float(weight_ratio_of_volume(0.0060576))
    0.01
    """
    volume = np.asarray(volume_ratio, dtype=np.float64)
    if not np.all((volume >= 0.0) & (volume <= 1.0)):
        raise ValueError("a share by volume lies between 0 and 1")
    ozone = OZONE_GMOL * volume
    return np.asarray(ozone / (ozone + np.asarray(carrier_gmol, dtype=np.float64) * (1.0 - volume)))


def ozone_gm3(volume_ratio: ArrayLike, temperature_c: ArrayLike, pressure_pa_abs: ArrayLike) -> Array:
    """Mass of ozone in a volume of gas at its own temperature and pressure.

    Parameters
    ----------
    volume_ratio : float or array
        Share by volume [-].
    temperature_c : float or array, broadcasting
        Temperature of the gas [degC]; 0 degC gives the trade's "normal" cubic metre.
    pressure_pa_abs : float or array, broadcasting
        Pressure of the gas [Pa absolute].

    Returns
    -------
    array of the broadcast shape
        Ozone [g/m3].

    Raises
    ------
    ValueError
        If a share is negative or a pressure is not above 0.

    Notes
    -----
    y p M / (R T), an ideal gas.
    The source gives no range: a definition.

    References
    ----------
    None; a definition.

    Examples
    --------
    >>> float(ozone_gm3(0.0060576, 0.0, 101325.0))
    12.97
    """
    volume, pressure = _checked(volume_ratio, pressure_pa_abs)
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    return np.asarray(volume * pressure * OZONE_GMOL / (GAS_CONSTANT_JMOLK * kelvin))


def ppmv_of_mgm3(ozone_mgm3: ArrayLike, temperature_c: ArrayLike, pressure_pa_abs: ArrayLike) -> Array:
    """Ozone in air in parts per million by volume.

    Parameters
    ----------
    ozone_mgm3 : float or array
        Ozone [mg/m3], at the air's own temperature and pressure.
    temperature_c : float or array, broadcasting
        Temperature of the air [degC].
    pressure_pa_abs : float or array, broadcasting
        Pressure of the air [Pa absolute].

    Returns
    -------
    array of the broadcast shape
        Ozone [ppm by volume].

    Raises
    ------
    ValueError
        If a concentration is negative or a pressure is not above 0.

    Notes
    -----
    1e6 c R T / (M p), c in g/m3.
    The source gives no range: a definition.

    References
    ----------
    None; a definition.

    Examples
    --------
    >>> np.round(ppmv_of_mgm3([1.962, 0.2], 25.0, 101325.0), 2)
    array([1. , 0.1])
    """
    ozone, pressure = _checked(ozone_mgm3, pressure_pa_abs)
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    return np.asarray(PER_MILLION * 1e-3 * ozone * GAS_CONSTANT_JMOLK * kelvin / (OZONE_GMOL * pressure))


def mgm3_of_ppmv(ozone_ppmv: ArrayLike, temperature_c: ArrayLike, pressure_pa_abs: ArrayLike) -> Array:
    """Mass of ozone in a volume of air from parts per million by volume.

    Parameters
    ----------
    ozone_ppmv : float or array
        Ozone [ppm by volume].
    temperature_c : float or array, broadcasting
        Temperature of the air [degC].
    pressure_pa_abs : float or array, broadcasting
        Pressure of the air [Pa absolute].

    Returns
    -------
    array of the broadcast shape
        Ozone [mg/m3].

    Raises
    ------
    ValueError
        If a concentration is negative or a pressure is not above 0.

    Notes
    -----
    The inverse of ppmv_of_mgm3.
    The source gives no range: a definition.

    References
    ----------
    None; a definition.

    Examples
    --------
    >>> np.round(mgm3_of_ppmv(1.0, [0.0, 20.0, 25.0], 101325.0), 3)
    array([2.141, 1.995, 1.962])
    """
    volume, pressure = _checked(ozone_ppmv, pressure_pa_abs)
    return np.asarray(1e3 * ozone_gm3(volume / PER_MILLION, temperature_c, pressure))


def _checked(amount: ArrayLike, pressure_pa_abs: ArrayLike) -> tuple[Array, Array]:
    values, pressure = np.asarray(amount, dtype=np.float64), np.asarray(pressure_pa_abs, dtype=np.float64)
    if not (np.all(values >= 0.0) and np.all(pressure > 0.0)):
        raise ValueError("ozone is 0 or more, and a pressure above 0")
    return values, pressure
