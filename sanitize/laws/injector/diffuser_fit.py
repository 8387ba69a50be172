"""Diffuser loss, and if need be bore, that give a wanted recovery."""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.geometry import Mask, Values

SMALLEST_DIFFUSER_LOSS = 0.02
"""Diffuser loss coefficient that is never undercut when one is sought for a measured recovery (estimate)."""


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

    Parameters
    ----------
    recovery : float or array
        kappa, wanted [-].
    throat_to_bore_ratio : float or array
        b, first choice [-].
    bore_loss : float or array
        Km [-].
    throat_to_outlet_ratio : float or array
        r = An/A2 [-].

    Returns
    -------
    DiffuserFit
        Kd [-], b [-], and a mask. Where the mask is false, no larger b gives the recovery or
        the bore would not be smaller than the outlet (r >= b); the pair is finite there but must not be
        used.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: Kd = (2b - kappa - r^2)/b^2 - 1 - Km. Below 0.02, Kd = 0.02 is held and b is raised to the
    smaller root of m b^2 - 2b + kappa + r^2 = 0 with m = 1.02 + Km; beyond b = 1/m the recovery only falls.
    Validity: inverse of `recovery_coefficient`.

    References
    ----------
    Derived here; the limit 0.02 is an estimate.

    Examples
    --------
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
