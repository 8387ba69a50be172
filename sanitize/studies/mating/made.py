"""A row of the loop with the forms that its parts take and the joints between them."""

from dataclasses import dataclass

from sanitize.studies.mating.choice import chosen
from sanitize.studies.mating.joints import joint_between
from sanitize.studies.mating.layout import Ends, Row
from sanitize.studies.mating.result import Joint


@dataclass(frozen=True, slots=True)
class Made:
    """One row; ends belongs to each station, joints lie between one station and the next."""

    row: Row
    ends: tuple[Ends, ...]
    joints: tuple[Joint, ...]


def make(row: Row) -> Made:
    """A row put together."""
    ends = chosen(row)
    pairs = zip(row, ends, row[1:], ends[1:], strict=False)
    return Made(row, ends, tuple(joint_between(*pair) for pair in pairs))
