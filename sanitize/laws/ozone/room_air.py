"""Ozone in the air of a room, right over the water, and under a closed cover."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

MIN_PER_H = 60.0

Array = NDArray[np.float64]


def steady_mgm3(
    emission_mg_per_h: ArrayLike, volume_m3: ArrayLike, changes_per_h: ArrayLike, removal_per_h: ArrayLike
) -> Array:
    """Ozone in a well-mixed room in the end, on top of what comes in from outdoors.

    Parameters
    ----------
    emission_mg_per_h : float or array
        Ozone into the room's air [mg/h].
    volume_m3 : float or array, broadcasting
        Volume of the room, above 0 [m3].
    changes_per_h : float or array, broadcasting
        Air changes [1/h].
    removal_per_h : float or array, broadcasting
        Decay on the room's surfaces [1/h]; changes and decay together are above 0.

    Returns
    -------
    array of the broadcast shape
        Ozone [mg/m3].

    Raises
    ------
    ValueError
        If a number is negative, a volume not above 0, or nothing takes ozone away.

    Notes
    -----
    E/(V (n + k)).
    For even mixing; k was measured in 43 homes as 2.80 +- 1.30 per hour.

    References
    ----------
    lee_1999, read as its abstract, for k.

    Examples
    --------
    9.7 mg/h bring a room of 30 m3 to 0.1 mg/m3:

    >>> float(steady_mgm3(9.7, 30.0, 0.5, 2.8))
    0.098
    """
    emission, volume, away = _room(emission_mg_per_h, volume_m3, changes_per_h, removal_per_h)
    return np.asarray(emission / (volume * away))


def emission_for_mg_per_h(
    limit_mgm3: ArrayLike, volume_m3: ArrayLike, changes_per_h: ArrayLike, removal_per_h: ArrayLike
) -> Array:
    """Ozone into a room that brings it to a limit in the end, and no further.

    Parameters
    ----------
    limit_mgm3 : float or array
        Limit [mg/m3].
    volume_m3, changes_per_h, removal_per_h : float or array, broadcasting
        As in steady_mgm3.

    Returns
    -------
    array of the broadcast shape
        Emission [mg/h].

    Raises
    ------
    ValueError
        If a number is negative, a volume not above 0, or nothing takes ozone away.

    Notes
    -----
    c V (n + k), the inverse of steady_mgm3.

    References
    ----------
    lee_1999, read as its abstract, for k.

    Examples
    --------
    >>> np.round(emission_for_mg_per_h([0.0981, 0.1962], 30.0, 0.5, 2.8), 1)
    array([ 9.7, 19.4])
    """
    limit, volume, away = _room(limit_mgm3, volume_m3, changes_per_h, removal_per_h)
    return np.asarray(limit * volume * away)


def changes_for_per_h(
    emission_mg_per_h: ArrayLike, limit_mgm3: ArrayLike, volume_m3: ArrayLike, removal_per_h: ArrayLike
) -> Array:
    """Air changes that hold a room at a limit; 0 where its surfaces alone do.

    Parameters
    ----------
    emission_mg_per_h : float or array
        Ozone into the room's air [mg/h].
    limit_mgm3 : float or array, broadcasting
        Limit, above 0 [mg/m3].
    volume_m3 : float or array, broadcasting
        Volume of the room, above 0 [m3].
    removal_per_h : float or array, broadcasting
        Decay on the room's surfaces [1/h].

    Returns
    -------
    array of the broadcast shape
        Air changes [1/h].

    Raises
    ------
    ValueError
        If a number is negative, or a limit or a volume not above 0.

    Notes
    -----
    E/(c V) - k, at least 0.

    References
    ----------
    lee_1999, read as its abstract, for k.

    Examples
    --------
    >>> float(changes_for_per_h(40.0, 0.1, 30.0, 2.8))
    10.5
    """
    emission, limit, volume, removal = (
        np.asarray(value, dtype=np.float64) for value in (emission_mg_per_h, limit_mgm3, volume_m3, removal_per_h)
    )
    if not (np.all(emission >= 0.0) and np.all(removal >= 0.0) and np.all(limit > 0.0) and np.all(volume > 0.0)):
        raise ValueError("emission and decay are 0 or more, a limit and a volume above 0")
    return np.maximum(emission / (limit * volume) - removal, 0.0)


def over_water_mgm3(emission_mg_per_h: ArrayLike, radius_m: ArrayLike, air_speed_m_per_min: ArrayLike) -> Array:
    """What the air right over the water holds more than the room.

    Parameters
    ----------
    emission_mg_per_h : float or array
        Ozone out of the water [mg/h].
    radius_m : float or array, broadcasting
        Radius of the half sphere around a bather's face, above 0 [m].
    air_speed_m_per_min : float or array, broadcasting
        Speed of the air at its edge, above 0 [m/min].

    Returns
    -------
    array of the broadcast shape
        Ozone more than in the room [mg/m3].

    Raises
    ------
    ValueError
        If an emission is negative, or a radius or a speed not above 0.

    Notes
    -----
    E/b with b = half the surface of the half sphere, 2 pi r^2, times the air's speed: the near of two zones.
    The source's range is not known here.

    References
    ----------
    nicas_1996, from memory.

    Examples
    --------
    >>> np.round(over_water_mgm3(30.0, 0.6, [3.0, 1.0]), 3)
    array([0.147, 0.442])
    """
    emission, radius, speed = (
        np.asarray(value, dtype=np.float64) for value in (emission_mg_per_h, radius_m, air_speed_m_per_min)
    )
    if not (np.all(emission >= 0.0) and np.all(radius > 0.0) and np.all(speed > 0.0)):
        raise ValueError("an emission is 0 or more, a radius and a speed above 0")
    exchange_m3_per_h = np.pi * radius**2 * speed * MIN_PER_H
    return np.asarray(emission / exchange_m3_per_h)


def time_to_fall_min(
    from_mgm3: ArrayLike, to_mgm3: ArrayLike, changes_per_h: ArrayLike, removal_per_h: ArrayLike
) -> Array:
    """Time in which the ozone of a room falls to a limit once no more comes in; 0 where it is below.

    Parameters
    ----------
    from_mgm3 : float or array
        Ozone at the start [mg/m3].
    to_mgm3 : float or array, broadcasting
        Limit, above 0 [mg/m3].
    changes_per_h, removal_per_h : float or array, broadcasting
        As in steady_mgm3.

    Returns
    -------
    array of the broadcast shape
        Time [min].

    Raises
    ------
    ValueError
        If a number is negative, a limit not above 0, or nothing takes ozone away.

    Notes
    -----
    ln(c0/c)/(n + k), at least 0; even mixing and clean air from outdoors.

    References
    ----------
    lee_1999, read as its abstract, for k.

    Examples
    --------
    >>> float(time_to_fall_min(1.0, 0.1, 0.5, 1.0))
    92.
    """
    start, changes, removal = (
        np.asarray(value, dtype=np.float64) for value in (from_mgm3, changes_per_h, removal_per_h)
    )
    end = np.asarray(to_mgm3, dtype=np.float64)
    if not (all(np.all(value >= 0.0) for value in (start, changes, removal)) and np.all(end > 0.0)):
        raise ValueError("ozone, air changes and decay are 0 or more, a limit above 0")
    if not np.all(changes + removal > 0.0):
        raise ValueError("nothing takes ozone away")
    return np.asarray(MIN_PER_H * np.log(np.maximum(start / end, 1.0)) / (changes + removal))


def _room(
    amount: ArrayLike, volume_m3: ArrayLike, changes_per_h: ArrayLike, removal_per_h: ArrayLike
) -> tuple[Array, Array, Array]:
    """The checked amount, volume, and what takes ozone away [1/h]."""
    value, volume, changes, removal = (
        np.asarray(item, dtype=np.float64) for item in (amount, volume_m3, changes_per_h, removal_per_h)
    )
    if not (all(np.all(item >= 0.0) for item in (value, changes, removal)) and np.all(volume > 0.0)):
        raise ValueError("ozone, air changes and decay are 0 or more, a volume above 0")
    if not np.all(changes + removal > 0.0):
        raise ValueError("nothing takes ozone away")
    return value, volume, changes + removal
