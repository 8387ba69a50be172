"""Friction of water in a round pipe, from rest through the transition to turbulent flow.

Everything here works on the head number f Re^2, which is the pressure loss without its pipe:
it is finite and linear at rest, grows strictly with the flow, and its derivative is the solver's slope.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

LAMINAR_END_RE = 2000.0
TURBULENT_START_RE = 4000.0
ROUGHEST_RATIO = 0.05
_LN2 = float(np.log(2.0))
_PER_LOG = float(2.0 / np.log(10.0))
_COLEBROOK = 2.51


class Bridge(NamedTuple):
    """What the friction law needs to know of a pipe's wall, worked out once per pipe.

    roughness_term : roughness / (3.7 bore), Colebrook's.
    haaland_term : the same to the power 1.11, for the first guess.
    quadratic, cubic : the last two coefficients of the bridge, a cubic in log2(Re / 2000).
    """

    roughness_term: NDArray[np.float64]
    haaland_term: NDArray[np.float64]
    quadratic: NDArray[np.float64]
    cubic: NDArray[np.float64]


def transition(relative_roughness: ArrayLike) -> Bridge:
    """The constants of the bridge between laminar and turbulent friction, once per pipe.

    Parameters
    ----------
    relative_roughness : float or array, any shape
        Wall roughness over bore [-].

    Returns
    -------
    Bridge
        Arrays of the same shape, for `friction_factor` and `pipe_loss`.

    Raises
    ------
    ValueError
        If a relative roughness lies outside 0 to 0.05, the span of the Moody chart.

    Notes
    -----
    Between Re 2000 and 4000, ln(f Re^2) is a cubic Hermite polynomial in ln Re.
    It meets 64/Re at 2000 and Colebrook at 4000 in value and in slope.
    With x4 = 1/sqrt(f) at Re 4000, s4 = e/(3.7 D) + 2.51 x4 / 4000 and c = 2.51 / (4000 s4), the local
    exponent of Colebrook's loss at Re 4000 is n = 2 / (1 + a c), a = 2 / ln 10.
    The law of the transition is not known; this curve is a choice of this project (an estimate).

    References
    ----------
    colebrook_1939, moody_1944, from memory.

    Examples
    --------
    >>> bridge = transition(0.0)
    >>> float(friction_factor(3000.0, 0.0, bridge))
    0.035279
    """
    ratio = np.asarray(relative_roughness, dtype=np.float64)
    if not np.all((ratio >= 0.0) & (ratio <= ROUGHEST_RATIO)):
        raise ValueError(f"roughness over bore must lie between 0 and {ROUGHEST_RATIO:g}")
    roughness_term = ratio / 3.7
    haaland_term = roughness_term**1.11
    end, end_per_re = _turbulent(np.full(ratio.shape, TURBULENT_START_RE), roughness_term, haaland_term)
    rise = np.log(end / (64.0 * LAMINAR_END_RE))
    start_slope = _LN2
    end_slope = _LN2 * TURBULENT_START_RE * end_per_re / end
    return Bridge(
        roughness_term,
        haaland_term,
        np.asarray(3.0 * rise - 2.0 * start_slope - end_slope),
        np.asarray(start_slope + end_slope - 2.0 * rise),
    )


def friction_factor(
    reynolds: ArrayLike, relative_roughness: ArrayLike, bridge: Bridge | None = None
) -> NDArray[np.float64]:
    """Darcy friction factor of a round pipe, continuous through the transition.

    Parameters
    ----------
    reynolds : float or array
        Reynolds number on the bore, above 0 [-].
    relative_roughness : float or array, broadcasting
        Wall roughness over bore [-]; not read where `bridge` is given.
    bridge : Bridge, optional
        The result of `transition` for the same roughness, where it is at hand.

    Returns
    -------
    array of the broadcast shape
        Darcy friction factor [-].

    Raises
    ------
    ValueError
        If a Reynolds number is not above 0 (f has no value at rest; `pipe_loss` has), or the roughness is
        outside 0 to 0.05.

    Notes
    -----
    Re <= 2000: f = 64 / Re.
    Re >= 4000: Colebrook and White, 1/sqrt(f) = -2 log10(e/(3.7 D) + 2.51 / (Re sqrt(f))), from Haaland's
    guess by two Newton steps, within 1e-10 of the exact root.
    Between: see `transition`.
    Range as White's book prints it for the Moody chart: smooth to e/D 0.05, Re 4000 to 1e8.

    References
    ----------
    colebrook_1939, moody_1944 and haaland_1983 from memory; white_fluid_mechanics_4e for the range.

    Examples
    --------
    White, Fluid Mechanics, example 6.9 prints 0.0198 for Re 274 900 and e/D 0.0008:

    >>> float(friction_factor(274_900.0, 0.0008))
    0.0198
    """
    re = np.asarray(reynolds, dtype=np.float64)
    if not np.all(re > 0.0):
        raise ValueError("the friction factor needs a Reynolds number above 0")
    head, _ = _head_number(re, transition(relative_roughness) if bridge is None else bridge)
    return np.asarray(head / (re * re))


def friction_band(
    reynolds: ArrayLike, relative_roughness: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Low and high friction factor where the flow may be laminar or turbulent.

    Parameters
    ----------
    reynolds : float or array
        Reynolds number on the bore, above 0 [-].
    relative_roughness : float or array, broadcasting
        Wall roughness over bore [-].

    Returns
    -------
    (low, high), arrays of the broadcast shape
        Darcy friction factors [-]; both equal `friction_factor` outside 2000 < Re < 4000.

    Raises
    ------
    ValueError
        As `friction_factor`.

    Notes
    -----
    Inside: low = max(64/Re, 0.7 f), high = max(f, Colebrook's f at that Re).
    The width is this project's judgement (an estimate); the source gives no range.

    References
    ----------
    colebrook_1939, from memory, for the upper edge.

    Examples
    --------
    >>> low, high = friction_band(2500.0, 0.0)
    >>> float(low), float(high)
    (0.0256, 0.0461)
    """
    re = np.asarray(reynolds, dtype=np.float64)
    bridge = transition(relative_roughness)
    nominal = friction_factor(re, relative_roughness, bridge)
    uncertain = (re > LAMINAR_END_RE) & (re < TURBULENT_START_RE)
    re_inside = np.where(uncertain, re, TURBULENT_START_RE)
    turbulent, _ = _turbulent(re_inside, bridge.roughness_term, bridge.haaland_term)
    low = np.where(uncertain, np.maximum(64.0 / re_inside, 0.7 * nominal), nominal)
    high = np.where(uncertain, np.maximum(nominal, turbulent / (re_inside * re_inside)), nominal)
    return low, high


