"""The cases that a file allows: case 0 is nominal, the others are drawn evenly from every stated range."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.band import Band

CASES = 4096
SEED = 20
_COLUMNS = 64

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
    Ranks come from scrambled Sobol sequences, 64 columns at a time.
    """

    def __init__(self, cases: int = CASES, seed: int = SEED) -> None:
        if cases < 0 or cases & (cases - 1):
            raise ValueError(f"cases must be a power of two or 0, not {cases}")
        self.cases = cases
        self.seed = seed
        self.inputs: dict[str, Input] = {}
        self.is_closed = False
        self._columns: list[Array] = []

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
            known = Input(key, label or key, measure, self._next_column(), band)
            self.inputs[key] = known
        return known.rank

    def of_cases(self, cases: NDArray[np.intp]) -> "Draws":
        """The same draws for some of the cases only; an input that was never drawn stays nominal there."""
        chosen = Draws(0, self.seed)
        chosen.cases = int(cases.size) - 1
        chosen.inputs = {key: replace(item, rank=item.rank[cases]) for key, item in self.inputs.items()}
        chosen.is_closed = True
        return chosen

    def continued(self) -> "Draws":
        """The same draws for a changed loop: inputs known so far keep their cases, new ones get their own columns."""
        again = Draws(0, self.seed)
        again.cases, again.is_closed = self.cases, self.is_closed
        again.inputs, again._columns = dict(self.inputs), self._columns
        return again

    def _next_column(self) -> Array:
        index = len(self.inputs)
        if self.is_closed:
            return np.full(self.size, 0.5)
        if self.cases and index >= len(self._columns):
            from scipy.stats import qmc

            # each block takes dimensions of its own: the same ones scrambled again would move with the first
            block = index // _COLUMNS
            sobol = qmc.Sobol(_COLUMNS * (block + 1), scramble=True, rng=self.seed + block)
            self._columns.extend(sobol.random(self.cases).T[-_COLUMNS:])
        rank = np.full(self.size, 0.5)
        if self.cases:
            rank[1:] = self._columns[index]
        return rank
