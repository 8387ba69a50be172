"""Which part of one loop is which part of the other: by its own name, else by its word and order."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from sanitize.plant.loop import Chain, Junction, Plant
from sanitize.plant.part import Part

_SAME_NAME, _SAME_WORD, _SAME_KIND, _SAME_WAY, _ALIKE = 100.0, 10.0, 4.0, 2.0, 1.0


@dataclass(frozen=True, slots=True)
class Standing:
    """A part where it stands: the way that it is in, and the name of the part before it there (empty for the first)."""

    part: Part
    way: str
    before: str


@dataclass(frozen=True, slots=True)
class Matching:
    """Places in the two rows of parts that are one part, and which of these stand elsewhere in the order."""

    pairs: tuple[tuple[int, int], ...]
    moved: tuple[tuple[int, int], ...]


def standings(plant: Plant) -> tuple[Standing, ...]:
    """Every part in the order of the walk."""
    return tuple(_standings(plant.loop))


def _standings(chain: Chain) -> Iterator[Standing]:
    before = ""
    for item in chain.items:
        yield Standing(item, chain.name, before)
        before = item.name
        if isinstance(item, Junction):
            for way in item.chains:
                yield from _standings(way)


Likeness = Callable[[Part, Part], float]
"""How alike two parts of one word are, 0 to 1."""


def match(
    one: Sequence[Standing], other: Sequence[Standing], named: tuple[frozenset[str], frozenset[str]], likeness: Likeness
) -> Matching:
    """Pairs the parts of two loops.

    named: the names that people gave in either file, as against those that were given for want of one; a name that
    both gave is one part, whatever it is. The others go by their words along the order of the water, so that as much
    as possible is alike; what is left over then may have moved.
    """
    common = named[0] & named[1]

    def score(a: Standing, b: Standing) -> float:
        if a.part.name in common or b.part.name in common:
            return _SAME_NAME if a.part.name == b.part.name else 0.0
        if type(a.part) is not type(b.part):
            return 0.0
        same_word = _SAME_WORD if a.part.word == b.part.word else _SAME_KIND
        return same_word + (_SAME_WAY if a.way == b.way else 0.0) + _ALIKE * likeness(a.part, b.part)

    in_order = _aligned(one, other, score)
    left = [number for number in range(len(one)) if number not in {a for a, _ in in_order}]
    free = [number for number in range(len(other)) if number not in {b for _, b in in_order}]
    moved = []
    for a in left:
        best = max(free, key=lambda b: score(one[a], other[b]), default=None)
        if best is not None and score(one[a], other[best]) >= _SAME_WORD:
            free.remove(best)
            moved.append((a, best))
    return Matching(tuple(sorted((*in_order, *moved))), tuple(moved))


def _aligned(
    one: Sequence[Standing], other: Sequence[Standing], score: Callable[[Standing, Standing], float]
) -> list[tuple[int, int]]:
    """The pairs in order whose scores add up to most."""
    best = [[0.0] * (len(other) + 1) for _ in range(len(one) + 1)]
    scores = [[score(a, b) for b in other] for a in one]
    for i in range(len(one) - 1, -1, -1):
        for j in range(len(other) - 1, -1, -1):
            paired = scores[i][j] + best[i + 1][j + 1] if scores[i][j] > 0.0 else 0.0
            best[i][j] = max(paired, best[i + 1][j], best[i][j + 1])
    pairs, i, j = [], 0, 0
    while i < len(one) and j < len(other):
        if scores[i][j] > 0.0 and best[i][j] == scores[i][j] + best[i + 1][j + 1]:
            pairs.append((i, j))
            i, j = i + 1, j + 1
        elif best[i][j] == best[i + 1][j]:
            i += 1
        else:
            j += 1
    return pairs
