"""Return nozzles: one jet or several into the tub."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def nozzle_loss_coefficient(bore_ratio: ArrayLike, discharge_ratio: ArrayLike) -> NDArray[np.float64]:
    """Loss coefficient of a return nozzle with its jet and exit, on the velocity in the pipe before it.

    Parameters
    ----------
    bore_ratio : float or array
        Bore of the opening, for several openings `equivalent_bore_m` of them, over the pipe's, up to 1 [-].
    discharge_ratio : float or array, broadcasting
        Discharge coefficient of an orifice with approach factor: about 0.62 sharp, 0.82 a short straight
        bore, 0.95 tapered or rounded [-].

    Returns
    -------
    array of the broadcast shape
        K_D: total pressure in the pipe less pressure of the tub, over rho V^2 / 2 [-].
        The exit is in it and is not counted besides.

    Raises
    ------
    ValueError
        If a ratio is not above 0 and up to 1.

    Notes
    -----
    K_D = (1 - b^4) / (Cd^2 b^4) + 1, b the ratio of bores, from Q = Cd A sqrt(2 dp / (rho (1 - b^4))); 1 at b = 1.
    The source gives no range; the discharge coefficients hold from about Re 1e4 in the opening (from memory).

    References
    ----------
    Derived here from the orifice equation of white_fluid_mechanics_4e, from memory.

    Examples
    --------
    >>> nozzle_loss_coefficient(0.5, [0.62, 0.82, 0.95]).tolist()
    [40.0, 23.3, 17.6]
    """
    ratio = np.asarray(bore_ratio, dtype=np.float64)
    if not np.all((ratio > 0.0) & (ratio <= 1.0)):
        raise ValueError("a nozzle's opening over its pipe's bore must lie above 0 and not above 1")
    b4 = ratio**4
    discharge = np.asarray(discharge_ratio, dtype=np.float64)
    return np.asarray((1.0 - b4) / (discharge * discharge * b4) + 1.0)


def jet_velocity_ms(
    flow_m3s: ArrayLike, jet_bore_m: ArrayLike, contraction_ratio: ArrayLike = 1.0
) -> NDArray[np.float64]:
    """Speed of the jet that leaves a nozzle.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow [m3/s].
    jet_bore_m : float or array, broadcasting
        Bore of the opening, for several `equivalent_bore_m` of them [m].
    contraction_ratio : float or array, broadcasting
        Area of the jet over that of the opening: 0.62 for a sharp edge, else 1 [-].

    Returns
    -------
    array of the broadcast shape
        Velocity at the narrowest section of the jet [m/s].

    Raises
    ------
    Nothing.

    Notes
    -----
    V = Q / (Cc A); exact by continuity.

    References
    ----------
    Definition; the contraction of 0.62 from white_fluid_mechanics_4e, from memory.

    Examples
    --------
    >>> float(jet_velocity_ms(40 / 60_000, 0.012, 0.62))
    9.5
    """
    area = 0.25 * np.pi * np.asarray(jet_bore_m, dtype=np.float64) ** 2
    return np.asarray(np.asarray(flow_m3s, dtype=np.float64) / (np.asarray(contraction_ratio, dtype=np.float64) * area))


def equivalent_bore_m(jet_bores_m: ArrayLike) -> NDArray[np.float64]:
    """Bore of the one opening with the area of several that lie side by side.

    Parameters
    ----------
    jet_bores_m : array, the openings along the last axis
        Their bores [m].

    Returns
    -------
    array without the last axis
        Bore [m].

    Raises
    ------
    Nothing.

    Notes
    -----
    d^2 = sum of d_i^2; exact where all have one discharge coefficient and little approach velocity.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(equivalent_bore_m([0.006, 0.008]))
    0.010
    """
    bores = np.asarray(jet_bores_m, dtype=np.float64)
    return np.asarray(np.sqrt((bores * bores).sum(axis=-1)))
