"""A pump's head over its flow: fitted to a few points once, then evaluated for arrays of cases.

The fitted head is defined and never rises anywhere: backwards, over the points, and past them, where it becomes a
resistance below zero head.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import GRAVITY_MS2

Kind = Literal["rated point", "parabola", "power", "least squares", "monotone cubic"]

SHUT_OFF_OVER_RATED_RATIO = 4.0 / 3.0
RUN_OUT_OVER_RATED_RATIO = 2.0
SMALLEST_EXPONENT_RATIO = 1.0
LARGEST_EXPONENT_RATIO = 4.0
BACKWARD_SLOPE_RATIO = 0.1
"""Rise of the head for backward flow, in shut-off heads per run-out flow: an estimate that keeps it monotone."""


@dataclass(frozen=True, slots=True)
class PumpCurve:
    """A fitted pump curve at full speed.

    kind : how it was fitted.
    shut_off_head_m : head at no flow [m].
    run_out_flow_m3s : flow at which the head has fallen to zero [m3/s].
    last_point_flow_m3s : up to here the curve is known; past it goes on straight [m3/s].
    end_slope_m_per_m3s : slope past the last point, below 0 [m/(m3/s)].
    backward_slope_m_per_m3s : slope for backward flow, below 0 [m/(m3/s)].
    drop_m, exponent : of H = shut-off - drop (Q / Q_last)^exponent [m], [-]; not read for a monotone cubic.
    knots_m3s, pieces : of a monotone cubic: where its pieces begin, and the four coefficients of each, highest
        power of (Q - knot) first [m/(m3/s)^power].
    """

    kind: Kind
    shut_off_head_m: float
    run_out_flow_m3s: float
    last_point_flow_m3s: float
    end_slope_m_per_m3s: float
    backward_slope_m_per_m3s: float
    drop_m: float = 0.0
    exponent: float = 2.0
    knots_m3s: tuple[float, ...] = ()
    pieces: tuple[tuple[float, float, float, float], ...] = ()


def fit_pump_curve(flows_m3s: ArrayLike, heads_m: ArrayLike) -> PumpCurve:
    """The curve through or nearest to a pump's stated points.

    Parameters
    ----------
    flows_m3s : array, shape (points,)
        Flows in any order, 0 or more [m3/s].
    heads_m : array, shape (points,)
        Head at each flow, 0 or more [m].

    Returns
    -------
    PumpCurve
        The fit, for `pump_head`.

    Raises
    ------
    ValueError
        If there is no point, a number is negative or not a number, a flow is repeated, the head rises with the
        flow, the head does not fall towards the last point, or a single point has no flow or no head.

    Notes
    -----
    One point (Qr, Hr): H = 4/3 Hr - 1/3 Hr (Q/Qr)^2, known up to 2 Qr, where the head is zero.
    Two points: the parabola H = A - B Q^2.
    Three points, one at no flow: H = A - B Q^C, C = ln((h0 - h2) / (h0 - h1)) / ln(q2 / q1), if 1 <= C <= 4.
    Three other points: least squares of A - B Q^2.
    Four or more: cubic pieces with the slopes of Fritsch and Butland, which never overshoot the points; where none
    stands at no flow, one is added there, on the parabola through the first two points but at no more than 4/3
    of the first head (an estimate).
    Past the last point the curve goes on straight with its end slope; a monotone cubic takes the steeper of its own
    end slope and that of its last interval.
    The sources give no range; a curve holds between its first and last point.

    References
    ----------
    water_network_manual, read through another, for one point and three; fritsch_butland_1984, from memory, for
    the cubic.

    Examples
    --------
    Head of 4.4, 3.5 and 1.6 m at 0, 25 and 42 L/min:

    >>> curve = fit_pump_curve([0.0, 25 / 60e3, 42 / 60e3], [4.4, 3.5, 1.6])
    >>> curve.kind, curve.exponent
    ('power', 2.18773)
    >>> head, slope = pump_head(curve, 35 / 60e3)
    >>> float(head)
    2.52
    """
    flows, heads = _checked(flows_m3s, heads_m)
    if flows.size == 1:
        flow, head = float(flows[0]), float(heads[0])
        return _power_curve(
            "rated point",
            SHUT_OFF_OVER_RATED_RATIO * head,
            SHUT_OFF_OVER_RATED_RATIO * head,
            2.0,
            RUN_OUT_OVER_RATED_RATIO * flow,
        )
    if flows.size >= 4:
        return _cubic_curve(flows, heads)
    last = float(flows[-1])
    if flows.size == 3 and flows[0] == 0.0 and heads[0] > heads[1]:
        falls = heads[0] - heads
        exponent = float(np.log(falls[2] / falls[1]) / np.log(flows[2] / flows[1]))
        if SMALLEST_EXPONENT_RATIO <= exponent <= LARGEST_EXPONENT_RATIO:
            return _power_curve("power", float(heads[0]), float(falls[2]), exponent, last)
    squares = (flows / last) ** 2
    from_mean = squares - squares.mean()
    drop = float(-(from_mean @ heads) / (from_mean @ from_mean))
    shut_off = float(heads.mean() + drop * squares.mean())
    return _power_curve("parabola" if flows.size == 2 else "least squares", shut_off, drop, 2.0, last)


def pump_head(
    curve: PumpCurve, flow_m3s: ArrayLike, speed_ratio: ArrayLike = 1.0, head_factor: ArrayLike = 1.0
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Head of a pump at any flow and speed, and its slope.

    Parameters
    ----------
    curve : PumpCurve
        The result of `fit_pump_curve`.
    flow_m3s : float or array
        Volume flow, negative backwards [m3/s].
    speed_ratio : float or array, broadcasting
        Speed over that of the curve, above 0 [-].
    head_factor : float or array, broadcasting
        What the head is multiplied by at equal flow, for a pump weaker than its label [-].

    Returns
    -------
    (head_m, slope_m_per_m3s), arrays of the broadcast shape
        Head [m], below 0 past the run-out flow, and its derivative with the flow, never above 0 [m/(m3/s)].

    Raises
    ------
    ValueError
        If a speed is not above 0.

    Notes
    -----
    H(Q, s) = factor s^2 H(Q / s), the affinity laws (Q ~ s, H ~ s^2).
    A factor at equal flow is a judgement: it leaves the run-out flow as it is. Worn clearances let Q_leak ~ sqrt(H)
    past the impeller, and a slower or smaller impeller follows the affinity laws; either takes from the run-out flow
    too. Where a pump runs, at 0.35 to 0.75 of its run-out flow, all three that give the same head at the old flow meet
    a loop within 1 % of each other's flow with 0.8 of the head left, within 4 % with 0.6, far less than the factor is
    known to; near the run-out flow the factor flatters.
    Backwards the head rises gently above shut-off, by a tenth of it per run-out flow (an estimate).
    The source gives no range; the laws hold for the same impeller near the rated speed.

    References
    ----------
    crane_tp410_2009, example 7-33, read through another; nelik_2016 for the leak of worn clearances.

    Examples
    --------
    At five sixths of the speed the flow falls with it and the head with its square:

    >>> curve = fit_pump_curve([0.0, 60 / 60e3], [5.0, 0.0])
    >>> head, _ = pump_head(curve, 25 / 60e3, speed_ratio=50 / 60)
    >>> float(head)
    2.604
    """
    speed = np.asarray(speed_ratio, dtype=np.float64)
    if not np.all(speed > 0.0):
        raise ValueError("a pump's speed must be above 0")
    full_flow = np.asarray(flow_m3s, dtype=np.float64) / speed
    last = curve.last_point_flow_m3s
    inside = np.clip(full_flow, 0.0, last)
    if curve.knots_m3s:
        head, slope = _cubic(curve, inside)
    else:
        fraction = inside / last
        per_fraction = curve.drop_m * fraction ** (curve.exponent - 1.0)
        head = curve.shut_off_head_m - per_fraction * fraction
        slope = per_fraction * (-curve.exponent / last)
    beyond, backward = full_flow > last, full_flow < 0.0
    straight = np.where(backward, curve.backward_slope_m_per_m3s, curve.end_slope_m_per_m3s)
    head = head + straight * (full_flow - inside)
    slope = np.where(beyond | backward, straight, slope)
    strength = np.asarray(head_factor, dtype=np.float64) * speed
    return np.asarray(head * (strength * speed)), np.asarray(slope * strength)


