"""What stands in a loop file for each part and table, as it is written there."""

from collections.abc import Iterable, Mapping
from typing import Any

from sanitize.loopfile.tree import Node
from sanitize.loopfile.wording import quoted
from sanitize.plant.loop import ROW_TABLES, TABLES
from sanitize.plant.spec import specs

_LONGEST = 200
Written = dict[tuple[str, str], str]
"""(Name of a part, or a table's name in brackets, or nothing for the file's own keys; key) -> the value's text."""


def written(doc: Mapping[str, Any], nodes: Iterable[Node], single_keys: Iterable[str]) -> Written:
    """The text of every field of a file that was read without problems."""
    found: Written = {("", key): value_text(doc[key]) for key in single_keys if key in doc}
    for node in nodes:
        if node.record is not None:
            keys = ["part", *(spec.key for spec in specs(node.record).values())]
            found.update({(node.name, key): value_text(node.raw[key]) for key in keys if key in node.raw})
    for name in (*TABLES, *ROW_TABLES):
        raw = doc.get(name)
        tables = raw if isinstance(raw, list) else [raw] if isinstance(raw, dict) else []
        for number, table in enumerate(tables, start=1):
            place = table_name(name, number if isinstance(raw, list) else 0)
            found.update({(place, key): value_text(value) for key, value in table.items()})
    return found


def table_name(name: str, number: int = 0) -> str:
    """A table as people call it; number: of one of several of the same name.

    >>> table_name("tub"), table_name("water_test", 2)
    ('[tub]', '[[water_test]] 2')
    """
    return f"[[{name}]] {number}" if number else f"[{name}]"


def value_text(value: Any) -> str:
    """A value as it stands in the file.

    >>> value_text([["0 L/min", "4.4 m"], ["52 L/min", "0 m"]])
    '[["0 L/min", "4.4 m"], ["52 L/min", "0 m"]]'
    >>> value_text(True), value_text(0.5), value_text({"drop": "2 kPa"})
    ('true', '0.5', '{drop = "2 kPa"}')
    """
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        text = f"[{', '.join(value_text(item) for item in value)}]"
        return text if len(text) <= _LONGEST else f"{text[:_LONGEST]} ..."
    if isinstance(value, dict):
        return f"{{{', '.join(f'{key} = {value_text(item)}' for key, item in value.items())}}}"
    return f"{value:.10g}" if isinstance(value, float) else str(value)
