"""The cases that a file allows: case 0 is nominal, the others are drawn evenly from every stated range."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.plant.fitted import Fitted
from sanitize.plant.loop import Plant

CASES = 4096
SEED = 20
_COLUMNS = 64
NOMINAL_ALONE = Notice(
    "nominal-values-alone",
    "No case was drawn (--cases 0): cautions that go by flow, speed, pressure or water in the gas line looked at "
    "nominal values alone, and a danger that only the ranges show is not told. Ask again without --cases 0.",
)

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class Input:
    """One uncertain number: what it is called, how it is measured, its rank in every case, its range if it has one."""

    key: str
    label: str
    measure: str
    rank: Array
    band: Band | None = None

    @property
    def values(self) -> Array | None:
        """The number in every case, where it has a range of its own."""
        return None if self.band is None else self.band.at(self.rank)


class Draws:
    """Draws every uncertain number once, by its key: parts that share a key share the draw.

    cases: how many besides the nominal one (a power of two, or 0 for the nominal one alone); seed: of the scrambling.
    Ranks come from scrambled Sobol sequences, 64 columns at a time. fitted: what readings have taught about some of the
    inputs, whose ranks then follow it and move together.
    """

    def __init__(self, cases: int = CASES, seed: int = SEED, fitted: Fitted | None = None) -> None:
        if cases < 0 or cases & (cases - 1):
            raise ValueError(f"cases must be a power of two or 0, not {cases}")
        self.cases = cases
        self.seed = seed
        self.inputs: dict[str, Input] = {}
        self.is_closed = False
        self._columns: list[Array] = []
        self._taken = 0
        self._order: NDArray[np.intp] | None = None
        self._fitted = fitted
        self._ranks: dict[str, Array] = {}

    @classmethod
    def of_plant(cls, plant: Plant, cases: int = CASES, seed: int = SEED) -> "Draws":
        """The cases that a loop file allows, as far as a fit has not narrowed them."""
        return cls(cases, seed, plant.fitted)

    @classmethod
    def of_ranks(cls, ranks: Mapping[str, Array], size: int, seed: int = SEED) -> "Draws":
        """Cases whose inputs have these ranks, each of shape (size); an input without one is nominal in all cases."""
        chosen = cls(0, seed)
        chosen.cases, chosen.is_closed = size - 1, True
        chosen._ranks = dict(ranks)
        return chosen

    @property
    def size(self) -> int:
        """Number of cases with the nominal one."""
        return self.cases + 1

    def value(self, key: str, band: Band, label: str = "", measure: str = "") -> Array:
        """The number in every case, shape (1 + cases); a band without width is not drawn."""
        if band.is_exact:
            return np.full(self.size, band.nominal)
        return band.at(self.rank(key, label, measure, band))

    def rank(self, key: str, label: str = "", measure: str = "", band: Band | None = None) -> Array:
        """The rank 0..1 of an input in every case, 0.5 in the nominal one, shape (1 + cases)."""
        known = self.inputs.get(key)
        if known is None:
            known = Input(key, label or key, measure, self._rank_of(key), band)
            self.inputs[key] = known
        return known.rank

    def of_cases(self, cases: NDArray[np.intp]) -> "Draws":
        """The same draws for some of the cases only; an input that was never drawn stays nominal there."""
        chosen = Draws(0, self.seed)
        chosen.cases = int(cases.size) - 1
        chosen.inputs = {key: replace(item, rank=item.rank[cases]) for key, item in self.inputs.items()}
        chosen._ranks = {key: rank[cases] for key, rank in self._ranks.items()}
        chosen.is_closed = True
        return chosen

    def continued(self, renamed: Mapping[str, str | None] | None = None) -> "Draws":
        """The same draws for a changed loop: inputs known so far keep their cases, new ones get their own columns.

        renamed: the name of a part here -> its name there, None where it has no fellow there: its inputs are left out.
        """
        again = Draws(0, self.seed)
        again.cases, again.is_closed = self.cases, self.is_closed
        again._columns, again._taken, again._order = self._columns, self._taken, self._order

        def there(key: str) -> str | None:
            name, dot, field = key.rpartition(".")
            new = renamed[name] if renamed and dot and name in renamed else name
            return None if new is None else f"{new}{dot}{field}"

        again.inputs = {new: item for key, item in self.inputs.items() if (new := there(key)) is not None}
        again._ranks = {new: rank for key, rank in self._ranks.items() if (new := there(key)) is not None}
        again._fitted = None if renamed and self._ranks else self._fitted
        return again

    def opened(self) -> "Draws":
        """The same cases, in which inputs that were never drawn get columns of their own instead of their nominal.

        Chosen cases stand in no order of a sequence any more, so the new columns are shuffled; needs a power of two.
        """
        if not self.is_closed:
            return self
        again = self.continued()
        again.is_closed, again._taken, again._columns = False, 0, []
        again._order = np.random.default_rng(self.seed).permutation(self.cases)
        return again

    def _rank_of(self, key: str) -> Array:
        if key in self._ranks:
            return self._ranks[key]
        if self._fitted is None or key not in self._fitted.unknowns or self.is_closed:
            return self._next_column()
        # all fitted inputs at once, as they move together
        from scipy.special import ndtr

        rows = np.asarray(self._fitted.cases)
        picked = np.minimum((self._next_column() * len(rows)).astype(np.intp), len(rows) - 1)
        picked[0] = 0
        self._ranks = dict(zip(self._fitted.unknowns, np.asarray(ndtr(rows[picked])).T, strict=True))
        return self._ranks[key]

    def _next_column(self) -> Array:
        if self.is_closed:
            return np.full(self.size, 0.5)
        index = self._taken
        self._taken += 1
        if self.cases and index >= len(self._columns):
            from scipy.stats import qmc

            # each block takes dimensions of its own: the same ones scrambled again would move with the first
            block = index // _COLUMNS
            sobol = qmc.Sobol(_COLUMNS * (block + 1), scramble=True, rng=self.seed + block)
            self._columns.extend(sobol.random(self.cases).T[-_COLUMNS:])
        rank = np.full(self.size, 0.5)
        if self.cases:
            column = self._columns[index]
            rank[1:] = column if self._order is None else column[self._order]
        return rank
