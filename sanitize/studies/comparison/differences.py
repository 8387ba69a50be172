"""What differs in the files: part by part and key by key, in the words of the files."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sanitize.plant.loop import ROW_TABLES, TABLES
from sanitize.plant.part import Part
from sanitize.plant.spec import Record, Spec
from sanitize.studies.comparison.described import Described, fields_of, meant_text, same
from sanitize.studies.comparison.matching import Matching, Standing, match, standings
from sanitize.studies.comparison.result import Difference

_PART, _SIZE = "part", "size"
Held = tuple[Part | None, ...]


@dataclass(frozen=True)
class Matched:
    """The files with the parts of each, and each file behind the first matched with the first."""

    files: tuple[Described, ...]
    parts: tuple[tuple[Standing, ...], ...]
    matchings: tuple[Matching, ...]

    def renamed(self, number: int) -> dict[str, str | None]:
        """Name of every part of the first file -> its name in another one, None where it has no fellow there."""
        found: dict[str, str | None] = {standing.part.name: None for standing in self.parts[0]}
        for here, there in self.matchings[number - 1].pairs:
            found[self.parts[0][here].part.name] = self.parts[number][there].part.name
        return found


def matched(files: Sequence[Described]) -> Matched:
    """Matches every file with the first."""
    parts = tuple(standings(one.plant) for one in files)
    matchings = tuple(
        match(parts[0], row, (files[0].named, one.named), likeness)
        for one, row in zip(files[1:], parts[1:], strict=True)
    )
    return Matched(tuple(files), parts, matchings)


def likeness(one: Part, other: Part) -> float:
    """Share of the fields of two parts that mean the same."""
    mine, theirs = fields_of(one), fields_of(other)
    keys = [*dict.fromkeys([*mine, *theirs])]
    alike = sum(key in mine and key in theirs and same(mine[key][1], theirs[key][1]) for key in keys)
    return alike / len(keys)


def differences(found: Matched) -> tuple[Difference, ...]:
    """Everything in which the files differ: the parts in the order of the water, then the tables."""
    rows = _rows(found)
    in_parts = [item for row in rows for item in _of_part(found, row)]
    return (*_sizes_together(in_parts), *_of_tables(found.files))


Row = tuple[int | None, ...]
"""One part: its place in every file, None where that has none."""


def _rows(found: Matched) -> list[Row]:
    """Every part of any file once: those of the first in their order, the others behind the part that they follow."""
    rows: list[list[int | None]] = [[number] for number in range(len(found.parts[0]))]
    for file, matching in enumerate(found.matchings, start=1):
        there = {b: a for a, b in matching.pairs}
        at = {row[0]: row for row in rows if row[0] is not None}
        for row in rows:
            row.append(None)
        behind = -1
        for number, standing in enumerate(found.parts[file]):
            if number in there:
                row = at[there[number]]
            else:
                row = _added(found, rows, standing) or _inserted(rows, behind, file)
            row[file] = number
            behind = rows.index(row)
    return [tuple(row) for row in rows]


def _added(found: Matched, rows: list[list[int | None]], standing: Standing) -> list[int | None] | None:
    """The row of a part that another file added too: of the same name and word."""
    for row in rows:
        if row[0] is None and row[-1] is None:
            for file, number in enumerate(row):
                if number is not None:
                    part = found.parts[file][number].part
                    if (part.name, part.word) == (standing.part.name, standing.part.word):
                        return row
    return None


def _inserted(rows: list[list[int | None]], behind: int, file: int) -> list[int | None]:
    row: list[int | None] = [None] * (file + 1)
    rows.insert(behind + 1, row)
    return row


def _of_part(found: Matched, row: Row) -> Iterator[Difference]:
    held: Held = tuple(None if number is None else found.parts[file][number].part for file, number in enumerate(row))
    there = [part for part in held if part is not None]
    place = (there[0].name,)
    if len(there) < len(held):
        yield Difference("part", place, "", tuple(map(_described, found.files, held)))
    if len(there) < 2:
        return
    if _moved(found, row):
        yield Difference("place", place, "", tuple(_place(found, file, number) for file, number in enumerate(row)))
    if any(part.name != there[0].name for part in there) and _is_renamed(found, held):
        names = tuple(None if part is None else f'"{part.name}"' for part in held)
        yield Difference("name", place, "name", names)
    if any(part.word != there[0].word for part in there):
        words = tuple(None if part is None else f'"{part.word}"' for part in held)
        yield Difference("value", place, _PART, words)
    if held[0] is None:
        return
    yield from _values(found.files, held, place, tuple(None if part is None else part.name for part in held))


def _is_renamed(found: Matched, held: Held) -> bool:
    """Whether any of the files gives the part a name of its own; those given for want of one do not count."""
    return any(part is not None and part.name in one.named for part, one in zip(held, found.files, strict=True))


def _moved(found: Matched, row: Row) -> bool:
    for matching, standing_row, number in zip(found.matchings, found.parts[1:], row[1:], strict=True):
        if row[0] is None or number is None:
            continue
        if (row[0], number) in matching.moved or standing_row[number].way != found.parts[0][row[0]].way:
            return True
    return False


def _place(found: Matched, file: int, number: int | None) -> str | None:
    if number is None:
        return None
    standing = found.parts[file][number]
    behind = f"behind {standing.before}" if standing.before else "first"
    return f"{behind} in {'the loop' if standing.way == 'loop' else f'way {standing.way}'}"


def _described(file: Described, part: Part | None) -> str | None:
    """A part in one line: its word, and its keys as they are written."""
    if part is None:
        return None
    keys = [key for key in fields_of(part) if key != _PART]
    told = [f"{key} = {file.written[part.name, key]}" for key in keys if (part.name, key) in file.written]
    return ", ".join([part.word, *told])


def _values(
    files: Sequence[Described], held: Sequence[Record | None], place: tuple[str, ...], called: Sequence[str | None]
) -> Iterator[Difference]:
    """The keys in which the records differ; held, called: each file's record and its place there."""
    fields = [{} if record is None else fields_of(record) for record in held]
    for key in dict.fromkeys(key for one in fields for key in one):
        given = [one[key][1] for one in fields if key in one]
        everywhere = sum(record is not None for record in held) == len(given)
        if everywhere and all(same(value, given[0]) for value in given):
            continue
        texts = tuple(
            None if record is None else _text(file, name or "", key, one.get(key))
            for file, record, name, one in zip(files, held, called, fields, strict=True)
        )
        if len({text for text in texts if text is not None}) > 1:
            yield Difference("value", place, key, texts)


