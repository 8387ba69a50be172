"""A row of the loop with the forms that its parts take and the joints between them."""

from dataclasses import dataclass

from sanitize.studies.mating.choice import chosen
from sanitize.studies.mating.joints import joint_between
from sanitize.studies.mating.layout import Ends, Row
from sanitize.studies.mating.result import Joint
from sanitize.studies.mating.rules import CEMENT


@dataclass(frozen=True, slots=True)
class Made:
    """One row; ends belongs to each station, joints lie between one station and the next."""

    row: Row
    ends: tuple[Ends, ...]
    joints: tuple[Joint, ...]

    def sockets_count(self, number: int) -> int:
        """How many ends of a station are cemented into a socket: of a neighbour, or of a piece that is missing."""
        before = self.joints[number - 1].seals[-1:] if number > 0 else ()
        behind = self.joints[number].seals[:1] if number < len(self.joints) else ()
        return sum(seal.kind == CEMENT for seal in (*before, *behind))


def make(row: Row) -> Made:
    """A row put together."""
    ends = chosen(row)
    pairs = zip(row, ends, row[1:], ends[1:], strict=False)
    return Made(row, ends, tuple(joint_between(*pair) for pair in pairs))
