"""Valves between open and shut, from the tabulated loss at some positions of their handle."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def valve_loss_coefficient(
    position: ArrayLike,
    positions: ArrayLike,
    added_k: ArrayLike,
    shut_position: float,
    open_k: ArrayLike,
    added_factor: ArrayLike = 1.0,
) -> Array:
    """Loss coefficient of a valve at any position, interpolated between tabulated ones.

    Parameters
    ----------
    position : float or array
        Where the handle stands, in the unit of the table: degrees from fully open, or share still open.
    positions : array of n
        Tabulated positions from fully open towards shut, rising or falling.
    added_k : array, the n positions along the last axis, the axes before it broadcasting with `position`
        What each position adds to the open valve's loss coefficient, 0 at the first [-].
    shut_position : float
        The position, beyond the last tabulated one, from which nothing flows.
    open_k : float or array, broadcasting with `position`
        Loss coefficient of the open valve, above 0 [-].
    added_factor : float or array, broadcasting with `position`
        Multiplies `added_k`: the spread between makes, one number a case [-].

    Returns
    -------
    array of the broadcast shape
        K of the whole valve [-].
        Infinite at `shut_position` and beyond it: the valve makes a way without flow, which is to leave the
        balance; `local_loss` refuses the value.
        Before the first position the handle is against its stop: K is that of the first.

    Raises
    ------
    ValueError
        If the positions do not run strictly from open to shut, an open loss is not above 0, or an addition or
        factor is negative.

    Notes
    -----
    y = 1 / sqrt(open_k + added_factor added_k) runs to 0 at `shut_position` and is interpolated by a cubic that
    keeps it monotone (Fritsch and Butland); K = 1 / y^2.
    Each case has its own curve, so K at a tabulated position is the tabulated one for every factor.
    The source gives no range between its positions.

    References
    ----------
    fritsch_butland_1984 for the cubic, from memory; weisbach_britannica_1911 for values of cocks.

    Examples
    --------
    A cock of which three positions are known:

    >>> angles, added = [0.0, 35.0, 60.0], [0.0, 9.68, 206.0]
    >>> valve_loss_coefficient([0.0, 35.0, 90.0], angles, added, 82.2, 0.10).tolist()
    [0.10, 9.78, inf]
    """
    nodes = np.append(np.asarray(positions, dtype=np.float64), shut_position)
    toward_shut = np.sign(nodes[-1] - nodes[0])
    travel = (nodes - nodes[0]) * toward_shut
    if not np.all(np.diff(travel) > 0.0):
        raise ValueError("the positions of a valve must run strictly from open to shut")
    opened, added, factor = (np.asarray(value, dtype=np.float64) for value in (open_k, added_k, added_factor))
    if not (np.all(opened > 0.0) and np.all(added >= 0.0) and np.all(factor >= 0.0)):
        raise ValueError("an open valve's loss must be above 0, and nothing added to it below 0")
    at = (np.asarray(position, dtype=np.float64) - nodes[0]) * toward_shut
    total = opened[..., None] + factor[..., None] * added
    cases = np.broadcast_shapes(at.shape, total.shape[:-1])
    tabulated = np.zeros((*total.shape[:-1], nodes.size))
    tabulated[..., :-1] = 1.0 / np.sqrt(total)
    inverse_root = _monotone_cubic(
        np.broadcast_to(np.clip(at, 0.0, travel[-1]), cases),
        travel,
        np.broadcast_to(tabulated, (*cases, nodes.size)),
    )
    flows = (inverse_root > 0.0) & (at < travel[-1])
    return np.where(flows, 1.0 / np.where(flows, inverse_root, 1.0) ** 2, np.inf)


def globe_loss_coefficient(
    lift_ratio: ArrayLike,
    lift_ratios: ArrayLike,
    relative_k: ArrayLike,
    open_k: ArrayLike,
    increase_factor: ArrayLike = 1.0,
) -> Array:
    """Loss coefficient of a globe or diaphragm valve by the lift of its disc.

    Parameters
    ----------
    lift_ratio : float or array
        Lift over full lift, 1 open, 0 shut [-].
    lift_ratios : array of n, from 1 downwards
        Tabulated lifts [-].
    relative_k : array of n
        Loss coefficient at each over that of the open valve, 1 at the first [-].
    open_k : float or array, broadcasting with `lift_ratio`
        Loss coefficient of the open valve [-].
    increase_factor : float or array, broadcasting with `lift_ratio`
        Multiplies the increase over the open valve [-].

    Returns
    -------
    array of the broadcast shape
        K [-], infinite at lift 0, as in `valve_loss_coefficient`.

    Raises
    ------
    ValueError
        As `valve_loss_coefficient`.

    Notes
    -----
    K = open_k (1 + increase_factor (relative_k - 1)) at the tabulated lifts, between them as in
    `valve_loss_coefficient`.
    The source gives no range between its lifts.

    References
    ----------
    As `valve_loss_coefficient`.

    Examples
    --------
    >>> globe_loss_coefficient([1.0, 0.5, 0.0], [1.0, 0.75, 0.5, 0.25], [1.0, 1.5, 4.0, 12.0], 8.0).tolist()
    [8.0, 32.0, inf]
    """
    opened = np.asarray(open_k, dtype=np.float64)
    increase = opened[..., None] * (np.asarray(relative_k, dtype=np.float64) - 1.0)
    return valve_loss_coefficient(lift_ratio, lift_ratios, increase, 0.0, opened, increase_factor)


def _monotone_cubic(at: Array, nodes: Array, values: Array) -> Array:
    """A monotone cubic through `values` (..., n) at `nodes` (n), each case at its own place `at` (...)."""
    steps = np.diff(nodes)
    chords = np.diff(values, axis=-1) / steps
    before, behind = chords[..., :-1], chords[..., 1:]
    weight_before = 2.0 * steps[1:] + steps[:-1]
    weight_behind = steps[1:] + 2.0 * steps[:-1]
    slopes = np.zeros(values.shape)
    np.divide(
        (weight_before + weight_behind) * before * behind,
        weight_before * behind + weight_behind * before,
        out=slopes[..., 1:-1],
        where=before * behind > 0.0,
    )
    slopes[..., 0] = _end_slope(steps[0], steps[1], chords[..., 0], chords[..., 1])
    slopes[..., -1] = _end_slope(steps[-1], steps[-2], chords[..., -1], chords[..., -2])
    left = np.clip(np.searchsorted(nodes, at, side="right") - 1, 0, nodes.size - 2)
    step = steps[left]
    t = (at - nodes[left]) / step
    value_left, value_right = _pick(values, left), _pick(values, left + 1)
    slope_left, slope_right = _pick(slopes, left) * step, _pick(slopes, left + 1) * step
    rise = value_right - value_left
    quadratic = 3.0 * rise - 2.0 * slope_left - slope_right
    cubic = slope_left + slope_right - 2.0 * rise
    return np.asarray(value_left + t * (slope_left + t * (quadratic + t * cubic)))


def _end_slope(near_step: float, far_step: float, near_chord: Array, far_chord: Array) -> Array:
    """The slope at an end from its parabola, kept to the direction and steepness that stay monotone."""
    slope = ((2.0 * near_step + far_step) * near_chord - near_step * far_chord) / (near_step + far_step)
    too_steep = (near_chord * far_chord < 0.0) & (np.abs(slope) > 3.0 * np.abs(near_chord))
    return np.where(slope * near_chord <= 0.0, 0.0, np.where(too_steep, 3.0 * near_chord, slope))


def _pick(table: Array, index: NDArray[np.intp]) -> Array:
    return np.asarray(np.take_along_axis(table, index[..., None], axis=-1)[..., 0])
