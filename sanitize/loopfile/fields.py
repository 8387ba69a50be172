"""The fields of one table or part, by their declarations: one function for each kind of field."""

import datetime
import typing
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from sanitize.basis.band import Band
from sanitize.basis.units import KINDS
from sanitize.loopfile.ask import Ask
from sanitize.loopfile.day_times import read_prices, read_windows
from sanitize.loopfile.number_lists import read_keys, read_number_rows
from sanitize.loopfile.points import (
    read_bench_rows,
    read_column_rows,
    read_drop_at_flow,
    read_drop_points,
    read_lift_rows,
    read_ozone_points,
    read_pump_points,
)
from sanitize.loopfile.quantities import read_number, read_quantity
from sanitize.loopfile.reading import Place, Reading
from sanitize.loopfile.sizes import accepted_sizes, canonical
from sanitize.loopfile.tree import MOST_WAYS
from sanitize.loopfile.wording import listed, nearest, shown
from sanitize.plant.spec import Record, Spec, specs

LONGEST_NAME = 60
_NOT_IN_NAMES = '="[]'


@dataclass(slots=True)
class Fields:
    """What a table or part gave: the values that were right by the record's attribute, and every key that was there.

    A misspelt key counts as the key that it most likely means, so that one mistake is one problem.
    """

    place: Place
    owner: str
    values: dict[str, Any] = field(default_factory=dict)
    given: set[str] = field(default_factory=set)


def read_fields(
    record: type[Record],
    raw: Mapping[str, Any],
    place: Place,
    owner: str,
    reading: Reading,
    ignored: Collection[str] = (),
) -> Fields:
    """Every field of a record from its raw table; notes misspelt keys and missing required ones.

    ignored: keys that are no fields of this record but may stand there.
    """
    fields = Fields(place, owner)
    declared = specs(record)
    keys = [spec.key for spec in declared.values()]
    for key in raw:
        if key not in keys and key not in ignored:
            near = nearest(key, keys)
            reading.problem(place.at(shown(key)[1:-1]), f"there is no such key in {owner}", listed(keys), near)
            fields.given.add(near)
    for attribute, spec in declared.items():
        if spec.key not in raw:
            if spec.required and spec.key not in fields.given:
                reading.problem(place.at(spec.key), missing_text(spec), write=f"{spec.key} = {spec.example}")
            continue
        fields.given.add(spec.key)
        value = read_field(raw[spec.key], Ask(spec, place.at(spec.key), owner, holds_band(record, attribute), reading))
        if value is not None:
            fields.values[attribute] = value
    return fields


def missing_text(spec: Spec) -> str:
    """What is said of a required key that is not there."""
    return f"is missing: {spec.help[0].lower()}{spec.help[1:].rstrip('.')}"


def read_field(raw: object, ask: Ask) -> Any:
    """One value by the kind of its field; None when there was a problem."""
    if ask.spec.kind in KINDS:
        return read_quantity(raw, ask)
    return READERS[ask.spec.kind](raw, ask)


@cache
def holds_band(record: type[Record], attribute: str) -> bool:
    """Whether a record holds a field with its range."""
    annotation = record.model_fields[attribute].annotation
    return annotation is Band or Band in typing.get_args(annotation)


def _read_text(raw: object, ask: Ask) -> str | None:
    if not isinstance(raw, str):
        ask.wrong(f"{shown(raw)} is no text")
        return None
    text = raw.strip()
    if not text:
        ask.wrong("the text is empty")
        return None
    if len(text) > LONGEST_NAME or not text.isprintable():
        ask.wrong(f"{shown(raw)} is too long or does not print", f"at most {LONGEST_NAME} letters on one line")
        return None
    if ask.spec.key == "name" and any(letter in _NOT_IN_NAMES for letter in text):
        ask.wrong(f"{shown(raw)} holds one of {_NOT_IN_NAMES}", "a name without these")
        return None
    return text


def _read_word(raw: object, ask: Ask) -> str | None:
    words = ask.spec.words
    text = str(raw) if isinstance(raw, int) and not isinstance(raw, bool) else raw
    if isinstance(text, str) and text in words:
        return text
    near = nearest(text, words) if isinstance(text, str) else ""
    accepted = listed(f'"{word}"' for word in words)
    ask.wrong(f"{shown(raw)} is none of its words", accepted, ask.line(f'"{near}"') if near else "")
    return None


