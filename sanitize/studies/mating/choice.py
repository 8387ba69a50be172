"""Which of its usual forms each part takes: the forms that leave the fewest pieces missing in a row."""

from collections.abc import Sequence

from sanitize.studies.mating.layout import Ends, Row
from sanitize.studies.mating.pieces import pieces_between


def chosen(row: Row) -> tuple[Ends, ...]:
    """The ends of every station of a row; of equals, the likelier forms."""
    if not row:
        return ()
    best: list[tuple[tuple[int, int], tuple[Ends, ...]]] = [
        ((0, rank), (ends,)) for rank, ends in enumerate(row[0].options)
    ]
    for station in row[1:]:
        best = [_cheapest(best, ends, rank) for rank, ends in enumerate(station.options)]
    return min(best, key=lambda one: one[0])[1]


def _cheapest(
    before: Sequence[tuple[tuple[int, int], tuple[Ends, ...]]], ends: Ends, rank: int
) -> tuple[tuple[int, int], tuple[Ends, ...]]:
    """The best way to come to a form of the next station: missing pieces first, then how unusual the forms are."""
    ways = []
    for (missing, unusual), path in before:
        more = len(pieces_between(path[-1], ends))
        ways.append(((missing + more, unusual + rank), (*path, ends)))
    return min(ways, key=lambda way: way[0])
