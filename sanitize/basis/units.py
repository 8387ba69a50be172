"""Quantities as people write them ("3/4 in", "8 gpm", "43 degF") to SI numbers, and back to the family they ask for."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

Family = Literal["metric", "us"]
FAMILIES: tuple[Family, ...] = ("metric", "us")

_NUMBER = r"[+-]?(?:\d+-\d+/\d+|\d+/\d+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)"
_QUANTITY = re.compile(rf"^\s*(?P<number>{_NUMBER})\s*(?P<unit>[^\d\s+±(].*?)\s*$")
_FEET_INCHES = re.compile(rf"^\s*(?P<feet>\d+)\s*(?:ft|')\s*(?P<inches>{_NUMBER})\s*(?:in|\")\s*$")
_PLUS_MINUS = re.compile(r"^(?P<value>.*?)\s*(?:\+-|\+/-|±)\s*(?P<spread>.*)$")
_FROM_TO = re.compile(r"^(?P<value>.*?)\s*\((?P<low>.*?)\s+to\s+(?P<high>.*?)\)\s*$")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: the unit that numbers of it carry inside, and what people may write.

    suffix: the ending of a number's name; base: the unit inside, as the unit library spells it;
    units: spelling -> the unit library's spelling; show: family -> (spelling, largest value shown in it), rising.
    """

    name: str
    suffix: str
    base: str
    units: dict[str, str]
    show: dict[Family, tuple[tuple[str, float], ...]]
    example: str


