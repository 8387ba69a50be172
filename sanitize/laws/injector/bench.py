"""Two constants describe a dry injector, k1 = (p1 - po)/Q^2 and k2 = (p2 - po)/Q^2: from tests or bores."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sanitize.laws.injector.geometry import Values, nozzle_drop_coefficient

LOWEST_PORT_PA_ABS = 20e3
"""Port pressure below which a test row is not used, as air comes out of solution (common practice)."""


class Constants(NamedTuple):
    """Dry pressure constants of an injector [Pa s2/m6]."""

    nozzle_pa_s2m6: Values
    recovery_pa_s2m6: Values


def constants_from_coefficients(
    nozzle_drop: Values, recovery: Values, throat_m2: Values, density_kgm3: Values
) -> Constants:
    """Pressure constants from the coefficients on the throat's dynamic pressure.

    Parameters
    ----------
    nozzle_drop : float or array
        1 + Kn - B4 [-].
    recovery : float or array
        kappa [-].
    throat_m2 : float or array
        An [m2].
    density_kgm3 : float or array
        Density of the water [kg/m3].

    Returns
    -------
    Constants
        k1 and k2 [Pa s2/m6].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: k1 = (1 + Kn - B4) rho/(2 An^2), k2 = kappa rho/(2 An^2).
    Validity: exact.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> constants_from_coefficients(1.04, 0.8, 5e-5, 1000.0)
    Constants(nozzle_pa_s2m6=208000000000.0, recovery_pa_s2m6=160000000000.0)
    """
    unit = 0.5 * density_kgm3 / throat_m2**2
    return Constants(nozzle_drop * unit, recovery * unit)


def constants_at_density(constants: Constants, tested_kgm3: Values, density_kgm3: Values) -> Constants:
    """Pressure constants in water of another density than that of the test.

    Parameters
    ----------
    constants : Constants
        k1 and k2 in the test's water [Pa s2/m6].
    tested_kgm3 : float or array
        Density in the test [kg/m3].
    density_kgm3 : float or array
        Density wanted [kg/m3].

    Returns
    -------
    Constants
        k1 and k2 [Pa s2/m6].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: k scales with the density.
    Validity: discharge and loss coefficients taken as constant.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> constants_at_density(Constants(2e11, 1e11), 1000.0, 990.0)
    Constants(nozzle_pa_s2m6=198000000000.0, recovery_pa_s2m6=99000000000.0)
    """
    factor = density_kgm3 / tested_kgm3
    return Constants(constants.nozzle_pa_s2m6 * factor, constants.recovery_pa_s2m6 * factor)


def constants_from_pair(
    nozzle_drop_pa_diff: Values,
    nozzle_drop_at_m3s: Values,
    recovery_pa_diff: Values,
    recovery_at_m3s: Values,
) -> Constants:
    """Pressure constants from one stated drop and one stated recovery, each with its flow.

    Parameters
    ----------
    nozzle_drop_pa_diff : float or array
        p1 - po [Pa].
    nozzle_drop_at_m3s : float or array
        Flow at which that drop stands [m3/s].
    recovery_pa_diff : float or array
        p2 - po [Pa].
    recovery_at_m3s : float or array
        Flow at which that recovery stands [m3/s].

    Returns
    -------
    Constants
        k1 and k2 [Pa s2/m6].

    Raises
    ------
    ValueError
        When a flow is not positive.

    Notes
    -----
    Equation: k = dp/Q^2.
    Validity: dry, above the vapour floor.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> constants_from_pair(50e3, 5e-4, 40e3, 5e-4)
    Constants(nozzle_pa_s2m6=200000000000.0, recovery_pa_s2m6=160000000000.0)
    """
    if not (np.all(np.greater(nozzle_drop_at_m3s, 0.0)) and np.all(np.greater(recovery_at_m3s, 0.0))):
        raise ValueError("the flows of a stated pair must be positive")
    return Constants(nozzle_drop_pa_diff / nozzle_drop_at_m3s**2, recovery_pa_diff / recovery_at_m3s**2)


def loss_ratio_from_constants(constants: Constants) -> Values:
    """Loss ratio of an injector known by its two constants.

    Parameters
    ----------
    constants : Constants
        k1, k2 [Pa s2/m6].

    Returns
    -------
    float or array of the broadcast shape
        xi = 1 - k2/k1 [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Validity: dry, above the vapour floor.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> loss_ratio_from_constants(Constants(2e11, 1.5e11))
    0.25
    """
    return 1.0 - constants.recovery_pa_s2m6 / constants.nozzle_pa_s2m6


class Coefficients(NamedTuple):
    """What the two constants say about an injector's throat."""

    throat_m2: Values
    discharge_coefficient: Values
    nozzle_drop: Values
    recovery: Values


def coefficients_from_constants(
    constants: Constants, throat_m2: Values, inlet_m2: Values, density_kgm3: Values
) -> Coefficients:
    """Discharge and recovery coefficient from the constants and a measured throat.

    Parameters
    ----------
    constants : Constants
        k1 and k2 at that density [Pa s2/m6].
    throat_m2 : float or array
        An [m2].
    inlet_m2 : float or array
        A1 [m2].
    density_kgm3 : float or array
        Density of the water [kg/m3].

    Returns
    -------
    Coefficients
        A discharge coefficient above 1 says that throat and test contradict each other.

    Raises
    ------
    ValueError
        Unless the throat is smaller than the inlet.

    Notes
    -----
    Equation: 1 + Kn - B4 = k1 An^2/(rho/2), Cd^2 = (1 - B4)/(1 + Kn - B4), kappa = k2 An^2/(rho/2).
    Validity: exact.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> found = coefficients_from_constants(Constants(2.08e11, 1.6e11), 5e-5, 3e-4, 1000.0)
    >>> float(found.discharge_coefficient), float(found.recovery)
    (0.9668, 0.8)
    """
    if not np.all(np.less(throat_m2, inlet_m2)):
        raise ValueError("the throat must be smaller than the inlet")
    unit = 0.5 * density_kgm3 / throat_m2**2
    drop = constants.nozzle_pa_s2m6 / unit
    cd = np.sqrt((1.0 - (throat_m2 / inlet_m2) ** 2) / drop)
    return Coefficients(throat_m2, cd, drop, constants.recovery_pa_s2m6 / unit)


def coefficients_without_throat(
    constants: Constants, discharge_coefficient: Values, inlet_m2: Values, density_kgm3: Values
) -> Coefficients:
    """Throat area and recovery coefficient from the constants and an assumed discharge coefficient.

    Parameters
    ----------
    constants : Constants
        k1 and k2 at that density [Pa s2/m6].
    discharge_coefficient : float or array
        Cd, assumed [-].
    inlet_m2 : float or array
        A1 [m2].
    density_kgm3 : float or array
        Density of the water [kg/m3].

    Returns
    -------
    Coefficients
        An, Cd as given, 1 + Kn - B4 and kappa.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: 1/An^2 = 2 k1 Cd^2/rho + 1/A1^2, from k1 = rho (1 - B4)/(2 Cd^2 An^2).
    Validity: exact for that Cd.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> found = coefficients_without_throat(Constants(2.08e11, 1.6e11), 0.96, 3e-4, 1000.0)
    >>> float(found.throat_m2), float(found.recovery)
    (5.034e-05, 0.811)
    """
    inverse = 2.0 * constants.nozzle_pa_s2m6 * discharge_coefficient**2 / density_kgm3 + 1.0 / inlet_m2**2
    throat_m2 = 1.0 / np.sqrt(inverse)
    return Coefficients(
        throat_m2,
        discharge_coefficient,
        nozzle_drop_coefficient(discharge_coefficient, throat_m2 / inlet_m2),
        constants.recovery_pa_s2m6 / (0.5 * density_kgm3 * inverse),
    )


class BenchFit(NamedTuple):
    """Constants found from test rows, with one standard error, and the rows that were used."""

    constants: Constants
    nozzle_error_pa_s2m6: float
    recovery_error_pa_s2m6: float
    loss_ratio: float
    loss_ratio_error: float
    is_used: NDArray[np.bool_]


def fit_constants(
    flow_m3s: NDArray[np.float64],
    inlet_pa_abs: NDArray[np.float64],
    outlet_pa_abs: NDArray[np.float64],
    port_pa_abs: NDArray[np.float64],
) -> BenchFit:
    """Least-squares constants, through the origin, from a test with a vacuum gauge closing the gas port.

    Parameters
    ----------
    flow_m3s : array of one dimension
        Flow of each row [m3/s].
    inlet_pa_abs, outlet_pa_abs, port_pa_abs : array of the same length
        Static pressures in the injector's own bores, at one height [Pa absolute].

    Returns
    -------
    BenchFit
        The standard errors are infinite when a single row is left.

    Raises
    ------
    ValueError
        When the arrays differ in length or no row with flow and a port at or above 20 kPa absolute is
        left.

    Notes
    -----
    Equation: k = sum(dp Q^2)/sum(Q^4) for dp = p1 - po and dp = p2 - po; error sqrt(s^2/sum(Q^4)) with s^2
    from the residuals over n - 1; xi = 1 - k2/k1 with the residuals' covariance carried, as both share the
    port's gauge.
    Validity: even gauge errors over the rows.

    References
    ----------
    Ordinary least squares; the 20 kPa limit is common practice.

    Examples
    --------
    >>> q = np.array([3e-4, 4e-4, 5e-4])
    >>> fit = fit_constants(q, 80e3 + 2e11 * q**2, 80e3 + 1.5e11 * q**2, np.full(3, 80e3))
    >>> float(fit.constants.nozzle_pa_s2m6), float(fit.loss_ratio)
    (2e11, 0.25)
    """
    flow, inlet, outlet, port = (
        np.asarray(x, dtype=np.float64) for x in (flow_m3s, inlet_pa_abs, outlet_pa_abs, port_pa_abs)
    )
    if flow.ndim != 1 or not flow.shape == inlet.shape == outlet.shape == port.shape:
        raise ValueError("test rows must be arrays of one length")
    is_used = (port >= LOWEST_PORT_PA_ABS) & (flow > 0.0)
    count = int(is_used.sum())
    if count == 0:
        raise ValueError("no test row with flow and a port pressure of at least 20 kPa absolute")
    square = np.square(flow[is_used])
    drops = np.stack([inlet[is_used] - port[is_used], outlet[is_used] - port[is_used]])
    weight = float(np.sum(square**2))
    k1, k2 = drops @ square / weight
    if count == 1:
        return BenchFit(Constants(float(k1), float(k2)), np.inf, np.inf, float(1.0 - k2 / k1), np.inf, is_used)
    residual = drops - np.outer((k1, k2), square)
    covariance = residual @ residual.T / (count - 1) / weight
    gradient = np.array([k2 / k1**2, -1.0 / k1])
    return BenchFit(
        Constants(float(k1), float(k2)),
        float(np.sqrt(covariance[0, 0])),
        float(np.sqrt(covariance[1, 1])),
        float(1.0 - k2 / k1),
        float(np.sqrt(max(gradient @ covariance @ gradient, 0.0))),
        is_used,
    )
