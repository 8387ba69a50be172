"""Files that start from other files, and files of a person's own parts."""

import os.path
from collections.abc import Callable
from pathlib import PurePath
from typing import Any

from sanitize.basis.errors import InputError
from sanitize.loopfile.kinds_of_file import refuse_other_kind
from sanitize.loopfile.misplaced import move_up
from sanitize.loopfile.reading import Reading
from sanitize.loopfile.toml_text import load
from sanitize.loopfile.top_level import FORMAT, TOP_KEYS
from sanitize.loopfile.tree import way_key
from sanitize.loopfile.wording import alike, listed, nearest, quoted, shown
from sanitize.plant.loop import PART_OF_WORD, ROW_TABLES, TABLES

Reader = Callable[[str], str]
MOST_FILES = 10
_OWN_KEYS = ("format", "part")
_READINGS_KEYS = ("format", "measured")


def check_format(doc: dict[str, Any], file: str, reading: Reading, *, required: bool) -> None:
    """Note a format that this version does not read; file stands before the place in messages, or is nothing."""
    if "format" not in doc:
        if required:
            reading.problem(f"{file}format", "is missing", str(FORMAT), f"format = {FORMAT}, as the first line")
        return
    value = doc["format"]
    if not isinstance(value, int) or isinstance(value, bool):
        reading.problem(f"{file}format", f"{shown(value)} is no format", str(FORMAT), f"format = {FORMAT}")
    elif value != FORMAT:
        newer = "; a newer version of this program may read it" if value > FORMAT else ""
        reading.problem(f"{file}format", f"{shown(value)} is no format that this version reads{newer}", str(FORMAT))


def beside(path: str, target: str) -> str:
    """A path that a file names, seen from where that file stands."""
    return os.path.normpath(str(PurePath(path).parent / target))


def read_other(key: str, value: Any, path: str, reader: Reader | None, reading: Reading) -> tuple[str, str] | None:
    """Path and text of a file that another one names; None when there was a problem."""
    if not isinstance(value, str) or not value.strip() or not value.isprintable():
        reading.problem(key, f"{shown(value)} is no path of a file", "a path in quotes", f'{key} = "other.toml"')
        return None
    if reader is None:
        reading.problem(key, f"{quoted(value)} cannot be read here", "a file that needs no other file")
        return None
    target = beside(path, value.strip())
    try:
        return target, reader(target)
    except InputError as error:
        for problem in error.problems:
            reading.problem(f"{key} = {quoted(value)}: {problem.where}", problem.found, problem.accepted, problem.write)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not readable as text"
        reading.problem(key, f"{quoted(value)} could not be read: {reason}", "a path seen from this file")
    return None


def with_base(doc: dict[str, Any], path: str, reader: Reader | None, reading: Reading) -> dict[str, Any]:
    """The raw tables of a file laid over those of the file that it is based on, and so on down.

    Tables of the same name are laid over each other key by key; a loop replaces the loop below it with all its ways.
    """
    layers = [doc]
    seen = [os.path.normpath(path)]
    move_up(doc, "", reading)
    check_format(doc, "", reading, required=True)
    while "based_on" in layers[-1]:
        base = _base(layers[-1]["based_on"], seen, reader, reading)
        if base is None:
            reading.base_lost = True
            break
        layers.append(base)
    merged: dict[str, Any] = {}
    for layer, layer_path in zip(reversed(layers), reversed(seen[: len(layers)]), strict=True):
        file = "" if layer is doc else f"{layer_path}: "
        if "change" in layer and "based_on" not in layer:
            reading.problem(f"{file}change", "this file is based on no other", "`based_on`, or the values at the parts")
        _lay_over(merged, layer, file, reading)
    return merged


def _base(value: Any, seen: list[str], reader: Reader | None, reading: Reading) -> dict[str, Any] | None:
    """The raw tables of the next file down; None when there was a problem."""
    other = read_other("based_on", value, seen[-1], reader, reading)
    if other is None:
        return None
    path, text = other
    if path in seen:
        reading.problem("based_on", f"{quoted(path)} is based on itself: {' > '.join([*seen, path])}")
        return None
    if len(seen) >= MOST_FILES:
        reading.problem("based_on", f"more than {MOST_FILES} files are based on each other")
        return None
    seen.append(path)
    try:
        base = load(text, path)
    except InputError as error:
        reading.problems.extend(error.problems)
        return None
    move_up(base, f"{path}: ", reading)
    check_format(base, f"{path}: ", reading, required=True)
    return base


