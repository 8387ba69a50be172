"""Pressure, density and viscosity of the air above and around a tub."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K, STANDARD_ATMOSPHERE_PA_ABS

LOWEST_ALTITUDE_M = -500.0
HIGHEST_ALTITUDE_M = 11_000.0
COLDEST_AIR_C = -40.0
WARMEST_AIR_C = 50.0
GAS_CONSTANT_JKGK = 287.053
"""Specific gas constant of dry air, 8314.32 / 28.9644 of us_standard_atmosphere [J/(kg K)]."""
AIR_VISCOSITY_PAS = 1.81e-5
"""Dynamic viscosity of air at 20 degC [Pa s], from memory; 3 % less at 8 degC and 3 % more at 32 degC."""


def atmospheric_pressure_pa_abs(altitude_m: ArrayLike) -> NDArray[np.float64]:
    """Mean pressure of the air at an altitude, without the weather.

    Parameters
    ----------
    altitude_m : float or array, any shape
        Height above sea level [m].

    Returns
    -------
    array of the same shape
        Pressure [Pa absolute].

    Raises
    ------
    ValueError
        If an altitude lies outside -500 to 11 000 m.

    Notes
    -----
    p = 101325 (1 - 2.25577e-5 z)^5.25588, the lowest layer of the standard atmosphere (to 11 km).
    The weather moves the real pressure by about 3 % either way.

    References
    ----------
    us_standard_atmosphere, read through another.

    Examples
    --------
    >>> float(atmospheric_pressure_pa_abs(1000.0))
    89875.
    """
    z = np.asarray(altitude_m, dtype=np.float64)
    if not np.all((z >= LOWEST_ALTITUDE_M) & (z <= HIGHEST_ALTITUDE_M)):
        raise ValueError(f"altitude must lie between {LOWEST_ALTITUDE_M:g} and {HIGHEST_ALTITUDE_M:g} m")
    return np.asarray(STANDARD_ATMOSPHERE_PA_ABS * (1.0 - 2.25577e-5 * z) ** 5.25588)


def air_density_kgm3(pressure_pa_abs: ArrayLike, temperature_c: ArrayLike) -> NDArray[np.float64]:
    """Density of dry air.

    Parameters
    ----------
    pressure_pa_abs : float or array
        Pressure [Pa absolute].
    temperature_c : float or array, broadcasting
        Temperature [degC].

    Returns
    -------
    array of the broadcast shape
        Density [kg/m3].

    Raises
    ------
    ValueError
        If a pressure is negative or a temperature is not above -100 degC.

    Notes
    -----
    rho = p / (287.053 T), T in kelvin: an ideal gas, within 0.1 % of real dry air up to 2 bar around 0 to 45 degC.
    Damp air at 30 degC is up to 2 % lighter.
    The source gives no range.

    References
    ----------
    us_standard_atmosphere, read through another, for the gas constant.

    Examples
    --------
    >>> float(air_density_kgm3(101325.0, 15.0))
    1.2250
    """
    pressure = np.asarray(pressure_pa_abs, dtype=np.float64)
    temperature = np.asarray(temperature_c, dtype=np.float64)
    if not (np.all(pressure >= 0.0) and np.all(temperature > -100.0)):
        raise ValueError("air needs a pressure of 0 or more and a temperature above -100 degC")
    return np.asarray(pressure / (GAS_CONSTANT_JKGK * (temperature + CELSIUS_ZERO_K)))


def saturation_vapour_pa_abs(temperature_c: ArrayLike) -> NDArray[np.float64]:
    """Pressure of the vapour in air of 100 % relative humidity, over liquid water below the freezing point too.

    Parameters
    ----------
    temperature_c : float or array, any shape
        Temperature of the air [degC].

    Returns
    -------
    array of the same shape
        Vapour pressure [Pa absolute].

    Raises
    ------
    ValueError
        If a temperature lies outside -40 to 50 degC.

    Notes
    -----
    p = 611.21 exp((18.678 - t / 234.5) t / (257.14 + t)), as for the vapour pressure of water.
    The restatement that was read gives -80 to 50 degC as the range of the family of formulas.

    References
    ----------
    buck_1996, read through another (three restatements that agree).

    Examples
    --------
    >>> saturation_vapour_pa_abs([-10.0, 0.0, 20.0]).round(1).tolist()
    [286.6, 611.2, 2338.3]
    """
    t = np.asarray(temperature_c, dtype=np.float64)
    if not np.all((t >= COLDEST_AIR_C) & (t <= WARMEST_AIR_C)):
        raise ValueError(f"air temperature must lie between {COLDEST_AIR_C:g} and {WARMEST_AIR_C:g} degC")
    return np.asarray(611.21 * np.exp((18.678 - t / 234.5) * t / (257.14 + t)))
