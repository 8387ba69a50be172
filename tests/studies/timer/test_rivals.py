"""The optimiser against a search through every small day: the same least cost, switchings and conflicts."""

from collections.abc import Iterator
from itertools import product

import numpy as np
import pytest

from sanitize.studies.timer.programme import best, can_hold, programme
from sanitize.studies.timer.result import WishName
from sanitize.studies.timer.rows import Rows

N = 10
Day = dict[str, tuple[int, ...]]


def lengths(on: tuple[int, ...], value: int) -> list[int]:
    """Lengths of the blocks of a value around the day."""
    text = "".join(str(one) for one in on)
    if len(set(on)) == 1:
        return [N] if on[0] == value else []
    turn = next(at for at in range(N) if on[at] != on[at - 1])
    text = text[turn:] + text[:turn]
    return [len(block) for block in text.split(str(1 - value)) if block]


def starts(on: tuple[int, ...]) -> int:
    return 0 if all(on) else len(lengths(on, 1))


SMALL: dict[str, dict[str, int]] = {
    "plain": {"total": 4, "idle": 3, "least": 1, "most": 9, "ozone": 0, "chiller": 0},
    "long runs": {"total": 3, "idle": 4, "least": 2, "most": 9, "ozone": 0, "chiller": 0},
    "one run": {"total": 5, "idle": 5, "least": 1, "most": 1, "ozone": 0, "chiller": 0},
    "ozone": {"total": 4, "idle": 4, "least": 1, "most": 3, "ozone": 2, "chiller": 0},
    "chiller": {"total": 3, "idle": 4, "least": 2, "most": 3, "ozone": 0, "chiller": 4},
    "late in one": {"total": 2, "idle": 9, "least": 1, "most": 9, "ozone": 0, "chiller": 0, "quiet": 1},
    "both": {"total": 4, "idle": 5, "least": 1, "most": 2, "ozone": 2, "chiller": 3},
}
PRICES = {
    "flat": [3.0] * N,
    "night": [1.0, 1.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 1.0],
    "odd": [5.0, 2.0, 4.0, 1.0, 7.0, 3.0, 6.0, 2.0, 5.0, 4.0],
}


def small_rows(ask: dict[str, int]) -> Rows:
    """A day of ten segments: 0 is before bathing, 7 is quiet unless another one is."""
    rows = Rows(N)
    rows.device("pump", ask["least"], "shortest run")
    rows.total("pump", ask["total"], "run time")
    rows.no_longer_off("pump", ask["idle"], "longest idle time")
    rows.held("pump", np.arange(N) == ask.get("quiet", 7), False, "quiet hours")
    rows.held("pump", np.arange(N) == 0, True, "run before bathing")
    rows.add([(rows.start("pump", t), -1.0) for t in range(N)], -float(ask["most"]), "most runs")
    if ask["ozone"]:
        rows.device("ozone")
        rows.inside("ozone", "pump", 1, "clocks apart")
        rows.total("ozone", ask["ozone"], "ozone hours")
        rows.held("ozone", np.isin(np.arange(N), (9, 0)), False, "ozone rest")
    if ask["chiller"]:
        rows.device("chiller", 2, "shortest chiller run")
        rows.inside("chiller", "pump")
        rows.total("chiller", ask["chiller"], "chiller hours")
        rows.least_off("chiller", 2, "shortest chiller rest")
    return rows


