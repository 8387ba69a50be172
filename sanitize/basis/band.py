"""A number with its range."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Scale = Literal["linear", "log"]


@dataclass(frozen=True, slots=True)
class Band:
    """A number that is known as low, nominal and high, drawn evenly in rank on either side of nominal.

    `scale` says whether the draw runs linearly or on the logarithm between the three (logarithm for
    loss coefficients and drops, as their ranges are ratios). Raises ValueError when the three are not in order, or
    when a logarithmic band is not positive.
    """

    low: float
    nominal: float
    high: float
    scale: Scale = "linear"

    def __post_init__(self) -> None:
        if not self.low <= self.nominal <= self.high:
            raise ValueError(f"band out of order: {self.low}, {self.nominal}, {self.high}")
        if self.scale == "log" and self.low <= 0.0:
            raise ValueError(f"a logarithmic band must be positive: {self.low}")

    @classmethod
    def exact(cls, value: float) -> "Band":
        """A band without width."""
        return cls(value, value, value)

    @property
    def is_exact(self) -> bool:
        """Whether low and high coincide."""
        return self.low == self.high

    def at(self, u: NDArray[np.float64]) -> NDArray[np.float64]:
        """The value at rank u in 0..1 (array of any shape): 0 gives low, 0.5 nominal, 1 high.

        >>> Band(1.0, 2.0, 8.0, "log").at(np.array([0.0, 0.25, 0.5, 1.0])).tolist()
        [1.0, 1.4142135623730951, 2.0, 8.0]
        """
        u = np.asarray(u, dtype=np.float64)
        below = 1.0 - 2.0 * u
        above = 2.0 * u - 1.0
        if self.scale == "log":
            drawn = np.where(
                u < 0.5,
                self.nominal * (self.low / self.nominal) ** np.maximum(below, 0.0),
                self.nominal * (self.high / self.nominal) ** np.maximum(above, 0.0),
            )
        else:
            drawn = np.where(
                u < 0.5,
                self.nominal + (self.low - self.nominal) * np.maximum(below, 0.0),
                self.nominal + (self.high - self.nominal) * np.maximum(above, 0.0),
            )
        return drawn

    def scaled(self, factor: float) -> "Band":
        """The band times a positive factor."""
        return Band(self.low * factor, self.nominal * factor, self.high * factor, self.scale)
