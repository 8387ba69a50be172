"""What a power cut does that stops a clock of the plan."""

from sanitize.plant.day import DAY_S
from sanitize.studies.hours.result import Wishes
from sanitize.studies.timer.result import Breaks, PlanRun, PowerCut, Stops
from sanitize.studies.timer.segments import lasts_all_day


def cuts_of(pump: list[PlanRun], ozone: list[PlanRun], wishes: Wishes, *, rest_is_kept: bool) -> tuple[PowerCut, ...]:
    """For each clock that may stop: how late it may be until ozone meets standing water or its rest before bathing.

    pump, ozone: runs of the plan, the ozone unit's inside the pump's; rest_is_kept: whether the plan itself keeps the
    rest. Before the cut the clocks are right.
    """
    if not ozone:
        return ()
    rest_s = _rest_slack_s(ozone, wishes) if rest_is_kept else 0.0
    if not wishes.two_timers:
        return (_first("both", None, rest_s),)
    early_s, late_s = _inside(pump, ozone)
    return (_first("pump", early_s, None), _first("ozone", late_s, rest_s), _first("both", None, rest_s))


def _first(stops: Stops, flow_s: float | None, rest_s: float | None) -> PowerCut:
    known: list[tuple[float, Breaks]] = []
    if flow_s is not None:
        known.append((flow_s, "flow"))
    if rest_s is not None:
        known.append((rest_s, "rest"))
    return PowerCut(stops, *min(known, key=lambda pair: pair[0])) if known else PowerCut(stops, None, None)


def _inside(pump: list[PlanRun], ozone: list[PlanRun]) -> tuple[float | None, float | None]:
    """Least time from a pump's start to an ozone run's in it, and from that one's stop to the pump's [s]."""
    if lasts_all_day(pump):
        return None, None
    early, late = [], []
    for inner in ozone:
        outer = min(pump, key=lambda run: (inner.start_s - run.start_s) % DAY_S)
        early.append((inner.start_s - outer.start_s) % DAY_S)
        late.append((outer.stop_s - inner.stop_s) % DAY_S)
    return min(early), min(late)


def _rest_slack_s(ozone: list[PlanRun], wishes: Wishes) -> float | None:
    """Least time from an ozone run's stop to the rest before bathing [s]; None without bathing times."""
    ends = [run.stop_s for run in ozone]
    spans = [window.start_s - wishes.ozone_rest_s for window in wishes.bathing]
    return min(((start - end) % DAY_S for end in ends for start in spans), default=None)