_INF = float("inf")
_LENGTHS = {
    "m": "meter", "cm": "centimeter", "mm": "millimeter", "in": "inch", "inch": "inch", "inches": "inch",
    '"': "inch", "ft": "foot", "feet": "foot", "foot": "foot", "'": "foot",
}  # fmt: skip
_FLOWS = {
    "L/min": "liter/minute", "l/min": "liter/minute", "lpm": "liter/minute", "LPM": "liter/minute",
    "L/h": "liter/hour", "l/h": "liter/hour", "L/s": "liter/second", "l/s": "liter/second",
    "m3/h": "meter**3/hour", "m3/s": "meter**3/second", "mL/min": "milliliter/minute",
    "gpm": "gallon/minute", "gal/min": "gallon/minute", "gph": "gallon/hour", "gal/h": "gallon/hour",
    "ft3/h": "foot**3/hour", "ft3/min": "foot**3/minute",
}  # fmt: skip
_PRESSURES = {
    "Pa": "pascal", "hPa": "hectopascal", "kPa": "kilopascal", "mbar": "millibar", "bar": "bar",
    "psi": "psi", "inHg": "inHg", "mmHg": "mmHg", "mH2O": "meter_H2O", "cmH2O": "cm_H2O",
    "ftH2O": "foot_H2O", "inH2O": "inch_H2O",
}  # fmt: skip

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("length", "_m", "meter", _LENGTHS,
             {"metric": (("mm", 0.1), ("m", _INF)), "us": (("in", 0.3048), ("ft", _INF))}, "5.5 m"),
        Kind("bore", "_m", "meter", _LENGTHS, {"metric": (("mm", _INF),), "us": (("in", _INF),)}, "20.6 mm"),
        Kind("area", "_m2", "meter**2",
             {"m2": "meter**2", "cm2": "centimeter**2", "mm2": "millimeter**2", "ft2": "foot**2", "in2": "inch**2"},
             {"metric": (("m2", _INF),), "us": (("ft2", _INF),)}, "0.9 m2"),
        Kind("volume", "_m3", "meter**3",
             {"L": "liter", "l": "liter", "liter": "liter", "litre": "liter", "m3": "meter**3", "mL": "milliliter",
              "gal": "gallon", "gallon": "gallon", "gallons": "gallon", "ft3": "foot**3"},
             {"metric": (("L", 5.0), ("m3", _INF)), "us": (("gal", _INF),)}, "430 L"),
        Kind("flow", "_m3s", "meter**3/second", _FLOWS,
             {"metric": (("L/min", _INF),), "us": (("gal/min", _INF),)}, "40 L/min"),
        Kind("gas flow", "_m3s", "meter**3/second", _FLOWS,
             {"metric": (("L/min", _INF),), "us": (("ft3/h", _INF),)}, "2 L/min"),
        Kind("pressure", "_pa", "pascal", _PRESSURES,
             {"metric": (("kPa", _INF),), "us": (("psi", _INF),)}, "6 kPa"),
        Kind("vacuum", "_pa", "pascal", _PRESSURES,
             {"metric": (("kPa", _INF),), "us": (("inHg", _INF),)}, "8 kPa"),
        Kind("head", "_m", "meter", {**_LENGTHS, "mH2O": "meter", "ftH2O": "foot"},
             {"metric": (("m", _INF),), "us": (("ft", _INF),)}, "4.4 m"),
        Kind("velocity", "_ms", "meter/second",
             {"m/s": "meter/second", "ft/s": "foot/second", "cm/s": "centimeter/second"},
             {"metric": (("m/s", _INF),), "us": (("ft/s", _INF),)}, "0.5 m/s"),
        Kind("temperature", "_c", "degC",
             {"degC": "degC", "°C": "degC", "C": "degC", "degF": "degF", "°F": "degF", "F": "degF", "K": "kelvin"},
             {"metric": (("degC", _INF),), "us": (("degF", _INF),)}, "6 degC"),
        Kind("temperature difference", "_k", "kelvin",
             {"degC": "delta_degC", "°C": "delta_degC", "C": "delta_degC", "K": "kelvin", "degF": "delta_degF",
              "°F": "delta_degF", "F": "delta_degF"},
             {"metric": (("degC", _INF),), "us": (("degF", _INF),)}, "0.5 degC"),
        Kind("power", "_w", "watt", {"W": "watt", "kW": "kilowatt", "hp": "horsepower", "BTU/h": "Btu/hour"},
             {"metric": (("W", 1000.0), ("kW", _INF)), "us": (("W", 1000.0), ("kW", _INF))}, "85 W"),
        Kind("angle", "_deg", "degree", {"deg": "degree", "°": "degree", "degrees": "degree"},
             {"metric": (("deg", _INF),), "us": (("deg", _INF),)}, "35 deg"),
        Kind("speed", "_per_s", "1/second",
             {"rpm": "1/minute", "1/min": "1/minute", "Hz": "1/second"},
             {"metric": (("rpm", _INF),), "us": (("rpm", _INF),)}, "2900 rpm"),
        Kind("ozone rate", "_mg_per_h", "milligram/hour",
             {"mg/h": "milligram/hour", "g/h": "gram/hour", "mg/min": "milligram/minute"},
             {"metric": (("mg/h", _INF),), "us": (("mg/h", _INF),)}, "90 mg/h"),
        Kind("concentration", "_mgl", "milligram/liter",
             {"mg/L": "milligram/liter", "mg/l": "milligram/liter", "ppm": "milligram/liter", "g/L": "gram/liter",
              "ug/L": "microgram/liter"},
             {"metric": (("mg/L", _INF),), "us": (("mg/L", _INF),)}, "80 mg/L"),
        Kind("conductivity", "_us_cm", "microsiemens/centimeter",
             {"uS/cm": "microsiemens/centimeter", "µS/cm": "microsiemens/centimeter",
              "mS/cm": "millisiemens/centimeter"},
             {"metric": (("uS/cm", _INF),), "us": (("uS/cm", _INF),)}, "550 uS/cm"),
        Kind("mass", "_g", "gram",
             {"g": "gram", "kg": "kilogram", "mg": "milligram", "oz": "ounce", "lb": "pound"},
             {"metric": (("g", _INF),), "us": (("g", _INF),)}, "5 g"),
        Kind("dose volume", "_ml", "milliliter",
             {"mL": "milliliter", "ml": "milliliter", "L": "liter", "fl oz": "fluid_ounce", "tsp": "teaspoon"},
             {"metric": (("mL", _INF),), "us": (("mL", _INF),)}, "5 mL"),
        Kind("force", "_n", "newton", {"N": "newton", "lbf": "force_pound"},
             {"metric": (("N", _INF),), "us": (("lbf", _INF),)}, "50 N"),
        Kind("time", "_s", "second",
             {"s": "second", "min": "minute", "h": "hour", "d": "day", "days": "day"},
             dict.fromkeys(FAMILIES, (("s", 60.0), ("min", 7200.0), ("h", 3.0 * 86400.0), ("days", _INF))), "20 min"),
        Kind("dirt rate", "_g_per_day", "gram/day",
             {"g/day": "gram/day", "g/d": "gram/day", "mg/day": "milligram/day", "oz/day": "ounce/day"},
             {"metric": (("g/day", _INF),), "us": (("oz/day", _INF),)}, "2 g/day"),
    )
}  # fmt: skip


