"""Rows to a mixed-integer programme and its answer."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from sanitize.studies.draws import Array
from sanitize.studies.timer.result import WishName
from sanitize.studies.timer.rows import Rows
from sanitize.studies.timer.segments import Bools

TOLERANCE = 1e-5
ROUNDING = 1e-4

Cap = tuple[Array, float]


@dataclass(frozen=True, eq=False)
class Programme:
    """matrix x >= least: `plain` columns of 0 or 1, and behind them the misses of the rows of wishes, never negative.

    by_itself: starts of what runs with the pump, which are whole once the rest is. So are the pump's own, and misses;
    declared whole, they give the solver better branches.
    """

    matrix: "csr_array[np.float64]"
    least: Array
    plain: int
    by_itself: Bools
    misses: tuple[WishName, ...]

    def solve(self, costs: Array, *caps: Cap, loose: Bools | bool = False) -> Array | None:
        """The x of least cost, with further costs capped; None where there is none.

        loose: columns that are not declared whole; True for all of them, and then x is not whole.
        """
        columns = self.matrix.shape[1]
        is_plain = np.arange(columns) < self.plain
        constraints = [LinearConstraint(self.matrix, self.least, np.inf)]
        constraints += [LinearConstraint(row[None, :], -np.inf, most) for row, most in caps]
        found = milp(
            costs,
            integrality=np.where(np.broadcast_to(loose, columns), 0, 1),
            bounds=Bounds(0.0, np.where(is_plain, 1.0, np.inf)),
            constraints=constraints,
            options={"mip_rel_gap": 0.0},
        )
        if found.x is None:
            return None
        return np.asarray(found.x) if loose is True else np.rint(found.x)


def programme(rows: Rows, wishes: Collection[WishName], *, elastic: bool = False) -> Programme:
    """The rows that always hold and those of some wishes; elastic: each of the latter may be missed."""
    told = () if elastic else wishes
    kept = [row for row in rows.rows if (row.wish is None or row.wish in wishes) and row.within not in told]
    misses = tuple(row.wish for row in kept if elastic and row.wish is not None)
    values: list[float] = []
    places: list[tuple[int, int]] = []
    column = rows.columns_count
    for number, row in enumerate(kept):
        values += row.values
        places += [(number, at) for at in row.columns]
        if elastic and row.wish is not None:
            values.append(1.0)
            places.append((number, column))
            column += 1
    matrix = csr_array((values, np.array(places).T), shape=(len(kept), column))
    by_itself = np.zeros(column, dtype=bool)
    for what, first in rows.devices.items():
        by_itself[first + rows.n : first + 2 * rows.n] = what != "pump"
    return Programme(matrix, np.array([row.least for row in kept]), rows.columns_count, by_itself, misses)


def can_hold(rows: Rows, wishes: Collection[WishName]) -> bool:
    """Whether a day keeps these wishes together."""
    task = programme(rows, wishes)
    return task.solve(np.zeros(task.matrix.shape[1]), loose=task.by_itself) is not None


def best(
    task: Programme, costs: Sequence[Array], held: Sequence[Array], counts: Sequence[Array], last: Array
) -> Array | None:
    """The x that is best in the first cost, of equals in the second, and so on; None where there is none.

    Of those with the least costs, and no more of anything held than the one found, it is one with the fewest of all
    counts together; and of those with the same counts the one that is best in the last. held, counts: whole for each
    whole x. Costs that differ by less than a hundred-thousandth of the dearest segment's count as equal.
    """
    caps: list[Cap] = []
    x = None
    for cost in costs or [np.zeros_like(last)]:
        x = task.solve(cost, *caps, loose=task.by_itself)
        if x is None:
            return None
        caps.append(_at_most(cost, x))
    if x is None:
        return None
    caps += [_at_most(each, x) for each in held]
    fewest = task.solve(np.sum(counts, axis=0), *caps, *_least(task, counts, caps))
    x = x if fewest is None else fewest
    caps += [_at_most(sign * count, x) for count in counts for sign in (1.0, -1.0)]
    earliest = task.solve(last, *caps)
    return x if earliest is None else earliest


def _at_most(row: Array, x: Array) -> Cap:
    return row, float(row @ x) + TOLERANCE


def _least(task: Programme, counts: Sequence[Array], caps: Sequence[Cap]) -> list[Cap]:
    """For each count, as a cap of its negative: the fewest that the relaxed programme allows, rounded up.

    A whole x cannot have fewer; the programme itself sees this only after a long search.
    """
    found: list[Cap] = []
    for count in counts:
        x = task.solve(count, *caps, loose=True)
        if x is not None:
            found.append((-count, -float(ceil(float(count @ x) - ROUNDING))))
    return found
