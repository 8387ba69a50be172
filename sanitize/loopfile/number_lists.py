"""Lists of plain numbers and of names, as a fit writes them."""

import math

from sanitize.loopfile.ask import Ask
from sanitize.loopfile.wording import shown

MOST_ITEMS = 200
MOST_ROWS = 5000
LARGEST = 100.0


def read_keys(raw: object, ask: Ask) -> tuple[str, ...] | None:
    """A list of different texts; None when there was a problem."""
    if not isinstance(raw, list) or not raw or not all(isinstance(item, str) and item.strip() for item in raw):
        ask.wrong(f"{shown(raw)} is no list of names")
        return None
    if len(raw) > MOST_ITEMS or len(set(raw)) < len(raw):
        ask.wrong(f"it names {len(raw)}, some of them twice" if len(raw) <= MOST_ITEMS else f"it names {len(raw)}")
        return None
    return tuple(raw)


def read_number_rows(raw: object, ask: Ask) -> tuple[tuple[float, ...], ...] | None:
    """Rows of plain numbers, all of one length; None when there was a problem."""
    if not isinstance(raw, list) or not raw or len(raw) > MOST_ROWS:
        ask.wrong(f"{shown(raw)} is no list of at most {MOST_ROWS} rows")
        return None
    length = len(raw[0]) if isinstance(raw[0], list) else 0
    for number, row in enumerate(raw, start=1):
        if not isinstance(row, list) or not row or len(row) != length or not all(_is_number(item) for item in row):
            ask.wrong(f"row {number} is no list of plain numbers, as many as in the first row")
            return None
    return tuple(tuple(float(item) for item in row) for row in raw)


def _is_number(item: object) -> bool:
    return isinstance(item, int | float) and not isinstance(item, bool) and math.isfinite(item) and abs(item) <= LARGEST
