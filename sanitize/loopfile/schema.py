"""The JSON Schema of a loop file, generated from the declarations of its fields."""

import tomllib
from datetime import date
from typing import Any

from sanitize.basis.units import KINDS
from sanitize.loopfile.fields import holds_band
from sanitize.loopfile.top_level import BASED_ON, CHANGE, FORMAT_SPEC, LOOP, PARTS_FILE, SIZE, TITLE, UNITS, WAY
from sanitize.plant.loop import PART_TYPES, ROW_TABLES, TABLES
from sanitize.plant.part import SIZES, Part
from sanitize.plant.spec import Record, Spec, specs

DRAFT = "https://json-schema.org/draft/2020-12/schema"
_NUMBER = r"[+-]?(\d+-\d+/\d+|\d+/\d+|(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?)"
_INCH = '"'
_UNKNOWN = r"^\s*[uU][nN][kK][nN][oO][wW][nN]\s*$"
_PLUS_MINUS = r"(\+-|\+/-|±)"
Schema = dict[str, Any]


def json_schema() -> Schema:
    """The schema of a loop file (JSON Schema 2020-12).

    It knows the keys, the kinds and the limits of plain numbers; what must fit together is checked by the reader.
    """
    defs: Schema = {_def_name(record): _part(record) for record in PART_TYPES}
    words = [word for record in PART_TYPES for word in record.words]
    cases = [
        {"if": _part_is(list(record.words)), "then": {"$ref": f"#/$defs/{_def_name(record)}"}} for record in PART_TYPES
    ]
    defs["any part"] = {"type": "object", "required": ["part"], "allOf": cases}
    defs["known part"] = {"$ref": "#/$defs/any part", "properties": {"part": {"enum": words}}}
    defs["parts"] = {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/known part"}}
    defs["parts and own parts"] = {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/any part"}}
    properties: Schema = {
        spec.key: _field(spec, False) for spec in (FORMAT_SPEC, TITLE, UNITS, SIZE, BASED_ON, PARTS_FILE)
    }
    properties[FORMAT_SPEC.key] |= {"const": FORMAT_SPEC.low}
    properties[LOOP.key] = {"description": LOOP.help}
    properties[WAY.key] = {"description": WAY.help, "type": "object"}
    properties[CHANGE.key] = {
        "description": CHANGE.help,
        "type": "object",
        "additionalProperties": {"type": "object", "minProperties": 1},
    }
    properties |= {name: _table(name, record) for name, record in TABLES.items()}
    properties |= {
        name: {"type": "array", "minItems": 1, "items": _table(name, record) | _required(record)}
        for name, record in ROW_TABLES.items()
    }
    return {
        "$schema": DRAFT,
        "title": "Loop file of a recirculating tub",
        "type": "object",
        "properties": properties,
        "required": [FORMAT_SPEC.key],
        "additionalProperties": False,
        "allOf": [
            {
                "if": {"required": [PARTS_FILE.key]},
                "then": _loop_and_ways("parts and own parts"),
                "else": {
                    "if": {"required": [BASED_ON.key]},
                    "then": _loop_and_ways("parts and own parts"),
                    "else": _loop_and_ways("parts"),
                },
            },
            {
                "if": {"required": [BASED_ON.key]},
                "else": {
                    "required": [LOOP.key, "tub"],
                    "properties": {CHANGE.key: False, **_required_of_tables()},
                },
            },
        ],
        "$defs": defs,
    }


def _loop_and_ways(parts: str) -> Schema:
    reference = {"$ref": f"#/$defs/{parts}"}
    return {"properties": {LOOP.key: reference, WAY.key: {"additionalProperties": reference}}}


def _required_of_tables() -> Schema:
    """What each table requires, for files that are based on no other."""
    found: Schema = {}
    for name, record in TABLES.items():
        keys = [spec.key for spec in specs(record).values() if spec.required]
        found[name] = {"required": keys}
    found["tub"]["anyOf"] = [{"required": ["volume"]}, {"required": ["shape"]}]
    return found


def _required(record: type[Record]) -> Schema:
    """What a table in double brackets requires, which no other file can give it."""
    return {"required": [spec.key for spec in specs(record).values() if spec.required]}


def _def_name(record: type[Part]) -> str:
    return record.__name__.lower()


def _part_is(words: list[str]) -> Schema:
    return {"properties": {"part": {"enum": words}}, "required": ["part"]}


def _part(record: type[Part]) -> Schema:
    fields = specs(record)
    required = ["part", *(spec.key for spec in fields.values() if spec.required)]
    if record.needs_height:
        required.append("height")
    return {
        "description": record.help,
        "type": "object",
        "properties": {"part": {"enum": list(record.words)}} | _fields(record),
        "required": required,
        "additionalProperties": False,
    }


def _table(name: str, record: type[Record]) -> Schema:
    return {
        "description": (record.__doc__ or name).strip(),
        "type": "object",
        "properties": _fields(record),
        "additionalProperties": False,
    }


def _fields(record: type[Record]) -> Schema:
    return {spec.key: _field(spec, holds_band(record, attribute)) for attribute, spec in specs(record).items()}


def _field(spec: Spec, band: bool) -> Schema:
    """The schema of one field."""
    kind = _quantity(spec, band) if spec.kind in KINDS else _PLAIN[spec.kind]
    found = {"description": spec.help, "examples": [_shown(example_value(spec))], **kind}
    if spec.kind == "word":
        plain = [int(word) for word in spec.words if word.isdecimal()]
        found["enum"] = [*spec.words, *plain]
    if spec.kind == "words":
        found["items"] = {"enum": list(spec.words)}
    if spec.kind in ("number", "count"):
        limits = {"minimum": spec.low, "exclusiveMinimum": spec.above, "maximum": spec.high}
        found |= {key: value for key, value in limits.items() if value is not None}
    if spec.kind == "number" and band:
        number = {key: found.pop(key) for key in list(found) if key not in ("description", "examples")}
        spread = rf"^\s*({_NUMBER}\s*{_PLUS_MINUS}\s*{_NUMBER}\s*%?|{_NUMBER}\s*\(.*\s+to\s+.*\))\s*$"
        unknown = [{"type": "string", "pattern": _UNKNOWN}] if spec.unknown else []
        found["anyOf"] = [number, {"type": "string", "pattern": spread}, *unknown]
    return found


def _shown(value: Any) -> Any:
    """An example as JSON holds it: a date as its text."""
    return value.isoformat() if isinstance(value, date) else value


def example_value(spec: Spec) -> Any:
    """A field's example as the value that TOML gives."""
    return tomllib.loads(f"value = {spec.example}")["value"]


def _quantity(spec: Spec, band: bool) -> Schema:
    pattern = quantity_pattern(spec.kind, band)
    unknown = f"|{_UNKNOWN.strip('^$')}" if spec.unknown and band else ""
    return {"type": "string", "pattern": f"^({pattern}{unknown})$"}


def quantity_pattern(kind: str, band: bool) -> str:
    """The regular expression of a quantity as text."""
    units = "|".join(KINDS[kind].units)
    one = rf"\s*{_NUMBER}\s*({units})"
    if "ft" in KINDS[kind].units and "in" in KINDS[kind].units:
        one = rf"({one}|\s*\d+\s*(ft|')\s*{_NUMBER}\s*(in|{_INCH}))"
    if not band:
        return rf"{one}\s*"
    return rf"{one}(\s*{_PLUS_MINUS}(\s*{_NUMBER}\s*%|{one})|\s*\({one}\s+to{one}\s*\))?\s*"


def _rows(*kinds: str, least: int = 1) -> Schema:
    return {"type": "array", "minItems": least, "items": _row(*kinds)}


def _row(*kinds: str) -> Schema:
    items = [{"type": "string", "pattern": f"^{quantity_pattern(kind, False)}$"} for kind in kinds]
    return {"type": "array", "prefixItems": items, "minItems": len(kinds), "maxItems": len(kinds)}


_SIZE_PATTERN = "|".join([*SIZES, *(size.replace("-", r"[-\s]+") for size in SIZES if "-" in size)])
_TIME: Schema = {"type": "string", "pattern": r"^\s*\d{1,2}:[0-5]\d\s*$"}
_DAY_WINDOW: Schema = {"type": "array", "prefixItems": [_TIME, _TIME], "minItems": 2, "maxItems": 2}
_PRICE: Schema = {"type": "number", "minimum": 0}
_DAY_PRICE: Schema = {"type": "array", "prefixItems": [_TIME, _TIME, _PRICE], "minItems": 3, "maxItems": 3}
_PLAIN: dict[str, Schema] = {
    "text": {"type": "string", "minLength": 1},
    "word": {},
    "count": {"type": "integer"},
    "number": {"type": "number"},
    "flag": {"type": "boolean"},
    "size": {"type": "string", "pattern": rf"^\s*({_SIZE_PATTERN}|\d*\.\d+)\s*(in|inch|inches|{_INCH}|'')?\s*$"},
    "names": {"type": "array", "items": {"type": "string"}, "minItems": 2, "uniqueItems": True},
    "words": {"type": "array", "items": {"type": "string"}, "uniqueItems": True},
    "date": {"format": "date"},
    "percent": {"type": "number", "exclusiveMinimum": 0, "maximum": 100},
    "pump points": _rows("flow", "head"),
    "drop points": _rows("flow", "pressure", least=2),
    "ozone points": _rows("gas flow", "ozone rate", least=2),
    "drop at flow": _row("pressure", "flow"),
    "bench rows": _rows("flow", "pressure", "pressure", "vacuum"),
    "keys": {"type": "array", "items": {"type": "string"}, "minItems": 1, "uniqueItems": True},
    "number rows": {"type": "array", "items": {"type": "array", "items": {"type": "number"}}, "minItems": 1},
    "day windows": {"type": "array", "minItems": 1, "items": _DAY_WINDOW},
    "day prices": {"type": "array", "minItems": 1, "items": _DAY_PRICE},
}
