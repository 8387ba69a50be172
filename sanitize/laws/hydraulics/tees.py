"""Tees of 90 degrees in which the water divides or meets: the loss of each leg by how it divides.

Every loss coefficient is one of total pressure on the velocity that the whole flow would have in the run's bore:
diverging legs lose on the way from the combined leg, converging ones on the way to it.
A negative one is a leg that gains energy from the other.
The pattern is read off the signs of the flows; A and C are the run's ends, B is the branch:
A into B and C is `diverging`, A and B into C `converging`, A and C into B `both_runs_into_branch`,
B into A and C `enters_by_branch`.
A share that lies outside 0 to 1, as an iteration may try, is taken as the nearer end, with slope 0.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.laws.hydraulics.tee_shift import LARGEST_SHIFT_RATIO, dissipation, limited_shift

Array = NDArray[np.float64]


class Leg(NamedTuple):
    """Loss coefficient of one leg [-] and its derivative with the share that the function was given [-]."""

    k: Array
    dk_dq: Array


class Legs(NamedTuple):
    """Branch and run of a tee, both by the branch's share."""

    branch: Leg
    run: Leg


def diverging(branch_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Legs:
    """Loss coefficients of branch and run where the run's water divides.

    Parameters
    ----------
    branch_ratio : float or array
        Flow of the branch over the combined flow, 0 to 1 [-].
    branch_area_ratio : float or array, broadcasting
        Area of the branch's bore over the run's, above 0 and up to 1 [-].
    shift : float or array, broadcasting
        Added to both, -0.3 to 0.3 [-]; below 0 it shrinks as `limited_shift` says.

    Returns
    -------
    Legs of arrays of the broadcast shape
        Branch and run, each K and dK/dq [-].

    Raises
    ------
    ValueError
        If an area ratio or a shift lies outside its span.

    Notes
    -----
    With q the branch's share and b2 the area ratio:
    branch G [1 + h (q/b2)^2], h = 1 for sqrt(b2) <= 2/3 and else 0.3, G = 1 + 0.3 q^2 for b2 > 2/3 and else 1;
    run M q^2, M = 0.4 for b2 <= 0.4, else 2 (2q - 1) up to q = 0.5 and 0.3 (2q - 1) above.
    The source gives no range for sharp tees of 90 degrees.

    References
    ----------
    crane_tp410_2009, through another; the span of the shift is an estimate.

    Examples
    --------
    >>> legs = diverging([0.1, 0.5, 0.9])
    >>> legs.branch.k.tolist(), legs.run.k.tolist()
    ([1.01, 1.16, 1.55], [-0.02, 0.0, 0.19])
    """
    q, inside, b2 = _share(branch_ratio, branch_area_ratio)
    per_speed = np.where(b2 <= 4.0 / 9.0, 1.0, 0.3) / (b2 * b2)
    widening = np.where(b2 > 2.0 / 3.0, 0.3, 0.0)
    outer, inner = 1.0 + widening * q * q, 1.0 + per_speed * q * q
    branch = Leg(outer * inner, 2.0 * q * (widening * inner + outer * per_speed))
    cubic = np.where(q <= 0.5, 2.0, 0.3)
    narrow = b2 <= 0.4
    run = Leg(
        np.where(narrow, 0.4 * q * q, cubic * q * q * (2.0 * q - 1.0)),
        np.where(narrow, 0.8 * q, cubic * q * (6.0 * q - 2.0)),
    )
    return _shifted(q, inside, branch, run, shift)


def converging(branch_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Legs:
    """Loss coefficients of branch and run where the branch's water joins the run's.

    Parameters
    ----------
    branch_ratio : float or array
        Flow of the branch over the combined flow, 0 to 1 [-].
    branch_area_ratio : float or array, broadcasting
        Area of the branch's bore over the run's, above 0 and up to 1 [-].
    shift : float or array, broadcasting
        Added to both, -0.3 to 0.3 [-]; below 0 it shrinks as `limited_shift` says.

    Returns
    -------
    Legs of arrays of the broadcast shape
        Branch and run, each K and dK/dq [-].

    Raises
    ------
    ValueError
        If an area ratio or a shift lies outside its span.

    Notes
    -----
    With q the branch's share and b2 the area ratio:
    branch C [1 + (q/b2)^2 - 2 (1 - q)^2], C = 1 for b2 <= 0.35 and else max(0.9 (1 - q), 0.55);
    run 1.55 q - q^2.
    Two changes keep it continuous: the source switches C at q = 0.4, where K would jump by 0.004; and below
    q = 0.1 the 0.9 grows by 0.1 - q, so that a branch at rest meets `diverging` (K of -1 and 1).
    The source gives no range for sharp tees of 90 degrees.

    References
    ----------
    crane_tp410_2009, through another; the two changes and the span of the shift are estimates.

    Examples
    --------
    >>> legs = converging([0.1, 0.5, 0.9])
    >>> legs.branch.k.tolist(), legs.run.k.tolist()
    ([-0.49, 0.41, 0.99], [0.15, 0.53, 0.59])
    """
    q, inside, b2 = _share(branch_ratio, branch_area_ratio)
    narrow = b2 <= 0.35
    falling = 0.9 * (1.0 - q)
    at_rest = np.maximum(0.1 - q, 0.0)
    factor = np.where(narrow, 1.0, np.maximum(falling, 0.55) + at_rest)
    factor_slope = np.where(narrow, 0.0, np.where(falling > 0.55, -0.9, 0.0) - (q < 0.1))
    bracket = 1.0 + (q / b2) ** 2 - 2.0 * (1.0 - q) ** 2
    bracket_slope = 2.0 * q / (b2 * b2) + 4.0 * (1.0 - q)
    branch = Leg(factor * bracket, factor_slope * bracket + factor * bracket_slope)
    run = Leg(q * (1.55 - q), 1.55 - 2.0 * q)
    return _shifted(q, inside, branch, run, shift)


def diverging_branch(branch_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Leg:
    """Loss coefficient of the branch alone where `diverging` gives both legs.

    Parameters
    ----------
    branch_ratio, branch_area_ratio, shift : float or array, broadcasting
        As in `diverging` [-].

    Returns
    -------
    Leg of arrays of the broadcast shape
        K and dK/dq [-].

    Raises
    ------
    ValueError
        As `diverging`.

    Notes
    -----
    The equation and the range of `diverging`.

    References
    ----------
    As `diverging`.

    Examples
    --------
    >>> float(diverging_branch(0.25, 0.346).k)
    1.52
    """
    return diverging(branch_ratio, branch_area_ratio, shift).branch


def diverging_run(branch_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Leg:
    """Loss coefficient of the run alone where `diverging` gives both legs.

    Parameters
    ----------
    branch_ratio, branch_area_ratio, shift : float or array, broadcasting
        As in `diverging` [-].

    Returns
    -------
    Leg of arrays of the broadcast shape
        K and dK/dq [-].

    Raises
    ------
    ValueError
        As `diverging`.

    Notes
    -----
    The equation and the range of `diverging`.

    References
    ----------
    As `diverging`.

    Examples
    --------
    >>> float(diverging_run(0.5, 0.346).k)
    0.10
    """
    return diverging(branch_ratio, branch_area_ratio, shift).run


def converging_branch(branch_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Leg:
    """Loss coefficient of the branch alone where `converging` gives both legs.

    Parameters
    ----------
    branch_ratio, branch_area_ratio, shift : float or array, broadcasting
        As in `converging` [-].

    Returns
    -------
    Leg of arrays of the broadcast shape
        K and dK/dq [-].

    Raises
    ------
    ValueError
        As `converging`.

    Notes
    -----
    The equation and the range of `converging`.

    References
    ----------
    As `converging`.

    Examples
    --------
    >>> float(converging_branch(0.5, 0.346).k)
    2.59
    """
    return converging(branch_ratio, branch_area_ratio, shift).branch


def converging_run(branch_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Leg:
    """Loss coefficient of the run alone where `converging` gives both legs.

    Parameters
    ----------
    branch_ratio, branch_area_ratio, shift : float or array, broadcasting
        As in `converging` [-].

    Returns
    -------
    Leg of arrays of the broadcast shape
        K and dK/dq [-].

    Raises
    ------
    ValueError
        As `converging`.

    Notes
    -----
    The equation and the range of `converging`.

    References
    ----------
    As `converging`.

    Examples
    --------
    >>> float(converging_run(0.25).k)
    0.33
    """
    return converging(branch_ratio, branch_area_ratio, shift).run


def both_runs_into_branch(leg_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, shift: ArrayLike = 0.0) -> Leg:
    """Loss coefficient of one of the two run legs whose waters meet and leave by the branch.

    Parameters
    ----------
    leg_ratio : float or array
        Flow of this leg over the combined flow, 0 to 1 [-].
    branch_area_ratio : float or array, broadcasting
        Area of the branch's bore over the run's, above 0 and up to 1 [-].
    shift : float or array, broadcasting
        Added to K, -0.5 to 0.5 [-].

    Returns
    -------
    Leg of arrays of the broadcast shape
        K and dK/dq, q the share of this leg [-].

    Raises
    ------
    ValueError
        If an area ratio or a shift lies outside its span.

    Notes
    -----
    K = 1/b2^2 + 1 - 3 q + 3 q^2 on the run's bore; 2 - 3 q + 3 q^2 with equal bores.
    The source gives no range.

    References
    ----------
    idelchik_1994, from memory; the span of the shift is an estimate.

    Examples
    --------
    >>> leg = both_runs_into_branch(0.5)
    >>> float(leg.k), float(leg.dk_dq)
    (1.25, 0.0)
    """
    q, inside, b2 = _share(leg_ratio, branch_area_ratio)
    added = np.asarray(shift, dtype=np.float64)
    if not np.all(np.abs(added) <= 0.5):
        raise ValueError("the shift of a tee whose runs meet must lie between -0.5 and 0.5")
    k = 1.0 / (b2 * b2) + 1.0 - 3.0 * q + 3.0 * q * q + added
    return Leg(np.asarray(k), np.broadcast_to(np.where(inside, 6.0 * q - 3.0, 0.0), np.shape(k)))


def enters_by_branch(leg_ratio: ArrayLike, branch_area_ratio: ArrayLike = 1.0, turning_factor: ArrayLike = 0.3) -> Leg:
    """Loss coefficient of one of the two run legs into which the branch's water divides.

    Parameters
    ----------
    leg_ratio : float or array
        Flow of this leg over the combined flow, 0 to 1 [-].
    branch_area_ratio : float or array, broadcasting
        Area of the branch's bore over the run's, above 0 and up to 1 [-].
    turning_factor : float or array, broadcasting
        0.3 nominal; 0 to 1.5 covers welded and screwed tees [-].

    Returns
    -------
    Leg of arrays of the broadcast shape
        K and dK/dq, q the share of this leg [-].

    Raises
    ------
    ValueError
        If an area ratio lies outside its span or a turning factor is negative.

    Notes
    -----
    K = 1/b2^2 + turning_factor q^2 on the run's bore; 1 + 0.3 q^2 with equal bores.
    The source gives no range.

    References
    ----------
    idelchik_1994, from memory.

    Examples
    --------
    >>> leg = enters_by_branch(0.5)
    >>> float(leg.k), float(leg.dk_dq)
    (1.075, 0.3)
    """
    q, inside, b2 = _share(leg_ratio, branch_area_ratio)
    turning = np.asarray(turning_factor, dtype=np.float64)
    if not np.all(turning >= 0.0):
        raise ValueError("the turning factor of a tee must not be negative")
    k = 1.0 / (b2 * b2) + turning * q * q
    return Leg(np.asarray(k), np.broadcast_to(np.where(inside, 2.0 * turning * q, 0.0), np.shape(k)))


def _shifted(q: Array, inside: NDArray[np.bool_], branch: Leg, run: Leg, shift: ArrayLike) -> Legs:
    """Both legs with the shift that acts, and slopes that know it."""
    moved = np.asarray(shift, dtype=np.float64)
    if not np.all(np.abs(moved) <= LARGEST_SHIFT_RATIO):
        raise ValueError(f"the shift of a tee must lie between -{LARGEST_SHIFT_RATIO} and {LARGEST_SHIFT_RATIO}")
    spent = dissipation(q, branch.k, run.k)
    spent_slope = branch.k - run.k + dissipation(q, branch.dk_dq, run.dk_dq)
    limited = (moved < 0.0) & (spent < LARGEST_SHIFT_RATIO)
    acting = limited_shift(moved, q, branch.k, run.k)
    acting_slope = np.where(limited, moved * spent_slope / LARGEST_SHIFT_RATIO, 0.0)
    return Legs(
        *(Leg(np.asarray(leg.k + acting), np.where(inside, leg.dk_dq + acting_slope, 0.0)) for leg in (branch, run))
    )


def _share(share_ratio: ArrayLike, branch_area_ratio: ArrayLike) -> tuple[Array, NDArray[np.bool_], Array]:
    """The share within 0 to 1, where it was there already, and the area ratio."""
    b2 = np.asarray(branch_area_ratio, dtype=np.float64)
    if not np.all((b2 > 0.0) & (b2 <= 1.0)):
        raise ValueError("the branch of a tee must have an area above 0 and not above the run's")
    q = np.asarray(share_ratio, dtype=np.float64)
    return np.clip(q, 0.0, 1.0), (q >= 0.0) & (q <= 1.0), b2
