"""Quantities with units, and plain numbers: their text, their limits and their range."""

import re

from sanitize.basis.band import Band, Scale
from sanitize.basis.tables import default
from sanitize.basis.units import (
    KINDS,
    QuantityError,
    Stated,
    parse,
    parse_plain,
    show_range,
)
from sanitize.loopfile.ask import Ask, within
from sanitize.loopfile.wording import nearest, shown
from sanitize.plant.spec import Spec

UNKNOWN = "unknown"
LONGEST_QUANTITY = 120

_SPELT_OUT = {
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "centimetre": "cm", "centimetres": "cm",
    "centimeter": "cm", "centimeters": "cm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm",
    "millimeters": "mm", "liters": "L", "litres": "L", "celsius": "degC", "fahrenheit": "degF", "degrees c": "degC",
    "degrees f": "degF", "deg c": "degC", "deg f": "degF", "liters/min": "L/min", "litres/min": "L/min",
    "l/m": "L/min", "liters per minute": "L/min", "litres per minute": "L/min", "gallons per minute": "gpm",
    "gallons per hour": "gph", "watt": "W", "watts": "W",
}  # fmt: skip
_NO_STAND_IN = {
    "curve": "the pump alone moves the water, and no range could stand in for it",
    "volume": "every turnover is counted in it, and no range could stand in for it",
    "water_temperature": "it sets how thick the water is, and a thermometer gives it at once",
    "water_level": "every other height is judged against it",
}


def read_quantity(raw: object, ask: Ask) -> Band | float | None:
    """A quantity as text with its unit, or "unknown" where that may stand; None when there was a problem."""
    spec = ask.spec
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        line = ask.line(f'"{shown(raw)} {_example_unit(spec)}"')
        ask.wrong(f"{shown(raw)} has no unit", write=f"{line}, or with the unit that you measured in")
        return None
    if not isinstance(raw, str):
        ask.wrong(f"{shown(raw)} is no {spec.kind}")
        return None
    if raw.strip().casefold() == UNKNOWN:
        return unknown_band(ask)
    stated = parse_text(raw, spec.kind, ask)
    return None if stated is None else _checked(raw, stated, ask)


def read_number(raw: object, ask: Ask) -> Band | float | None:
    """A plain number, or text with a number and its range where the record holds one; None when there was a problem."""
    if isinstance(raw, str):
        return _number_from_text(raw, ask)
    if not isinstance(raw, int | float) or isinstance(raw, bool):
        ask.wrong(f"{shown(raw)} is no number")
        return None
    if not abs(raw) < 1e12:
        ask.wrong(f"{shown(raw)} is no number that can stand here")
        return None
    return _checked(shown(raw), Stated(float(raw)), ask)


def _number_from_text(raw: str, ask: Ask) -> Band | float | None:
    if raw.strip().casefold() == UNKNOWN:
        return unknown_band(ask)
    try:
        stated = parse_plain(raw[:LONGEST_QUANTITY])
    except QuantityError:
        ask.wrong(f"{shown(raw)} is no number")
        return None
    if stated.low is not None and ask.band:
        return _checked(raw, stated, ask)
    ask.wrong(f"{shown(raw)} stands in quotes", write=ask.line(f"{stated.value:g}"))
    return None


def parse_text(raw: str, kind: str, ask: Ask, write: str = "") -> Stated | None:
    """A text to a quantity of a kind in base units; None when there was a problem."""
    if len(raw) > LONGEST_QUANTITY:
        ask.wrong(f"{shown(raw)} is too long for a quantity")
        return None
    try:
        return parse(raw, kind)
    except QuantityError as error:
        ask.wrong(_printable(str(error)), write=write or _better(raw, kind, ask))
        return None


def _printable(text: str) -> str:
    return "".join(letter if letter.isprintable() else "?" for letter in text)


