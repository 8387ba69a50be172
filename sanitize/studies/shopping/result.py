"""What to buy and cut for a loop, and whether its parts mate."""

from dataclasses import dataclass

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import Standing
from sanitize.basis.units import Family
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.mating.result import Joint, Mismatch


@dataclass(frozen=True, slots=True)
class BuyLine:
    """One line to buy.

    to_size: the other size of something that has two; ends: its ends where the file or a usual form gives them;
    bore_m: of tube that has no trade size;
    stated_count: how many the loop file names; missing_count: how many more its joints need;
    length_m: of what is bought by length, allowances included; serves: the parts or joints it is for.
    """

    item: str
    size: str
    to_size: str
    ends: str
    bore_m: float | None
    stated_count: int
    missing_count: int
    length_m: Figure | None
    serves: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many to buy."""
        return self.stated_count + self.missing_count


@dataclass(frozen=True, slots=True)
class CutLine:
    """Pieces to cut alike; length_m: of each; showing_m: of it, what stays between the faces of its fittings."""

    item: str
    size: str
    schedule: str
    count: int
    length_m: Figure
    showing_m: Figure
    serves: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SealLine:
    """What seals the joints of one kind and size, and how many they are; length_m: of tape."""

    sealant: str
    kind: str
    size: str
    joints_count: int
    length_m: Figure | None


@dataclass(frozen=True, slots=True)
class Depth:
    """How far a pipe goes into a fitting of a size that this loop has."""

    kind: str
    size: str
    length_m: Figure
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True)
class PartsList:
    """The joints, what does not fit, what was taken, and the lists; sources: keys of all that is cited."""

    title: str
    units: Family
    joints: tuple[Joint, ...]
    problems: tuple[Mismatch, ...]
    assumptions: tuple[Notice, ...]
    buy: tuple[BuyLine, ...]
    cut: tuple[CutLine, ...]
    seal: tuple[SealLine, ...]
    depths: tuple[Depth, ...]
    notices: tuple[Notice, ...]
    sources: tuple[str, ...]
    cautions: tuple[Caution, ...]
