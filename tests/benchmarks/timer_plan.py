"""How fast the plan of a day of 96 segments with every wish is found, against a search through whole days.

The rival looks at every day of a given number of segments for the pump alone, with the same wishes about run time,
idle time, shortest and most runs, and stops at its least cost; a day of 96 segments would take 2 to the power 96 looks.
It is therefore timed at 20 segments, and the ratio is that of the two times: how much of the small search the whole
day costs. Both sides alternate; medians count. Run it by hand on a quiet machine: python tests/benchmarks/timer_plan.py
"""

import argparse
import time
from collections.abc import Callable
from itertools import product
from statistics import median

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.plant.day import PriceWindow, Window
from sanitize.studies.hours.result import Wishes
from sanitize.studies.timer import study
from sanitize.studies.timer.programme import programme
from sanitize.studies.timer.rows import Rows

H = 3600.0
SEARCHED = 20
ASK = {"total": 6, "idle": 4, "least": 2, "most": 3}
PRICES = [1.0, 1.0, 1.0, 1.0, 2.0, 2.0, 3.0, 3.0, 2.0, 2.0, 3.0, 3.0, 3.0, 2.0, 2.0, 3.0, 2.0, 1.0, 1.0, 1.0]


def window(start_h: float, end_h: float) -> Window:
    return Window(start_s=start_h * H, end_s=end_h * H)


def price(start_h: float, end_h: float, per_kwh: float) -> PriceWindow:
    return PriceWindow(start_s=start_h * H, end_s=end_h * H, price_per_kwh=per_kwh)


def every_wish() -> tuple[Wishes, float]:
    """A day of 96 segments with every wish on, and its run time."""
    wishes = Wishes(
        segment_s=900.0,
        least_run_s=1800.0,
        most_runs_count=5,
        longest_idle_s=6 * H,
        quiet=(window(23, 5),),
        bathing=(window(7, 7.5), window(18, 19)),
        run_before_s=1800.0,
        run_during=True,
        run_after_s=3600.0,
        has_ozone=True,
        two_timers=True,
        clocks_apart_s=900.0,
        ozone_run_s=3 * H,
        ozone_least_run_s=1800.0,
        ozone_rest_s=2 * H,
        chiller_run_s=Figure(2.5 * H, 2.5 * H, 2.5 * H),
        chiller_least_on_s=1800.0,
        chiller_least_off_s=900.0,
        pump_power_w=Figure(100.0, 100.0, 100.0),
        chiller_power_w=Figure(900.0, 900.0, 900.0),
        prices=(price(0, 6, 0.15), price(6, 9, 0.3), price(9, 16, 0.2), price(16, 21, 0.4), price(21, 0, 0.25)),
    )
    return wishes, 8 * H


def small_rows() -> Rows:
    """The small day as a programme."""
    rows = Rows(SEARCHED)
    rows.device("pump", ASK["least"], "shortest run")
    rows.total("pump", ASK["total"], "run time")
    rows.no_longer_off("pump", ASK["idle"], "longest idle time")
    rows.add([(rows.start("pump", t), -1.0) for t in range(SEARCHED)], -float(ASK["most"]), "most runs")
    return rows


def searched() -> float:
    """Least cost of the small day by looking at every day."""
    least = float("inf")
    for day in product("01", repeat=SEARCHED):
        if day.count("1") < ASK["total"]:
            continue
        text = "".join(day)
        turn = text.find("01") + 1
        turned = text[turn:] + text[:turn]
        runs = [len(run) for run in turned.split("0") if run]
        gaps = [len(gap) for gap in turned.split("1") if gap]
        if len(runs) > ASK["most"] or min(runs) < ASK["least"] or max(gaps, default=0) > ASK["idle"]:
            continue
        least = min(least, sum(each for each, on in zip(PRICES, day, strict=True) if on == "1"))
    return least


def solved() -> float:
    """The same by the programme."""
    rows = small_rows()
    task = programme(rows, ["run time", "longest idle time", "shortest run", "most runs"])
    cost = np.zeros(rows.columns_count)
    cost[:SEARCHED] = PRICES
    x = task.solve(cost)
    if x is None:
        raise ValueError("the small day has no plan")
    return float(cost @ x)


def whole_day() -> None:
    """The whole day with every wish, from the beginning."""
    study._day.cache_clear()
    plan = study.solve_plan(*every_wish())
    if plan.conflict:
        raise ValueError("the wishes conflict")


def timed(what: Callable[[], object]) -> float:
    """Time of a call [s]."""
    start = time.perf_counter()
    what()
    return time.perf_counter() - start


def main() -> None:
    """Alternate both sides and print the medians and their ratio."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    rounds = parser.parse_args().rounds
    pairs = [(timed(whole_day), timed(searched)) for _ in range(rounds)]
    ours, theirs = (median(side) for side in zip(*pairs, strict=True))
    print(f"every wish, 96 segments: median {ours:.2f} s of {rounds} rounds")
    print(f"search through {2**SEARCHED} days of {SEARCHED} segments: median {theirs:.2f} s")
    print(f"ratio, median of the pairs: {median(ours_s / theirs_s for ours_s, theirs_s in pairs):.2f}")
    print(f"least cost of the small day: searched {searched():g}, solved {solved():g}")


if __name__ == "__main__":
    main()
