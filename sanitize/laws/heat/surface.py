"""Heat and vapour through the open surface of the water: convection, radiation, evaporation or condensation."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K, STANDARD_ATMOSPHERE_PA_ABS

BOWEN_PA_K = 61.3
"""Heat by convection over heat by vapour, for each kelvin over each pascal, at the standard atmosphere [Pa/K]."""
EMISSIVITY_RATIO = 0.95
STEFAN_BOLTZMANN_WM2K4 = 5.670374419e-8
UNDISTURBED_RATIO = 0.74

Array = NDArray[np.float64]


def surface_heat_wm2(
    water_c: ArrayLike,
    air_c: ArrayLike,
    radiant_c: ArrayLike,
    water_vapour_pa_abs: ArrayLike,
    air_vapour_pa_abs: ArrayLike,
    vapour_wm2pa: ArrayLike,
    atmosphere_pa_abs: ArrayLike,
) -> Array:
    """Heat that comes through one square metre of open surface into the water; negative where it leaves.

    Parameters
    ----------
    water_c, air_c, radiant_c : float or array
        Temperatures of water, air, and of what the surface sees (room or sky) [degC].
    water_vapour_pa_abs, air_vapour_pa_abs : float or array, broadcasting
        Vapour pressure at the water's temperature, and of the vapour in the air [Pa absolute].
    vapour_wm2pa : float or array, broadcasting
        Heat by vapour for each square metre and pascal [W/(m2 Pa)].
    atmosphere_pa_abs : float or array, broadcasting
        Pressure of the air [Pa absolute].

    Returns
    -------
    array of the broadcast shape
        Heat flow into the water [W/m2].

    Raises
    ------
    ValueError
        If the heat by vapour or a pressure is negative.

    Notes
    -----
    q = h_c (T_a - T_w) + h_r (T_r - T_w) + f (p_a - p_w), h_c = 61.3 (p / 101325) f,
    h_r = 4 * 0.95 * sigma * T_m^3, T_m the mean of water and surroundings in kelvin.
    Below the dew point of the air vapour condenses and warms the water.
    The source gives no range.

    References
    ----------
    bowen_1926, read as its abstract; the linear form of the radiation from memory.

    Examples
    --------
    Water of 5 degC in a room of 20 degC and 50 %:

    >>> float(surface_heat_wm2(5.0, 20.0, 20.0, 873.0, 1169.0, 0.034, 101325.0))
    116.7
    """
    water, air, radiant = (np.asarray(value, dtype=np.float64) for value in (water_c, air_c, radiant_c))
    vapour = np.asarray(vapour_wm2pa, dtype=np.float64)
    over, in_air, atmosphere = (
        np.asarray(value, dtype=np.float64) for value in (water_vapour_pa_abs, air_vapour_pa_abs, atmosphere_pa_abs)
    )
    if not all(np.all(value >= 0.0) for value in (vapour, over, in_air, atmosphere)):
        raise ValueError("heat by vapour and pressures are 0 or more")
    convection = BOWEN_PA_K * atmosphere / STANDARD_ATMOSPHERE_PA_ABS * vapour * (air - water)
    mean_k = 0.5 * (water + radiant) + CELSIUS_ZERO_K
    radiation = 4.0 * EMISSIVITY_RATIO * STEFAN_BOLTZMANN_WM2K4 * mean_k**3 * (radiant - water)
    return np.asarray(convection + radiation + vapour * (in_air - over))


def still_vapour_wm2pa(water_c: ArrayLike, air_c: ArrayLike, colder: ArrayLike, warmer: ArrayLike) -> Array:
    """Heat by vapour over water in still air, blended where water and air are about as warm.

    Parameters
    ----------
    water_c, air_c : float or array
        Temperatures of water and air [degC].
    colder, warmer : float or array, broadcasting
        Heat by vapour where the water is colder and where it is warmer than the air [W/(m2 Pa)].

    Returns
    -------
    array of the broadcast shape
        Heat by vapour [W/(m2 Pa)].

    Raises
    ------
    ValueError
        If a heat by vapour is negative.

    Notes
    -----
    Linear in the difference from -2 to 2 K; the blend is a judgement.
    The source gives no range.

    References
    ----------
    ashrae_pools, through another, for the warmer side.

    Examples
    --------
    >>> still_vapour_wm2pa([5.0, 20.0, 38.0], 20.0, 0.034, 0.049).tolist()
    [0.034, 0.0415, 0.049]
    """
    low, high = np.asarray(colder, dtype=np.float64), np.asarray(warmer, dtype=np.float64)
    if not (np.all(low >= 0.0) and np.all(high >= 0.0)):
        raise ValueError("heat by vapour is 0 or more")
    difference = np.asarray(water_c, dtype=np.float64) - np.asarray(air_c, dtype=np.float64)
    share = np.clip((difference + 2.0) / 4.0, 0.0, 1.0)
    return np.asarray(low + share * (high - low))


def wind_vapour_wm2pa(wind_ms: ArrayLike) -> Array:
    """Heat by vapour over undisturbed water outdoors.

    Parameters
    ----------
    wind_ms : float or array
        Wind at the rim [m/s].

    Returns
    -------
    array of the same shape
        Heat by vapour [W/(m2 Pa)].

    Raises
    ------
    ValueError
        If a wind is negative.

    Notes
    -----
    f = 0.74 (0.0887 + 0.07815 v): the handbook's coefficients, times what was measured on undisturbed water.
    The source gives no range.

    References
    ----------
    ashrae_pools, through another; smith_lof_jones_1998, read as its abstract.

    Examples
    --------
    >>> np.round(wind_vapour_wm2pa([0.0, 1.0, 2.0, 4.0]), 3)
    array([0.066, 0.123, 0.181, 0.297])
    """
    wind = np.asarray(wind_ms, dtype=np.float64)
    if not np.all(wind >= 0.0):
        raise ValueError("a wind is 0 or more")
    return np.asarray(UNDISTURBED_RATIO * (0.0887 + 0.07815 * wind))
