"""What is missing between two ends."""

from sanitize.plant.part import SIZES
from sanitize.studies.mating.layout import Ends
from sanitize.studies.mating.result import Piece
from sanitize.studies.mating.rules import has_two_sizes, is_cut, mating_rule

REDUCER = "reducer"


def pieces_between(first: Ends, second: Ends) -> tuple[Piece, ...]:
    """The pieces between two neighbours, from the first to the second; none where nothing is known of an end.

    Two sizes are bridged by a piece that is sold with both, else by a reducer; a cut piece has the smaller size.
    """
    rule = mating_rule(first.outlet, second.inlet)
    if rule is None:
        return ()
    before, behind = sizes_between(first, second)
    if before == behind:
        return tuple(Piece(name, before, "", is_cut(name)) for name in rule.missing)
    bridging = next((name for name in rule.missing if has_two_sizes(name)), "")
    smaller = min(before, behind, key=SIZES.index)
    found, size = [], before
    if not bridging:
        found.append(Piece(REDUCER, before, behind, False))
        size = behind
    for name in rule.missing:
        if name == bridging:
            found.append(Piece(name, before, behind, False))
            size = behind
        else:
            found.append(Piece(name, smaller if is_cut(name) else size, "", is_cut(name)))
    return tuple(found)


def sizes_between(first: Ends, second: Ends) -> tuple[str, str]:
    """The sizes of two ends; one that is bought to suit takes the other's."""
    before, behind = first.outlet_size, second.inlet_size
    return (before or behind, behind or before)
