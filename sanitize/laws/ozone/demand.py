"""What bathers and the water's matter take of dissolved ozone: a fast and a slow demand, each of second order."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def demand_rate_per_min(demand_mgl: ArrayLike, speed_l_per_mg_min: ArrayLike) -> Array:
    """First-order rate at which ozone is lost to a demand.

    Parameters
    ----------
    demand_mgl : float or array
        Demand, counted as the ozone that it can take [mg/L].
    speed_l_per_mg_min : float or array, broadcasting
        Rate constant of second order [L/(mg min)].

    Returns
    -------
    array of the broadcast shape
        Rate [1/min].

    Raises
    ------
    ValueError
        If a demand or a rate constant is negative.

    Notes
    -----
    dC/dt = dF/dt = -k F C; ozone and demand go mg for mg, as the demand is counted in ozone.
    The two pools, instant and slow, are common practice; the source gives no range.

    References
    ----------
    None; the law of mass action.

    Examples
    --------
    0.3 g of fast demand in 400 L, at 2 L/(mg min):

    >>> float(demand_rate_per_min(0.75, 2.0))
    1.5
    """
    demand, speed = (np.asarray(value, dtype=np.float64) for value in (demand_mgl, speed_l_per_mg_min))
    if not (np.all(demand >= 0.0) and np.all(speed >= 0.0)):
        raise ValueError("a demand and its rate constant are 0 or more")
    return np.asarray(demand * speed)


def ozone_after_demand_mgl(
    ozone_mgl: ArrayLike, demand_mgl: ArrayLike, speed_l_per_mg_min: ArrayLike, time_min: ArrayLike
) -> Array:
    """Ozone that is left when a water with one demand stands for a time, without feed or decay.

    Parameters
    ----------
    ozone_mgl : float or array
        Ozone at the start [mg/L].
    demand_mgl : float or array, broadcasting
        Demand at the start, counted as ozone [mg/L].
    speed_l_per_mg_min : float or array, broadcasting
        Rate constant of second order [L/(mg min)].
    time_min : float or array, broadcasting
        Time [min].

    Returns
    -------
    array of the broadcast shape
        Ozone left [mg/L]; the demand left is as much less than at the start.

    Raises
    ------
    ValueError
        If anything is negative.

    Notes
    -----
    C = C0 / (1 + k F0 t phi(k (C0 - F0) t)) with phi(x) = (1 - exp(-x)) / x, as C0 - F0 stays what it was;
    C0 / (1 + k F0 t) where both are equal.
    The source gives no range: exact.

    References
    ----------
    None; the integral of the law of mass action.

    Examples
    --------
    >>> np.round(ozone_after_demand_mgl(0.5, 0.75, 2.0, [0.0, 1.0, 60.0]), 4)
    array([0.5   , 0.1697, 0.    ])
    """
    ozone, demand, speed, time = (
        np.asarray(value, dtype=np.float64) for value in (ozone_mgl, demand_mgl, speed_l_per_mg_min, time_min)
    )
    if not all(np.all(value >= 0.0) for value in (ozone, demand, speed, time)):
        raise ValueError("ozone, demand, rate constant and time are 0 or more")
    exponent = speed * (ozone - demand) * time
    apart = np.abs(exponent) > 1e-9
    inside = np.clip(np.where(apart, exponent, 1.0), -700.0, None)
    phi = np.where(apart, -np.expm1(-inside) / inside, 1.0 - 0.5 * exponent)
    return np.asarray(ozone / (1.0 + speed * demand * time * phi))
