"""A number with its range in words: one unit, two significant figures, words where there is no number."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import Family, show, show_range, shown_unit, significant, to_shown


def figure(value: Figure, kind: str, family: Family, never: str = "none") -> str:
    """A figure with its range in one unit; a range that two figures cannot show is left out.

    >>> figure(Figure(30 / 60000, 40 / 60000, 44 / 60000), "flow", "metric")
    '40 L/min (30 to 44)'
    >>> figure(Figure(39.9 / 60000, 40 / 60000, 40.1 / 60000), "flow", "metric")
    '40 L/min'
    >>> figure(Figure(10 / 60000, 20 / 60000, None), "flow", "metric", never="never")
    '20 L/min (10 to never)'
    """
    low, nominal, high = value.low, value.nominal, value.high
    if low is not None and nominal is not None and high is not None:
        text = show_range(low, nominal, high, kind, family)
        number, _, ends = text.partition(" (")
        first = number.split()[0]
        return number if ends == f"{first} to {first})" else text
    if nominal is None and low is None:
        return never
    biggest = max(abs(end) for end in (low, nominal, high) if end is not None)
    unit = shown_unit(biggest, kind, family)
    a, b, c = (never if end is None else significant(to_shown(end, kind, unit)) for end in (low, nominal, high))
    return f"{b if nominal is None else f'{b} {unit}'} ({a if nominal is not None else f'{a} {unit}'} to {c})"


def against_air(pressure_pa_gauge: Figure, family: Family) -> str:
    """A gauge pressure as a vacuum gauge shows it: below the air, or above it.

    >>> against_air(Figure(-11000.0, -8200.0, -5100.0), "metric")
    '8.2 kPa below the air (5.1 to 11)'
    >>> against_air(Figure(-11000.0, -8200.0, 900.0), "metric")
    '8.2 kPa below the air (from 11 below to 0.90 above)'
    >>> against_air(Figure(1000.0, 2100.0, 3000.0), "us")
    '0.30 psi above the air (0.15 to 0.44)'
    """
    if pressure_pa_gauge.nominal is None:
        return "no answer"
    low, nominal, high = pressure_pa_gauge.ends
    side = "below" if nominal < 0.0 else "above"
    if low < 0.0 < high:
        below, above = show(-low, "vacuum", family), show(high, _kind("above"), family)
        below, above = (below.split()[0], above.split()[0]) if family == "metric" else (below, above)
        return f"{show(abs(nominal), _kind(side), family)} {side} the air (from {below} below to {above} above)"
    ends = sorted((abs(low), abs(high)))
    text = figure(Figure(ends[0], abs(nominal), ends[1]), _kind(side), family)
    number, bracket, rest = text.partition(" (")
    return f"{number} {side} the air{bracket}{rest}"


def _kind(side: str) -> str:
    return "vacuum" if side == "below" else "pressure"


FEW = "less than 1 %"
MOST = "more than 99 %"


def share(ratio: float) -> str:
    """A share of cases in percent, never 0 or 100.

    >>> share(0.0), share(0.004), share(0.426), share(0.99), share(0.996), share(1.0)
    ('less than 1 %', 'less than 1 %', '43 %', '99 %', 'more than 99 %', 'more than 99 %')
    """
    if ratio < 0.01:
        return FEW
    return MOST if ratio > 0.99 else f"{100.0 * ratio:.0f} %"
