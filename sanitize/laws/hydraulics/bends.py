"""Bends and coils of hose or pipe."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

_COIL_EXPONENT = 0.05


def bend_excess_loss_coefficient(
    radius_ratio: ArrayLike, angle_deg: ArrayLike = 90.0, friction_factor: ArrayLike = 0.024
) -> NDArray[np.float64]:
    """What a smooth bend loses beyond the friction of the same length of straight hose, as a loss coefficient.

    Parameters
    ----------
    radius_ratio : float or array
        Radius to the centre line over the bore, 1 or more [-]; 20 where it is unknown and wide.
    angle_deg : float or array, broadcasting
        Angle that the bend turns through [degree].
    friction_factor : float or array, broadcasting
        Darcy friction factor of the straight hose in turbulent flow; 0.024 is that of smooth hose at Re 2.5e4 [-].

    Returns
    -------
    array of the broadcast shape
        K on the hose's bore [-].

    Raises
    ------
    ValueError
        If a radius ratio is below 1.

    Notes
    -----
    For 90 degrees K = (0.10 + 2.4 f) sin 45 + 6.6 f (sqrt(sin 45) + sin 45) / (r/D)^2, the source's formula for
    smooth bends without its term for the friction along the arc; taken in proportion to the angle.
    The source gives no range here; turns beyond 360 degrees are coils, see `coil_multiplier`.
    Other sources lie between half and twice this (an estimate).

    References
    ----------
    rennels_hudson_2012, through another; the proportion to the angle is an estimate.

    Examples
    --------
    >>> bend_excess_loss_coefficient([2.0, 5.0, 10.0, 20.0]).tolist()
    [0.17, 0.12, 0.11, 0.11]
    """
    radius = np.asarray(radius_ratio, dtype=np.float64)
    if not np.all(radius >= 1.0):
        raise ValueError("a bend's radius to its centre line must be one bore or more")
    f = np.asarray(friction_factor, dtype=np.float64)
    sine = np.sqrt(0.5)
    right_angle = (0.10 + 2.4 * f) * sine + 6.6 * f * (np.sqrt(sine) + sine) / (radius * radius)
    return np.asarray(right_angle * np.asarray(angle_deg, dtype=np.float64) / 90.0)


def coil_multiplier(
    reynolds: ArrayLike, bore_m: ArrayLike, coil_diameter_m: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """What the friction factor of straight hose is multiplied by in a coil, and its slope with the Reynolds number.

    Parameters
    ----------
    reynolds : float or array
        Reynolds number on the bore, not negative [-].
    bore_m : float or array, broadcasting
        Bore of the hose [m].
    coil_diameter_m : float or array, broadcasting
        Diameter of the coil between centre lines, twice the radius of the bend [m].

    Returns
    -------
    (multiplier, slope), arrays of the broadcast shape
        Multiplier, 1 or more [-], and its derivative with the Reynolds number [-], 0 where it is 1.

    Raises
    ------
    ValueError
        If a Reynolds number is negative.

    Notes
    -----
    F = max(1, (Re (D/Dc)^2)^0.05), on the friction of straight hose at every Re, its transition included.
    The source prints its form for Re (D/Dc)^2 above 6 and turbulent flow; elsewhere this is an estimate.

    References
    ----------
    ito_1959, from memory.

    Examples
    --------
    >>> multiplier, slope = coil_multiplier(2.2e4, 0.0266, [0.2, 0.3, 0.5, 1.0])
    >>> multiplier.tolist()
    [1.35, 1.29, 1.23, 1.15]
    """
    re = np.asarray(reynolds, dtype=np.float64)
    if not np.all(re >= 0.0):
        raise ValueError("a Reynolds number cannot be negative here; give its magnitude")
    curvature = np.asarray(bore_m, dtype=np.float64) / np.asarray(coil_diameter_m, dtype=np.float64)
    raised = np.asarray((re * curvature * curvature) ** _COIL_EXPONENT)
    acting = raised > 1.0
    moving = np.where(re > 0.0, re, 1.0)
    return np.maximum(raised, 1.0), np.where(acting, _COIL_EXPONENT * raised / moving, 0.0)
