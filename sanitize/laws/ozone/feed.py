"""Ozone that a unit makes at the gas flow that is really drawn through it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K, STANDARD_ATMOSPHERE_PA_ABS

SECONDS_PER_H = 3600.0
RATED_C = 20.0
"""Temperature at which rated gas flows are taken [degC]."""

Array = NDArray[np.float64]


def rated_flow_ratio(
    gas_flow_m3s: ArrayLike, rated_flow_m3s: ArrayLike, pressure_pa_abs: ArrayLike, temperature_c: ArrayLike = RATED_C
) -> Array:
    """Gas that a unit really gets over what it is rated for, by its mass.

    Parameters
    ----------
    gas_flow_m3s : float or array
        Gas flow at the pressure and temperature given [m3/s].
    rated_flow_m3s : float or array, broadcasting
        Rated gas flow at 1 atm and 20 degC [m3/s].
    pressure_pa_abs : float or array, broadcasting
        Pressure of the air at the place [Pa absolute].
    temperature_c : float or array, broadcasting
        Temperature of the gas flow [degC].

    Returns
    -------
    array of the broadcast shape
        Ratio [-].

    Raises
    ------
    ValueError
        If a flow is negative, or a rated flow or a pressure not above 0.

    Notes
    -----
    (Q/Qr) (p/101325) (293.15/T): the thin air of a high place carries less oxygen through the unit.
    The source gives no range: an ideal gas.

    References
    ----------
    None; the gas law.

    Examples
    --------
    >>> np.round(rated_flow_ratio(2.0, 2.0, [101325.0, 84556.0]), 2)
    array([1.  , 0.83])
    """
    flow, rated = np.asarray(gas_flow_m3s, dtype=np.float64), np.asarray(rated_flow_m3s, dtype=np.float64)
    pressure = np.asarray(pressure_pa_abs, dtype=np.float64)
    if not (np.all(flow >= 0.0) and np.all(rated > 0.0) and np.all(pressure > 0.0)):
        raise ValueError("a flow is 0 or more, a rated flow and a pressure above 0")
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    warm = (RATED_C + CELSIUS_ZERO_K) / kelvin
    return np.asarray(flow / rated * pressure / STANDARD_ATMOSPHERE_PA_ABS * warm)


def rated_output_ratio(flow_ratio: ArrayLike) -> Array:
    """Share of the rated output that a unit makes, where only one rated point is known.

    Parameters
    ----------
    flow_ratio : float or array
        Gas over what the unit is rated for, by mass [-].

    Returns
    -------
    array of the same shape
        Share [-].

    Raises
    ------
    ValueError
        If a ratio is negative.

    Notes
    -----
    min(1, Q/Qr): below its rated flow a unit is held by the concentration that it reaches, above by its power.
    A low gas flow also heats the cell, which lowers it further. The source gives no range: common practice.

    References
    ----------
    None; common practice.

    Examples
    --------
    >>> rated_output_ratio([0.0, 0.5, 3.0]).tolist()
    [0.0, 0.5, 1.0]
    """
    ratio = np.asarray(flow_ratio, dtype=np.float64)
    if not np.all(ratio >= 0.0):
        raise ValueError("a ratio of flows is 0 or more")
    return np.minimum(ratio, 1.0)


def curve_output_mg_per_h(gas_flow_m3s: ArrayLike, flows_m3s: ArrayLike, outputs_mg_per_h: ArrayLike) -> Array:
    """Ozone that a unit makes by the points of its data sheet.

    Parameters
    ----------
    gas_flow_m3s : float or array
        Gas flow, at the state in which the points hold [m3/s].
    flows_m3s, outputs_mg_per_h : arrays of one axis
        Gas flows, rising and above 0 [m3/s], and the output at each [mg/h].

    Returns
    -------
    array of the shape of the gas flow
        Output [mg/h].

    Raises
    ------
    ValueError
        If the flows do not rise from above 0, or an output is negative.

    Notes
    -----
    Straight lines from point to point, from no flow and no output to the first, and level beyond the last.
    The source gives no range: the data sheet's own.

    References
    ----------
    None; interpolation.

    Examples
    --------
    >>> curve_output_mg_per_h([0.0, 0.5, 1.5, 9.0], [1.0, 2.0], [60.0, 90.0]).tolist()
    [0.0, 30.0, 75.0, 90.0]
    """
    flows, outputs = np.asarray(flows_m3s, dtype=np.float64), np.asarray(outputs_mg_per_h, dtype=np.float64)
    if not (np.all(flows > 0.0) and np.all(np.diff(flows) > 0.0) and np.all(outputs >= 0.0)):
        raise ValueError("the flows of a curve rise from above 0, and its outputs are 0 or more")
    flow = np.asarray(gas_flow_m3s, dtype=np.float64)
    return np.asarray(np.interp(flow, np.append(0.0, flows), np.append(0.0, outputs)))


def gas_gm3(output_mg_per_h: ArrayLike, gas_flow_m3s: ArrayLike) -> Array:
    """Ozone in a gas from the output and the gas flow; 0 where no gas flows.

    Parameters
    ----------
    output_mg_per_h : float or array
        Ozone made [mg/h].
    gas_flow_m3s : float or array, broadcasting
        Gas flow at the state in which the concentration is wanted [m3/s].

    Returns
    -------
    array of the broadcast shape
        Ozone [g/m3].

    Raises
    ------
    ValueError
        If an output or a flow is negative.

    Notes
    -----
    m/Q.
    The source gives no range: a definition.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    90 mg/h in 1.5 L/min are 1 g/m3:

    >>> float(gas_gm3(90.0, 1.5 / 60000.0))
    1.0
    """
    output, flow = np.asarray(output_mg_per_h, dtype=np.float64), np.asarray(gas_flow_m3s, dtype=np.float64)
    if not (np.all(output >= 0.0) and np.all(flow >= 0.0)):
        raise ValueError("an output and a gas flow are 0 or more")
    per_s = 1e-3 * output / SECONDS_PER_H
    return np.asarray(np.where(flow > 0.0, per_s / np.where(flow > 0.0, flow, 1.0), 0.0))