def _lay_over(merged: dict[str, Any], layer: dict[str, Any], file: str, reading: Reading) -> None:
    if "loop" in layer:
        merged.pop("way", None)
        reading.files.clear()
        reading.files["loop"] = file
    for key, value in layer.items():
        below = merged.get(key)
        if not isinstance(value, dict) or not isinstance(below, dict):
            merged[key] = _copy(value)
        elif key == "change":
            for name, fields in value.items():
                both = isinstance(below.get(name), dict) and isinstance(fields, dict)
                below[name] = {**below[name], **fields} if both else fields
        else:
            below.update(_copy(value))
        if key == "way" and isinstance(value, dict):
            reading.files.update({way_key(name): file for name in value})
        if key in TABLES and isinstance(value, dict):
            for inner in value:
                reading.origins.pop((key, inner), None)
                if file:
                    reading.origins[key, inner] = f"{file}[{key}] {shown(inner)[1:-1]}"


def _copy(value: Any) -> Any:
    return dict(value) if isinstance(value, dict) else value


def with_readings(doc: dict[str, Any], path: str, text: str, reading: Reading) -> None:
    """Lay the readings of a file over those of the loop file.

    Raises InputError when the file is no TOML, or another kind of file.
    """
    raw = load(text, path)
    refuse_other_kind(raw, path, "a file of readings")
    check_format(raw, f"{path}: ", reading, required=False)
    for key in raw:
        if key not in _READINGS_KEYS:
            found = "belongs into the loop file" if key in (*TOP_KEYS, *TABLES) else "there is no such key"
            reading.problem(f"{path}: {shown(key)[1:-1]}", found, listed(_READINGS_KEYS), nearest(key, _READINGS_KEYS))
    readings = raw.get("measured")
    if not isinstance(readings, dict) or not readings:
        found = "is missing or empty" if readings is None or readings == {} else f"{shown(readings)} is no table"
        write = '[measured] with bucket_flow = "34 L/min +- 1 L/min"'
        reading.problem(f"{path}: [measured]", found, "a table of readings", write)
        return
    below = doc.setdefault("measured", {})
    if isinstance(below, dict):
        below.update(readings)
        for key in readings:
            reading.origins["measured", key] = f"{path}: [measured] {shown(key)[1:-1]}"


def own_parts(
    doc: dict[str, Any], path: str, reader: Reader | None, reading: Reading
) -> tuple[dict[str, dict[str, Any]], str]:
    """The parts of the file that `parts_file` names: name -> raw fields; and that file's path."""
    if "parts_file" not in doc:
        return {}, ""
    other = read_other("parts_file", doc["parts_file"], path, reader, reading)
    if other is None:
        return {}, ""
    parts_path, text = other
    try:
        raw = load(text, parts_path)
    except InputError as error:
        reading.problems.extend(error.problems)
        return {}, parts_path
    check_format(raw, f"{parts_path}: ", reading, required=False)
    for key in raw:
        if key not in _OWN_KEYS:
            where = f"{parts_path}: {shown(key)[1:-1]}"
            found = "belongs into a loop file" if key in (*TOP_KEYS, *TABLES, *ROW_TABLES) else "there is no such key"
            reading.problem(where, found, listed(_OWN_KEYS), nearest(key, _OWN_KEYS))
    parts = raw.get("part", {})
    if not isinstance(parts, dict):
        reading.problem(f"{parts_path}: part", f"{shown(parts)} is no table", write='[part."my elbow"]')
        return {}, parts_path
    found_parts: dict[str, dict[str, Any]] = {}
    for name, fields in parts.items():
        where = f"{parts_path}: [part.{quoted(name)}]"
        if not isinstance(fields, dict):
            reading.problem(where, f"{shown(fields)} is no table", write=f"[part.{quoted(name)}]")
        elif name in PART_OF_WORD:
            reading.problem(where, "this is a word of the program's own parts", "a name of your own")
        elif not isinstance(fields.get("part"), str) or fields["part"] not in PART_OF_WORD:
            word = fields.get("part")
            near = nearest(word, PART_OF_WORD) if isinstance(word, str) else ""
            found = f"{shown(word)} is no part" if word is not None else "its `part` is missing"
            words = alike(word, PART_OF_WORD) if isinstance(word, str) else []
            reading.problem(where, found, listed(words or PART_OF_WORD), f'part = "{near or "elbow 90"}"')
        else:
            found_parts[name] = fields
    return found_parts, parts_path
