"""Ozone in the air of a room, right over the water, and under a closed cover."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

MIN_PER_H = 60.0
_HALVINGS = 60

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
    from_mgm3: ArrayLike,
    to_mgm3: ArrayLike,
    changes_per_h: ArrayLike,
    removal_per_h: ArrayLike,
    source_mgm3_per_h: ArrayLike = 0.0,
    near_mgm3: ArrayLike = 0.0,
    fading_per_h: ArrayLike = 1.0,
) -> Array:
    """Time in which the ozone that is breathed falls to a limit once the water alone gives some off; 0 if it is below.

    Parameters
    ----------
    from_mgm3 : float or array
        Ozone at the start [mg/m3].
    to_mgm3 : float or array, broadcasting
        Limit, above 0 [mg/m3].
    changes_per_h, removal_per_h : float or array, broadcasting
        As in steady_mgm3.
    source_mgm3_per_h : float or array, broadcasting
        What the water gives off at the start, over the room's volume; no more than keeps the room at its start.
    near_mgm3 : float or array, broadcasting
        What that brings at the start where a bather breathes, on top of the room [mg/m3].
    fading_per_h : float or array, broadcasting
        First-order rate at which the water's ozone, and with it both of these, fades, above 0 [1/h].

    Returns
    -------
    array of the broadcast shape
        Time [min].

    Raises
    ------
    ValueError
        If a number is negative, a limit or a fading not above 0, or nothing takes ozone away.

    Notes
    -----
    The t at which c0 exp(-a t) + s (exp(-b t) - exp(-a t))/(a - b) + d exp(-b t) is the limit, a = n + k, b the fading,
    s the source, d what is near; by halving, as it only falls. Without source: ln(c0/c)/a.
    Even mixing and clean air from outdoors.

    References
    ----------
    lee_1999, read as its abstract, for k.

    Examples
    --------
    >>> float(time_to_fall_min(1.0, 0.1, 0.5, 1.0))
    92.

    Water that fades by 0.6 an hour and at first gives off as much as would keep half of it makes that longer:

    >>> float(time_to_fall_min(1.0, 0.1, 0.5, 1.0, 0.75, 0.0, 0.6))
    213.
    """
    start, changes, removal, source, near = (
        np.asarray(value, dtype=np.float64)
        for value in (from_mgm3, changes_per_h, removal_per_h, source_mgm3_per_h, near_mgm3)
    )
    end, fading = np.asarray(to_mgm3, dtype=np.float64), np.asarray(fading_per_h, dtype=np.float64)
    if not (all(np.all(value >= 0.0) for value in (start, changes, removal, source, near)) and np.all(end > 0.0)):
        raise ValueError("ozone, air changes and decay are 0 or more, a limit above 0")
    away = changes + removal
    if not (np.all(away > 0.0) and np.all(fading > 0.0)):
        raise ValueError("nothing takes ozone away")

    def breathed(hours: Array) -> Array:
        gap = np.abs(away - fading) * hours
        slow = np.exp(-np.minimum(away, fading) * hours)
        even = np.where(gap > 1e-9, -np.expm1(-gap) / np.where(gap > 1e-9, gap, 1.0), 1.0)
        return np.asarray(start * np.exp(-away * hours) + source * hours * slow * even + near * np.exp(-fading * hours))

    # x exp(-x) <= exp(-x/2), so beyond `high` each of the parts is below its third of the limit
    slower = np.minimum(away, fading)
    high = 2.0 / slower * np.log(np.maximum(3.0 * np.maximum(np.maximum(start, near), source / slower) / end, 1.0))
    low = np.zeros(np.broadcast(start, end, away, source, near, fading).shape)
    high = low + high
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        above = breathed(middle) > end
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    return np.where(breathed(np.zeros_like(low)) > end, MIN_PER_H * high, 0.0)


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