@lru_cache(maxsize=1)
def _registry() -> Any:
    """The unit library's registry, made on first use."""
    import pint

    return pint.UnitRegistry()


@lru_cache(maxsize=512)
def _line(unit: str, base: str) -> tuple[float, float]:
    """Factor and offset from a unit (the library's spelling) to the base unit."""
    registry = _registry()
    zero = registry.Quantity(0.0, registry.Unit(unit)).to(registry.Unit(base)).magnitude
    one = registry.Quantity(1.0, registry.Unit(unit)).to(registry.Unit(base)).magnitude
    return float(one - zero), float(zero)


class QuantityError(ValueError):
    """A text that is not a quantity of the wanted kind; the message says what was found."""


@dataclass(frozen=True, slots=True)
class Stated:
    """A quantity as stated: the value inside, and the ends when the text gave them."""

    value: float
    low: float | None = None
    high: float | None = None


def accepted_units(kind: str) -> str:
    """The units that may be written for a kind, for messages."""
    seen: dict[str, str] = {}
    for spelling, unit in KINDS[kind].units.items():
        seen.setdefault(unit, spelling)
    return ", ".join(seen.values())


def _number(text: str) -> float:
    sign = -1.0 if text.startswith("-") else 1.0
    body = text.lstrip("+-")
    if "/" not in body:
        return sign * float(body)
    whole, _, fraction = body.rpartition("-")
    above, below = fraction.split("/")
    if float(below) == 0.0:
        raise QuantityError(f'"{text}" divides by zero')
    return sign * ((float(whole) if whole else 0.0) + float(above) / float(below))


def _one(text: str, kind: Kind, *, difference: bool = False) -> float:
    feet = _FEET_INCHES.match(text)
    if feet and "ft" in kind.units:
        factor, _ = _line("foot", kind.base)
        return factor * (float(feet["feet"]) + _number(feet["inches"]) / 12.0)
    if re.match(r"^\s*[+-]?\d+,\d+", text):
        raise QuantityError(f'"{text}" has a comma; write a decimal point, and no mark between thousands')
    if re.match(rf"^\s*{_NUMBER}\s*$", text):
        raise QuantityError(f'"{text}" has no unit')
    match = _QUANTITY.match(text)
    if not match:
        raise QuantityError(f'"{text}" is not a number with a unit')
    unit = kind.units.get(match["unit"])
    if unit is None:
        raise QuantityError(f'"{text}" has a unit that is no {kind.name}')
    factor, offset = _line(unit, kind.base)
    value = factor * _number(match["number"]) + (0.0 if difference else offset)
    if not abs(value) < 1e12:
        raise QuantityError(f'"{text}" is too large')
    return value


def parse(text: str, kind: str) -> Stated:
    """A text such as "5.5 m", "2.2 m +- 5 cm", "2.2 m +- 3 %" or "2.2 m (2.0 m to 2.5 m)" to base units.

    Raises QuantityError when the text is no quantity of the kind.

    >>> parse("1-1/2 in", "length").value
    0.0381
    >>> parse("43 degF", "temperature").value
    6.1111
    >>> parse("2 m +- 5 %", "length")
    Stated(value=2.0, low=1.9, high=2.1)
    """
    wanted = KINDS[kind]
    return _stated(text, lambda part, difference: _one(part, wanted, difference=difference))


