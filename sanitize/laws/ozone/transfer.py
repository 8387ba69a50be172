"""How much of the ozone in a gas dissolves while gas and water run along together, and while bubbles rise."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


class Contact(NamedTuple):
    """Ozone where gas and water part, in the water [mg/L] and in the gas [g/m3]."""

    water_mgl: Array
    gas_gm3: Array


def equilibrium_ratio(gas_to_water_ratio: ArrayLike, solubility: ArrayLike) -> Array:
    """Share of the ozone that dissolves at most, when gas and water come to rest with each other once.

    Parameters
    ----------
    gas_to_water_ratio : float or array
        Gas over water by volume, at the state of the contact [-].
    solubility : float or array, broadcasting
        Solubility ratio, above 0 [-].

    Returns
    -------
    array of the broadcast shape
        Share [-].

    Raises
    ------
    ValueError
        If a ratio is negative or a solubility not above 0.

    Notes
    -----
    1/(1 + (G/L)/S), for water without ozone.
    The source gives no range: a balance of mass.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    >>> np.round(equilibrium_ratio([0.02, 0.1, 0.5], 0.394), 2)
    array([0.95, 0.8 , 0.44])
    """
    ratio, solubility = np.asarray(gas_to_water_ratio, dtype=np.float64), np.asarray(solubility, dtype=np.float64)
    if not (np.all(ratio >= 0.0) and np.all(solubility > 0.0)):
        raise ValueError("a gas-to-water ratio is 0 or more, a solubility above 0")
    return np.asarray(1.0 / (1.0 + ratio / solubility))


def along_pipe(
    water_mgl: ArrayLike,
    gas_gm3: ArrayLike,
    gas_to_water_ratio: ArrayLike,
    solubility: ArrayLike,
    transfer_units: ArrayLike,
    decay_units: ArrayLike = 0.0,
) -> Contact:
    """Ozone in water and gas behind a length of pipe in which both run along together.

    Parameters
    ----------
    water_mgl : float or array
        Ozone in the water at the start [mg/L].
    gas_gm3 : float or array, broadcasting
        Ozone in the gas at the start, at the state of the contact [g/m3].
    gas_to_water_ratio : float or array, broadcasting
        Gas over water by volume at that state, above 0 [-].
    solubility : float or array, broadcasting
        Solubility ratio [-].
    transfer_units : float or array, broadcasting
        N = kLa V/QL [-]; kLa per volume of the pipe.
    decay_units : float or array, broadcasting
        K = k V/QL, what the water itself destroys of its ozone on the way [-].

    Returns
    -------
    Contact
        Arrays of the broadcast shape.

    Raises
    ------
    ValueError
        If anything is negative, or the gas-to-water ratio not above 0.

    Notes
    -----
    With x in the water, y = S c in the gas, A = S/(G/L) and s from 0 to 1 along the pipe:
    dx/ds = N (y - x) - K x and dy/ds = -A N (y - x); exact by the two eigenvalues, which are real and not above 0.
    Without decay x rises by (y0 - x0)/(1 + A) (1 - exp(-N (1 + A))).
    Plug flow, a constant gas volume and no resistance in the gas; the source gives no range.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    Nothing dissolves without contact; with endless contact the share is that of equilibrium, 0.887:

    >>> found = along_pipe(0.0, 1.0, 0.05, 0.394, [0.0, 0.1, 1e3])
    >>> np.round(found.water_mgl / 0.05, 3)
    array([0.   , 0.522, 0.887])
    """
    start, gas, ratio, solubility, n, k = np.broadcast_arrays(
        *(
            np.asarray(value, dtype=np.float64)
            for value in (water_mgl, gas_gm3, gas_to_water_ratio, solubility, transfer_units, decay_units)
        )
    )
    if not (all(np.all(value >= 0.0) for value in (start, gas, n, k)) and np.all(ratio > 0.0)):
        raise ValueError("ozone, transfer and decay are 0 or more, a gas-to-water ratio above 0")
    if not np.all(solubility > 0.0):
        raise ValueError("a solubility is above 0")
    a = solubility / ratio
    x0, y0 = start, solubility * gas
    half_trace = -0.5 * (n + k + a * n)
    half_gap = 0.5 * np.sqrt((n + k - a * n) ** 2 + 4.0 * a * n**2)
    fast = half_trace - half_gap
    slow = np.where(fast < 0.0, a * n * k / np.where(fast < 0.0, fast, -1.0), 0.0)
    apart = half_gap > 0.0
    gap = np.where(apart, slow - fast, 1.0)
    near, far = np.exp(slow), np.exp(fast)
    span = np.where(apart, -np.exp(slow) * np.expm1(-gap) / gap, 0.0)
    middle = np.where(apart, (slow * far - fast * near) / gap, np.exp(half_trace))
    x = middle * x0 + span * (n * (y0 - x0) - k * x0)
    y = middle * y0 - span * a * n * (y0 - x0)
    return Contact(np.maximum(x, 0.0), np.maximum(y, 0.0) / solubility)


def rising_ratio(transfer_units: ArrayLike) -> Array:
    """Share of the way to equilibrium that bubbles cover while they rise through a well-mixed tub.

    Parameters
    ----------
    transfer_units : float or array
        Units of the gas, see plume.rise_units [-].

    Returns
    -------
    array of the same shape
        Share [-].

    Raises
    ------
    ValueError
        If a number is negative.

    Notes
    -----
    1 - exp(-N): the water around a bubble stays as it is.
    The source gives no range: a balance of mass.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    >>> np.round(rising_ratio([0.0, 0.156]), 3)
    array([0.   , 0.144])
    """
    units = np.asarray(transfer_units, dtype=np.float64)
    if not np.all(units >= 0.0):
        raise ValueError("transfer units are 0 or more")
    return np.asarray(-np.expm1(-units))
