"""The study of the timer: the cheapest day that keeps every wish, or what stands in its way and the nearest one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.tables import model_table
from sanitize.studies.draws import Array
from sanitize.studies.hours.result import Wishes
from sanitize.studies.timer.conflict import smallest_conflict
from sanitize.studies.timer.cuts import cuts_of
from sanitize.studies.timer.energy import powers_w, segment_prices, spent_by
from sanitize.studies.timer.programme import Programme, best, can_hold, programme
from sanitize.studies.timer.result import WISHES, Broken, Device, Plan, WishName
from sanitize.studies.timer.rows import Rows, rows_of
from sanitize.studies.timer.segments import Bools, lasts_all_day, runs_of

HOUR_S = 3600.0


@dataclass(frozen=True, eq=False)
class _Day:
    """Which devices run in which segments, the smallest conflict, and what the day misses."""

    on: Mapping[Device, Bools]
    conflict: tuple[WishName, ...]
    broken: tuple[Broken, ...]


def solve_plan(wishes: Wishes, run_s: float) -> Plan:
    """The plan of a day; run_s: time that the pump must run [s], finite, more than a day is a wish in vain.

    Least cost; with the same hours at each price the fewest switchings; and of equally many starts of each device the
    day that runs least and earliest: a segment less counts as much as a day earlier.
    Where wishes conflict: the smallest conflict, and of the days with the least weighted misses (table plan_weights)
    the cheapest.
    """
    return _plan(_day(_nominal(wishes), run_s), wishes)


def _nominal(wishes: Wishes) -> Wishes:
    """The wishes with the nominal ends alone, on which the day stands."""

    def middle(value: Figure) -> Figure:
        return Figure(value.nominal, value.nominal, value.nominal)

    return replace(
        wishes,
        pump_power_w=middle(wishes.pump_power_w),
        chiller_power_w=None if wishes.chiller_power_w is None else middle(wishes.chiller_power_w),
        chiller_run_s=None if wishes.chiller_run_s is None else middle(wishes.chiller_run_s),
    )


@lru_cache(maxsize=64)
def _day(wishes: Wishes, run_s: float) -> _Day:
    """The day itself; the same question is worked out once."""
    rows = rows_of(wishes, run_s)
    names = [name for name in WISHES if any(row.wish == name for row in rows.rows)]
    conflict: tuple[WishName, ...] = ()
    task = programme(rows, names)
    x = _best(rows, task, wishes, _costs(rows, task, wishes))
    if x is None:
        conflict = smallest_conflict(names, lambda some: can_hold(rows, some))
        task = programme(rows, names, elastic=True)
        x = _best(rows, task, wishes, [_misses(task, wishes.segment_s), *_costs(rows, task, wishes)])
    if x is None:
        raise ValueError("wishes that may all be missed still conflict")
    on = {what: x[first : first + rows.n] > 0.5 for what, first in rows.devices.items()}
    return _Day(on, conflict, _broken(task, x, wishes.segment_s))


def _best(rows: Rows, task: Programme, wishes: Wishes, costs: list[Array]) -> Array | None:
    return best(task, costs, _hours(rows, task, wishes), _starts(rows, task), _time_and_lateness(rows, task))


def _costs(rows: Rows, task: Programme, wishes: Wishes) -> list[Array]:
    """What is least first and second: the cost, and the energy where some of it is free."""
    cost, energy = np.zeros((2, task.matrix.shape[1]))
    prices, powers = segment_prices(wishes), powers_w(wishes)
    for what, first in rows.devices.items():
        on = slice(first, first + rows.n)
        energy[on] = powers[what].ends[1] if what in powers else 0.0
        cost[on] = energy[on] * prices
    both = [cost, energy] if np.any(prices == 0.0) else [cost]
    return [each / each.max() for each in both if each.max() > 0.0]


def _hours(rows: Rows, task: Programme, wishes: Wishes) -> list[Array]:
    """Segments of each device that takes power, at each price: what a cost consists of, in whole numbers.

    Held, they say the same as the cost, but for days that cost the same by chance, and the solver is far quicker.
    """
    prices, powers = segment_prices(wishes), powers_w(wishes)
    found = []
    for what, first in rows.devices.items():
        for price in np.unique(prices) if what in powers else ():
            row = np.zeros(task.matrix.shape[1])
            row[first : first + rows.n] = prices == price
            found.append(row)
    return found


def _starts(rows: Rows, task: Programme) -> list[Array]:
    """The starts of each device."""
    counts = np.zeros((len(rows.devices), task.matrix.shape[1]))
    for count, first in zip(counts, rows.devices.values(), strict=True):
        count[first + rows.n : first + 2 * rows.n] = 1.0
    return list(counts)


def _time_and_lateness(rows: Rows, task: Programme) -> Array:
    """Each segment in which something runs, and the part of the day that is over by then."""
    cost = np.zeros(task.matrix.shape[1])
    for first in rows.devices.values():
        cost[first : first + rows.n] = 1.0 + np.arange(rows.n) / rows.n
    return cost


def _misses(task: Programme, segment_s: float) -> Array:
    """Weights of the misses: by the hour, or by the run."""
    costs = np.zeros(task.matrix.shape[1])
    for at, wish in enumerate(task.misses, task.plain):
        costs[at] = model_table("plan_weights")[(wish,)].value * (1.0 if wish == "most runs" else segment_s / HOUR_S)
    return costs


def _broken(task: Programme, x: Array, segment_s: float) -> tuple[Broken, ...]:
    found = []
    for wish in WISHES:
        missed = round(float(sum(x[at] for at, name in enumerate(task.misses, task.plain) if name == wish)))
        if missed and wish == "most runs":
            found.append(Broken(wish, None, missed))
        elif missed:
            found.append(Broken(wish, missed * segment_s, None))
    return tuple(found)


def _plan(day: _Day, wishes: Wishes) -> Plan:
    on, step = day.on, wishes.segment_s
    runs = {what: runs_of(what, segments, step) for what, segments in on.items()}
    pump = runs["pump"]
    ozone = runs.get("ozone", []) if wishes.two_timers else pump if wishes.has_ozone else []
    kept = all(item.wish != "ozone rest" for item in day.broken)
    time_s = {what: step * float(segments.sum()) for what, segments in on.items()}
    return Plan(
        segment_s=step,
        runs=tuple(run for several in runs.values() for run in several),
        conflict=day.conflict,
        broken=day.broken,
        run_s=time_s["pump"],
        ozone_run_s=time_s.get("ozone", 0.0) if wishes.two_timers else time_s["pump"] if wishes.has_ozone else 0.0,
        chiller_run_s=time_s.get("chiller", 0.0),
        switchings_count=sum(len(several) for several in runs.values() if not lasts_all_day(several)),
        clocks_count=2 if "ozone" in runs else 1,
        cuts=cuts_of(pump, ozone, wishes, rest_is_kept=kept),
        needs_interlock=bool(runs.get("ozone")) and not lasts_all_day(pump),
        spent=spent_by(on, wishes),
    )
