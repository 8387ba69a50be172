"""Loss of a fitting from its loss coefficient, with what it loses on top at small Reynolds numbers."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

SMALL_REYNOLDS_END_RE = 1e4
"""Below it a fitting loses more than its tabulated coefficient says [-]."""

_VISCOUS_CONSTANT = 800.0
_AT_END = _VISCOUS_CONSTANT / SMALL_REYNOLDS_END_RE


def local_loss(
    flow_m3s: ArrayLike, loss_coefficient: ArrayLike, bore_m: ArrayLike, density_kgm3: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Loss of total pressure of a part from its loss coefficient, and its slope, for either direction of flow.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow, negative backwards [m3/s].
    loss_coefficient : float or array, broadcasting
        K on the velocity in `bore_m`, finite [-]; negative for a leg of a tee that gains energy.
    bore_m : float or array, broadcasting
        Bore that K belongs to [m].
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].

    Returns
    -------
    (loss_pa_diff, slope_pa_per_m3s), arrays of the broadcast shape
        Loss in the direction of positive flow [Pa], odd in the flow, and its derivative with the flow [Pa s/m3],
        which is 0 at rest.

    Raises
    ------
    ValueError
        If a loss coefficient is not finite: a valve that is shut is a way without flow, not a large loss.

    Notes
    -----
    loss = K rho V |V| / 2, V = 4 Q / (pi D^2).
    The source gives no range; K itself holds for the Reynolds numbers of its table.

    References
    ----------
    white_fluid_mechanics_4e, from memory.

    Examples
    --------
    >>> loss, slope = local_loss(40 / 60_000, 0.73, 0.02624, 999.7)
    >>> float(loss), float(slope)
    (554.5, 1.66e6)
    """
    flow = np.asarray(flow_m3s, dtype=np.float64)
    k = np.asarray(loss_coefficient, dtype=np.float64)
    if not np.all(np.isfinite(k)):
        raise ValueError("a loss coefficient must be finite; a valve that is shut makes its way one without flow")
    area = np.pi * np.asarray(bore_m, dtype=np.float64) ** 2 / 4.0
    per_square = k * np.asarray(density_kgm3, dtype=np.float64) / (2.0 * area * area)
    magnitude = np.abs(flow) * per_square
    return np.asarray(magnitude * flow), np.asarray(2.0 * magnitude)


def low_reynolds_addition(reynolds: ArrayLike) -> NDArray[np.float64]:
    """What one elbow, tee or valve adds to its loss coefficient below Reynolds number 1e4.

    Parameters
    ----------
    reynolds : float or array
        Reynolds number on the fitting's bore, not negative [-].

    Returns
    -------
    array of the same shape
        Addition to K [-]; infinite at rest, where `small_reynolds_loss` is finite.

    Raises
    ------
    ValueError
        If a Reynolds number is negative.

    Notes
    -----
    max(0, 800 / Re - 0.08): the viscous term K1 / Re of the two-constant method with its usual K1 = 800,
    less its value at Re 1e4, where tabulated coefficients begin to hold.
    The source gives no range; the method is meant for laminar flow too.

    References
    ----------
    hooper_1981, through another, for elbows; 800 for tees and valves too, and the shift that meets the tables at
    Re 1e4, are this project's (estimates).

    Examples
    --------
    >>> low_reynolds_addition([2500.0, 1e4, 1e5]).tolist()
    [0.24, 0.0, 0.0]
    """
    re = np.asarray(reynolds, dtype=np.float64)
    if not np.all(re >= 0.0):
        raise ValueError("a Reynolds number cannot be negative here; give its magnitude")
    moving = np.where(re > 0.0, re, 1.0)
    return np.where(re > 0.0, np.maximum(_VISCOUS_CONSTANT / moving - _AT_END, 0.0), np.inf)


def small_reynolds_loss(
    flow_m3s: ArrayLike,
    fittings_count: ArrayLike,
    bore_m: ArrayLike,
    density_kgm3: ArrayLike,
    viscosity_pas: ArrayLike,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Loss that fittings of one bore add below Reynolds number 1e4, and its slope, finite at rest.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow, negative backwards [m3/s].
    fittings_count : float or array, broadcasting
        How many elbows, tees and valves [-].
    bore_m : float or array, broadcasting
        Their bore [m].
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].
    viscosity_pas : float or array, broadcasting
        Dynamic viscosity of the water [Pa s].

    Returns
    -------
    (loss_pa_diff, slope_pa_per_m3s), arrays of the broadcast shape
        Addition to `local_loss` [Pa], odd in the flow and 0 from Re 1e4 up, and its derivative [Pa s/m3].

    Raises
    ------
    Nothing.

    Notes
    -----
    loss = n V (400 mu / D - 0.04 rho |V|) while Re < 1e4: `low_reynolds_addition` times rho V |V| / 2.
    On its own the term falls from Re 5000 to 1e4; with a loss coefficient of 0.04 or more per fitting the sum
    rises with the flow everywhere.
    The slope drops by 0.04 rho V n / A at Re 1e4.

    References
    ----------
    As `low_reynolds_addition`.

    Examples
    --------
    >>> loss, slope = small_reynolds_loss([0.0, 5 / 60_000], 6, 0.02624, 999.7, 1.306e-3)
    >>> loss.tolist()
    [0.0, 12.7]
    >>> float(slope[0])
    2.21e5
    """
    flow = np.asarray(flow_m3s, dtype=np.float64)
    bore = np.asarray(bore_m, dtype=np.float64)
    density = np.asarray(density_kgm3, dtype=np.float64)
    count = np.asarray(fittings_count, dtype=np.float64)
    area = np.pi * bore * bore / 4.0
    speed = np.abs(flow) / area
    viscous = 0.5 * _VISCOUS_CONSTANT * np.asarray(viscosity_pas, dtype=np.float64) / bore
    inertial = 0.5 * _AT_END * density * speed
    acting = inertial < viscous
    loss = np.where(acting, count * (viscous - inertial) * speed, 0.0)
    slope = np.where(acting, count * (viscous - 2.0 * inertial) / area, 0.0)
    return np.copysign(loss, flow), slope
