"""When an injector begins to draw, and when more flow stops it."""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.geometry import Mask, Values

RULE_OF_THUMB_RATIO = 0.20
"""Differential over inlet gauge pressure in the trade's rule of thumb (common practice)."""


def draws_dry(port_dry_pa_abs: Values, atmosphere_pa_abs: Values, cracking_pa_diff: Values) -> Mask:
    """Whether gas begins to move: the closed port stands below the atmosphere less the check valve's opening.

    Parameters
    ----------
    port_dry_pa_abs : float or array
        po with no gas flowing [Pa absolute].
    atmosphere_pa_abs : float or array
        Local [Pa absolute].
    cracking_pa_diff : float or array
        pc [Pa], with rho g h of any water that stands in the gas line added.

    Returns
    -------
    bool or array of the broadcast shape
        True where it draws.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: po < p_atm - pc; friction of the gas line has no part in it.
    Validity: exact.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> bool(draws_dry(98e3, 101e3, 1.5e3)), bool(draws_dry(100e3, 101e3, 1.5e3))
    (True, False)
    """
    return np.less(port_dry_pa_abs, atmosphere_pa_abs - cracking_pa_diff)


def required_differential_pa_diff(loss_ratio: Values, inlet_pa_gauge: Values, cracking_pa_diff: Values) -> Values:
    """Drop over the injector from which it draws.

    Parameters
    ----------
    loss_ratio : float or array
        xi [-].
    inlet_pa_gauge : float or array
        p1 [Pa gauge].
    cracking_pa_diff : float or array
        pc [Pa].

    Returns
    -------
    float or array of the broadcast shape
        The static p1 - p2 at which suction starts [Pa difference].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: p1 - p2 = xi (p1g + pc), from po = p1 - (p1 - p2)/xi = p_atm - pc.
    Validity: dry, above the vapour floor, xi > 0.

    References
    ----------
    Derived here; with pc = 0 the ratio to p1g is xi itself, which the rule of thumb puts at about 20 %.

    Examples
    --------
    >>> required_differential_pa_diff(0.24, 60e3, 1.5e3)
    14760.0
    """
    return loss_ratio * (inlet_pa_gauge + cracking_pa_diff)


def outlet_pressure_limit_pa_gauge(loss_ratio: Values, inlet_pa_gauge: Values, cracking_pa_diff: Values) -> Values:
    """Outlet pressure up to which the injector draws at the inlet pressure it has.

    Parameters
    ----------
    loss_ratio : float or array
        xi [-].
    inlet_pa_gauge : float or array
        p1 with the gas port closed [Pa gauge].
    cracking_pa_diff : float or array
        pc [Pa].

    Returns
    -------
    float or array of the broadcast shape
        The largest p2 [Pa gauge].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: p2g = (1 - xi) p1g - xi pc.
    Validity: as `required_differential_pa_diff`.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> outlet_pressure_limit_pa_gauge(0.24, 60e3, 1.5e3)
    45240.0
    """
    return (1.0 - loss_ratio) * inlet_pa_gauge - loss_ratio * cracking_pa_diff


def rule_of_thumb_differential_pa_diff(inlet_pa_gauge: Values) -> Values:
    """Drop over the injector that the trade's rule of thumb asks for.

    Parameters
    ----------
    inlet_pa_gauge : float or array
        p1 [Pa gauge].

    Returns
    -------
    float or array of the broadcast shape
        0.20 p1g [Pa difference].

    Raises
    ------
    Nothing.

    Notes
    -----
    Validity: the rule gives no range; permanent losses published for venturis imply 10 to 30 %.

    References
    ----------
    Common practice; no primary source was read.

    Examples
    --------
    >>> rule_of_thumb_differential_pa_diff(60e3)
    12000.0
    """
    return RULE_OF_THUMB_RATIO * inlet_pa_gauge


class FlowWindow(NamedTuple):
    """The flows at which an injector draws: above `onset_m3s` and below `stops_m3s`.

    Never: both infinite. At any flow: 0 and infinite. Only below a flow: 0 and that flow.
    """

    onset_m3s: Values
    stops_m3s: Values


def flow_window(backpressure_pa_gauge: Values, recovery_pa_s2m6: Values, downstream_pa_s2m6: Values) -> FlowWindow:
    """Flows at which the injector draws, for a downstream side that is quadratic in the flow.

    Parameters
    ----------
    backpressure_pa_gauge : float or array
        s = rho g (z_surface - z_injector) for a submerged return, rho g (z_outlet - z_injector) for a
        free one, plus the check valve's opening [Pa gauge].
    recovery_pa_s2m6 : float or array
        k2 = (p2 - po)/Q^2 [Pa s2/m6].
    downstream_pa_s2m6 : float or array
        k_dn = (p2 - p_back)/Q^2 [Pa s2/m6].

    Returns
    -------
    FlowWindow
        Onset and upper limit [m3/s], with np.inf as described there.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: it draws where (k2 - k_dn) Q^2 > s. s > 0 and k2 > k_dn: above sqrt(s/(k2 - k_dn)). s >= 0 and
    k2 <= k_dn: never. s <= 0 and k2 >= k_dn otherwise: at any flow. s < 0 and k2 < k_dn: only below
    sqrt(s/(k2 - k_dn)).
    Validity: k_dn as it is at the flow in question (with real pipes it falls with the flow); above the vapour
    floor; the injector's own flow, not the pump's.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> window = flow_window(np.array([8e3, 8e3, -8e3, -8e3]), np.array([3e11, 1e11, 3e11, 1e11]), 2e11)
    >>> window.onset_m3s.tolist(), window.stops_m3s.tolist()
    ([0.000282842, inf, 0.0, 0.0], [inf, inf, inf, 0.000282842])
    """
    s, gain = np.broadcast_arrays(backpressure_pa_gauge, np.subtract(recovery_pa_s2m6, downstream_pa_s2m6))
    crosses = ((s > 0.0) & (gain > 0.0)) | ((s < 0.0) & (gain < 0.0))
    crossing = np.sqrt(np.abs(s)) / np.sqrt(np.where(crosses, np.abs(gain), 1.0))
    never = (s >= 0.0) & (gain <= 0.0)
    onset = np.where(never, np.inf, np.where(s > 0.0, crossing, 0.0))
    stops = np.where((s < 0.0) & (gain < 0.0), crossing, np.inf)
    return FlowWindow(onset[()], stops[()])