def pipe_loss(
    flow_m3s: ArrayLike,
    bore_m: ArrayLike,
    length_m: ArrayLike,
    roughness_m: ArrayLike,
    density_kgm3: ArrayLike,
    viscosity_pas: ArrayLike,
    multiplier: ArrayLike = 1.0,
    bridge: Bridge | None = None,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Friction loss of a straight round pipe and its slope, for either direction of flow.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow, negative backwards [m3/s].
    bore_m, length_m : float or array, broadcasting
        Inside diameter and length of the pipe [m].
    roughness_m : float or array, broadcasting
        Equivalent sand roughness of the wall [m]; not read where `bridge` is given.
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].
    viscosity_pas : float or array, broadcasting
        Dynamic viscosity of the water [Pa s].
    multiplier : float or array, broadcasting
        What the friction factor is multiplied by at every Reynolds number, as for a ribbed hose [-].
    bridge : Bridge, optional
        The result of `transition(roughness_m / bore_m)`, worked out once where many flows follow.

    Returns
    -------
    (loss_pa_diff, slope_pa_per_m3s), arrays of the broadcast shape
        Pressure loss in the direction of positive flow [Pa], odd in the flow, and its derivative with the
        flow [Pa s/m3], above 0 for every flow of a pipe with length.

    Raises
    ------
    ValueError
        If the relative roughness lies outside 0 to 0.05 (only where `bridge` is not given).

    Notes
    -----
    loss = f (L/D) rho V^2 / 2 = f Re^2 mu^2 L / (2 rho D^3), with f of `friction_factor`.
    At rest the slope is Poiseuille's, 128 mu L / (pi D^4).

    References
    ----------
    As `friction_factor`; the equation of Darcy and Weisbach as in white_fluid_mechanics_4e.

    Examples
    --------
    Ten metres of 1 in pipe, 40 L/min of water at 10 degC:

    >>> loss, slope = pipe_loss(40 / 60_000, 0.02624, 10.0, 1.5e-6, 999.70, 1.306e-3)
    >>> float(loss)
    7155.8
    >>> standing, slope = pipe_loss(0.0, 0.02624, 10.0, 1.5e-6, 999.70, 1.306e-3)
    >>> float(standing), float(slope)
    (0.0, 1.122e6)
    """
    flow = np.asarray(flow_m3s, dtype=np.float64)
    bore = np.asarray(bore_m, dtype=np.float64)
    density = np.asarray(density_kgm3, dtype=np.float64)
    viscosity = np.asarray(viscosity_pas, dtype=np.float64)
    if bridge is None:
        bridge = transition(np.asarray(roughness_m, dtype=np.float64) / bore)
    re_per_flow = 4.0 * density / (np.pi * bore * viscosity)
    loss_per_head = (
        np.asarray(length_m, dtype=np.float64)
        * np.asarray(multiplier, dtype=np.float64)
        * (0.5 * viscosity * viscosity / (density * bore * bore * bore))
    )
    re = np.empty(np.broadcast(flow, re_per_flow, loss_per_head, bridge.quadratic).shape)
    np.multiply(np.abs(flow), re_per_flow, out=re)
    loss, slope = _head_number(re, bridge)
    loss *= loss_per_head
    slope *= loss_per_head
    slope *= re_per_flow
    return np.copysign(loss, flow, out=loss), slope


def _head_number(re: NDArray[np.float64], bridge: Bridge) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The head number f Re^2 and its derivative with Re, for Re from 0 up."""
    turbulent = np.maximum(re, TURBULENT_START_RE)
    head, slope = _turbulent(turbulent, bridge.roughness_term, bridge.haaland_term)
    re, quadratic, cubic = np.broadcast_arrays(re, bridge.quadratic, bridge.cubic)
    laminar = re <= LAMINAR_END_RE
    bridged = (re < TURBULENT_START_RE) & ~laminar
    re_in, quadratic_in, cubic_in = re[bridged], quadratic[bridged], cubic[bridged]
    t = np.log(re_in / LAMINAR_END_RE) / _LN2
    head_in = 64.0 * LAMINAR_END_RE * np.exp(t * (_LN2 + t * (quadratic_in + t * cubic_in)))
    head[bridged] = head_in
    slope[bridged] = head_in * (_LN2 + t * (2.0 * quadratic_in + t * 3.0 * cubic_in)) / (_LN2 * re_in)
    np.multiply(re, 64.0, out=head, where=laminar)
    np.copyto(slope, 64.0, where=laminar)
    return head, slope


