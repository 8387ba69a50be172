"""Numbers with their range as people read them: two significant figures, one unit, words where there is no number."""

from sanitize.basis.figure import Figure
from sanitize.basis.figure_words import against_air, figure, share
from sanitize.basis.units import Family, shown_unit, significant, to_shown

__all__ = ["against_air", "bare", "figure", "percent", "sentence", "share", "short_share", "unit_of"]


def short_share(ratio: float) -> str:
    """A share for the cell of a table.

    >>> short_share(0.002), short_share(0.31), short_share(1.0)
    ('<1 %', '31 %', '>99 %')
    """
    return share(ratio).replace("less than ", "<").replace("more than ", ">")


def sentence(text: str) -> str:
    """A text with its first letter large, as a part's name may stand there.

    A path or a place in the file keeps its letters.

    >>> sentence("pump runs"), sentence("loop[4] filter: unknown"), sentence("demos/guest.toml is read")
    ('Pump runs', 'loop[4] filter: unknown', 'demos/guest.toml is read')
    """
    first = text.split(" ", 1)[0].rstrip(".,:;")
    return text if any(letter in first for letter in "[/.") else text[:1].upper() + text[1:]


def percent(value: Figure) -> str:
    """A ratio with its range in percent, for ratios that are no shares of cases.

    >>> percent(Figure(0.13, 0.24, 0.78))
    '24 % (13 to 78)'
    """
    if value.low is None or value.nominal is None or value.high is None:
        return "undefined"
    low, nominal, high = (significant(100.0 * end) for end in (value.low, value.nominal, value.high))
    return f"{nominal} %" if low == high == nominal else f"{nominal} % ({low} to {high})"


def bare(value: Figure, kind: str, unit: str) -> str:
    """A figure for the cell of a table whose head names the unit.

    >>> bare(Figure(5000.0, 6000.0, 8000.0), "pressure", "kPa")
    '6.0 (5.0 to 8.0)'
    """
    ends = [
        None if end is None else significant(to_shown(end, kind, unit))
        for end in (value.low, value.nominal, value.high)
    ]
    low, nominal, high = ("-" if end is None else end for end in ends)
    return nominal if low == high == nominal else f"{nominal} ({low} to {high})"


def unit_of(kind: str, family: Family) -> str:
    """The unit that a kind with one unit a family is shown in.

    >>> unit_of("flow", "us"), unit_of("pressure", "metric")
    ('gal/min', 'kPa')
    """
    return shown_unit(1.0, kind, family)
