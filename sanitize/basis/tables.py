"""The reader of the reference tables: every number of the model with its range, source and standing."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from types import MappingProxyType
from typing import Literal, cast, get_args

from sanitize.basis.band import Band, Scale
from sanitize.basis.errors import SanitizeError

Standing = Literal["published", "common practice", "estimate", "from memory"]
HowRead = Literal["primary", "through another", "from memory"]

ENTRY_COLUMNS = ("value", "unit", "low", "high", "scale", "source", "standing", "note")
SOURCE_COLUMNS = ("key", "kind", "authors", "year", "title", "locator", "how_read")
_VERSION_MARK = "# version "


class TableError(SanitizeError):
    """A reference table is missing or malformed, or was asked for a row that it does not hold."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One number of a model table: value is the nominal one; source is a key of sources.csv or empty."""

    value: float
    low: float
    high: float
    unit: str
    scale: Scale
    source: str
    standing: Standing
    note: str

    @property
    def band(self) -> Band:
        """The number with its range."""
        return Band(self.low, self.value, self.high, self.scale)


@dataclass(frozen=True, slots=True)
class Source:
    """One citation, and how it was read."""

    key: str
    kind: str
    authors: str
    year: str
    title: str
    locator: str
    how_read: HowRead


@dataclass(frozen=True, slots=True)
class Table:
    """One model table: its entries by the words of their key columns, in the order of the file."""

    name: str
    version: int
    key_columns: tuple[str, ...]
    entries: Mapping[tuple[str, ...], Entry]

    def __getitem__(self, key: tuple[str, ...]) -> Entry:
        """The entry of a key such as ("40", "3/4"); raises TableError where the table has none."""
        try:
            return self.entries[key]
        except KeyError:
            accepted = "; ".join(f"{column}: {', '.join(self.words(column))}" for column in self.key_columns)
            raise TableError(f"table {self.name} has no row {key}; it knows {accepted}") from None

    def words(self, column: str) -> tuple[str, ...]:
        """The different words of a key column, in the order of the file.

        >>> model_table("pipe_bores").words("schedule")
        ('40', '80')
        """
        position = self.key_columns.index(column)
        return tuple(dict.fromkeys(key[position] for key in self.entries))


def model_table_names() -> tuple[str, ...]:
    """The names of all model tables, sorted."""
    folder = _folder() / "model"
    return tuple(sorted(path.name.removesuffix(".csv") for path in folder.iterdir() if path.name.endswith(".csv")))


@cache
def model_table(name: str) -> Table:
    """A model table by the name of its file without ending; raises TableError when missing or malformed.

    >>> model_table("pipe_bores")["40", "3/4"].band
    Band(low=0.01991, nominal=0.02057, high=0.02093, scale='linear')
    """
    path = _folder() / "model" / f"{name}.csv"
    if not path.is_file():
        raise TableError(f"there is no table {name}; there are {', '.join(model_table_names())}")
    return parse_model_table(name, path.read_text(encoding="utf-8"))


def default(name: str) -> Entry:
    """A single number of the table of defaults; raises TableError when it is not there.

    >>> default("tape_tolerance_m").value
    0.01
    """
    return model_table("defaults")[(name,)]


@cache
def sources() -> Mapping[str, Source]:
    """Every citation by its key; raises TableError when the file is malformed."""
    return parse_sources((_folder() / "sources.csv").read_text(encoding="utf-8"))


def parse_model_table(name: str, text: str) -> Table:
    """A model table from its text; raises TableError that names the table, the line and what is wrong there."""
    version, header, rows = _read(name, text)
    key_columns = header[: -len(ENTRY_COLUMNS)]
    if header[-len(ENTRY_COLUMNS) :] != ENTRY_COLUMNS or not key_columns:
        raise TableError(f"table {name}: the header must be key columns, then {','.join(ENTRY_COLUMNS)}")
    entries: dict[tuple[str, ...], Entry] = {}
    for place, row in rows:
        key = row[: len(key_columns)]
        if "" in key:
            raise TableError(f"{place}: a key is empty")
        if key in entries:
            raise TableError(f"{place}: the row {key} stands there twice")
        entries[key] = _entry(place, dict(zip(ENTRY_COLUMNS, row[len(key_columns) :], strict=True)))
    return Table(name, version, key_columns, MappingProxyType(entries))


def parse_sources(text: str) -> Mapping[str, Source]:
    """The citations from the text of their file; raises TableError that names the line and what is wrong there."""
    _, header, rows = _read("sources", text)
    if header != SOURCE_COLUMNS:
        raise TableError(f"table sources: the header must be {','.join(SOURCE_COLUMNS)}")
    found: dict[str, Source] = {}
    for place, row in rows:
        key, kind, authors, year, title, locator, how_read = row
        if not key or key in found:
            raise TableError(f"{place}: the key '{key}' is empty or stands there twice")
        _check_word(place, "how_read", how_read, get_args(HowRead))
        found[key] = Source(key, kind, authors, year, title, locator, cast(HowRead, how_read))
    return MappingProxyType(found)


def tables_folder(package: Traversable, checkout: Traversable) -> Traversable:
    """The folder of the tables: inside the package where it was installed so, else beside it in a checkout."""
    for root in (package, checkout):
        folder = root / "reference_tables"
        if (folder / "sources.csv").is_file():
            return folder
    raise TableError("the reference tables are missing from this installation; install sanitize-tub again")


@cache
def _folder() -> Traversable:
    return tables_folder(files("sanitize"), Path(__file__).resolve().parents[2])


def _read(name: str, text: str) -> tuple[int, tuple[str, ...], list[tuple[str, tuple[str, ...]]]]:
    """Version, header and rows of a table; each row with its place for messages."""
    first, _, body = text.partition("\n")
    digits = first.removeprefix(_VERSION_MARK).strip()
    if not first.startswith(_VERSION_MARK) or not digits.isdecimal():
        raise TableError(f"table {name}: the first line must be '{_VERSION_MARK}' and a whole number")
    reader = csv.reader(body.splitlines(), strict=True)
    rows = []
    try:
        header = tuple(next(reader, ()))
        for row in reader:
            place = f"table {name}, line {reader.line_num + 1}"
            if len(row) != len(header):
                raise TableError(f"{place}: {len(row)} fields where the header has {len(header)}")
            rows.append((place, tuple(row)))
    except csv.Error as error:
        raise TableError(f"table {name}, line {reader.line_num + 1}: {error}") from None
    return int(digits), header, rows


def _entry(place: str, row: dict[str, str]) -> Entry:
    value, low, high = (_number(place, column, row[column]) for column in ("value", "low", "high"))
    _check_word(place, "scale", row["scale"], get_args(Scale))
    _check_word(place, "standing", row["standing"], get_args(Standing))
    if not row["unit"]:
        raise TableError(f"{place}: the unit is empty")
    entry = Entry(
        value,
        low,
        high,
        row["unit"],
        cast(Scale, row["scale"]),
        row["source"],
        cast(Standing, row["standing"]),
        row["note"],
    )
    try:
        _ = entry.band
    except ValueError as error:
        raise TableError(f"{place}: {error}") from None
    return entry


def _number(place: str, column: str, text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        raise TableError(f"{place}: {column} '{text}' is not a number") from None
    if not math.isfinite(number):
        raise TableError(f"{place}: {column} '{text}' is not finite")
    return number


def _check_word(place: str, column: str, word: str, accepted: tuple[str, ...]) -> None:
    if word not in accepted:
        raise TableError(f"{place}: {column} '{word}' is none of {', '.join(accepted)}")
