"""The declarations of all fields: their examples read, their table entries exist, the starter and the list show all."""

import tomllib
from typing import Any

import pytest

from sanitize.basis.tables import default
from sanitize.basis.units import KINDS, parse
from sanitize.loopfile.ask import Ask
from sanitize.loopfile.field_list import field_list
from sanitize.loopfile.fields import READERS, holds_band, read_field
from sanitize.loopfile.read import read_plant
from sanitize.loopfile.reading import Reading
from sanitize.loopfile.starter import starter_file
from sanitize.loopfile.top_level import TOP
from sanitize.plant.loop import PART_OF_WORD, PART_TYPES, ROW_TABLES, TABLES, Split, walk
from sanitize.plant.spec import Record, Spec, specs

RECORDS: tuple[type[Record], ...] = (*PART_TYPES, *TABLES.values(), *ROW_TABLES.values())
FIELDS = [(record, attribute, spec) for record in RECORDS for attribute, spec in specs(record).items()]
IDS = [f"{record.__name__}.{spec.key}" for record, _, spec in FIELDS]


@pytest.mark.parametrize(("record", "attribute", "spec"), FIELDS, ids=IDS)
def test_example_reads_without_a_problem(record: type[Record], attribute: str, spec: Spec) -> None:
    reading = Reading()
    raw = tomllib.loads(f"value = {spec.example}")["value"]
    value = read_field(raw, Ask(spec, spec.key, "x", holds_band(record, attribute), reading))
    assert not reading.problems
    assert value is not None


@pytest.mark.parametrize(("record", "attribute", "spec"), FIELDS, ids=IDS)
def test_declaration_is_whole(record: type[Record], attribute: str, spec: Spec) -> None:
    assert spec.kind in KINDS or spec.kind in READERS
    assert spec.help.endswith(".")
    assert bool(spec.words) == (spec.kind in ("word", "words"))
    if spec.tolerance:
        assert holds_band(record, attribute)
        assert default(spec.tolerance).value > 0.0
    if spec.unknown:
        assert len(spec.unknown) in (1, 3)
        assert spec.measure
    if len(spec.unknown) == 1:
        assert default(spec.unknown[0]).low > 0.0
    elif spec.unknown:
        texts = [parse(text, spec.kind).value for text in spec.unknown]
        assert texts == sorted(texts)


@pytest.mark.parametrize(("record", "attribute", "spec"), FIELDS, ids=IDS)
def test_starter_and_field_list_show_every_field(record: type[Record], attribute: str, spec: Spec) -> None:
    assert f"{spec.key} = " in starter_file()
    assert f"| `{spec.key}` |" in field_list()


def test_starter_shows_every_part_table_and_key_of_the_file() -> None:
    starter = starter_file()
    assert not [word for word in PART_OF_WORD if word not in starter]
    assert not [name for name in TABLES if f"[{name}]" not in starter]
    assert not [name for name in ROW_TABLES if f"[[{name}]]" not in starter]
    assert not [spec.key for spec in TOP if spec.key not in starter]


def test_field_list_shows_every_part_table_and_key_of_the_file() -> None:
    listed = field_list()
    assert not [word for word in PART_OF_WORD if f"`{word}`" not in listed]
    assert not [name for name in TABLES if f"## [{name}]" not in listed]
    assert not [name for name in ROW_TABLES if f"## [[{name}]]" not in listed]
    assert not [spec.key for spec in TOP if f"| `{spec.key}` |" not in listed]


def test_field_list_rows_have_as_many_cells_as_the_header() -> None:
    rows = [line for line in field_list().splitlines() if line.startswith("|")]
    expected = {8}
    assert expected == {row.count("|") for row in rows}


def test_starter_reads_as_a_tub_with_ozone() -> None:
    loaded = read_plant(starter_file())
    assert loaded.plant.title == "Orchard larch tub"
    assert loaded.plant.ozone is not None
    assert [notice.code for notice in loaded.notices] == ["unknown-value"]
    assert any(isinstance(part, Split) for part in walk(loaded.plant.loop))


def _uncommented(text: str) -> dict[str, Any]:
    """The starter with every optional field of its tables switched on."""
    lines = text.split("# Every part that may stand", maxsplit=1)[0].splitlines()
    keys = {spec.key for record in (*TABLES.values(), *ROW_TABLES.values()) for spec in specs(record).values()}
    live = [
        line[2:] if (line.startswith("# ") and line[2:].split(" = ")[0] in keys) or line.startswith("# [") else line
        for line in lines
    ]
    return tomllib.loads("\n".join(live))


def test_starter_with_its_tables_switched_on_is_toml_with_every_field() -> None:
    doc = _uncommented(starter_file())
    expected = {name: {spec.key for spec in specs(record).values()} for name, record in TABLES.items()}
    assert expected == {name: set(doc[name]) for name in TABLES}
    rows = {name: {spec.key for spec in specs(record).values()} for name, record in ROW_TABLES.items()}
    assert rows == {name: set(doc[name][0]) for name in ROW_TABLES}