def every_day(ask: dict[str, int]) -> Iterator[Day]:
    """Every day that keeps all of it, found by looking at each."""
    days = [tuple(bits) for bits in product((0, 1), repeat=N)]
    chillers = [day for day in days if sum(day) >= ask["chiller"]] if ask["chiller"] else [(0,) * N]
    if ask["chiller"]:
        chillers = [day for day in chillers if min(lengths(day, 1)) >= 2 and min(lengths(day, 0), default=N) >= 2]
    ozones = [day for day in days if sum(day) >= ask["ozone"] and not (day[9] or day[0])] if ask["ozone"] else []
    for pump in days:
        if sum(pump) < ask["total"] or pump[ask.get("quiet", 7)] or not pump[0] or starts(pump) > ask["most"]:
            continue
        if max(lengths(pump, 0), default=0) > ask["idle"] or min(lengths(pump, 1)) < ask["least"]:
            continue
        inside = tuple(pump[t - 1] and pump[t] and pump[(t + 1) % N] for t in range(N))
        fits = [ozone for ozone in ozones if all(i >= o for i, o in zip(inside, ozone, strict=True))]
        for ozone in fits if ask["ozone"] else [(0,) * N]:
            for chiller in chillers:
                if all(p >= c for p, c in zip(pump, chiller, strict=True)):
                    yield {"pump": pump, "ozone": ozone, "chiller": chiller}


def cost_of(day: Day, prices: list[float]) -> float:
    return sum((100.0 * p + 300.0 * c) * each for p, c, each in zip(day["pump"], day["chiller"], prices, strict=True))


def hours_at_each_price(day: Day, prices: list[float]) -> list[int]:
    return [
        sum(on for on, each in zip(day[what], prices, strict=True) if each == price)
        for what in ("pump", "chiller")
        for price in sorted(set(prices))
    ]


def starts_of(day: Day) -> list[int]:
    return [starts(day[what]) for what in day]


def lateness(day: Day) -> int:
    return sum((N + t) * day[what][t] for what in day for t in range(N))


@pytest.mark.parametrize("prices", PRICES)
@pytest.mark.parametrize("ask", SMALL)
def test_best_day_is_that_of_a_search_through_all(ask: str, prices: str) -> None:
    """Least cost; with these hours at each price the fewest starts; with these starts the least and earliest."""
    rows = small_rows(SMALL[ask])
    names: list[WishName] = [row.wish for row in rows.rows if row.wish is not None]
    task = programme(rows, names)
    price = np.array(PRICES[prices])
    cost, late = np.zeros((2, rows.columns_count))
    starting = np.zeros((len(rows.devices), rows.columns_count))
    held = []
    for count, (what, first) in zip(starting, rows.devices.items(), strict=True):
        cost[first : first + N] = {"pump": 100.0, "chiller": 300.0}.get(what, 0.0) * price
        count[first + N : first + 2 * N] = 1.0
        late[first : first + N] = N + np.arange(N)
        for each in np.unique(price) if what != "ozone" else ():
            held.append(np.zeros(rows.columns_count))
            held[-1][first : first + N] = price == each
    x = best(task, [cost], held, list(starting), late)
    assert x is not None
    found: Day = dict.fromkeys(("pump", "ozone", "chiller"), (0,) * N)
    found |= {what: tuple(x[first : first + N].astype(int)) for what, first in rows.devices.items()}
    days = list(every_day(SMALL[ask]))
    assert min(cost_of(day, PRICES[prices]) for day in days) == pytest.approx(cost_of(found, PRICES[prices]))
    mix = hours_at_each_price(found, PRICES[prices])
    days = [day for day in days if mix == hours_at_each_price(day, PRICES[prices])]
    assert min(sum(starts_of(day)) for day in days) == sum(starts_of(found))
    assert min(lateness(day) for day in days if starts_of(day) == starts_of(found)) == lateness(found)


@pytest.mark.parametrize("change", [{"idle": 1}, {"total": 10}, {"ozone": 7}, {"chiller": 9}, {"most": 1, "idle": 3}])
def test_day_that_the_search_does_not_find_the_programme_does_not_either(change: dict[str, int]) -> None:
    ask = {**SMALL["both"], "most": 9, "idle": 9, **change}
    rows = small_rows(ask)
    names: list[WishName] = [row.wish for row in rows.rows if row.wish is not None]
    assert (next(every_day(ask), None) is not None) == can_hold(rows, names)
