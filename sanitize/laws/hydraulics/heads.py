"""What heights do to the heads of a loop that begins and ends in the tub: lift, humps, pressures along the way."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import GRAVITY_MS2

Array = NDArray[np.float64]


def static_lift_m(outlet_height_m: ArrayLike, surface_height_m: ArrayLike) -> Array:
    """Height that the pump must lift water to, which does not come back.

    Parameters
    ----------
    outlet_height_m : float or array
        Height of the centre of the return's outlet [m].
    surface_height_m : float or array, broadcasting
        Height of the water in the tub [m].

    Returns
    -------
    array of the broadcast shape
        0 for an outlet under water, else its height over the surface [m].

    Raises
    ------
    Nothing.

    Notes
    -----
    max(0, z_outlet - z_surface); exact for a loop that runs full.

    References
    ----------
    Derived here from the balance of energy.

    Examples
    --------
    >>> static_lift_m([0.5, 1.1], 0.8).tolist()
    [0.0, 0.3]
    """
    outlet = np.asarray(outlet_height_m, dtype=np.float64)
    return np.maximum(outlet - np.asarray(surface_height_m, dtype=np.float64), 0.0)


def lift_over_hump_m(
    hump_height_m: ArrayLike, outlet_height_m: ArrayLike, surface_height_m: ArrayLike, runs_full: ArrayLike
) -> Array:
    """Lift of a loop whose pipe rises to a hump before its outlet.

    Parameters
    ----------
    hump_height_m, outlet_height_m : float or array, broadcasting
        Heights of the highest point of the pipe and of the outlet's centre [m].
    surface_height_m : float or array, broadcasting
        Height of the water in the tub [m].
    runs_full : bool or array of bool, broadcasting
        Whether the leg behind the hump runs full, see `hump_runs_full`.

    Returns
    -------
    array of the broadcast shape
        `static_lift_m` where the leg runs full; else that to the hump, behind which the leg stands at the
        pressure of the air [m].

    Raises
    ------
    Nothing.

    Notes
    -----
    A full leg gives back in its fall what the rise took; one that runs part full gives back nothing.

    References
    ----------
    Derived here from the balance of energy.

    Examples
    --------
    >>> lift_over_hump_m(1.4, 0.5, 0.8, [True, False]).tolist()
    [0.0, 0.6]
    """
    full = np.asarray(runs_full, dtype=np.bool_)
    return np.where(
        full, static_lift_m(outlet_height_m, surface_height_m), static_lift_m(hump_height_m, surface_height_m)
    )


def outlet_froude(velocity_ms: ArrayLike, bore_m: ArrayLike) -> Array:
    """Froude number of the water in a pipe that falls to its outlet.

    Parameters
    ----------
    velocity_ms : float or array
        Velocity in the full pipe [m/s].
    bore_m : float or array, broadcasting
        Bore of the pipe [m].

    Returns
    -------
    array of the broadcast shape
        V / sqrt(g d) [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    From about 1 up a leg that falls runs full and carries its air out (common practice).
    The source gives no range.

    References
    ----------
    Definition; the limit is common practice.

    Examples
    --------
    >>> outlet_froude([0.4495, 0.6294], [0.0206, 0.0404]).tolist()
    [1.0, 1.0]
    """
    return np.asarray(
        np.asarray(velocity_ms, dtype=np.float64) / np.sqrt(GRAVITY_MS2 * np.asarray(bore_m, dtype=np.float64))
    )


def hump_runs_full(
    froude: ArrayLike,
    hump_pa_abs: ArrayLike,
    vapour_pa_abs: ArrayLike,
    least_froude: ArrayLike,
    margin_pa_diff: ArrayLike,
) -> NDArray[np.bool_]:
    """Whether the leg behind a hump runs full, so that the hump costs no lift.

    Parameters
    ----------
    froude : float or array
        `outlet_froude` of that leg [-].
    hump_pa_abs : float or array, broadcasting
        Absolute pressure at the hump with the leg full [Pa].
    vapour_pa_abs : float or array, broadcasting
        Vapour pressure of the water [Pa].
    least_froude : float or array, broadcasting
        Froude number from which the leg fills, about 1 [-].
    margin_pa_diff : float or array, broadcasting
        What the hump must keep over the vapour pressure, about 20 kPa [Pa].

    Returns
    -------
    array of bool of the broadcast shape
        True where both conditions hold.

    Raises
    ------
    Nothing.

    Notes
    -----
    Fr >= least and p_hump > p_v + margin.
    The source gives no range.

    References
    ----------
    Common practice.

    Examples
    --------
    >>> hump_runs_full([0.8, 1.2], 95e3, 1e3, 1.0, 20e3).tolist()
    [False, True]
    """
    fast = np.asarray(froude, dtype=np.float64) >= np.asarray(least_froude, dtype=np.float64)
    least = np.asarray(vapour_pa_abs, dtype=np.float64) + np.asarray(margin_pa_diff, dtype=np.float64)
    return np.asarray(fast & (np.asarray(hump_pa_abs, dtype=np.float64) > least))


def pressure_before_return_pa_gauge(
    height_m: ArrayLike,
    velocity_ms: ArrayLike,
    loss_to_end_pa_diff: ArrayLike,
    end_height_m: ArrayLike,
    exit_velocity_ms: ArrayLike,
    exit_loss_coefficient: ArrayLike,
    density_kgm3: ArrayLike,
) -> Array:
    """Pressure at a point of the loop, counted from the return backwards.

    Parameters
    ----------
    height_m, velocity_ms : float or array, broadcasting
        Height of the point [m] and velocity there [m/s].
    loss_to_end_pa_diff : float or array, broadcasting
        All losses between the point and the end, without the exit [Pa].
    end_height_m : float or array, broadcasting
        Height of the water in the tub for a return under water, of the outlet's centre for a free one [m].
    exit_velocity_ms : float or array, broadcasting
        Velocity that the exit's loss coefficient belongs to [m/s].
    exit_loss_coefficient : float or array, broadcasting
        1 for a plain exit, under water or free; a nozzle's own, which includes the exit [-].
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].

    Returns
    -------
    array of the broadcast shape
        Static pressure over that of the air [Pa].

    Raises
    ------
    Nothing.

    Notes
    -----
    p = rho g (z_end - z) + losses + rho/2 (K_exit V_exit^2 - V^2).
    Exact for steady flow that runs full to the end.

    References
    ----------
    Derived here from the balance of energy.

    Examples
    --------
    An injector's outlet 0.4 m over the water, 3 kPa before the end:

    >>> float(pressure_before_return_pa_gauge(1.2, 1.0, 3000.0, 0.8, 1.0, 1.0, 1000.0))
    -922.7
    """
    density = np.asarray(density_kgm3, dtype=np.float64)
    velocity = np.asarray(velocity_ms, dtype=np.float64)
    exit_velocity = np.asarray(exit_velocity_ms, dtype=np.float64)
    exit_square = np.asarray(exit_loss_coefficient, dtype=np.float64) * exit_velocity * exit_velocity
    column = np.asarray(end_height_m, dtype=np.float64) - np.asarray(height_m, dtype=np.float64)
    return np.asarray(
        density * GRAVITY_MS2 * column
        + np.asarray(loss_to_end_pa_diff, dtype=np.float64)
        + 0.5 * density * (exit_square - velocity * velocity)
    )


def pressure_behind_suction_pa_gauge(
    height_m: ArrayLike,
    velocity_ms: ArrayLike,
    loss_from_tub_pa_diff: ArrayLike,
    surface_height_m: ArrayLike,
    density_kgm3: ArrayLike,
) -> Array:
    """Pressure at a point between the tub and the pump, counted from the tub.

    Parameters
    ----------
    height_m, velocity_ms : float or array, broadcasting
        Height of the point [m] and velocity there [m/s].
    loss_from_tub_pa_diff : float or array, broadcasting
        All losses from the tub to the point, the entrance with them [Pa].
    surface_height_m : float or array, broadcasting
        Height of the water in the tub [m].
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].

    Returns
    -------
    array of the broadcast shape
        Static pressure over that of the air [Pa]; below 0 a leak draws air in.

    Raises
    ------
    Nothing.

    Notes
    -----
    p = rho g (z_surface - z) - losses - rho V^2 / 2; exact for steady flow.

    References
    ----------
    Derived here from the balance of energy.

    Examples
    --------
    >>> float(pressure_behind_suction_pa_gauge(0.3, 2.0, 1500.0, 0.8, 1000.0))
    1403.3
    """
    density = np.asarray(density_kgm3, dtype=np.float64)
    velocity = np.asarray(velocity_ms, dtype=np.float64)
    column = np.asarray(surface_height_m, dtype=np.float64) - np.asarray(height_m, dtype=np.float64)
    return np.asarray(
        density * GRAVITY_MS2 * column
        - np.asarray(loss_from_tub_pa_diff, dtype=np.float64)
        - 0.5 * density * velocity * velocity
    )


def npsh_available_m(
    air_pa_abs: ArrayLike,
    vapour_pa_abs: ArrayLike,
    pump_height_m: ArrayLike,
    surface_height_m: ArrayLike,
    loss_from_tub_pa_diff: ArrayLike,
    density_kgm3: ArrayLike,
) -> Array:
    """Net positive suction head that a loop offers its pump.

    Parameters
    ----------
    air_pa_abs : float or array
        Absolute pressure of the air on the water [Pa].
    vapour_pa_abs : float or array, broadcasting
        Vapour pressure of the water [Pa].
    pump_height_m, surface_height_m : float or array, broadcasting
        Heights of the pump's inlet and of the water in the tub [m].
    loss_from_tub_pa_diff : float or array, broadcasting
        All losses from the tub to the pump's inlet, the entrance with them, no velocity head [Pa].
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].

    Returns
    -------
    array of the broadcast shape
        Total head at the inlet over the vapour pressure [m].

    Raises
    ------
    Nothing.

    Notes
    -----
    NPSH_A = (p_air - p_v - losses) / (rho g) + z_surface - z_pump; exact by its definition.

    References
    ----------
    Definition.

    Examples
    --------
    Water of 2 degC at sea level, nothing lost, pump at the level of the water:

    >>> float(npsh_available_m(101_325.0, 706.0, 0.0, 0.0, 0.0, 999.94))
    10.26
    """
    spare = (
        np.asarray(air_pa_abs, dtype=np.float64)
        - np.asarray(vapour_pa_abs, dtype=np.float64)
        - np.asarray(loss_from_tub_pa_diff, dtype=np.float64)
    )
    column = np.asarray(surface_height_m, dtype=np.float64) - np.asarray(pump_height_m, dtype=np.float64)
    return np.asarray(spare / (np.asarray(density_kgm3, dtype=np.float64) * GRAVITY_MS2) + column)
