"""How a message shows what stands in the file, and the nearest right word for a misspelt one."""

import datetime
import difflib
from collections.abc import Iterable
from typing import Any

_LONGEST_SHOWN = 48
_LONGEST_COMPARED = 60
_CALLED: tuple[tuple[type, str], ...] = (
    (list, "a list"),
    (dict, "a table"),
    (datetime.date, "a date"),
    (datetime.time, "a time"),
)


def quoted(text: str) -> str:
    """A text of the file in quotes, cut short and without characters that do not print."""
    clean = "".join(letter if letter.isprintable() else "?" for letter in text[: _LONGEST_SHOWN + 1])
    if len(clean) > _LONGEST_SHOWN:
        clean = clean[: _LONGEST_SHOWN - 3] + "..."
    return f'"{clean}"'


def shown(value: Any) -> str:
    """A value of the file in a few words.

    >>> [shown(value) for value in ("2 m", 3, 0.5, True, [1], {})]
    ['"2 m"', '3', '0.5', 'true', 'a list', 'a table']
    """
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) > 10**15:
        return "a very large number"
    if isinstance(value, int | float):
        return f"{value:.10g}" if isinstance(value, float) else str(value)
    return next((name for kind, name in _CALLED if isinstance(value, kind)), "something else")


def nearest(word: str, words: Iterable[str]) -> str:
    """The right word that a misspelt one most likely means, or nothing.

    >>> nearest("watr_level", ["water_level", "rim"]), nearest("Kpa", ["Pa", "kPa"]), nearest("xyz", ["rim"])
    ('water_level', 'kPa', '')
    """
    if len(word) > _LONGEST_COMPARED:
        return ""
    right = list(words)
    by_small = {item.casefold(): item for item in right}
    same = by_small.get(word.casefold().strip())
    if same is not None:
        return same
    close = difflib.get_close_matches(word.casefold(), list(by_small), n=1, cutoff=0.6)
    return by_small[close[0]] if close else ""


def alike(word: str, words: Iterable[str]) -> list[str]:
    """The few right words that look like a misspelt one."""
    if len(word) > _LONGEST_COMPARED:
        return []
    return difflib.get_close_matches(word.casefold(), list(words), n=4, cutoff=0.6)


def listed(words: Iterable[str]) -> str:
    """Words in a row with commas."""
    return ", ".join(words)
