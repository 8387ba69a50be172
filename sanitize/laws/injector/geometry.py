"""From an injector's bores and loss coefficients to its dry pressure coefficients, and back.

All coefficients stand on the throat's dynamic pressure. Areas: throat An, inlet A1, mixing bore Am, outlet
A2; b = An/Am (1 for a plain venturi), B4 = (An/A1)^2, r = An/A2.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Values = float | NDArray[np.float64]
Mask = bool | np.bool_ | NDArray[np.bool_]

SMALLEST_DIFFUSER_LOSS = 0.02
"""Diffuser loss coefficient that is never undercut when one is sought for a measured recovery (estimate)."""


def throat_dynamic_pressure(flow_m3s: Values, throat_m2: Values, density_kgm3: Values) -> Values:
    """Dynamic pressure of the water in the smallest section.

    Parameters: flow_m3s, any shape [m3/s]; throat_m2 [m2]; density_kgm3 [kg/m3]; they broadcast.
    Returns Z [Pa difference]. Raises nothing.
    Equation: Z = rho/2 (Q/An)^2.
    Validity: a definition. Source: definition; read: not applicable.

    >>> throat_dynamic_pressure(5.0e-4, 5.0e-5, 1000.0)
    50000.0
    """
    return 0.5 * density_kgm3 * (flow_m3s / throat_m2) ** 2


def nozzle_loss_coefficient(discharge_coefficient: Values, throat_to_inlet_ratio: Values) -> Values:
    """Loss coefficient of the entry cone that a discharge coefficient stands for.

    Parameters: discharge_coefficient Cd, any shape [-]; throat_to_inlet_ratio An/A1 [-]; they broadcast.
    Returns Kn on the throat's dynamic pressure [-]. Raises nothing.
    Equation: Kn = (1 - B4)(1/Cd^2 - 1), from Q = Cd An sqrt(2 (p1 - po)/(rho (1 - B4))) and
    p1 - po = (1 + Kn - B4) Z.
    Validity: exact. Source: definition; derived here.

    >>> nozzle_loss_coefficient(0.96, 0.0)
    0.0851
    """
    return (1.0 - throat_to_inlet_ratio**2) * (1.0 / discharge_coefficient**2 - 1.0)


def discharge_coefficient(nozzle_loss: Values, throat_to_inlet_ratio: Values) -> Values:
    """Discharge coefficient that a loss coefficient of the entry cone stands for.

    Parameters: nozzle_loss Kn, any shape [-]; throat_to_inlet_ratio An/A1 [-]; they broadcast.
    Returns Cd [-]. Raises nothing.
    Equation: Cd = (1 + Kn/(1 - B4))^-1/2, the inverse of `nozzle_loss_coefficient`.
    Validity: exact for An < A1. Source: definition; derived here.

    >>> float(discharge_coefficient(nozzle_loss_coefficient(0.96, 0.2), 0.2))
    0.96
    """
    return 1.0 / np.sqrt(1.0 + nozzle_loss / (1.0 - throat_to_inlet_ratio**2))


def nozzle_drop_coefficient(discharge_coefficient: Values, throat_to_inlet_ratio: Values) -> Values:
    """Static drop from the inlet to the gas port, on the throat's dynamic pressure.

    Parameters: discharge_coefficient Cd, any shape [-]; throat_to_inlet_ratio An/A1 [-]; they broadcast.
    Returns (p1 - po)/Z = 1 + Kn - B4 = (1 - B4)/Cd^2 [-]. Raises nothing.
    Validity: Cd is a constant here; ISO 5167-4 does not cover pipes below 50 mm, so every tub-size injector
    lies outside the standard. Source: definition; derived here.

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

    Parameters, any shapes that broadcast: throat_to_bore_ratio b [-]; bore_loss Km and diffuser_loss Kd,
    both on the mixing bore's dynamic pressure [-]; throat_to_outlet_ratio r = An/A2 [-].
    Returns kappa = (p2 - po)/Z [-], negative when the device recovers nothing. Raises nothing.
    Equation: kappa = 2b - b^2 (1 + Km + Kd) - r^2: momentum over the bore, pt - po = Z [2b - b^2 (2 + Km)],
    then energy over the diffuser, p2 - pt = Z b^2 (1 - Kd) - Z r^2. It is the liquid-jet pump equation at no
    side flow.
    Validity: the source gives no range. Source: karassik_pump_handbook (the equation at M = 0), through
    another.

    >>> recovery_coefficient(0.3, 0.1, 0.1, 0.06)
    0.4884
    """
    b = throat_to_bore_ratio
    return 2.0 * b - b**2 * (1.0 + bore_loss + diffuser_loss) - throat_to_outlet_ratio**2


def loss_ratio(nozzle_drop: Values, recovery: Values) -> Values:
    """Share of the drop from inlet to throat that the outlet does not recover, a ratio of static pressures.

    Parameters: nozzle_drop 1 + Kn - B4 [-]; recovery kappa [-]; they broadcast.
    Returns xi = (p1 - p2)/(p1 - po) [-]; 1 and more means no recovery. Raises nothing.
    Equation: xi = 1 - kappa/(1 + Kn - B4); it does not depend on the flow.
    Validity: dry, without cavitation. Source: definition; derived here.

    >>> loss_ratio(1.0417, 0.8)
    0.2320
    """
    return 1.0 - recovery / nozzle_drop


def recovery_from_loss_ratio(nozzle_drop: Values, loss_ratio: Values) -> Values:
    """Recovery coefficient that a loss ratio stands for, the inverse of `loss_ratio`.

    Parameters: nozzle_drop 1 + Kn - B4 [-]; loss_ratio xi [-]; they broadcast. Returns kappa [-]. Raises
    nothing.
    Validity: exact. Source: definition; derived here.

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

    Parameters, any shapes that broadcast: nozzle_drop 1 + Kn - B4 [-]; throat_to_inlet_ratio An/A1 [-];
    throat_to_bore_ratio b [-]; bore_loss Km and diffuser_loss Kd on the mixing bore's dynamic pressure [-].
    Returns (p1 - p2 + rho/2 (V1^2 - V2^2))/Z [-]. Raises nothing.
    Equation: 1 + Kn - 2b + b^2 (1 + Km + Kd); the outlet's velocity head cancels.
    Validity: dry, without cavitation. Source: derived here from `recovery_coefficient`.

    >>> total_loss_coefficient(1.0417, 0.2, 1.0, 0.05, 0.15)
    0.2817
    """
    b = throat_to_bore_ratio
    nozzle_total = nozzle_drop + throat_to_inlet_ratio**2
    return nozzle_total - 2.0 * b + b**2 * (1.0 + bore_loss + diffuser_loss)


class DiffuserFit(NamedTuple):
    """Diffuser loss and throat-to-bore ratio that give a wanted recovery, and where that is possible."""

    diffuser_loss: Values
    throat_to_bore_ratio: Values
    is_feasible: Mask


def diffuser_for_recovery(
    recovery: Values,
    throat_to_bore_ratio: Values,
    bore_loss: Values,
    throat_to_outlet_ratio: Values,
) -> DiffuserFit:
    """Diffuser loss that gives a wanted recovery; where it would be too good, the bore is narrowed instead.

    Parameters, any shapes that broadcast: recovery kappa, wanted [-]; throat_to_bore_ratio b, first choice
    [-]; bore_loss Km [-]; throat_to_outlet_ratio r = An/A2 [-].
    Returns DiffuserFit: Kd [-], b [-], and a mask. Where the mask is false, no larger b gives the recovery or
    the bore would not be smaller than the outlet (r >= b); the pair is finite there but must not be used.
    Raises nothing.
    Equation: Kd = (2b - kappa - r^2)/b^2 - 1 - Km. Below 0.02, Kd = 0.02 is held and b is raised to the
    smaller root of m b^2 - 2b + kappa + r^2 = 0 with m = 1.02 + Km; beyond b = 1/m the recovery only falls.
    Validity: inverse of `recovery_coefficient`. Source: derived here; the limit 0.02 is an estimate.

    >>> fit = diffuser_for_recovery(0.75, 0.8, 0.05, 0.1)
    >>> float(fit.diffuser_loss), float(fit.throat_to_bore_ratio), bool(fit.is_feasible)
    (0.2625, 0.8, True)
    >>> fit = diffuser_for_recovery(0.92, 0.8, 0.05, 0.0)
    >>> float(fit.diffuser_loss), float(fit.throat_to_bore_ratio), bool(fit.is_feasible)
    (0.02, 0.8179, True)
    """
    kappa, b0, km, r = np.broadcast_arrays(recovery, throat_to_bore_ratio, bore_loss, throat_to_outlet_ratio)
    wanted = kappa + r**2
    kd = (2.0 * b0 - wanted) / b0**2 - 1.0 - km
    m = 1.0 + km + SMALLEST_DIFFUSER_LOSS
    under = 1.0 - m * wanted
    raised = (1.0 - np.sqrt(np.maximum(under, 0.0))) / m
    is_held = kd < SMALLEST_DIFFUSER_LOSS
    is_reached = (under >= 0.0) & (m * b0 <= 1.0)
    b = np.where(is_held & is_reached, np.maximum(raised, b0), b0)
    return DiffuserFit(
        np.where(is_held, SMALLEST_DIFFUSER_LOSS, kd)[()],
        b[()],
        ((~is_held | is_reached) & (r < b))[()],
    )