def _read_count(raw: object, ask: Ask) -> int | None:
    if not isinstance(raw, int) or isinstance(raw, bool):
        ask.wrong(f"{shown(raw)} is no whole number")
        return None
    if ask.outside(float(max(min(raw, 10**9), -(10**9)))):
        ask.wrong_limits(shown(raw))
        return None
    return raw


def _read_flag(raw: object, ask: Ask) -> bool | None:
    if not isinstance(raw, bool):
        ask.wrong(f"{shown(raw)} is neither true nor false")
        return None
    return raw


def _read_size(raw: object, ask: Ask) -> str | None:
    size = canonical(raw) if isinstance(raw, str) else None
    if size is not None:
        return size
    accepted = f"{accepted_sizes(ask.owner)}; for anything else the nearest size, and the measured inside as `bore`"
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        ask.wrong(
            f"{shown(raw)} has no unit",
            accepted,
            ask.line(f'"{shown(raw)} in"' if canonical(shown(raw)) else ask.spec.example),
        )
        return None
    ask.wrong(f"{shown(raw)} is no trade size", accepted)
    return None


def _read_names(raw: object, ask: Ask) -> tuple[str, ...] | None:
    if not isinstance(raw, list) or not all(isinstance(item, str) for item in raw):
        ask.wrong(f"{shown(raw)} is no list of names")
        return None
    if len(raw) > MOST_WAYS:
        ask.wrong(f"it names {len(raw)} ways", f"at most {MOST_WAYS} ways")
        return None
    if len(raw) < 2 or len(set(raw)) < len(raw):
        ask.wrong("it names fewer than two ways" if len(raw) < 2 else "it names the same way twice")
        return None
    return tuple(raw)


def _read_words(raw: object, ask: Ask) -> tuple[str, ...] | None:
    if not isinstance(raw, list) or not all(isinstance(item, str) for item in raw):
        ask.wrong(f"{shown(raw)} is no list of words")
        return None
    wrong = [item for item in raw if item not in ask.spec.words]
    if wrong or len(set(raw)) < len(raw):
        found = f"{shown(wrong[0])} is none of its words" if wrong else "it names the same word twice"
        ask.wrong(found, listed(f'"{word}"' for word in ask.spec.words))
        return None
    return tuple(raw)


def _read_date(raw: object, ask: Ask) -> datetime.date | None:
    if isinstance(raw, datetime.datetime):
        return raw.date()
    if isinstance(raw, datetime.date):
        return raw
    try:
        return datetime.date.fromisoformat(raw.strip() if isinstance(raw, str) else "")
    except ValueError:
        ask.wrong(f"{shown(raw)} is no date")
        return None


def _read_percent(raw: object, ask: Ask) -> float | None:
    """A share written in percent."""
    if isinstance(raw, str) or not isinstance(raw, int | float) or isinstance(raw, bool):
        ask.wrong(f"{shown(raw)} is no number of percent")
        return None
    if ask.outside(0.01 * raw if abs(raw) < 1e9 else 1e9):
        ask.wrong(f"{shown(raw)} lies outside the limits", "above 0 and at most 100")
        return None
    return 0.01 * raw


READERS: dict[str, Callable[[object, Ask], Any]] = {
    "text": _read_text,
    "word": _read_word,
    "count": _read_count,
    "number": read_number,
    "flag": _read_flag,
    "size": _read_size,
    "names": _read_names,
    "words": _read_words,
    "date": _read_date,
    "percent": _read_percent,
    "pump points": read_pump_points,
    "ozone points": read_ozone_points,
    "drop points": read_drop_points,
    "drop at flow": read_drop_at_flow,
    "bench rows": read_bench_rows,
    "keys": read_keys,
    "number rows": read_number_rows,
    "lift rows": read_lift_rows,
    "column rows": read_column_rows,
    "day windows": read_windows,
    "day prices": read_prices,
}


def spec_of(record: type[Record], key: str) -> Spec | None:
    """The declaration of a key of a record."""
    return next((spec for spec in specs(record).values() if spec.key == key), None)