def _turbulent(
    re: NDArray[np.float64], roughness_term: NDArray[np.float64], haaland_term: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The head number of Colebrook and White and its derivative with Re, for turbulent Re.

    x = 1/sqrt(f) solves x + a ln(s) = 0 with s = roughness_term + 2.51 x / Re.
    Written in place, because fresh arrays of this size cost more than the arithmetic.
    """
    viscous = np.asarray(1.0 / re)
    x = np.asarray(6.9 * viscous + haaland_term)
    np.log(x, out=x)
    x *= -0.9 * _PER_LOG
    viscous *= _COLEBROOK
    inner, step = np.empty_like(x), np.empty_like(x)
    for _ in range(2):
        np.multiply(viscous, x, out=inner)
        inner += roughness_term
        np.log(inner, out=step)
        step *= _PER_LOG
        step += x
        np.divide(viscous, inner, out=inner)
        inner *= _PER_LOG
        inner += 1.0
        step /= inner
        x -= step
    np.multiply(viscous, x, out=inner)
    inner += roughness_term
    np.divide(viscous, inner, out=inner)
    inner *= _PER_LOG
    inner += 1.0
    np.divide(re, x, out=x)
    np.divide(2.0 * x, inner, out=step)
    step *= x
    step /= re
    x *= x
    return x, step