def _better(raw: str, kind: str, ask: Ask) -> str:
    """The line with the decimal comma or the misspelt unit put right, where that is clear."""
    comma = re.match(r"^\s*([+-]?\d+),(\d+)(\D.*)?$", raw)
    better = f"{comma[1]}.{comma[2]}{comma[3] or ''}" if comma else raw
    match = re.match(r"^\s*([+-]?[\d./-]*\d)\s*([^\d\s].*?)\s*$", better)
    if match and match[2] not in KINDS[kind].units:
        units = KINDS[kind].units
        spelt = _SPELT_OUT.get(match[2].casefold(), "")
        unit = spelt if spelt in units else nearest(match[2], units)
        better = f"{match[1]} {unit}" if unit else raw
    if better == raw or ask.spec.kind not in KINDS:
        return ""
    try:
        parse(better, kind)
    except QuantityError:
        return ""
    return ask.line(f'"{better.strip()}"')


def _example_unit(spec: Spec) -> str:
    return spec.example.strip('"').split(" ", 1)[-1]


def _checked(raw: str, stated: Stated, ask: Ask) -> Band | float | None:
    """A stated value within its limits, with its range where the record holds one."""
    if ask.outside(stated.value):
        ask.wrong_limits(shown(raw) if ask.spec.kind in KINDS else raw)
        return None
    if not ask.band:
        if stated.low is not None:
            ask.wrong(f"{shown(raw)} states a range, and this field holds one value", "one value without a range")
            return None
        return stated.value
    return _with_range(raw, stated, ask)


def _with_range(raw: str, stated: Stated, ask: Ask) -> Band | None:
    """The range of a stated value.

    An end that a tolerance carries beyond a limit which the thing itself has (a handle below 0 deg) is that limit;
    ends that the user wrote must keep the limits.
    """
    spec = ask.spec
    low, high = stated.low, stated.high
    if low is None or high is None:
        half = _half_width(spec, stated.value)
        low, high = stated.value - half, stated.value + half
    elif "(" in raw and not (within(spec, low) and within(spec, high)):
        ask.wrong_limits(f"the range of {shown(raw)}")
        return None
    if spec.low is not None:
        low = max(low, spec.low)
    if spec.high is not None:
        high = min(high, spec.high)
    if spec.above is not None and low <= spec.above:
        ask.wrong_limits(f"the range of {shown(raw)}")
        return None
    return Band(low, stated.value, high, _scale(spec, low))


def _half_width(spec: Spec, value: float) -> float:
    if not spec.tolerance:
        return 0.0
    tolerance = default(spec.tolerance).value
    return tolerance * abs(value) if spec.tolerance.endswith("_ratio") else tolerance


def _scale(spec: Spec, low: float) -> Scale:
    return "log" if spec.scale == "log" and low > 0.0 else "linear"


def unknown_band(ask: Ask) -> Band | None:
    """The range that stands in for "unknown", with its notice; None when it may not stand here."""
    spec = ask.spec
    if not spec.unknown or not ask.band:
        why = _NO_STAND_IN.get(spec.key, "nothing could stand in for it" if spec.required else "")
        found = f'"{UNKNOWN}" cannot stand here'
        if why:
            ask.wrong(f"{found}: {why}")
        else:
            ask.wrong(found, f"{ask.accepted()}; or leave the line out")
        return None
    band = stand_in(spec, ask.reading.water_level_m)
    shown_range = (
        show_range(band.low, band.nominal, band.high, spec.kind, ask.reading.family)
        if spec.kind in KINDS
        else f"{band.nominal:g} ({band.low:g} to {band.high:g})"
    )
    measure = f" Measure it {spec.measure}." if spec.measure else ""
    ask.reading.notice("unknown-value", f"{ask.where} is unknown; {shown_range} stands in.{measure}")
    return band


def stand_in(spec: Spec, water_level_m: float) -> Band:
    """The range that stands in for "unknown"."""
    if len(spec.unknown) == 1:
        return default(spec.unknown[0]).band
    lift = water_level_m if spec.from_water else 0.0
    low, nominal, high = (parse(text, spec.kind).value + lift for text in spec.unknown)
    return Band(low, nominal, high, _scale(spec, low))
