"""The smallest set of wishes that no plan keeps together."""

from collections.abc import Callable, Sequence
from itertools import combinations
from typing import TypeVar

Name = TypeVar("Name", bound=str)


def smallest_conflict(names: Sequence[Name], holds: Callable[[Sequence[Name]], bool]) -> tuple[Name, ...]:
    """The fewest names that do not hold together; of equally few, the first in the order of the names.

    names: all of them, which do not hold together; holds: whether some do; fewer names never hold worse.
    What one must leave out to get a set that holds meets every conflict: so the smallest set that meets all of these
    corrections found so far is no larger than the smallest conflict, and where it is a conflict it is that one.

    >>> smallest_conflict(("a", "b", "c", "d"), lambda some: not {"b", "d"} <= set(some))
    ('b', 'd')
    """
    corrections: list[set[Name]] = []
    while True:
        some = _smallest_hit(names, corrections)
        if not holds(some):
            return some
        kept = list(some)
        for name in names:
            if name not in kept and holds([*kept, name]):
                kept.append(name)
        left = set(names) - set(kept)
        if not left:
            raise ValueError("the names hold together")
        corrections.append(left)


def _smallest_hit(names: Sequence[Name], corrections: list[set[Name]]) -> tuple[Name, ...]:
    """The fewest names of which every correction holds one."""
    useful = [name for name in names if any(name in correction for correction in corrections)]
    for size in range(len(useful) + 1):
        for some in combinations(useful, size):
            if all(correction & set(some) for correction in corrections):
                return some
    raise ValueError("a correction is empty")
