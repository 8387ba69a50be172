"""The drawn cases, and behind them two corners: the worst for the air, and the worst for whoever gets in."""

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.studies.draws import Array, Draws
from sanitize.studies.ozone.numbers import Numbers, Worst

AIR_CORNER, ENTRY_CORNER = -2, -1
"""Places of the corners: every number at the end that leaves most ozone in the air, or in the water at entry."""
CORNERS = 2
WORST: tuple[Worst, Worst] = ("air", "entry")


class Ranges:
    """Numbers over the cases: the nominal one, the drawn ones, and the two corners.

    drawn, corners: as the steady balance of ozone draws them, so that both look at the same worst ends; a number that
    these do not name is nominal in both corners.
    """

    def __init__(self, draws: Draws) -> None:
        self.draws = draws
        self.drawn = Numbers(draws)
        self.corners = tuple(Numbers(draws, worst) for worst in WORST)

    @property
    def size(self) -> int:
        """Number of cases with the corners."""
        return self.draws.size + CORNERS

    def __call__(self, name: str, end: str = "") -> Array:
        """A number of the tables of ozone or of the day; end: the one that is worst, where their lists cannot know."""
        return self.joined(self.drawn(name), *(numbers(name, end) for numbers in self.corners))

    def of_band(self, name: str, band: Band, label: str, end: str = "") -> Array:
        """A number of that range; end: the one that is worse for both corners, where it is not in their list."""
        corners = (numbers.of_band(name, band, label, end) for numbers in self.corners)
        return self.joined(self.drawn.of_band(name, band, label), *corners)

    def stated(self, value: float | None, table: str, name: str, label: str) -> Array:
        """What the file states, else the row of a table; nominal in the corners."""
        if value is not None:
            return np.full(self.size, value)
        return self.cases(self.draws.value(name, model_table(table)[(name,)].band, label))

    @staticmethod
    def coldest(water_c: Array) -> Array:
        """The water's temperature, last axis the cases: in the corners that of the coldest, where ozone lasts longest.

        >>> Ranges.coldest(np.array([10.0, 9.0, 12.0, 10.0, 10.0])).tolist()
        [10.0, 9.0, 12.0, 9.0, 9.0]
        """
        least = water_c.min(axis=-1, keepdims=True)
        return np.concatenate([water_c[..., :-CORNERS], *[least] * CORNERS], axis=-1)

    @staticmethod
    def joined(drawn: Array, air: Array, entry: Array) -> Array:
        """Drawn cases, and of the two corners the nominal case of each."""
        return np.append(drawn, [air[0], entry[0]])

    @staticmethod
    def cases(values: Array) -> Array:
        """An array of the drawn cases with the nominal one in both corners."""
        return np.append(values, [values[0], values[0]])
