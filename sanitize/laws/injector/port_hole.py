"""The hole through which gas enters the injector: isentropic flow, choked below about half the pressure
before it."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sanitize.laws.injector.geometry import Mask, Values

HEAT_RATIO = 1.4
"""Ratio of heats of air and oxygen (standard value of a diatomic gas)."""
CRITICAL_HOLE_RATIO = (2.0 / (HEAT_RATIO + 1.0)) ** (HEAT_RATIO / (HEAT_RATIO - 1.0))
"""Pressure behind over pressure before the hole at which it chokes, 0.528."""

_POWER = 2.0 / (HEAT_RATIO - 1.0)
_COOLEST = _POWER / (_POWER + 1.0)
_MOST = _COOLEST**_POWER * (1.0 - _COOLEST)
_NEWTON_STEPS = 6
_EXPONENT = HEAT_RATIO / (HEAT_RATIO - 1.0)
_PER_TARGET_AT_REST = -_EXPONENT

Floats = NDArray[np.float64]


class HoleFlow(NamedTuple):
    """Gas flow through the hole at the air's own state [m3/s], and its slope with the pressure before it."""

    flow_m3s: Values
    per_upstream_m3s_pa: Values


def hole_flow(
    upstream_pa_abs: Values,
    port_pa_abs: Values,
    hole_m2: Values,
    atmosphere_pa_abs: Values,
    density_kgm3: Values,
) -> HoleFlow:
    """Gas flow through the port's hole.

    Parameters
    ----------
    upstream_pa_abs : float or array
        pu before the hole [Pa absolute].
    port_pa_abs : float or array
        po behind it [Pa absolute].
    hole_m2 : float or array
        Discharge coefficient times area, finite [m2].
    atmosphere_pa_abs, density_kgm3 : float or array
        State to which the flow is referred, at the temperature before the hole [Pa absolute], [kg/m3].

    Returns
    -------
    HoleFlow
        q [m3/s] at that state, 0 where po is not below pu, and dq/dpu [m3/(s Pa)].

    Raises
    ------
    Nothing.

    Notes
    -----
    q = S (pu/p_atm) sqrt(2k/(k - 1) (p_atm/rho) x^n (1 - x)), x = max((po/pu)^((k-1)/k), 2/(k + 1)), n =
    2/(k - 1), k = 1.4. Choked below po/pu = 0.528: 11.92 L/min per mm2 of S at 20 degC and pu = p_atm.
    Validity: ideal gas of constant heats.

    References
    ----------
    Ideal-gas nozzle flow, a textbook result derived here.

    Examples
    --------
    >>> float(hole_flow(101325.0, 40e3, 1e-6, 101325.0, 1.2041).flow_m3s) * 60e3
    11.92
    """
    flows = np.greater(upstream_pa_abs, np.maximum(port_pa_abs, 0.0))
    upstream = np.where(flows, upstream_pa_abs, 1.0)
    ratio = np.where(flows, np.maximum(port_pa_abs, 0.0), 0.5) / upstream
    warm = ratio ** ((HEAT_RATIO - 1.0) / HEAT_RATIO)
    is_choked = warm <= _COOLEST
    x = np.where(is_choked, _COOLEST, warm)
    shape = np.where(flows, np.maximum(x**_POWER * (1.0 - x), 0.0), 0.0)
    scale = (
        hole_m2 / atmosphere_pa_abs * np.sqrt(2.0 * HEAT_RATIO / (HEAT_RATIO - 1.0) * atmosphere_pa_abs / density_kgm3)
    )
    root = np.sqrt(shape)
    has_root = root > 0.0
    bend = x**_POWER * ((_POWER + 1.0) * x - _POWER) * (HEAT_RATIO - 1.0) / HEAT_RATIO
    rise = np.where(is_choked | ~has_root, 0.0, bend / (2.0 * np.where(has_root, root, 1.0)))
    return HoleFlow((scale * upstream * root)[()], (scale * (root + np.where(flows, rise, 0.0)))[()])


