"""What a chiller takes out of the water, and how long it needs."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def chiller_capacity_w(
    rated_w: ArrayLike,
    water_c: ArrayLike,
    air_c: ArrayLike,
    rated_water_c: ArrayLike,
    rated_air_c: ArrayLike,
    water_slope_per_k: ArrayLike,
    air_slope_per_k: ArrayLike,
) -> Array:
    """Heat that a chiller takes out of the water at these temperatures of water and air.

    Parameters
    ----------
    rated_w : float or array
        Rated cooling capacity [W].
    water_c, air_c : float or array, broadcasting
        Temperatures of the water and of the air around its condenser [degC].
    rated_water_c, rated_air_c : float or array, broadcasting
        The temperatures at which it is rated [degC].
    water_slope_per_k, air_slope_per_k : float or array, broadcasting
        Share of the rated capacity gained for each kelvin of warmer water, and lost for each of warmer air [1/K].

    Returns
    -------
    array of the broadcast shape
        Cooling capacity, 0 at least [W].

    Raises
    ------
    ValueError
        If a rated capacity is negative.

    Notes
    -----
    Q = Q_r (1 + a (T_w - T_wr) - b (T_a - T_ar)), not below 0.
    A line through the rating point; the source gives no range.

    References
    ----------
    condensing_temperature_rule, through another, for b; a from memory.

    Examples
    --------
    >>> float(chiller_capacity_w(1000.0, 5.0, 20.0, 20.0, 25.0, 0.03, 0.008))
    590.0
    """
    rated = np.asarray(rated_w, dtype=np.float64)
    if not np.all(rated >= 0.0):
        raise ValueError("a rated capacity is 0 or more")
    warmer_water = np.asarray(water_c, dtype=np.float64) - np.asarray(rated_water_c, dtype=np.float64)
    warmer_air = np.asarray(air_c, dtype=np.float64) - np.asarray(rated_air_c, dtype=np.float64)
    share = 1.0 + np.asarray(water_slope_per_k) * warmer_water - np.asarray(air_slope_per_k) * warmer_air
    return np.asarray(rated * np.maximum(share, 0.0))


def chiller_drop_k(capacity_w: ArrayLike, heat_flow_wk: ArrayLike, water_c: ArrayLike) -> Array:
    """Drop of the water's temperature on its way through a chiller that runs.

    Parameters
    ----------
    capacity_w : float or array
        Heat that it takes out of the water [W].
    heat_flow_wk : float or array, broadcasting
        Flow through it times density times specific heat of the water [W/K].
    water_c : float or array, broadcasting
        Temperature of the water that comes in [degC].

    Returns
    -------
    array of the broadcast shape
        Inlet less outlet [K].

    Raises
    ------
    ValueError
        If a capacity or a flow is negative.

    Notes
    -----
    dT = Q / (rho q c_p), and never more than down to 0 degC, where the water would freeze.
    The source gives no range: an energy balance.

    References
    ----------
    None; derived from the balance of energy.

    Examples
    --------
    590 W out of 30 L/min, 0.5 kg/s times 4195 J/kgK, and out of a tenth of it:

    >>> chiller_drop_k(590.0, [2097.5, 209.75], 5.0).tolist()
    [0.28, 2.81]
    """
    capacity, flow = np.asarray(capacity_w, dtype=np.float64), np.asarray(heat_flow_wk, dtype=np.float64)
    if not (np.all(capacity >= 0.0) and np.all(flow >= 0.0)):
        raise ValueError("a capacity and a flow are 0 or more")
    coldest = np.maximum(np.asarray(water_c, dtype=np.float64), 0.0)
    return np.asarray(np.minimum(capacity / np.maximum(flow, np.finfo(float).tiny), coldest))


def cooling_time_s(temperature_c: ArrayLike, net_cooling_w: ArrayLike, heat_capacity_jk: ArrayLike) -> Array:
    """Time in which the water goes through a row of temperatures, from the cooling that is left at each of them.

    Parameters
    ----------
    temperature_c : array, first axis the steps
        Temperatures from the first to the last, falling [degC].
    net_cooling_w : array of the same shape, or broadcasting against it
        Chiller less all gains at each of them [W].
    heat_capacity_jk : float or array, broadcasting against one step
        Heat capacity of all the water [J/K].

    Returns
    -------
    array of the shape of one step
        Time [s]; inf where the cooling does not suffice on the way.

    Raises
    ------
    ValueError
        If the temperatures rise or a heat capacity is not positive.

    Notes
    -----
    t = integral of C / (Q - gains) dT; between two steps the net cooling is a line, for which the integral is exact:
    C dT ln(n1 / n2) / (n1 - n2).
    The source gives no range: an energy balance.

    References
    ----------
    None; derived from the balance of energy.

    Examples
    --------
    400 L from 20 to 5 degC with a net cooling of -68.92 + 52.25 T:

    >>> t = np.array([20.0, 5.0])
    >>> float(cooling_time_s(t, -68.92 + 52.25 * t, 1.677e6) / 3600.0)
    14.49
    """
    temperature = np.asarray(temperature_c, dtype=np.float64)
    net = np.broadcast_to(np.asarray(net_cooling_w, dtype=np.float64), np.broadcast_shapes(
        temperature.shape, np.shape(net_cooling_w)))  # fmt: skip
    capacity = np.asarray(heat_capacity_jk, dtype=np.float64)
    step = -np.diff(temperature, axis=0)
    if not (np.all(step >= 0.0) and np.all(capacity > 0.0)):
        raise ValueError("cooling needs temperatures that fall, and a positive heat capacity")
    holds = np.all(net > 0.0, axis=0)
    positive = np.where(net > 0.0, net, 1.0)
    first, last = positive[:-1], positive[1:]
    apart = np.abs(first - last) > 1e-9 * first
    difference = np.where(apart, first - last, 1.0)
    each = np.where(apart, np.log(first / last) / difference, 2.0 / (first + last))
    time = np.sum(capacity * step * each, axis=0)
    return np.where(holds, time, np.inf)


def holding_run_s(
    standing_gain_w: ArrayLike, daily_heat_j: ArrayLike, capacity_w: ArrayLike, running_heat_w: ArrayLike
) -> Array:
    """Time a day that a chiller must run to hold the temperature, the pump running only with it.

    Parameters
    ----------
    standing_gain_w : float or array
        Heat into the water all day, without the pump [W].
    daily_heat_j : float or array, broadcasting
        Heat that comes once a day: bathers, fresh water [J].
    capacity_w : float or array, broadcasting
        What the chiller takes out [W].
    running_heat_w : float or array, broadcasting
        Heat that comes only while the water moves: the pump, the pipes [W].

    Returns
    -------
    array of the broadcast shape
        Time a day [s], 0 where the tub cools by itself; inf where the chiller takes out no more than the pump brings.
        Above 86400 it cannot hold.

    Raises
    ------
    ValueError
        If a capacity is negative.

    Notes
    -----
    t (Q - P) = 86400 G + H.
    The source gives no range: an energy balance.

    References
    ----------
    None; derived from the balance of energy.

    Examples
    --------
    Gains of 334 W without the pump, 64 W of pump heat, 590 W of cooling:

    >>> float(holding_run_s(334.0, 0.0, 590.0, 64.0) / 3600.0)
    15.24
    """
    capacity = np.asarray(capacity_w, dtype=np.float64)
    if not np.all(capacity >= 0.0):
        raise ValueError("a capacity is 0 or more")
    heat = np.maximum(86400.0 * np.asarray(standing_gain_w, dtype=np.float64) + np.asarray(daily_heat_j), 0.0)
    net = capacity - np.asarray(running_heat_w, dtype=np.float64)
    return np.where(heat > 0.0, np.where(net > 0.0, heat / np.where(net > 0.0, net, 1.0), np.inf), 0.0)
