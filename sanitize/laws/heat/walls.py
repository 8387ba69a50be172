"""Heat through walls, lids and pipes into the water."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def transmittance_wm2k(
    thickness_m: ArrayLike, conductivity_wmk: ArrayLike, inside_m2kw: ArrayLike, outside_m2kw: ArrayLike
) -> Array:
    """Heat that one square metre of a wall passes for each kelvin.

    Parameters
    ----------
    thickness_m : float or array
        Thickness of the wall [m].
    conductivity_wmk : float or array, broadcasting
        Conductivity of its material [W/(m K)].
    inside_m2kw, outside_m2kw : float or array, broadcasting
        Resistances of the surfaces, of the water's side and of the other one [m2 K/W].

    Returns
    -------
    array of the broadcast shape
        Transmittance U [W/(m2 K)].

    Raises
    ------
    ValueError
        If a thickness is negative, or a conductivity or the sum of the surfaces' resistances is not positive.

    Notes
    -----
    U = 1 / (R_inside + s / k + R_outside).
    The source gives no range.

    References
    ----------
    iso_6946, from memory.

    Examples
    --------
    Polyethylene of 6 mm, k 0.50, in still air:

    >>> float(transmittance_wm2k(0.006, 0.50, 0.005, 0.13))
    6.80
    """
    thickness = np.asarray(thickness_m, dtype=np.float64)
    conductivity = np.asarray(conductivity_wmk, dtype=np.float64)
    surfaces = np.asarray(inside_m2kw, dtype=np.float64) + np.asarray(outside_m2kw, dtype=np.float64)
    if not (np.all(thickness >= 0.0) and np.all(conductivity > 0.0) and np.all(surfaces > 0.0)):
        raise ValueError("a wall needs a thickness of 0 or more, a positive conductivity and positive resistances")
    return np.asarray(1.0 / (surfaces + thickness / conductivity))


def pipe_transmittance_wmk(
    bore_m: ArrayLike, outside_m: ArrayLike, conductivity_wmk: ArrayLike, film_wm2k: ArrayLike
) -> Array:
    """Heat that one metre of a bare pipe with moving water passes for each kelvin.

    Parameters
    ----------
    bore_m, outside_m : float or array
        Inside and outside diameter [m].
    conductivity_wmk : float or array, broadcasting
        Conductivity of its wall [W/(m K)].
    film_wm2k : float or array, broadcasting
        Heat transfer from the air to its outside [W/(m2 K)].

    Returns
    -------
    array of the broadcast shape
        Heat for each metre and kelvin [W/(m K)].

    Raises
    ------
    ValueError
        If a diameter, conductivity or film is not positive, or the outside is smaller than the bore.

    Notes
    -----
    1 / (1 / (pi D_o h) + ln(D_o / D_i) / (2 pi k)); the water's own film is left out.
    The source gives no range.

    References
    ----------
    iso_6946, from memory, for resistances in a row.

    Examples
    --------
    Rigid PVC of 3/4 in:

    >>> float(pipe_transmittance_wmk(0.02057, 0.02667, 0.17, 9.0))
    0.638
    """
    bore, outside = (np.asarray(value, dtype=np.float64) for value in (bore_m, outside_m))
    conductivity, film = (np.asarray(value, dtype=np.float64) for value in (conductivity_wmk, film_wm2k))
    if not (np.all(bore > 0.0) and np.all(outside >= bore) and np.all(conductivity > 0.0) and np.all(film > 0.0)):
        raise ValueError("a pipe needs a positive bore, an outside not below it, and a positive conductivity and film")
    return np.asarray(1.0 / (1.0 / (np.pi * outside * film) + np.log(outside / bore) / (2.0 * np.pi * conductivity)))


def sweating_heat_wm2(
    outside_c: ArrayLike, air_vapour_pa_abs: ArrayLike, wall_vapour_pa_abs: ArrayLike, vapour_wm2pa: ArrayLike
) -> Array:
    """Heat that vapour gives a wall whose outside is colder than the dew point of the air; 0 on a dry or frozen one.

    Parameters
    ----------
    outside_c : float or array
        Temperature of the wall's outside [degC].
    air_vapour_pa_abs : float or array, broadcasting
        Pressure of the vapour in the air [Pa absolute].
    wall_vapour_pa_abs : float or array, broadcasting
        Pressure of saturated vapour at the wall's outside [Pa absolute].
    vapour_wm2pa : float or array, broadcasting
        Heat by vapour for each square metre and pascal [W/(m2 Pa)].

    Returns
    -------
    array of the broadcast shape
        Heat flow into the wall [W/m2].

    Raises
    ------
    ValueError
        If a pressure or the heat by vapour is negative.

    Notes
    -----
    q = f max(0, p_a - p_s), with f from convection by Bowen's ratio; on a wall below 0 degC the vapour is left out.
    The source gives no range.

    References
    ----------
    bowen_1926, read as its abstract, for heat by vapour over heat by convection.

    Examples
    --------
    Bare metal of 5.6 degC in a room of 20 degC and 50 %:

    >>> float(sweating_heat_wm2(5.6, 1169.0, 910.0, 0.045))
    11.66
    """
    outside, vapour = np.asarray(outside_c, dtype=np.float64), np.asarray(vapour_wm2pa, dtype=np.float64)
    in_air, on_wall = (np.asarray(value, dtype=np.float64) for value in (air_vapour_pa_abs, wall_vapour_pa_abs))
    if not (np.all(vapour >= 0.0) and np.all(in_air >= 0.0) and np.all(on_wall >= 0.0)):
        raise ValueError("heat by vapour and pressures are 0 or more")
    return np.where(outside >= 0.0, vapour * np.maximum(in_air - on_wall, 0.0), 0.0)
