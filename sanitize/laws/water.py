"""Density, viscosity and vapour pressure of fresh water at one atmosphere, 0 to 45 degC."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K

COLDEST_C = 0.0
WARMEST_C = 45.0


def density_kgm3(temperature_c: ArrayLike) -> NDArray[np.float64]:
    """Density of air-free water at one atmosphere.

    Parameters
    ----------
    temperature_c : float or array, any shape
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        Density [kg/m3].

    Raises
    ------
    ValueError
        If a temperature lies outside 0 to 45 degC.

    Notes
    -----
    rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4
    - 280.54253e-12 t^5) / (1 + 16.879850e-3 t).
    The source's range is 0 to 150 degC at 101.325 kPa, on the temperature scale of 1968.
    The reprint of the formula by Jones and Harris (1992) swaps two digits of the denominator (16.897850);
    that print is wrong by up to 0.5 kg/m3 in this range.

    References
    ----------
    kell_1975, read through another (two restatements that agree).

    Examples
    --------
    >>> float(density_kgm3(20.0))
    998.204
    """
    t = _inside_range(temperature_c)
    above = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t)))
    )
    return np.asarray(above / (1.0 + 16.879850e-3 * t))


def viscosity_pas(temperature_c: ArrayLike) -> NDArray[np.float64]:
    """Dynamic viscosity of water at 0.1 MPa.

    Parameters
    ----------
    temperature_c : float or array, any shape
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        Dynamic viscosity [Pa s].

    Raises
    ------
    ValueError
        If a temperature lies outside 0 to 45 degC.

    Notes
    -----
    mu = 1e-6 (280.68 T^-1.9 + 511.45 T^-7.7 + 61.131 T^-19.6 + 0.45903 T^-40), T = kelvin / 300
    (equation 7 of the release, written for the simplified use of the 2008 viscosity formulation R12-08).
    The source's range is 253.15 to 383.15 K near 0.1 MPa.

    References
    ----------
    iapws_sr6_08, read through another (a library's source text).

    Examples
    --------
    >>> float(viscosity_pas(25.0)) * 1e6
    889.9968
    """
    reduced = (_inside_range(temperature_c) + CELSIUS_ZERO_K) / 300.0
    return np.asarray(
        1e-6 * (280.68 * reduced**-1.9 + 511.45 * reduced**-7.7 + 61.131 * reduced**-19.6 + 0.45903 * reduced**-40.0)
    )


def vapour_pressure_pa_abs(temperature_c: ArrayLike) -> NDArray[np.float64]:
    """Pressure of saturated water vapour over liquid water.

    Parameters
    ----------
    temperature_c : float or array, any shape
        Temperature [degC].

    Returns
    -------
    array of the same shape
        Vapour pressure [Pa absolute].

    Raises
    ------
    ValueError
        If a temperature lies outside 0 to 45 degC.

    Notes
    -----
    p = 611.21 exp((18.678 - t / 234.5) t / (257.14 + t)), over liquid water above 0 degC.
    The restatement that was read gives -80 to 50 degC as the range of the family of formulas.

    References
    ----------
    buck_1996, read through another (three restatements that agree).

    Examples
    --------
    >>> float(vapour_pressure_pa_abs(10.0))
    1227.9
    """
    t = _inside_range(temperature_c)
    return np.asarray(611.21 * np.exp((18.678 - t / 234.5) * t / (257.14 + t)))


def _inside_range(temperature_c: ArrayLike) -> NDArray[np.float64]:
    """The temperatures as an array, refused outside the range these three laws share here."""
    t = np.asarray(temperature_c, dtype=np.float64)
    if not np.all((t >= COLDEST_C) & (t <= WARMEST_C)):
        raise ValueError(f"water temperature must lie between {COLDEST_C:g} and {WARMEST_C:g} degC")
    return t
