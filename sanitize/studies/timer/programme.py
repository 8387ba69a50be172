"""Rows to a mixed-integer programme and its answer."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from sanitize.studies.draws import Array
from sanitize.studies.timer.result import WishName
from sanitize.studies.timer.rows import Rows

TOLERANCE = 1e-5


@dataclass(frozen=True, eq=False)
class Programme:
    """matrix x >= least: `plain` columns of 0 or 1, and behind them the misses of the rows of wishes, never negative.

    Starts and misses are whole by themselves once the rest is; declared whole, they give the solver better branches.
    """

    matrix: "csr_array[np.float64]"
    least: Array
    plain: int
    misses: tuple[WishName, ...]

    def solve(self, costs: Array, *caps: tuple[Array, float]) -> Array | None:
        """The x of least cost, with further costs capped; None where there is none."""
        columns = self.matrix.shape[1]
        is_plain = np.arange(columns) < self.plain
        constraints = [LinearConstraint(self.matrix, self.least, np.inf)]
        constraints += [LinearConstraint(row[None, :], -np.inf, most) for row, most in caps]
        found = milp(
            costs,
            integrality=np.ones(columns, dtype=int),
            bounds=Bounds(0.0, np.where(is_plain, 1.0, np.inf)),
            constraints=constraints,
            options={"mip_rel_gap": 0.0},
        )
        return None if found.x is None else np.asarray(found.x)


def programme(rows: Rows, wishes: Collection[WishName], *, elastic: bool = False) -> Programme:
    """The rows that always hold and those of some wishes; elastic: each of the latter may be missed."""
    kept = [row for row in rows.rows if row.wish is None or row.wish in wishes]
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
    return Programme(matrix, np.array([row.least for row in kept]), rows.columns_count, misses)


def can_hold(rows: Rows, wishes: Collection[WishName]) -> bool:
    """Whether a day keeps these wishes together."""
    task = programme(rows, wishes)
    return task.solve(np.zeros(task.matrix.shape[1])) is not None


def best(task: Programme, stages: Sequence[Array], held: Sequence[Array] = ()) -> Array | None:
    """The x that is best in the first cost, of equals in the second, and so on; None where there is none.

    held: what the last cost may not make worse either. Costs that differ by less than a hundred-thousandth of the
    dearest segment's count as equal.
    """
    caps: list[tuple[Array, float]] = []
    x = None
    for number, costs in enumerate(stages, 1):
        if x is not None and number == len(stages):
            caps += [(each, float(each @ x) + TOLERANCE) for each in held]
        x = task.solve(costs, *caps)
        if x is None:
            return None
        caps.append((costs, float(costs @ x) + TOLERANCE))
    return x
