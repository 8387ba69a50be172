"""Links in which no water can move: a valve is shut there, a check valve has closed, or the return hangs too high.

A return above the water lets none back in, nor does a hump whose leg behind it has emptied: as long as the water in the
way to it stands below that height, and above the branch where the way begins, that way is shut. Where it would sink
below the branch, air comes in.
Such a link is no part of the balance. What its valve holds follows from it: the pressure that makes the total pressures
along every way agree.
"""

from collections.abc import Sequence

import numpy as np

from sanitize.plant.ends import Return
from sanitize.plant.machines import Pump
from sanitize.plant.valves import CheckValve
from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.builder import PartRows
from sanitize.studies.operating_point.rows import Row, Shut

ROUNDING = 1e-12
"""Share of an independent flow that is rounding alone: a link that a shut one starves has a flow of exactly 0."""


def has_check_valve(item: PartRows) -> bool:
    """Whether a check valve stands at a part, so that no water passes it backwards."""
    return isinstance(item.part, CheckValve) or (isinstance(item.part, Pump) and item.part.check_valve)


def hangs_free(items: Sequence[PartRows], level_m: Array, hump: int | None = None) -> Mask:
    """Cases in which a link's water falls free above the tub's, so that none passes it backwards.

    It does at a return above the water, and at the hump before a leg that has emptied, whose position is given.
    """
    if not items or not isinstance(items[-1].part, Return):
        return np.zeros(level_m.shape, dtype=bool)
    return np.asarray(items[-1 if hump is None else hump].height_m > level_m)


def held_by_part(items: Sequence[PartRows], held_pa: Array) -> list[Array]:
    """What a link holds, part by part: a hand valve that is shut, else the first check valve, else the return."""
    left = held_pa
    found = [np.zeros_like(held_pa) for _ in items]
    for position, item in enumerate(items):
        for row in item.rows:
            if isinstance(row, Shut):
                found[position] = found[position] + np.where(row.is_shut, left, 0.0)
                left = np.where(row.is_shut, 0.0, left)
    check = next((position for position, item in enumerate(items) if has_check_valve(item)), None)
    if check is not None:
        found[check] = found[check] + left
    elif items and isinstance(items[-1].part, Return):
        found[-1] = found[-1] + left
    return found


def shut_links(rows_of_links: Sequence[Sequence[Row]], size: int) -> Mask:
    """Links with a hand valve that is shut, shape (links, cases)."""
    shut = np.zeros((len(rows_of_links), size), dtype=bool)
    for index, rows in enumerate(rows_of_links):
        for row in rows:
            if isinstance(row, Shut):
                shut[index] |= row.is_shut
    return shut


def held_pa(paths: Array, shut: Mask, loss: Array) -> Array:
    """What the valves of the shut links hold [Pa], shape (links, cases), once the open paths balance.

    With P the paths, P' (loss + held) = 0 for every path, and held is nonzero in shut links alone. Water that is
    trapped between two of them shares what both hold evenly.
    """
    held = np.zeros_like(loss)
    if shut.any():
        patterns, member = np.unique(shut, axis=1, return_inverse=True)
        for number in range(patterns.shape[1]):
            links = np.flatnonzero(patterns[:, number])
            if links.size:
                cases = np.flatnonzero(np.ravel(member) == number)
                given = -np.linalg.pinv(paths[links].T) @ (paths.T @ loss[:, cases])
                held[np.ix_(links, cases)] = given
    return held


def open_paths(paths: Array, closed: Mask) -> Array:
    """Paths (links, independent flows) that use no closed link."""
    if not closed.any():
        return paths
    from scipy.linalg import null_space

    left = np.asarray(paths @ null_space(paths[closed]))
    left[np.abs(left) < ROUNDING] = 0.0
    return left
