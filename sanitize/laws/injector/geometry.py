"""From an injector's bores and loss coefficients to its dry pressure coefficients, and back.

All coefficients stand on the throat's dynamic pressure. Areas: throat An, inlet A1, mixing bore Am, outlet
A2; b = An/Am (1 for a plain venturi), B4 = (An/A1)^2, r = An/A2. All arguments broadcast.
"""

import numpy as np
from numpy.typing import NDArray

Values = float | NDArray[np.float64]
Mask = bool | np.bool_ | NDArray[np.bool_]


def throat_dynamic_pressure(flow_m3s: Values, throat_m2: Values, density_kgm3: Values) -> Values:
    """Dynamic pressure of the water in the smallest section.

    Parameters
    ----------
    flow_m3s : float or array
        Flow of the water Q [m3/s].
    throat_m2 : float or array
        Area of the smallest section An [m2].
    density_kgm3 : float or array
        Density of the water [kg/m3].

    Returns
    -------
    float or array of the broadcast shape
        Z [Pa difference].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: Z = rho/2 (Q/An)^2.
    Validity: a definition.

    References
    ----------
    Definition.

    Examples
    --------
    >>> throat_dynamic_pressure(5.0e-4, 5.0e-5, 1000.0)
    50000.0
    """
    return 0.5 * density_kgm3 * (flow_m3s / throat_m2) ** 2


def nozzle_loss_coefficient(discharge_coefficient: Values, throat_to_inlet_ratio: Values) -> Values:
    """Loss coefficient of the entry cone that a discharge coefficient stands for.

    Parameters
    ----------
    discharge_coefficient : float or array
        Cd [-].
    throat_to_inlet_ratio : float or array
        An/A1 [-].

    Returns
    -------
    float or array of the broadcast shape
        Kn on the throat's dynamic pressure [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: Kn = (1 - B4)(1/Cd^2 - 1), from Q = Cd An sqrt(2 (p1 - po)/(rho (1 - B4))) and p1 - po = (1 + Kn
    - B4) Z.
    Validity: exact.

    References
    ----------
    Definition; derived here.

    Examples
    --------
    >>> nozzle_loss_coefficient(0.96, 0.0)
    0.0851
    """
    return (1.0 - throat_to_inlet_ratio**2) * (1.0 / discharge_coefficient**2 - 1.0)


def discharge_coefficient(nozzle_loss: Values, throat_to_inlet_ratio: Values) -> Values:
    """Discharge coefficient that a loss coefficient of the entry cone stands for.

    Parameters
    ----------
    nozzle_loss : float or array
        Kn [-].
    throat_to_inlet_ratio : float or array
        An/A1 [-].

    Returns
    -------
    float or array of the broadcast shape
        Cd [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: Cd = (1 + Kn/(1 - B4))^-1/2, the inverse of `nozzle_loss_coefficient`.
    Validity: exact for An < A1.

    References
    ----------
    Definition; derived here.

    Examples
    --------
    >>> float(discharge_coefficient(nozzle_loss_coefficient(0.96, 0.2), 0.2))
    0.96
    """
    return 1.0 / np.sqrt(1.0 + nozzle_loss / (1.0 - throat_to_inlet_ratio**2))


def nozzle_drop_coefficient(discharge_coefficient: Values, throat_to_inlet_ratio: Values) -> Values:
    """Static drop from the inlet to the gas port, on the throat's dynamic pressure.

    Parameters
    ----------
    discharge_coefficient : float or array
        Cd [-].
    throat_to_inlet_ratio : float or array
        An/A1 [-].

    Returns
    -------
    float or array of the broadcast shape
        (p1 - po)/Z = 1 + Kn - B4 = (1 - B4)/Cd^2 [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Validity: Cd is a constant here; ISO 5167-4 does not cover pipes below 50 mm, so every tub-size injector
    lies outside the standard.

    References
    ----------
    Definition; iso_5167_4 for the range, read through another (scope texts).

    Examples
    --------
    >>> nozzle_drop_coefficient(0.96, 0.2)
    1.0417
    """
    return (1.0 - throat_to_inlet_ratio**2) / discharge_coefficient**2


