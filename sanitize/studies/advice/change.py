"""What a change of a loop is."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from sanitize.plant.loop import Plant

Code = Literal[
    "lift-injector",
    "move-injector",
    "shorten-return",
    "widen-return",
    "sweep-elbows",
    "open-valve",
    "close-valve",
    "side-stream",
    "smaller-throat",
    "bigger-nozzle",
    "earlier-check-valve",
    "shorter-gas-line",
    "wider-gas-line",
    "clean-filter",
    "clean-earlier",
    "bigger-filter",
    "clear-cover",
    "stronger-pump",
    "other-speed",
]
Purpose = Literal["draw", "gas", "loaded filter"]


class NotPossibleError(ValueError):
    """A change that this loop has no place for."""


@dataclass(frozen=True)
class Change:
    """One thing that a person can change.

    code: its kind; words: what to do, with its numbers; apply: the loop with it, raises NotPossibleError where another
    change has left no place for it; purpose: what it is judged by.
    """

    code: Code
    words: str
    apply: Callable[[Plant], Plant]
    purpose: Purpose = "draw"


def both(first: Change, second: Change) -> Callable[[Plant], Plant]:
    """Two changes one after the other."""
    return lambda plant: second.apply(first.apply(plant))
