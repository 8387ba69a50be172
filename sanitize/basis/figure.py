"""A result with its range, as it reaches the user."""

from dataclasses import dataclass
from math import inf, isinf, isnan


@dataclass(frozen=True, slots=True)
class Figure:
    """Low, nominal and high of a result; an end is None where there is no such value (an onset that never comes).

    low is the algebraically smaller; None stands for "never" and counts as larger than every number.
    """

    low: float | None
    nominal: float | None
    high: float | None

    @classmethod
    def of(cls, low: float, nominal: float, high: float) -> "Figure":
        """A figure from numbers, with the infinite and the undefined as None."""
        return cls(*(None if isinf(end) or isnan(end) else float(end) for end in (low, nominal, high)))

    @property
    def ends(self) -> tuple[float, float, float]:
        """The three numbers, None as infinite."""
        return tuple(inf if end is None else end for end in (self.low, self.nominal, self.high))  # type: ignore[return-value]
