"""What is found out about the joints of a loop."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.notices import Notice
from sanitize.basis.tables import Standing

Verdict = Literal["mates", "needs a piece", "not judged"]


@dataclass(frozen=True, slots=True)
class Piece:
    """Something that is missing between two parts; to_size is the other size of a piece that has two, else empty."""

    name: str
    size: str
    to_size: str
    cut: bool


@dataclass(frozen=True, slots=True)
class Seal:
    """One sealed joint: what kind it is, what seals it, and the trade size there."""

    kind: str
    sealant: str
    size: str


@dataclass(frozen=True, slots=True)
class Joint:
    """Two neighbours and how they join, in the order of the water.

    verdict: whether they mate as they are; missing: what stands between them if not; seals: every joint from the
    first part to the second; reason, standing, source: of the rule.
    """

    first: str
    second: str
    first_end: str
    second_end: str
    first_size: str
    second_size: str
    verdict: Verdict
    missing: tuple[Piece, ...]
    seals: tuple[Seal, ...]
    reason: str
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True)
class Mismatch:
    """Something that does not fit, and what to do about it.

    code: stable, words joined by hyphens; parts: the names concerned; text: what is wrong; action: what puts it right.
    """

    code: str
    parts: tuple[str, ...]
    text: str
    action: str
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True)
class Mating:
    """Every joint, everything that does not fit, and what was taken because the file does not say it.

    sources: keys of the table of sources behind the notices.
    """

    joints: tuple[Joint, ...]
    problems: tuple[Mismatch, ...]
    assumptions: tuple[Notice, ...]
    notices: tuple[Notice, ...]
    sources: tuple[str, ...]
