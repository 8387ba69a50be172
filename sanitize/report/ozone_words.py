"""Figures of the ozone answer in words."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import Family, show, significant, to_shown
from sanitize.studies.ozone.result import Ozone


def grams(value: Figure) -> str:
    """A daily amount, with its range."""
    return f"{plain(value)} g"


def plain(value: Figure, never: str = "no end") -> str:
    """A figure without a unit; never: what stands for an end that does not come."""
    low, nominal, high = (never if end is None else significant(end) for end in (value.low, value.nominal, value.high))
    return nominal if low == high == nominal else f"{nominal} ({low} to {high})"


def ppm(value: float) -> str:
    """Ozone in air by volume."""
    return f"{significant(value)} ppm"


def ppm_of(value: Figure) -> str:
    """Ozone in air by volume, with its range."""
    low, nominal, high = ("-" if end is None else significant(end) for end in (value.low, value.nominal, value.high))
    return f"{nominal} ppm" if low == high == nominal else f"{nominal} ppm ({low} to {high})"


def mgl_of(value: Figure) -> str:
    """A concentration in water, with its range."""
    return f"{plain(value)} mg/L"


def space(value: Figure, family: Family) -> str:
    """A room's volume, with its range, which nobody counts in litres or gallons."""
    unit = "m3" if family == "metric" else "ft3"
    ends = [to_shown(end, "volume", unit) for end in value.ends]
    return f"{plain(Figure(ends[0], ends[1], ends[2]))} {unit}"


def worst_time(time_s: float | None, result: Ozone) -> str:
    """What is added to a wait for its worst end; nothing where there is none."""
    if not time_s:
        return ""
    return f"; at the worst end it takes {show(time_s, 'time', result.units)}"
