"""How long fine particles and bubbles need to sink or rise through a jar of water."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import GRAVITY_MS2

STOKES_REYNOLDS = 1.0
"""Reynolds number of the particle above which Stokes' law is a tenth and more too fast (common practice)."""


def settling_velocity_ms(
    diameter_m: ArrayLike, density_kgm3: ArrayLike, water_density_kgm3: ArrayLike, viscosity_pas: ArrayLike
) -> NDArray[np.float64]:
    """Final velocity of a small sphere in still water, downward; negative where it rises.

    Parameters
    ----------
    diameter_m : float or array
        Diameter, above 0 [m].
    density_kgm3 : float or array, broadcasting
        Density of the sphere, 0 or more [kg/m3]; of a bubble that of its gas.
    water_density_kgm3, viscosity_pas : float or array, broadcasting
        Density and dynamic viscosity of the water, above 0 [kg/m3], [Pa s].

    Returns
    -------
    array of the broadcast shape
        Velocity [m/s].

    Raises
    ------
    ValueError
        If a diameter, the water's density or its viscosity is not above 0, or a density is negative.

    Notes
    -----
    v = g d^2 (rho_s - rho) / (18 mu).
    Holds for a rigid sphere alone, far from walls, at a Reynolds number rho |v| d / mu well below 1; the source gives
    no range. Small bubbles in water that is not perfectly clean move as rigid spheres.

    References
    ----------
    stokes_1851 (from memory).

    Examples
    --------
    Fine sand of 50 um in water of 5 degC:

    >>> float(settling_velocity_ms(50e-6, 2650.0, 999.97, 1.5182e-3))
    0.00148
    """
    diameter, density, water, viscosity = (
        np.asarray(value, dtype=np.float64) for value in (diameter_m, density_kgm3, water_density_kgm3, viscosity_pas)
    )
    if not (np.all(diameter > 0.0) and np.all(water > 0.0) and np.all(viscosity > 0.0) and np.all(density >= 0.0)):
        raise ValueError("diameter, the water's density and its viscosity must be above 0, a density not negative")
    return np.asarray(GRAVITY_MS2 * diameter**2 * (density - water) / (18.0 * viscosity))


def crossing_time_s(height_m: ArrayLike, velocity_ms: ArrayLike) -> NDArray[np.float64]:
    """Time in which a jar clears: its last particle crosses the whole height, up or down.

    Parameters
    ----------
    height_m : float or array
        Height of the water in the jar, above 0 [m].
    velocity_ms : float or array, broadcasting
        Velocity, either way [m/s].

    Returns
    -------
    array of the broadcast shape
        Time [s]; infinite for a particle that neither sinks nor rises.

    Raises
    ------
    ValueError
        If a height is not above 0.

    Notes
    -----
    t = h / |v|. The source gives no range.

    References
    ----------
    stokes_1851 (from memory).

    Examples
    --------
    >>> float(crossing_time_s(0.10, 0.00148))
    67.6
    """
    height = np.asarray(height_m, dtype=np.float64)
    if not np.all(height > 0.0):
        raise ValueError("the height must be above 0")
    with np.errstate(divide="ignore"):
        return np.asarray(height / np.abs(np.asarray(velocity_ms, dtype=np.float64)))


def particle_reynolds(
    diameter_m: ArrayLike, velocity_ms: ArrayLike, water_density_kgm3: ArrayLike, viscosity_pas: ArrayLike
) -> NDArray[np.float64]:
    """Reynolds number of a sphere by its diameter, to compare with `STOKES_REYNOLDS`.

    Parameters
    ----------
    diameter_m, velocity_ms : float or array
        Diameter and velocity, either way [m], [m/s].
    water_density_kgm3, viscosity_pas : float or array, broadcasting
        Of the water [kg/m3], [Pa s].

    Returns
    -------
    array of the broadcast shape
        Reynolds number [-].

    Raises
    ------
    ValueError
        If a viscosity is not above 0.

    Notes
    -----
    Re = rho |v| d / mu. The source gives no range.

    References
    ----------
    stokes_1851 (from memory).

    Examples
    --------
    >>> float(particle_reynolds(50e-6, 0.00148, 999.97, 1.5182e-3))
    0.0487
    """
    viscosity = np.asarray(viscosity_pas, dtype=np.float64)
    if not np.all(viscosity > 0.0):
        raise ValueError("the viscosity must be above 0")
    speed = np.abs(np.asarray(velocity_ms, dtype=np.float64))
    return np.asarray(np.asarray(water_density_kgm3) * speed * np.asarray(diameter_m) / viscosity)
