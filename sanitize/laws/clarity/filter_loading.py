"""How a cartridge's pressure drop grows with the dirt that it holds: an exponential in time, and Ruth's cake."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def exponential_drop_ratio(
    time_s: ArrayLike, loaded_time_s: ArrayLike, loaded_drop_ratio: ArrayLike
) -> NDArray[np.float64]:
    """Drop of a filter over its clean drop, both at one flow, that grows by equal factors in equal times.

    Parameters
    ----------
    time_s : float or array
        Time since the cleaning, 0 or more [s].
    loaded_time_s : float or array, broadcasting
        Time at which the drop has reached the known ratio, above 0 [s].
    loaded_drop_ratio : float or array, broadcasting
        That ratio, above 1 [-].

    Returns
    -------
    array of the broadcast shape
        The ratio, 1 when clean [-].

    Raises
    ------
    ValueError
        If a time is negative, the loaded time is not above 0 or its ratio is not above 1.

    Notes
    -----
    ratio = e^(t/t_e) with t_e = t_loaded / ln(ratio_loaded).
    Of the blocking laws dR/dq ~ R^m the intermediate one (m = 1) gives R = R0 e^(K q); with dirt that comes evenly
    the filtrate q behind it goes with the time.
    The source gives no range; it is a shape that one known point fixes.

    References
    ----------
    hermia_1982 (through another)

    Examples
    --------
    A filter whose drop is 2.5 times the clean one after 30 days, after 15 days:

    >>> float(exponential_drop_ratio(15 * 86400.0, 30 * 86400.0, 2.5))
    1.581
    """
    time, loaded, ratio = _array(time_s), _array(loaded_time_s), _array(loaded_drop_ratio)
    _known_point(loaded, ratio)
    if not np.all(time >= 0.0):
        raise ValueError("the time since the cleaning must be 0 or more")
    return np.asarray(np.exp(time / loaded * np.log(ratio)))


def exponential_time_s(
    drop_ratio: ArrayLike, loaded_time_s: ArrayLike, loaded_drop_ratio: ArrayLike
) -> NDArray[np.float64]:
    """Time after which the drop has grown to a ratio, the inverse of `exponential_drop_ratio`.

    Parameters
    ----------
    drop_ratio : float or array
        Drop over the clean drop at one flow, 1 or more [-].
    loaded_time_s, loaded_drop_ratio : float or array, broadcasting
        The known point: a time above 0 [s] and its ratio above 1 [-].

    Returns
    -------
    array of the broadcast shape
        Time since the cleaning [s].

    Raises
    ------
    ValueError
        If a ratio is below 1, the loaded time is not above 0 or its ratio is not above 1.

    Notes
    -----
    t = t_loaded ln(ratio) / ln(ratio_loaded).
    The source gives no range.

    References
    ----------
    hermia_1982 (through another)

    Examples
    --------
    >>> float(exponential_time_s(6.25, 30 * 86400.0, 2.5)) / 86400.0
    60.0
    """
    ratio, loaded, known = _array(drop_ratio), _array(loaded_time_s), _array(loaded_drop_ratio)
    _known_point(loaded, known)
    if not np.all(ratio >= 1.0):
        raise ValueError("a loaded filter's drop is the clean one or more")
    return np.asarray(loaded * np.log(ratio) / np.log(known))


def cake_drop_pa_diff(
    flow_m3s: ArrayLike,
    area_m2: ArrayLike,
    solids_kg: ArrayLike,
    cake_resistance_m_per_kg: ArrayLike,
    viscosity_pas: ArrayLike,
) -> NDArray[np.float64]:
    """Pressure that the dirt on a filter cloth adds to the clean drop.

    Parameters
    ----------
    flow_m3s : float or array
        Flow through the filter [m3/s].
    area_m2 : float or array, broadcasting
        Area of the cloth, above 0 [m2].
    solids_kg : float or array, broadcasting
        Dry mass of dirt on it, 0 or more [kg].
    cake_resistance_m_per_kg : float or array, broadcasting
        Specific resistance of the cake, 0 or more [m/kg].
    viscosity_pas : float or array, broadcasting
        Dynamic viscosity of the water [Pa s].

    Returns
    -------
    array of the broadcast shape
        The added drop, in the direction of the flow [Pa].

    Raises
    ------
    ValueError
        If the area is not above 0, or the mass or the resistance is negative.

    Notes
    -----
    dp = mu (Q/A) alpha w with w = solids/A: the cake's term of Ruth's dp = mu v (R_m + alpha w).
    Incompressible cake, laminar flow, differences up to 1 bar.

    References
    ----------
    ruth_1935 (through another)

    Examples
    --------
    20 g of dirt of 1e11 m/kg on 2 m2 at 40 L/min in water of 20 degC:

    >>> float(cake_drop_pa_diff(40 / 60e3, 2.0, 0.02, 1e11, 1.0016e-3))
    333.9
    """
    area, solids, resistance = _array(area_m2), _array(solids_kg), _array(cake_resistance_m_per_kg)
    if not (np.all(area > 0.0) and np.all(solids >= 0.0) and np.all(resistance >= 0.0)):
        raise ValueError("a cake needs an area above 0, and a mass and a resistance of 0 or more")
    return np.asarray(_array(viscosity_pas) * _array(flow_m3s) / area * resistance * solids / area)


def cake_solids_kg(
    drop_pa_diff: ArrayLike,
    flow_m3s: ArrayLike,
    area_m2: ArrayLike,
    cake_resistance_m_per_kg: ArrayLike,
    viscosity_pas: ArrayLike,
) -> NDArray[np.float64]:
    """Dirt on a filter cloth that adds a given drop at a flow, the inverse of `cake_drop_pa_diff`.

    Parameters
    ----------
    drop_pa_diff : float or array
        The added drop, 0 or more [Pa].
    flow_m3s, area_m2, cake_resistance_m_per_kg, viscosity_pas : float or array, broadcasting
        As for `cake_drop_pa_diff`, all above 0.

    Returns
    -------
    array of the broadcast shape
        Dry mass of dirt [kg].

    Raises
    ------
    ValueError
        If the drop is negative or another value is not above 0.

    Notes
    -----
    solids = dp A^2 / (mu Q alpha).
    Incompressible cake, laminar flow, differences up to 1 bar.

    References
    ----------
    ruth_1935 (through another)

    Examples
    --------
    >>> float(cake_solids_kg(333.87, 40 / 60e3, 2.0, 1e11, 1.0016e-3))
    0.020
    """
    drop = _array(drop_pa_diff)
    others = [_array(x) for x in (flow_m3s, area_m2, cake_resistance_m_per_kg, viscosity_pas)]
    if not (np.all(drop >= 0.0) and all(np.all(other > 0.0) for other in others)):
        raise ValueError("a cake's mass needs a drop of 0 or more, and flow, area, resistance and viscosity above 0")
    flow, area, resistance, viscosity = others
    return np.asarray(drop * area * area / (viscosity * flow * resistance))


def _known_point(loaded_time_s: NDArray[np.float64], ratio: NDArray[np.float64]) -> None:
    if not (np.all(loaded_time_s > 0.0) and np.all(ratio > 1.0)):
        raise ValueError("a filter that loads needs a time above 0 and a drop ratio above 1 at that time")


def _array(value: ArrayLike) -> NDArray[np.float64]:
    return np.asarray(value, dtype=np.float64)