class HoleOutlet(NamedTuple):
    """Pressure behind the hole, its slopes with the pressure before it and the flow, and whether the flow
    passes."""

    pa_abs: Values
    per_upstream: Values
    per_flow_pa_sm3: Values
    is_passable: Mask


def hole_outlet(
    upstream_pa_abs: Values,
    flow_m3s: Values,
    hole_m2: Values,
    atmosphere_pa_abs: Values,
    density_kgm3: Values,
) -> HoleOutlet:
    """Pressure behind the port's hole for a gas flow, the inverse of `hole_flow`.

    Parameters
    ----------
    upstream_pa_abs : float or array
        pu before the hole [Pa absolute].
    flow_m3s : float or array
        q at the air's own state, not negative [m3/s].
    hole_m2 : float or array
        Discharge coefficient times area, np.inf where there is no hole [m2].
    atmosphere_pa_abs, density_kgm3 : float or array
        State to which the flow is referred [Pa absolute], [kg/m3].

    Returns
    -------
    HoleOutlet
        po [Pa absolute], slopes [-] and [Pa s/m3], and a mask. Where the mask is false no pressure behind
        the hole, however low, passes the flow; the pressure returned is then that at which the hole chokes,
        0.528 pu.

    Raises
    ------
    Nothing.

    Notes
    -----
    x^n (1 - x) = q^2 rho p_atm (k - 1)/(2 k)/(S pu)^2 by Newton's method from a guess exact at both ends;
    po = pu x^(k/(k-1)). Slopes grow without bound at the choke and are cut there.
    Validity: as `hole_flow`.

    References
    ----------
    As `hole_flow`.

    Examples
    --------
    >>> float(hole_outlet(101325.0, 5 / 60e3, 1e-6, 101325.0, 1.2041).pa_abs)
    96940.86
    """
    has_gas = np.greater(upstream_pa_abs, 0.0)
    upstream = np.where(has_gas, upstream_pa_abs, 1.0)
    factor = density_kgm3 * atmosphere_pa_abs * (HEAT_RATIO - 1.0) / (2.0 * HEAT_RATIO) / (hole_m2 * upstream) ** 2
    wanted = np.asarray(factor * flow_m3s**2)
    is_passable = has_gas & (wanted <= _MOST)
    target = np.where(is_passable, wanted, _MOST)
    ratio, per_target = np.ones_like(target), np.full_like(target, _PER_TARGET_AT_REST)
    takes = target > 0.0
    if takes.any():
        ratio[takes], per_target[takes] = _ratio_behind(target[takes])
    per_flow = upstream * per_target * 2.0 * factor * flow_m3s
    per_upstream = ratio - 2.0 * per_target * target
    return HoleOutlet(
        np.where(has_gas, upstream * ratio, 0.0)[()],
        np.where(is_passable, per_upstream, ratio)[()],
        np.where(is_passable, per_flow, 0.0)[()],
        is_passable[()],
    )


def _ratio_behind(target: Floats) -> tuple[Floats, Floats]:
    """Pressure behind over pressure before the hole where x^n (1 - x) has a value, and its slope with that."""
    widest = 1.0 - _COOLEST
    cooling = widest * (1.0 - np.sqrt(np.maximum(1.0 - target / _MOST, 0.0)))
    for _ in range(_NEWTON_STEPS):
        miss = (1.0 - cooling) ** _POWER * cooling - target
        slope = (1.0 - cooling) ** (_POWER - 1.0) * (1.0 - (_POWER + 1.0) * cooling)
        is_rising = slope > 0.0
        cooling = np.clip(cooling - miss / np.where(is_rising, slope, 1.0) * is_rising, 0.0, widest)
    x = 1.0 - cooling
    slope = np.maximum(x ** (_POWER - 1.0) * (1.0 - (_POWER + 1.0) * cooling), 1e-9)
    return x**_EXPONENT, -_EXPONENT * x ** (_EXPONENT - 1.0) / slope
