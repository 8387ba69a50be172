"""How fast ozone crosses from bubbles into the water of a pipe, from the pipe's own dissipation."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K

Array = NDArray[np.float64]


def surface_tension_nm(temperature_c: ArrayLike) -> Array:
    """Surface tension of water against air.

    Parameters
    ----------
    temperature_c : float or array
        Water temperature [degC].

    Returns
    -------
    array of the same shape
        Surface tension [N/m].

    Raises
    ------
    Nothing.

    Notes
    -----
    0.0756 - 1.47e-4 t.
    The source gives no range; within 0.5 % of the international formula from 0 to 40 degC.

    References
    ----------
    langlais_1991, through another.

    Examples
    --------
    >>> np.round(surface_tension_nm([0.0, 20.0]), 4)
    array([0.0756, 0.0727])
    """
    return np.asarray(0.0756 - 1.47e-4 * np.asarray(temperature_c, dtype=np.float64))


def diffusivity_m2s(temperature_c: ArrayLike, kinematic_viscosity_m2s: ArrayLike) -> Array:
    """Diffusivity of ozone in water.

    Parameters
    ----------
    temperature_c : float or array
        Water temperature [degC].
    kinematic_viscosity_m2s : float or array, broadcasting
        Of the water [m2/s].

    Returns
    -------
    array of the broadcast shape
        Diffusivity [m2/s].

    Raises
    ------
    ValueError
        If a viscosity is not above 0.

    Notes
    -----
    5.97e-18 T/nu, T in kelvin: 1.74e-9 m2/s at 20 degC.
    The source gives no range.

    References
    ----------
    langlais_1991, through another.

    Examples
    --------
    >>> float(diffusivity_m2s(20.0, 1.004e-6) * 1e9)
    1.74
    """
    viscosity = np.asarray(kinematic_viscosity_m2s, dtype=np.float64)
    if not np.all(viscosity > 0.0):
        raise ValueError("a viscosity is above 0")
    return np.asarray(5.97e-18 * (np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K) / viscosity)


def dissipation_wkg(friction_factor: ArrayLike, velocity_ms: ArrayLike, bore_m: ArrayLike) -> Array:
    """Power that the flow in a pipe turns into eddies, for each kilogram of water.

    Parameters
    ----------
    friction_factor : float or array
        Darcy's friction factor [-].
    velocity_ms : float or array, broadcasting
        Velocity of water and gas together [m/s].
    bore_m : float or array, broadcasting
        Bore, above 0 [m].

    Returns
    -------
    array of the broadcast shape
        Dissipation [W/kg].

    Raises
    ------
    ValueError
        If a number is negative or a bore not above 0.

    Notes
    -----
    f u^3/(2 d): the loss of head, times gravity, times the velocity, over the length.
    The source gives no range: a balance of energy.

    References
    ----------
    None; a balance of energy.

    Examples
    --------
    >>> float(dissipation_wkg(0.025, 1.5, 0.02))
    2.11
    """
    f, u, d = (np.asarray(value, dtype=np.float64) for value in (friction_factor, velocity_ms, bore_m))
    if not (np.all(f >= 0.0) and np.all(u >= 0.0) and np.all(d > 0.0)):
        raise ValueError("friction and velocity are 0 or more, a bore above 0")
    return np.asarray(f * u**3 / (2.0 * d))


def bubble_diameter_m(
    dissipation: ArrayLike, surface_tension: ArrayLike, density_kgm3: ArrayLike, mean_to_largest_ratio: ArrayLike
) -> Array:
    """Mean diameter (by volume over surface) of the bubbles that the eddies of a pipe leave whole.

    Parameters
    ----------
    dissipation : float or array
        Dissipation, above 0 [W/kg].
    surface_tension : float or array, broadcasting
        Surface tension [N/m].
    density_kgm3 : float or array, broadcasting
        Of the water [kg/m3].
    mean_to_largest_ratio : float or array, broadcasting
        Mean over largest diameter [-]; remembered as 0.62.

    Returns
    -------
    array of the broadcast shape
        Diameter [m].

    Raises
    ------
    ValueError
        If a number is not above 0.

    Notes
    -----
    r 0.725 (sigma/rho)^0.6 eps^-0.4, to about 50 % either way.
    For few bubbles in turbulent flow; above some 6 mm, a quarter of the bore, or without turbulence (Reynolds number
    below 4000) gas and water lie apart instead and the formula says nothing. The source's range is not known here.

    References
    ----------
    hinze_1955, from memory.

    Examples
    --------
    >>> float(1e3 * bubble_diameter_m(2.0, 0.074, 1000.0, 0.62))
    1.14
    """
    values = [
        np.asarray(value, dtype=np.float64)
        for value in (dissipation, surface_tension, density_kgm3, mean_to_largest_ratio)
    ]
    if not all(np.all(value > 0.0) for value in values):
        raise ValueError("dissipation, surface tension, density and ratio are above 0")
    eps, sigma, rho, ratio = values
    return np.asarray(ratio * 0.725 * (sigma / rho) ** 0.6 * eps**-0.4)


def film_ms(
    dissipation: ArrayLike, kinematic_viscosity_m2s: ArrayLike, diffusivity: ArrayLike, eddy_ratio: ArrayLike
) -> Array:
    """Transfer coefficient on the water's side of a bubble in turbulent flow.

    Parameters
    ----------
    dissipation : float or array
        Dissipation [W/kg].
    kinematic_viscosity_m2s : float or array, broadcasting
        Of the water, above 0 [m2/s].
    diffusivity : float or array, broadcasting
        Of ozone in the water [m2/s].
    eddy_ratio : float or array, broadcasting
        Constant of the law [-]; 0.4, or 0.523 as fitted to stirred vessels.

    Returns
    -------
    array of the broadcast shape
        Coefficient [m/s].

    Raises
    ------
    ValueError
        If a number is negative, or a viscosity not above 0.

    Notes
    -----
    c (eps nu)^0.25 (D/nu)^0.5: the smallest eddies renew the surface.
    The source's range is not known here.

    References
    ----------
    lamont_scott_1970, from memory, for 0.4; linek_2004, read primary, for 0.523.

    Examples
    --------
    >>> float(1e4 * film_ms(2.0, 1.3e-6, 1.3e-9, 0.4))
    5.1
    """
    eps, nu, d, c = (
        np.asarray(value, dtype=np.float64) for value in (dissipation, kinematic_viscosity_m2s, diffusivity, eddy_ratio)
    )
    if not (np.all(eps >= 0.0) and np.all(nu > 0.0) and np.all(d >= 0.0) and np.all(c >= 0.0)):
        raise ValueError("dissipation, diffusivity and constant are 0 or more, a viscosity above 0")
    return np.asarray(c * (eps * nu) ** 0.25 * (d / nu) ** 0.5)


def transfer_per_s(
    film: ArrayLike, gas_to_water_ratio: ArrayLike, bubble_m: ArrayLike, dispersed_ratio: ArrayLike = 1.0
) -> Array:
    """Transfer from all bubbles of a pipe, for each volume of the pipe (kLa).

    Parameters
    ----------
    film : float or array
        Transfer coefficient of a bubble [m/s].
    gas_to_water_ratio : float or array, broadcasting
        Gas over water by volume at the state of the contact [-].
    bubble_m : float or array, broadcasting
        Mean diameter of the bubbles, above 0 [m].
    dispersed_ratio : float or array, broadcasting
        Share of the surface that is left where gas gathers at the top of a lying pipe [-].

    Returns
    -------
    array of the broadcast shape
        kLa [1/s].

    Raises
    ------
    ValueError
        If a number is negative or a diameter not above 0.

    Notes
    -----
    kL r 6 e/d with e = phi/(1 + phi), gas and water equally fast.
    The source gives no range: geometry.

    References
    ----------
    None; geometry.

    Examples
    --------
    >>> float(transfer_per_s(5.1e-4, 0.05, 1.14e-3))
    0.128
    """
    kl, phi, d, share = (
        np.asarray(value, dtype=np.float64) for value in (film, gas_to_water_ratio, bubble_m, dispersed_ratio)
    )
    if not (np.all(kl >= 0.0) and np.all(phi >= 0.0) and np.all(share >= 0.0) and np.all(d > 0.0)):
        raise ValueError("coefficient, gas and share are 0 or more, a diameter above 0")
    return np.asarray(kl * share * 6.0 * phi / (1.0 + phi) / d)