def _text(file: Described, place: str, key: str, field: tuple[Spec, Any] | None) -> str:
    if (place, key) in file.written:
        return file.written[place, key]
    if field is None:
        return "not given"
    if key == _SIZE:
        return f'"{field[1]} in", the running size'
    return meant_text(*field, file.plant.units)


def _sizes_together(found: Sequence[Difference]) -> Iterator[Difference]:
    """Parts that run on in another size, told in one line."""
    told = set()
    for item in found:
        if not _is_running(item):
            yield item
        elif item.values not in told:
            told.add(item.values)
            alike = [other for other in found if _is_running(other) and other.values == item.values]
            yield Difference("value", tuple(place for other in alike for place in other.places), _SIZE, item.values)


def _is_running(item: Difference) -> bool:
    texts = [text for text in item.values if text is not None]
    return item.key == _SIZE and all(text.endswith("the running size") for text in texts)


def _of_tables(files: Sequence[Described]) -> Iterator[Difference]:
    for name in (*TABLES, *ROW_TABLES):
        tables = [_tables_of(file, name) for file in files]
        for number in range(max(len(one) for one in tables)):
            held = [one[number] if number < len(one) else None for one in tables]
            yield from _of_table(files, name, number, held)


def _tables_of(file: Described, name: str) -> tuple[Record, ...]:
    value = getattr(file.plant, name)
    return value if isinstance(value, tuple) else () if value is None else (value,)


def _of_table(
    files: Sequence[Described], name: str, number: int, held: Sequence[Record | None]
) -> Iterator[Difference]:
    places = [_called(file, name, number) for file in files]
    place = next(place for place, record in zip(places, held, strict=True) if record is not None)
    if any(record is None for record in held):
        texts = [
            None if record is None else _table_text(file, called)
            for file, record, called in zip(files, held, places, strict=True)
        ]
        yield Difference("part", (place,), "", tuple(texts))
    if held[0] is None:
        return
    yield from _values(files, held, (place,), places)


def _called(file: Described, name: str, number: int) -> str:
    """A table as its file writes it, singly or as one of several."""
    several = f"[[{name}]] {number + 1}"
    return several if any(place == several for place, _ in file.written) else f"[{name}]"


def _table_text(file: Described, called: str) -> str:
    return ", ".join(f"{key} = {text}" for (place, key), text in file.written.items() if place == called) or "empty"
