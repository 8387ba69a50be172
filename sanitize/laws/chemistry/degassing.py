"""Carbon dioxide that leaves through the injector's bubbles and the surface, and how pH drifts with it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.chemistry.carbonate import Water, carbon_moll, species
from sanitize.laws.chemistry.constants import log_kh

GAS_L_ATM_MOLK = 0.082057
"""Gas constant [L atm/(mol K)]."""
AIR_LOG_ATM = -3.38
"""log10 of the pressure of carbon dioxide in air, 417 ppm [atm]."""
_STEP_PH = 1e-3
_LARGEST_STEP_PH = 0.25

Array = NDArray[np.float64]


def solubility_ratio(temperature_c: ArrayLike) -> Array:
    """Carbon dioxide in water over that in gas beside it, both by volume.

    Parameters
    ----------
    temperature_c : float or array
        Temperature [degC].

    Returns
    -------
    array of the same shape
        Ratio [-].

    Raises
    ------
    ValueError
        If a temperature lies outside 0 to 45 degC.

    Notes
    -----
    S = KH R T.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    >>> np.round(solubility_ratio([5.0, 10.0]), 2)
    array([1.47, 1.25])
    """
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    return np.asarray(10.0 ** log_kh(temperature_c) * GAS_L_ATM_MOLK * kelvin)


def exchange_rate_per_s(
    volume_m3: ArrayLike,
    surface_m2: ArrayLike,
    surface_transfer_ms: ArrayLike,
    gas_flow_m3s: ArrayLike,
    bubble_saturation_ratio: ArrayLike,
    temperature_c: ArrayLike,
) -> Array:
    """Rate at which carbon dioxide comes to balance with the air, by surface and bubbles.

    Parameters
    ----------
    volume_m3 : float or array
        Volume of the water [m3].
    surface_m2 : float or array, broadcasting
        Open surface [m2].
    surface_transfer_ms : float or array, broadcasting
        Transfer coefficient of the surface [m/s].
    gas_flow_m3s : float or array, broadcasting
        Air drawn through the water, at its temperature and pressure [m3/s].
    bubble_saturation_ratio : float or array, broadcasting
        How near to balance the bubbles leave; 1 is the most [-].
    temperature_c : float or array, broadcasting
        Water temperature [degC].

    Returns
    -------
    array of the broadcast shape
        Rate k in d[CO2]/dt = -k ([CO2] - [CO2] in balance) [1/s].

    Raises
    ------
    ValueError
        If a volume is not positive or another is negative.

    Notes
    -----
    k = kL A / V + n Qg / (S V): the bubbles carry Qg C/S away. Derived from the balance of mass.
    The source gives no range.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract), for S.

    Examples
    --------
    >>> 86400 * float(exchange_rate_per_s(0.4, 0.5, 1e-5, 2.0 / 60000.0, 1.0, 5.0))
    5.98
    """
    volume = np.asarray(volume_m3, dtype=np.float64)
    surface, transfer, gas, share = (
        np.asarray(value, dtype=np.float64)
        for value in (surface_m2, surface_transfer_ms, gas_flow_m3s, bubble_saturation_ratio)
    )
    if not (np.all(volume > 0.0) and all(np.all(value >= 0.0) for value in (surface, transfer, gas, share))):
        raise ValueError("the volume must be positive, and nothing else negative")
    return np.asarray((transfer * surface + share * gas / solubility_ratio(temperature_c)) / volume)


def ph_after(
    ph: ArrayLike,
    alkalinity_moll: ArrayLike,
    water: Water,
    exchange_per_s: ArrayLike,
    time_s: ArrayLike,
    air_log_atm: float = AIR_LOG_ATM,
    steps_count: int = 48,
) -> Array:
    """pH after a time in which carbon dioxide passes between water and air, the alkalinity staying as it is.

    Parameters
    ----------
    ph : float or array
        pH at the start [-].
    alkalinity_moll : float or array, broadcasting
        Total alkalinity [eq/L].
    water : Water
        As `carbonate.carbon_moll`.
    exchange_per_s : float or array, broadcasting
        Rate by `exchange_rate_per_s` [1/s].
    time_s : float or array, broadcasting
        Time [s].
    air_log_atm : float
        log10 of the pressure of carbon dioxide in the air [atm].
    steps_count : int
        Steps in time; their length grows with the time that has passed.

    Returns
    -------
    array of the broadcast shape
        pH [-].

    Raises
    ------
    ValueError
        If a time or a rate is negative, or the alkalinity holds no carbonate.

    Notes
    -----
    dCT/dt = -k ([CO2] - KH p); with pH as the unknown, as alkalinity gives carbon without a search:
    dpH/dt = -k ([CO2] - KH p) / (dCT/dpH), each step the exact answer of its linear form.
    Chalk that falls meanwhile is left out.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    A day and a year of bubbles at 5 degC:

    >>> water = Water(1.5e-3, 1.6e-3, 6.0e-3, 5.0)
    >>> np.round(ph_after(7.2, 1.6e-3, water, 6.0 / 86400.0, [0.0, 86400.0, 365 * 86400.0]), 2)
    array([7.2 , 8.21, 8.24])
    """
    rate, time = np.asarray(exchange_per_s, dtype=np.float64), np.asarray(time_s, dtype=np.float64)
    if not (np.all(rate >= 0.0) and np.all(time >= 0.0)):
        raise ValueError("times and rates are 0 or more")
    balance = 10.0 ** (log_kh(water.temperature_c) + air_log_atm)

    def speed(acidity: Array) -> Array:
        carbon, more = (carbon_moll(acidity + part, alkalinity_moll, water) for part in (0.0, _STEP_PH))
        dioxide = species(acidity, carbon, water).carbon_dioxide
        return np.asarray(-rate * (dioxide - balance) * _STEP_PH / (more - carbon))

    passed = np.linspace(0.0, 1.0, steps_count + 1) ** 3
    now = np.asarray(ph, dtype=np.float64) + 0.0 * (rate * time)
    for share in np.diff(passed):
        here = speed(now)
        slope = (speed(now + _STEP_PH) - here) / _STEP_PH
        grown = slope * share * time
        flat = np.abs(grown) < 1e-9
        factor = np.where(flat, 1.0, np.expm1(np.minimum(grown, 5.0)) / np.where(flat, 1.0, np.minimum(grown, 5.0)))
        now = now + np.clip(here * share * time * factor, -_LARGEST_STEP_PH, _LARGEST_STEP_PH)
    return np.asarray(now)