def parse_plain(text: str) -> Stated:
    """A number without a unit that states its range, such as "0.3 +- 0.1", "0.3 +- 20 %" or "0.3 (0.2 to 0.5)".

    Raises QuantityError when the text is no number.

    >>> parse_plain("0.3 (0.2 to 0.5)")
    Stated(value=0.3, low=0.2, high=0.5)
    """
    return _stated(text, _one_plain)


def _one_plain(text: str, difference: bool) -> float:
    if not re.match(rf"^\s*{_NUMBER}\s*$", text):
        raise QuantityError(f'"{text}" is not a number')
    return _number(text.strip())


def _stated(text: str, one: Callable[[str, bool], float]) -> Stated:
    between = _FROM_TO.match(text)
    if between:
        value = one(between["value"], False)
        low, high = one(between["low"], False), one(between["high"], False)
        if not low <= value <= high:
            raise QuantityError(f'"{text}" does not lie between its own ends')
        return Stated(value, low, high)
    around = _PLUS_MINUS.match(text)
    if around and around["value"].strip():
        value = one(around["value"], False)
        percent = re.match(rf"^\s*({_NUMBER})\s*%\s*$", around["spread"])
        spread = abs(value) * _number(percent[1]) / 100.0 if percent else one(around["spread"], True)
        if not 0.0 <= spread < float("inf"):
            raise QuantityError(f'"{text}" has a spread that is negative or too large')
        return Stated(value, value - spread, value + spread)
    return Stated(one(text, False))


def significant(value: float, figures: int = 2) -> str:
    """A number with so many significant figures and no exponent.

    >>> [significant(x) for x in (0.0, 0.01234, 3.456, 123.4, -98.7)]
    ['0', '0.012', '3.5', '120', '-99']
    """
    if value == 0.0 or abs(value) < 1e-12:
        return "0"
    text = f"{value:.{figures}g}"
    number = float(text)
    digits = max(0, figures - 1 - _exponent(number))
    return f"{number:.{digits}f}"


def _exponent(value: float) -> int:
    return int(f"{value:e}".split("e")[1])


def shown_unit(value: float, kind: str, family: Family) -> str:
    """The spelling of the unit in which a value of a kind is shown."""
    steps = KINDS[kind].show[family]
    for spelling, largest in steps:
        if abs(value) < largest:
            return spelling
    return steps[-1][0]


def to_shown(value: float, kind: str, spelling: str) -> float:
    """A value in base units in the unit of that spelling."""
    wanted = KINDS[kind]
    factor, offset = _line(wanted.units[spelling], wanted.base)
    return (value - offset) / factor


def to_base(value: float, kind: str, spelling: str) -> float:
    """A value in the unit of that spelling in base units, the inverse of `to_shown`.

    >>> to_base(1.0, "area", "ft2")
    0.0929
    """
    wanted = KINDS[kind]
    factor, offset = _line(wanted.units[spelling], wanted.base)
    return factor * value + offset


def show(value: float, kind: str, family: Family, figures: int = 2) -> str:
    """A value in base units as people read it.

    >>> show(40 / 60000, "flow", "metric"), show(0.0381, "bore", "us"), show(6.0, "temperature", "us")
    ('40 L/min', '1.5 in', '43 degF')
    """
    spelling = shown_unit(value, kind, family)
    return f"{significant(to_shown(value, kind, spelling), figures)} {spelling}"


def show_range(low: float, nominal: float, high: float, kind: str, family: Family, figures: int = 2) -> str:
    """A value with its range, all three in one unit.

    >>> show_range(30 / 60000, 40 / 60000, 44 / 60000, "flow", "metric")
    '40 L/min (30 to 44)'
    """
    spelling = shown_unit(max(abs(low), abs(nominal), abs(high)), kind, family)
    a, b, c = (significant(to_shown(value, kind, spelling), figures) for value in (low, nominal, high))
    return f"{b} {spelling} ({a} to {c})"
