"""Trade sizes as people write them, and the one spelling that the records hold."""

import re

from sanitize.plant.part import SIZES

TUBE_SIZES = ("3/8", "5/8")
"""Sizes that exist as vinyl tube and its barbs only."""
TUBE_WORDS = ("vinyl tube", "barb")

_SIZE = re.compile(
    r'^\s*(?:(\d{1,2})[-\s]+)?(\d{1,2}(?:\.\d{1,4})?|\.\d{1,4})(?:/(\d{1,2}))?\s*(?:in|inch|inches|"|\'\')?\s*$'
)


def _inches(size: str) -> float:
    whole, _, fraction = size.rpartition("-")
    above, _, below = fraction.partition("/")
    return (float(whole) if whole else 0.0) + float(above) / float(below or 1)


_SIZE_OF_INCHES = {_inches(size): size for size in SIZES}


def canonical(text: str) -> str | None:
    """The spelling inside of a trade size, or None when it is none.

    >>> [canonical(text) for text in ('3/4 in', '3/4"', '3/4', '0.75 in', '1-1/2 in', '1.25 in', '20 mm')]
    ['3/4', '3/4', '3/4', '3/4', '1-1/2', '1-1/4', None]
    """
    match = _SIZE.match(text)
    if not match:
        return None
    whole, above, below = match[1], match[2], match[3]
    if below is None:
        return None if whole else _SIZE_OF_INCHES.get(float(above))
    if "." in above or int(below) == 0:
        return None
    return _SIZE_OF_INCHES.get(float(whole or 0) + int(above) / int(below))


def accepted_sizes(word: str = "") -> str:
    """The sizes for a part of that word, for messages."""
    sizes = SIZES if word in TUBE_WORDS else tuple(size for size in SIZES if size not in TUBE_SIZES)
    return ", ".join(f"{size} in" for size in sizes)
