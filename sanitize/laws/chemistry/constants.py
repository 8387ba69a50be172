"""Equilibrium constants of water, carbon dioxide, calcite and their ion pairs against temperature, as log10."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.water import COLDEST_C, WARMEST_C

Array = NDArray[np.float64]
_GAS_JMOLK = 8.31446
_CALORIE_J = 4.184
_STANDARD_K = 298.15


def log_k1(temperature_c: ArrayLike) -> Array:
    """First dissociation constant of carbonic acid, CO2 + H2O = HCO3- + H+.

    Parameters
    ----------
    temperature_c : float or array, any shape
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        log10 of the constant, on activities [-].

    Raises
    ------
    ValueError
        If a temperature lies outside 0 to 45 degC.

    Notes
    -----
    log K1 = -356.3094 - 0.06091964 T + 21834.37/T + 126.8339 log T - 1684915/T^2, T in kelvin.
    The source's range is 0 to 100 degC at one atmosphere.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    >>> float(log_k1(25.0))
    -6.352
    """
    return _analytic(temperature_c, -356.3094, -0.06091964, 21834.37, 126.8339, -1684915.0)


def log_k2(temperature_c: ArrayLike) -> Array:
    """Second dissociation constant of carbonic acid, HCO3- = CO3-- + H+.

    Parameters, returns, raises, range and source as `log_k1`.

    Notes
    -----
    log K2 = -107.8871 - 0.03252849 T + 5151.79/T + 38.92561 log T - 563713.9/T^2.

    Examples
    --------
    >>> float(log_k2(25.0))
    -10.329
    """
    return _analytic(temperature_c, -107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)


def log_kw(temperature_c: ArrayLike) -> Array:
    """Ion product of water, H2O = H+ + OH-.

    Parameters, returns and raises as `log_k1`.

    Notes
    -----
    log Kw = 293.29227 + 0.1360833 T - 10576.913/T - 123.73158 log T - 6.996455e-5 T^2.
    The source gives no range.

    References
    ----------
    phreeqc_dat, read primary (the data file itself).

    Examples
    --------
    >>> float(log_kw(25.0))
    -13.995
    """
    kelvin = _kelvin(temperature_c)
    linear = _analytic(temperature_c, 293.29227, 0.1360833, -10576.913, -123.73158, 0.0)
    return np.asarray(linear - 6.996455e-5 * kelvin**2)


def log_kh(temperature_c: ArrayLike) -> Array:
    """Solubility of carbon dioxide, CO2 in water over its pressure [mol/(L atm)].

    Parameters, returns, raises, range and source as `log_k1`.

    Notes
    -----
    log KH = 108.3865 + 0.01985076 T - 6919.53/T - 40.45154 log T + 669365/T^2.

    Examples
    --------
    >>> float(log_kh(25.0))
    -1.468
    """
    return _analytic(temperature_c, 108.3865, 0.01985076, -6919.53, -40.45154, 669365.0)


def log_calcite(temperature_c: ArrayLike) -> Array:
    """Solubility product of calcite, CaCO3 = Ca++ + CO3--.

    Parameters, returns and raises as `log_k1`.

    Notes
    -----
    log Kc = -171.9065 - 0.077993 T + 2839.319/T + 71.595 log T.
    The source's range is 0 to 90 degC; it gives -8.480 +- 0.020 at 25 degC.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    >>> float(log_calcite(25.0))
    -8.480
    """
    return _analytic(temperature_c, -171.9065, -0.077993, 2839.319, 71.595, 0.0)


def log_calcium_carbonate_pair(temperature_c: ArrayLike) -> Array:
    """Association of calcium with carbonate, Ca++ + CO3-- = CaCO3 dissolved.

    Parameters, returns and raises as `log_k1`.

    Notes
    -----
    log K = -1228.732 - 0.299444 T + 35512.75/T + 485.818 log T, measured from 5 to 80 degC.
    The source gives 3.22 +- 0.14 at 25 degC.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    >>> float(log_calcium_carbonate_pair(25.0))
    3.224
    """
    return _analytic(temperature_c, -1228.732, -0.299444, 35512.75, 485.818, 0.0)


def log_calcium_bicarbonate_pair(temperature_c: ArrayLike) -> Array:
    """Association of calcium with bicarbonate, Ca++ + HCO3- = CaHCO3+.

    Parameters, returns and raises as `log_k1`.

    Notes
    -----
    log K = 1209.120 + 0.31294 T - 34765.05/T - 478.782 log T, between 0 and 90 degC.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    >>> float(log_calcium_bicarbonate_pair(25.0))
    1.106
    """
    return _analytic(temperature_c, 1209.120, 0.31294, -34765.05, -478.782, 0.0)


def log_sodium_bicarbonate_pair(temperature_c: ArrayLike) -> Array:
    """Association of sodium with bicarbonate, Na+ + HCO3- = NaHCO3 dissolved.

    Parameters, returns and raises as `log_k1`.

    Notes
    -----
    log K = -0.25 at 25 degC, by van 't Hoff with a heat of reaction of -1 kcal/mol.
    The source gives no range.

    References
    ----------
    phreeqc_dat, read primary (the data file itself).

    Examples
    --------
    >>> float(log_sodium_bicarbonate_pair(25.0))
    -0.25
    """
    return _van_t_hoff(temperature_c, -0.25, -1.0)


def log_sodium_carbonate_pair(temperature_c: ArrayLike) -> Array:
    """Association of sodium with carbonate, Na+ + CO3-- = NaCO3-.

    Parameters, returns and raises as `log_k1`.

    Notes
    -----
    log K = 1.27 at 25 degC, by van 't Hoff with a heat of reaction of 8.91 kcal/mol.
    The source gives no range.

    References
    ----------
    phreeqc_dat, read primary (the data file itself).

    Examples
    --------
    >>> float(log_sodium_carbonate_pair(25.0))
    1.27
    """
    return _van_t_hoff(temperature_c, 1.27, 8.91)


def _kelvin(temperature_c: ArrayLike) -> Array:
    t = np.asarray(temperature_c, dtype=np.float64)
    if not np.all((t >= COLDEST_C) & (t <= WARMEST_C)):
        raise ValueError(f"water temperature must lie between {COLDEST_C:g} and {WARMEST_C:g} degC")
    return np.asarray(t + CELSIUS_ZERO_K)


def _analytic(temperature_c: ArrayLike, a: float, b: float, c: float, d: float, e: float) -> Array:
    kelvin = _kelvin(temperature_c)
    return np.asarray(a + b * kelvin + c / kelvin + d * np.log10(kelvin) + e / kelvin**2)


def _van_t_hoff(temperature_c: ArrayLike, at_25: float, heat_kcal: float) -> Array:
    heat = 1000.0 * _CALORIE_J * heat_kcal / (_GAS_JMOLK * np.log(10.0))
    return np.asarray(at_25 - heat * (1.0 / _kelvin(temperature_c) - 1.0 / _STANDARD_K))
