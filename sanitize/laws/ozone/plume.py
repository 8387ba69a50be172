"""Bubbles that rise through the tub from the return."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import GRAVITY_MS2

SWARM = 0.0187
"""Constant of a swarm of bubbles in the law of their film [-]."""

Array = NDArray[np.float64]


def rise_velocity_ms(bubble_m: ArrayLike, surface_tension: ArrayLike, density_kgm3: ArrayLike) -> Array:
    """Velocity at which bubbles of a few millimetres rise.

    Parameters
    ----------
    bubble_m : float or array
        Diameter, above 0 [m].
    surface_tension : float or array, broadcasting
        Surface tension, above 0 [N/m].
    density_kgm3 : float or array, broadcasting
        Of the water, above 0 [kg/m3].

    Returns
    -------
    array of the broadcast shape
        Velocity [m/s].

    Raises
    ------
    ValueError
        If a number is not above 0.

    Notes
    -----
    0.0135 (20000 sigma/(rho d))^0.5: 0.30 m/s for 3 mm.
    The source gives no range; for bubbles of about 2 to 6 mm it stays within a third of sqrt(2 sigma/(rho d) + g d/2).

    References
    ----------
    langlais_1991, through another.

    Examples
    --------
    >>> float(rise_velocity_ms(0.003, 0.0741, 1000.0))
    0.3
    """
    d, sigma, rho = (np.asarray(value, dtype=np.float64) for value in (bubble_m, surface_tension, density_kgm3))
    if not (np.all(d > 0.0) and np.all(sigma > 0.0) and np.all(rho > 0.0)):
        raise ValueError("diameter, surface tension and density are above 0")
    return np.asarray(0.0135 * np.sqrt(20000.0 * sigma / (rho * d)))


def swarm_film_ms(
    bubble_m: ArrayLike, velocity_ms: ArrayLike, kinematic_viscosity_m2s: ArrayLike, diffusivity: ArrayLike
) -> Array:
    """Transfer coefficient on the water's side of bubbles that rise as a swarm.

    Parameters
    ----------
    bubble_m : float or array
        Diameter [m].
    velocity_ms : float or array, broadcasting
        Velocity of rise [m/s].
    kinematic_viscosity_m2s : float or array, broadcasting
        Of the water [m2/s].
    diffusivity : float or array, broadcasting
        Of ozone in the water [m2/s].

    Returns
    -------
    array of the broadcast shape
        Coefficient [m/s].

    Raises
    ------
    ValueError
        If a number is not above 0.

    Notes
    -----
    (D/d) (2 + 0.0187 [(v d/nu)^0.48 (nu/D)^0.34 (d g^0.33/D^0.66)^0.072]^1.61), in SI.
    The source gives no range.

    References
    ----------
    hughmark_1967, through another.

    Examples
    --------
    >>> float(1e4 * swarm_film_ms(0.003, 0.30, 1.306e-6, 1.294e-9))
    1.49
    """
    d, v, nu, diff = (
        np.asarray(value, dtype=np.float64) for value in (bubble_m, velocity_ms, kinematic_viscosity_m2s, diffusivity)
    )
    if not all(np.all(value > 0.0) for value in (d, v, nu, diff)):
        raise ValueError("diameter, velocity, viscosity and diffusivity are above 0")
    inner = (v * d / nu) ** 0.48 * (nu / diff) ** 0.34 * (d * GRAVITY_MS2**0.33 / diff**0.66) ** 0.072
    return np.asarray(diff / d * (2.0 + SWARM * inner**1.61))


def rise_units(
    film: ArrayLike, solubility: ArrayLike, depth_m: ArrayLike, bubble_m: ArrayLike, velocity_ms: ArrayLike
) -> Array:
    """Transfer units of the gas of bubbles on their way to the surface.

    Parameters
    ----------
    film : float or array
        Transfer coefficient of a bubble [m/s].
    solubility : float or array, broadcasting
        Solubility ratio [-].
    depth_m : float or array, broadcasting
        Way to the surface [m].
    bubble_m : float or array, broadcasting
        Diameter, above 0 [m].
    velocity_ms : float or array, broadcasting
        Velocity of rise, above 0 [m/s].

    Returns
    -------
    array of the broadcast shape
        Units [-].

    Raises
    ------
    ValueError
        If a number is negative, or a diameter or a velocity not above 0.

    Notes
    -----
    6 kL S h/(d v).
    The source gives no range: a balance of mass.

    References
    ----------
    None; a balance of mass.

    Examples
    --------
    >>> float(rise_units(1.49e-4, 0.394, 0.4, 0.003, 0.30))
    0.157
    """
    kl, s, h, d, v = (
        np.asarray(value, dtype=np.float64) for value in (film, solubility, depth_m, bubble_m, velocity_ms)
    )
    if not (all(np.all(value >= 0.0) for value in (kl, s, h)) and np.all(d > 0.0) and np.all(v > 0.0)):
        raise ValueError("coefficient, solubility and depth are 0 or more, diameter and velocity above 0")
    return np.asarray(6.0 * kl * s * h / (d * v))