def recovery_coefficient(
    throat_to_bore_ratio: Values,
    bore_loss: Values,
    diffuser_loss: Values,
    throat_to_outlet_ratio: Values,
) -> Values:
    """Static rise from the gas port to the outlet with no gas flowing, on the throat's dynamic pressure.

    Parameters
    ----------
    throat_to_bore_ratio : float or array
        b [-].
    bore_loss : float or array
        Km of the mixing bore, on its own dynamic pressure [-].
    diffuser_loss : float or array
        Kd of the diffuser, on the mixing bore's dynamic pressure [-].
    throat_to_outlet_ratio : float or array
        r = An/A2 [-].

    Returns
    -------
    float or array of the broadcast shape
        kappa = (p2 - po)/Z [-], negative when the device recovers nothing.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: kappa = 2b - b^2 (1 + Km + Kd) - r^2: momentum over the bore, pt - po = Z [2b - b^2 (2 + Km)],
    then energy over the diffuser, p2 - pt = Z b^2 (1 - Kd) - Z r^2. It is the liquid-jet pump equation at no
    side flow.
    Validity: the source gives no range.

    References
    ----------
    karassik_pump_handbook (the equation at M = 0), read through another (a simulation library's reference).

    Examples
    --------
    >>> recovery_coefficient(0.3, 0.1, 0.1, 0.06)
    0.4884
    """
    b = throat_to_bore_ratio
    return 2.0 * b - b**2 * (1.0 + bore_loss + diffuser_loss) - throat_to_outlet_ratio**2


def loss_ratio(nozzle_drop: Values, recovery: Values) -> Values:
    """Share of the drop from inlet to throat that the outlet does not recover, a ratio of static pressures.

    Parameters
    ----------
    nozzle_drop : float or array
        1 + Kn - B4 [-].
    recovery : float or array
        kappa [-].

    Returns
    -------
    float or array of the broadcast shape
        xi = (p1 - p2)/(p1 - po) [-]; 1 and more means no recovery.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: xi = 1 - kappa/(1 + Kn - B4); it does not depend on the flow.
    Validity: dry, without cavitation.

    References
    ----------
    Definition; derived here.

    Examples
    --------
    >>> loss_ratio(1.0417, 0.8)
    0.2320
    """
    return 1.0 - recovery / nozzle_drop


def recovery_from_loss_ratio(nozzle_drop: Values, loss_ratio: Values) -> Values:
    """Recovery coefficient that a loss ratio stands for, the inverse of `loss_ratio`.

    Parameters
    ----------
    nozzle_drop : float or array
        1 + Kn - B4 [-].
    loss_ratio : float or array
        xi [-].

    Returns
    -------
    float or array of the broadcast shape
        kappa [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Validity: exact.

    References
    ----------
    Definition; derived here.

    Examples
    --------
    >>> recovery_from_loss_ratio(1.0, 0.2)
    0.8
    """
    return nozzle_drop * (1.0 - loss_ratio)


def total_loss_coefficient(
    nozzle_drop: Values,
    throat_to_inlet_ratio: Values,
    throat_to_bore_ratio: Values,
    bore_loss: Values,
    diffuser_loss: Values,
) -> Values:
    """Loss of total pressure over the dry injector, on the throat's dynamic pressure: what the loop pays.

    Parameters
    ----------
    nozzle_drop : float or array
        1 + Kn - B4 [-].
    throat_to_inlet_ratio : float or array
        An/A1 [-].
    throat_to_bore_ratio : float or array
        b [-].
    bore_loss : float or array
        Km of the mixing bore, on its own dynamic pressure [-].
    diffuser_loss : float or array
        Kd of the diffuser, on the mixing bore's dynamic pressure [-].

    Returns
    -------
    float or array of the broadcast shape
        (p1 - p2 + rho/2 (V1^2 - V2^2))/Z [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: 1 + Kn - 2b + b^2 (1 + Km + Kd); the outlet's velocity head cancels.
    Validity: dry, without cavitation.

    References
    ----------
    Derived here from `recovery_coefficient`.

    Examples
    --------
    >>> total_loss_coefficient(1.0417, 0.2, 1.0, 0.05, 0.15)
    0.2817
    """
    b = throat_to_bore_ratio
    nozzle_total = nozzle_drop + throat_to_inlet_ratio**2
    return nozzle_total - 2.0 * b + b**2 * (1.0 + bore_loss + diffuser_loss)