def hydraulic_power_w(flow_m3s: ArrayLike, head_m: ArrayLike, density_kgm3: ArrayLike) -> NDArray[np.float64]:
    """Power that a pump gives to the water.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow [m3/s].
    head_m : float or array, broadcasting
        Head [m].
    density_kgm3 : float or array, broadcasting
        Density of the water [kg/m3].

    Returns
    -------
    array of the broadcast shape
        Power [W]; negative where the water drives the pump.

    Raises
    ------
    Nothing.

    Notes
    -----
    P = rho g Q H, exact for any flow.

    References
    ----------
    None: work done on the water per second.

    Examples
    --------
    >>> float(hydraulic_power_w(40 / 60e3, 2.5, 999.7))
    16.34
    """
    flow = np.asarray(flow_m3s, dtype=np.float64)
    head = np.asarray(head_m, dtype=np.float64)
    return np.asarray(np.asarray(density_kgm3, dtype=np.float64) * GRAVITY_MS2 * flow * head)


def _checked(flows_m3s: ArrayLike, heads_m: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The points in the order of their flows, refused where no pump has them."""
    flows = np.asarray(flows_m3s, dtype=np.float64)
    heads = np.asarray(heads_m, dtype=np.float64)
    if flows.ndim != 1 or flows.shape != heads.shape or flows.size == 0:
        raise ValueError("a pump curve needs one point or more, each with a flow and a head")
    if not (np.all(np.isfinite(flows)) and np.all(np.isfinite(heads))):
        raise ValueError("a pump curve needs finite flows and heads")
    if np.any(flows < 0.0) or np.any(heads < 0.0):
        raise ValueError("a pump curve has no negative flow and no negative head")
    order = np.argsort(flows)
    flows, heads = flows[order], heads[order]
    if np.any(np.diff(flows) == 0.0):
        raise ValueError("a pump curve has one head for each flow, but a flow is repeated")
    if flows.size == 1 and (flows[0] == 0.0 or heads[0] == 0.0):
        raise ValueError(
            "a single point of a pump curve needs a flow and a head above 0; a shut-off head is not enough"
        )
    if np.any(np.diff(heads) > 0.0):
        raise ValueError("a pump's head falls as the flow grows, but this curve rises")
    if flows.size > 1 and heads[-1] == heads[-2]:
        raise ValueError("a pump's head must fall towards the last point, but the last two heads are equal")
    return flows, heads


def _power_curve(kind: Kind, shut_off: float, drop: float, exponent: float, last: float) -> PumpCurve:
    """H = shut_off - drop (Q / last)^exponent up to `last`, then straight on."""
    end_slope = -drop * exponent / last
    end_head = shut_off - drop
    run_out = last * (shut_off / drop) ** (1.0 / exponent) if end_head <= 0.0 else last - end_head / end_slope
    return PumpCurve(
        kind=kind,
        shut_off_head_m=shut_off,
        run_out_flow_m3s=run_out,
        last_point_flow_m3s=last,
        end_slope_m_per_m3s=end_slope,
        backward_slope_m_per_m3s=-BACKWARD_SLOPE_RATIO * shut_off / run_out,
        drop_m=drop,
        exponent=exponent,
    )


def _cubic_curve(flows: NDArray[np.float64], heads: NDArray[np.float64]) -> PumpCurve:
    """Cubic pieces that keep to the points, then straight on."""
    from scipy.interpolate import PchipInterpolator

    if flows[0] > 0.0:
        first, second = flows[0] ** 2, flows[1] ** 2
        parabola = heads[0] + (heads[0] - heads[1]) * first / (second - first)
        flows = np.concatenate(([0.0], flows))
        heads = np.concatenate(([min(parabola, SHUT_OFF_OVER_RATED_RATIO * heads[0])], heads))
    fit = PchipInterpolator(flows, heads)
    last_interval = (heads[-1] - heads[-2]) / (flows[-1] - flows[-2])
    end_slope = float(min(fit(flows[-1], 1), last_interval))
    run_out = float(flows[-1] - heads[-1] / end_slope)
    return PumpCurve(
        kind="monotone cubic",
        shut_off_head_m=float(heads[0]),
        run_out_flow_m3s=run_out,
        last_point_flow_m3s=float(flows[-1]),
        end_slope_m_per_m3s=end_slope,
        backward_slope_m_per_m3s=-BACKWARD_SLOPE_RATIO * float(heads[0]) / run_out,
        knots_m3s=tuple(float(flow) for flow in flows[:-1]),
        pieces=tuple((float(a), float(b), float(c), float(d)) for a, b, c, d in fit.c.T),
    )


def _cubic(curve: PumpCurve, flow: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Head and slope of the cubic piece in which each flow lies."""
    knots = np.array(curve.knots_m3s)
    piece = np.searchsorted(knots, flow, side="right") - 1
    third, second, first, start = np.array(curve.pieces).T[:, piece]
    q = flow - knots[piece]
    head = start + q * (first + q * (second + q * third))
    slope = first + q * (2.0 * second + q * (3.0 * third))
    return np.asarray(head), np.minimum(slope, 0.0)  # rounding can lift a flat spot above 0


def power_at_speed_w(power_w: ArrayLike, speed_ratio: ArrayLike) -> NDArray[np.float64]:
    """Power of a pump at another speed.

    Parameters
    ----------
    power_w : float or array
        Power at the speed of its curve [W].
    speed_ratio : float or array, broadcasting
        Speed over that of the curve, above 0 [-].

    Returns
    -------
    array of the broadcast shape
        Power [W].

    Raises
    ------
    ValueError
        If a power is negative or a speed is not above 0.

    Notes
    -----
    P ~ s^3, the third of the affinity laws; for the same flow over the speed (Q ~ s), and efficiencies that do not
    change: small motors save less.
    The source gives no range; the laws hold for the same impeller near the rated speed.

    References
    ----------
    crane_tp410_2009, example 7-33, read through another.

    Examples
    --------
    Half the speed takes an eighth of the power, twice the time for the same volume, a quarter of the energy:

    >>> float(power_at_speed_w(80.0, 0.5))
    10.0
    """
    power, speed = np.asarray(power_w, dtype=np.float64), np.asarray(speed_ratio, dtype=np.float64)
    if not (np.all(power >= 0.0) and np.all(speed > 0.0)):
        raise ValueError("a pump at another speed needs a power of 0 or more and a speed above 0")
    return np.asarray(power * speed**3)
