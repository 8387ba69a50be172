"""Parts of the day in the loop file: from and to, with a price or without."""

import re
from collections.abc import Sequence
from dataclasses import replace

from sanitize.loopfile.ask import Ask
from sanitize.loopfile.wording import shown
from sanitize.plant.day import DAY_S, PriceWindow, Window, clock

MOST_WINDOWS = 24
LARGEST_PRICE = 1000.0
_CLOCK = re.compile(r"^\s*(\d{1,2}):([0-5]\d)\s*$")
_ACCEPTED = 'hours and minutes of the day in quotes, "00:00" to "24:00"'


def read_windows(raw: object, ask: Ask) -> tuple[Window, ...] | None:
    """Pairs of from and to that do not overlap; None when there was a problem."""
    rows = _rows(raw, 2, ask)
    if rows is None:
        return None
    found = [Window(start_s=row[0], end_s=row[1]) for row in rows]
    return tuple(found) if _apart(found, ask) else None


def read_prices(raw: object, ask: Ask) -> tuple[PriceWindow, ...] | None:
    """Rows of from, to and price that make up the whole day; None when there was a problem."""
    rows = _rows(raw, 3, ask)
    if rows is None:
        return None
    found = [PriceWindow(start_s=row[0], end_s=row[1], price_per_kwh=row[2]) for row in rows]
    if not _apart(found, ask):
        return None
    ordered = sorted(found, key=lambda window: window.start_s)
    for window, after in zip(ordered, [*ordered[1:], *ordered[:1]], strict=True):
        if window.end_s % DAY_S != after.start_s % DAY_S:
            gap = f"from {clock(window.end_s)} to {clock(after.start_s)}"
            ask.wrong(f"there is no price {gap}", "prices for the whole day, without a gap")
            return None
    return tuple(found)


def _rows(raw: object, length: int, ask: Ask) -> list[tuple[float, ...]] | None:
    if not isinstance(raw, list) or not raw:
        ask.wrong(f"{shown(raw)} is no list of parts of the day", "a list of rows in brackets")
        return None
    if len(raw) > MOST_WINDOWS:
        ask.wrong(f"it has {len(raw)} rows", f"at most {MOST_WINDOWS} rows")
        return None
    rows = [_row(item, length, replace(ask, where=f"{ask.where}[{number}]")) for number, item in enumerate(raw, 1)]
    right = [row for row in rows if row is not None]
    return right if len(right) == len(rows) else None


def _row(raw: object, length: int, ask: Ask) -> tuple[float, ...] | None:
    what = "from and to" if length == 2 else "from, to and price"
    if not isinstance(raw, list) or len(raw) != length:
        ask.wrong(f"{shown(raw)} is not {what}", f"{what} in brackets")
        return None
    start, end = _time_s(raw[0], ask), _time_s(raw[1], ask)
    if start is None or end is None:
        return None
    if start == end:
        ask.wrong("it ends when it begins", 'an end after the start; the whole day is "00:00" to "24:00"')
        return None
    if length == 2:
        return start, end
    price = raw[2]
    if not isinstance(price, int | float) or isinstance(price, bool) or not 0.0 <= price <= LARGEST_PRICE:
        ask.wrong(f"{shown(price)} is no price", f"a number from 0 to {LARGEST_PRICE:g}")
        return None
    return start, end, float(price)


def _time_s(raw: object, ask: Ask) -> float | None:
    match = _CLOCK.match(raw) if isinstance(raw, str) else None
    minutes = 60 * int(match[1]) + int(match[2]) if match else 1441
    if minutes > 1440:
        ask.wrong(f"{shown(raw)} is no time of the day", _ACCEPTED)
        return None
    return 60.0 * minutes


def _apart(windows: Sequence[Window], ask: Ask) -> bool:
    """Whether no two windows overlap; notes the first two that do."""
    for number, window in enumerate(windows):
        for other in windows[number + 1 :]:
            if window.holds(other.start_s % DAY_S) or other.holds(window.start_s % DAY_S):
                both = " and ".join(f"{clock(one.start_s)} to {clock(one.end_s)}" for one in (window, other))
                ask.wrong(f"{both} overlap", "parts of the day that do not overlap")
                return False
    return True
