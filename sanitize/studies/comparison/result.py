"""What a comparison of loops answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.units import Family
from sanitize.studies.cautions.caution import Caution, Severity
from sanitize.studies.faults.result import FaultName, HazardCode
from sanitize.studies.suction.result import CheckValve, Level, StateName, Verdict

Kind = Literal["value", "part", "place", "name"]
Tendency = Literal["same", "more", "less", "either", "none"]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing in which the files differ.

    kind: a value of a key; a part or table that not all have; where a part stands; what it is called.
    places: the parts, or the table in brackets, or nothing for the file itself; key: in the file, for a value;
    values: for each file the text there, None where it has none.
    """

    kind: Kind
    places: tuple[str, ...]
    key: str
    values: tuple[str | None, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """One quantity of a file less that of the first file, taken case by case.

    compared_ratio: share of the cases in which both files have it; more_ratio, less_ratio: share of those in which this
    file has more, or less. tendency: "more" or "less" where the range of the difference keeps to one side of 0 or ends
    there, "either" where it holds both or nothing, "same" where no case differs, "none" where no case compares.
    """

    difference: Figure
    more_ratio: float
    less_ratio: float
    compared_ratio: float
    tendency: Tendency


@dataclass(frozen=True, slots=True)
class Measure:
    """One quantity of every file, by the name that it has in the answer of the suction study.

    changes: for each file behind the first.
    """

    name: str
    values: tuple[Figure, ...]
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class DrawsChange:
    """Shares of the cases in which only this file's injector draws, and in which only the first one's does."""

    only_here_ratio: float
    only_first_ratio: float


@dataclass(frozen=True, slots=True)
class FileAnswer:
    """One file; label: A for the first and so on; path: as it was given; draws_change: None for the first.

    same_cases: whether it was solved over the cases of the first file, so that what both share cancels.
    """

    label: str
    path: str
    title: str
    verdict: Verdict
    draws_share_ratio: float
    draws_change: DrawsChange | None
    why: str
    same_cases: bool


@dataclass(frozen=True, slots=True)
class CautionOf:
    """A caution and the labels of the files that it holds for; its figures are those of the first of them."""

    files: tuple[str, ...]
    caution: Caution


@dataclass(frozen=True, slots=True)
class NoticeOf:
    """A notice and the labels of the files that it holds for."""

    files: tuple[str, ...]
    notice: Notice


@dataclass(frozen=True, slots=True)
class StateOf:
    """A state of the tub in which water or air at the port do not go the same way in all files; texts: for each.

    check_valve: none only where no file has one; a loop without one stands beside the others' sound and leaking ones.
    """

    state: StateName
    level: Level
    check_valve: CheckValve
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HazardOf:
    """A hazard that not the same faults bring in all files; faults: those that bring it, for each file."""

    hazard: HazardCode
    severity: Severity
    faults: tuple[tuple[FaultName, ...], ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """Loops side by side: what differs in the files, and what it does.

    cautions, notices: of all files; fault_cases_count: cases over which the faults were solved.
    """

    units: Family
    cases_count: int
    seed: int
    files: tuple[FileAnswer, ...]
    differences: tuple[Difference, ...]
    measures: tuple[Measure, ...]
    states: tuple[StateOf, ...]
    hazards: tuple[HazardOf, ...]
    fault_cases_count: int
    cautions: tuple[CautionOf, ...]
    notices: tuple[NoticeOf, ...]
