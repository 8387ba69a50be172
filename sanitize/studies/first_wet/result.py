"""The sheet for the first filling."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.faults.result import FaultName

AnyFault = FaultName | Literal["chiller gives no cold"]


@dataclass(frozen=True)
class Suspect:
    """A fault that brings a reading out of its band on one side, and in what share of its cases."""

    fault: AnyFault
    share_ratio: float


@dataclass(frozen=True)
class Line:
    """One reading of the sheet, with its reading error in all figures.

    reading: its field of `[measured]`; expected: of a healthy loop; low_limit, high_limit: the band in which it passes;
    too_low, too_high: the faults that a miss on that side names, the likeliest first; where none is brought there in
    half of its cases, those that come nearest to it.
    """

    reading: str
    kind: str
    expected: Figure
    low_limit: float
    high_limit: float
    too_low: tuple[Suspect, ...]
    too_high: tuple[Suspect, ...]


@dataclass(frozen=True)
class FirstWet:
    """The readings in the order in which they can be taken.

    passes_ratio: share of the healthy loops that the file allows of which every line passes; unseen: faults that no
    line shows in at least half of their cases, and no eye; off_water_height_m: where water stands in the gas line with
    the pump off and the check valve sound; highest_point_m: of the gas line.
    """

    title: str
    units: Literal["metric", "us"]
    lines: tuple[Line, ...]
    passes_ratio: float
    unseen: tuple[AnyFault, ...]
    has_check_valve: bool
    off_water_height_m: Figure
    highest_point_m: Figure
    shut_off_pressure_pa_gauge: float
    cases_count: int
    seed: int
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
