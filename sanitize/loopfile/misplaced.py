"""Keys of the file that landed inside a table or a part, because they stand behind its header."""

from collections.abc import Collection, Iterator
from typing import Any

from sanitize.loopfile.reading import Reading
from sanitize.loopfile.top_level import TOP_KEYS
from sanitize.loopfile.tree import way_key
from sanitize.loopfile.wording import shown
from sanitize.plant.loop import ROW_TABLES, TABLES
from sanitize.plant.spec import specs

_LISTS = {"loop": ", or [[loop]] tables", "way": ', or [[way."its name"]] tables'}
_NOT_IN_PARTS = tuple(key for key in TOP_KEYS if key != "size")


def move_up(doc: dict[str, Any], file: str, reading: Reading) -> None:
    """Note keys of the file at the wrong place, and put them where they belong so that reading can go on.

    file: the name of the file before its places in messages, or nothing.
    """
    moved: dict[str, Any] = {}
    for header, table, foreign in _open_tables(doc):
        for key in foreign:
            if key in table:
                reading.problem(
                    f"{file}{header} {key}",
                    f"it stands behind the header {header}, so it belongs to that table",
                    write=f"{key} above the first header{_LISTS.get(key, '')}",
                )
                moved.setdefault(key, table.pop(key))
    for key, value in moved.items():
        doc.setdefault(key, value)


def _open_tables(doc: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any], Collection[str]]]:
    """Every table that keys behind its header fall into, with that header and the keys that cannot be its own."""
    for name, value in doc.items():
        if name == "way" and isinstance(value, dict):
            for way, parts in value.items():
                yield from _last_part(f"[[{way_key(way)}]]", parts)
        elif name == "change" and isinstance(value, dict):
            for part, fields in value.items():
                if isinstance(fields, dict):
                    yield f"[change.{shown(part)}]", fields, _NOT_IN_PARTS
        elif name == "loop" or (name in ROW_TABLES and isinstance(value, list)):
            yield from _last_part(f"[[{name}]]", value)
        elif isinstance(value, dict):
            own = {spec.key for spec in specs(TABLES[name]).values()} if name in TABLES else set(TOP_KEYS) - set(_LISTS)
            yield f"[{shown(name)[1:-1]}]", value, [key for key in TOP_KEYS if key not in own]


def _last_part(header: str, parts: Any) -> Iterator[tuple[str, dict[str, Any], Collection[str]]]:
    if isinstance(parts, list) and parts and isinstance(parts[-1], dict):
        yield header, parts[-1], _NOT_IN_PARTS
