"""New values for single fields: `[change."part name"]` in a file, and `--set "part name.key=value"`."""

import tomllib
from collections.abc import Sequence
from typing import Any

from sanitize.basis.units import KINDS
from sanitize.loopfile.fields import spec_of
from sanitize.loopfile.reading import Reading, row_position
from sanitize.loopfile.top_level import SIZE, TITLE, UNITS
from sanitize.loopfile.tree import Node, Tree
from sanitize.loopfile.wording import listed, nearest, quoted, shown
from sanitize.plant.loop import ROW_TABLES, TABLES
from sanitize.plant.spec import Spec

_SINGLE = {spec.key: spec for spec in (TITLE, UNITS, SIZE)}
_TEXT_KINDS = (*KINDS, "text", "word", "size", "date")


def apply_changes(doc: dict[str, Any], tree: Tree, reading: Reading) -> None:
    """Put the values of `[change]` into the parts that it names."""
    change = doc.get("change")
    if change is None:
        return
    if not isinstance(change, dict):
        reading.problem("change", f"{shown(change)} is no table", write='[change."return hose"]')
        return
    nodes = {node.name: node for node in tree.nodes()}
    for name, values in change.items():
        where = f"[change.{quoted(name)}]"
        if not isinstance(values, dict):
            reading.problem(where, f"{shown(values)} is no table", write=f"{where} with the keys below it")
            continue
        node = nodes.get(name)
        if node is None:
            near = nearest(name, nodes)
            write = f"[change.{quoted(near)}]" if near else ""
            reading.problem(where, "no part has this name", listed(nodes), write)
            continue
        for key, value in values.items():
            node.item[key] = value
            reading.origins[node.where, key] = f"{where} {shown(key)[1:-1]}"


def apply_settings(doc: dict[str, Any], tree: Tree, settings: Sequence[str], reading: Reading) -> None:
    """Put the values of `--set` into the file's own keys, its tables and its parts."""
    nodes = {node.name: node for node in tree.nodes()}
    for setting in settings:
        where = f"--set {quoted(setting)}"
        target, equals, text = setting.partition("=")
        name, dot, key = target.strip().rpartition(".")
        name, key = name.strip().strip("\"'"), key.strip()
        if not equals or not key or (dot and not name):
            reading.problem(where, "is no setting", "name.key=value", '--set "return hose.length=2 m"')
            continue
        if not dot:
            _set_single(doc, key, text, where, reading)
            continue
        _set_in(doc, nodes, name, key, text, where, reading)


def _set_single(doc: dict[str, Any], key: str, text: str, where: str, reading: Reading) -> None:
    if key not in _SINGLE:
        accepted = f"{listed(_SINGLE)}, or name.key=value for a part or a table"
        reading.problem(where, f"{quoted(key)} is no key that can be set", accepted, nearest(key, _SINGLE))
        return
    doc[key] = _value(text, _SINGLE[key])
    reading.origins["", key] = where


def _set_in(
    doc: dict[str, Any], nodes: dict[str, Node], name: str, key: str, text: str, where: str, reading: Reading
) -> None:
    node = nodes.get(name)
    table = TABLES.get(name) or ROW_TABLES.get(name)
    if node is None and table is None:
        names = [*nodes, *TABLES, *ROW_TABLES]
        reading.problem(where, f"no part or table has the name {quoted(name)}", listed(names), nearest(name, names))
        return
    in_table = spec_of(table, key) if table is not None else None
    if node is not None and (table is None or in_table is None):
        record = node.record
        node.item[key] = _value(text, spec_of(record, key) if record is not None else None)
        reading.origins[node.where, key] = where
        return
    raw = doc.setdefault(name, [{}] if name in ROW_TABLES else {})
    position = name
    if name in ROW_TABLES and isinstance(raw, list) and raw:
        raw, position = raw[-1], row_position(name, len(raw))
    if isinstance(raw, dict):
        raw[key] = _value(text, in_table)
        reading.origins[position, key] = where


def _value(text: str, spec: Spec | None) -> Any:
    """The value of a setting: as TOML where that gives what the field holds, else as text."""
    bare = text.strip()
    try:
        value = tomllib.loads(f"value = {bare}")["value"] if "\n" not in bare and len(bare) < 10_000 else bare
    except (ValueError, RecursionError):
        return bare
    if isinstance(value, str):
        return value
    if spec is None or spec.kind in _TEXT_KINDS:
        return bare
    return value
