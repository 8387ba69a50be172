"""What the study of the timer answers."""

from dataclasses import dataclass
from typing import Literal, get_args

from sanitize.studies.hours.result import Apart

Device = Literal["pump", "ozone", "chiller"]
Stops = Literal["pump", "ozone", "both"]
Breaks = Literal["flow", "rest"]
WishName = Literal[
    "run time",
    "longest idle time",
    "quiet hours",
    "run before bathing",
    "run after bathing",
    "run while bathing",
    "shortest run",
    "most runs",
    "ozone hours",
    "ozone rest",
    "shortest ozone run",
    "clocks apart",
    "chiller hours",
    "shortest chiller run",
    "shortest chiller rest",
]
WISHES: tuple[WishName, ...] = get_args(WishName)


@dataclass(frozen=True)
class PlanRun:
    """One run as a person sets it; it ends behind midnight where the stop is not after the start."""

    what: Device
    start_s: float
    stop_s: float


@dataclass(frozen=True)
class Broken:
    """A wish that the nearest plan does not keep, and by how much.

    short_s: time by which it is missed, summed over the day; None where the wish counts runs, then extra_count.
    """

    wish: WishName
    short_s: float | None
    extra_count: int | None


@dataclass(frozen=True)
class PowerCut:
    """What a power cut does that stops clocks, all of them right before.

    stops: whose clock stands still during the cut and is late ever after. holds_up_to_s: how late it may be until
    ozone meets standing water, or runs within its rest before bathing; None where neither ever happens. breaks: which
    of the two comes first.
    """

    stops: Stops
    holds_up_to_s: float | None
    breaks: Breaks | None


@dataclass(frozen=True)
class Spent:
    """What a plan takes a day and, on every day as on this one, a year; cost is None without prices.

    Together: the sums of the ends.
    """

    energy_j: Apart
    energy_year_j: Apart
    cost: Apart | None
    cost_year: Apart | None


@dataclass(frozen=True)
class Plan:
    """The cheapest day that keeps every wish, or where they conflict the nearest one.

    conflict: the smallest set of wishes that no plan keeps together, empty where all are kept; broken: what the
    nearest plan then breaks. switchings_count: times that anything is switched on. clocks: 1, or 2 where the ozone
    unit has a timer of its own. needs_interlock: whether timers alone cannot keep ozone out of standing water.
    run_s and chiller_run_s: of the plan, in whole segments.
    """

    segment_s: float
    runs: tuple[PlanRun, ...]
    conflict: tuple[WishName, ...]
    broken: tuple[Broken, ...]
    run_s: float
    ozone_run_s: float
    chiller_run_s: float
    switchings_count: int
    clocks_count: int
    cuts: tuple[PowerCut, ...]
    needs_interlock: bool
    spent: Spent
