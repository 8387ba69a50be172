"""Wishes to start from, and a checker of plans that shares no line with the optimiser."""

from collections.abc import Callable
from typing import Any

import pytest

from sanitize.basis.figure import Figure
from sanitize.plant.day import Window
from sanitize.studies.hours.result import Wishes
from sanitize.studies.timer.result import Device, Plan


def exactly(value: float) -> Figure:
    return Figure(value, value, value)


@pytest.fixture(scope="session")
def wishes() -> Callable[..., Wishes]:
    """Wishes that ask for little: half-hour steps, a pump of 100 W, no ozone, no chiller, no price."""

    def ask(**more: Any) -> Wishes:
        plain: dict[str, Any] = {
            "segment_s": 1800.0,
            "least_run_s": 1800.0,
            "most_runs_count": None,
            "longest_idle_s": 86400.0,
            "quiet": (),
            "bathing": (),
            "run_before_s": 0.0,
            "run_during": False,
            "run_after_s": 0.0,
            "has_ozone": False,
            "two_timers": False,
            "clocks_apart_s": 0.0,
            "ozone_run_s": 0.0,
            "ozone_least_run_s": 1800.0,
            "ozone_rest_s": 0.0,
            "chiller_run_s": None,
            "chiller_least_on_s": 0.0,
            "chiller_least_off_s": 0.0,
            "pump_power_w": exactly(100.0),
            "chiller_power_w": None,
            "prices": None,
        }
        return Wishes(**{**plain, **more})

    return ask


@pytest.fixture(scope="session")
def faults_of() -> Callable[[Plan, Wishes, float], list[str]]:
    """The wishes that a plan does not keep, told minute by minute from its switch times alone."""
    return _faults


DAY = 1440


def _minutes(plan: Plan, what: Device) -> list[bool]:
    """Whether a device runs in each minute."""
    found = [False] * DAY
    for run in plan.runs:
        if run.what == what:
            at, stop = round(run.start_s / 60), round(run.stop_s / 60)
            for minute in range(at, stop if stop > at else stop + DAY):
                found[minute % DAY] = True
    return found


def blocks(on: list[bool], value: bool = True) -> list[int]:
    """Lengths of the blocks of a value around the day; one block of the whole day where nothing changes."""
    if all(one == value for one in on):
        return [DAY]
    if not any(one == value for one in on):
        return []
    first = next(at for at in range(DAY) if on[at] == value and on[at - 1] != value)
    turned = on[first:] + on[:first]
    found, length = [], 0
    for one in turned:
        if one == value:
            length += 1
        elif length:
            found.append(length)
            length = 0
    return [*found, length] if length else found


def _all(on: list[bool], start_s: float, length_s: float, value: bool) -> bool:
    return all(on[(round(start_s / 60) + at) % DAY] == value for at in range(round(length_s / 60)))


def _shifted(on: list[bool], by: int) -> list[bool]:
    return [on[(at - by) % DAY] for at in range(DAY)]


def _faults(plan: Plan, wishes: Wishes, run_s: float) -> list[str]:
    """The wishes that the plan does not keep."""
    pump = _minutes(plan, "pump")
    found = []

    def needs(name: str, holds: bool) -> None:
        if not holds:
            found.append(name)

    def off_in(windows: tuple[Window, ...]) -> bool:
        return all(_all(pump, one.start_s, one.length_s, False) for one in windows)

    needs("run time", sum(pump) * 60 >= run_s - 1e-6)
    needs("longest idle time", max(blocks(pump, False), default=0) * 60 <= wishes.longest_idle_s)
    needs("quiet hours", off_in(wishes.quiet))
    for one in wishes.bathing:
        needs("run before bathing", _all(pump, one.start_s - wishes.run_before_s, wishes.run_before_s, True))
        needs("run after bathing", _all(pump, one.end_s, wishes.run_after_s, True))
        needs("run while bathing", not wishes.run_during or _all(pump, one.start_s, one.length_s, True))
    needs("shortest run", min(blocks(pump), default=DAY) * 60 >= wishes.least_run_s)
    runs = 0 if all(pump) else len(blocks(pump))
    needs("most runs", wishes.most_runs_count is None or runs <= wishes.most_runs_count)
    if wishes.has_ozone:
        found += _ozone_faults(plan, wishes, pump)
    if wishes.chiller_run_s is not None:
        chiller = _minutes(plan, "chiller")
        needs("chiller without flow", not any(c and not p for c, p in zip(chiller, pump, strict=True)))
        needs("chiller hours", sum(chiller) * 60 >= min(wishes.chiller_run_s.ends[1], run_s) - 1e-6)
        needs("shortest chiller run", min(blocks(chiller), default=DAY) * 60 >= wishes.chiller_least_on_s)
        needs("shortest chiller rest", min(blocks(chiller, False), default=DAY) * 60 >= wishes.chiller_least_off_s)
    return found


def _ozone_faults(plan: Plan, wishes: Wishes, pump: list[bool]) -> list[str]:
    """With the ozone unit's clock right, early and late."""
    ozone = _minutes(plan, "ozone") if wishes.two_timers else pump
    found = []
    if sum(ozone) * 60 < wishes.ozone_run_s:
        found.append("ozone hours")
    if wishes.two_timers and min(blocks(ozone), default=DAY) * 60 < wishes.ozone_least_run_s:
        found.append("shortest ozone run")
    apart = round(wishes.clocks_apart_s / 60) if wishes.two_timers else 0
    for off in range(-apart, apart + 1, 5):
        moved = _shifted(ozone, off)
        if any(o and not p for o, p in zip(moved, pump, strict=True)):
            found.append("clocks apart")
        for one in wishes.bathing:
            length = one.length_s + wishes.ozone_rest_s
            if not _all(moved, one.start_s - wishes.ozone_rest_s, length, False):
                found.append("ozone rest")
    return found
