"""Whatever the text holds, reading gives a plant or an InputError with at least one problem."""

import json
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.basis.errors import InputError, Problem
from sanitize.loopfile.read import read_plant
from sanitize.loopfile.top_level import ALL_KEYS
from sanitize.plant.loop import PART_OF_WORD, PART_TYPES, ROW_TABLES, TABLES
from sanitize.plant.spec import specs

BOATHOUSE = (Path(__file__).parent / "good" / "boathouse.toml").read_text(encoding="utf-8")
_PART_SPECS = [spec for record in PART_TYPES for spec in specs(record).values()]
_TABLE_SPECS = [spec for record in (*TABLES.values(), *ROW_TABLES.values()) for spec in specs(record).values()]
_KEYS = sorted({spec.key for spec in [*_PART_SPECS, *_TABLE_SPECS]} | set(ALL_KEYS))
_EXAMPLES = sorted({spec.example for spec in [*_PART_SPECS, *_TABLE_SPECS]})


def _toml(value: Any) -> str:
    if isinstance(value, list):
        return f"[{', '.join(_toml(item) for item in value)}]"
    if isinstance(value, float):
        return repr(value)
    return json.dumps(value, ensure_ascii=False)


_odd_texts = ("unknown", "a", "b", "0 m", "5 m +- 1e400 %", "0 m +- 1e400 %", "1e300 gpm", "1/0 in", "2 m (1 m to 3 m)")
_odd_values = st.recursive(
    st.one_of(st.booleans(), st.integers(), st.floats(), st.text(max_size=20), st.sampled_from(_odd_texts)),
    lambda inner: st.lists(inner, max_size=3),
    max_leaves=5,
)
_values = st.one_of(st.sampled_from(_EXAMPLES), _odd_values.map(_toml))


def _part_text(word: str, fields: dict[str, str]) -> str:
    return "{" + ", ".join([f'part = "{word}"', *(f"{key} = {value}" for key, value in fields.items())]) + "}"


_fields = st.dictionaries(st.sampled_from(_KEYS), _values, max_size=6)
_part = st.builds(_part_text, st.sampled_from(sorted(PART_OF_WORD)), _fields)
_parts = st.lists(_part, max_size=6).map(lambda parts: f"[{', '.join(parts)}]")
_table = st.builds(
    lambda name, fields: (
        (f"[[{name}]]" if name in ROW_TABLES else f"[{name}]")
        + "\n"
        + "\n".join(f"{key} = {value}" for key, value in fields.items())
    ),
    st.sampled_from(sorted({*TABLES, *ROW_TABLES})),
    _fields,
)
_file = st.builds(
    lambda top, loop, a, b, tables: "\n".join(
        [*(f"{key} = {value}" for key, value in top.items()), f"loop = {loop}", f"way.a = {a}", f"way.b = {b}", *tables]
    ),
    st.dictionaries(st.sampled_from(["format", "title", "units", "size", "change"]), _values),
    _parts,
    _parts,
    _parts,
    st.lists(_table, max_size=4),
)


def read_or_refuse(text: str, overrides: tuple[str, ...] = ()) -> None:
    """Read a text; any exception but InputError fails the test."""
    problems: tuple[Problem, ...] = ()
    items = 0
    try:
        items = len(read_plant(text, overrides=overrides, reader=lambda _: BOATHOUSE).plant.loop.items)
    except InputError as error:
        problems = error.problems
    assert items or problems
    assert all(problem.where and problem.found for problem in problems)


@settings(deadline=None)
@given(st.text())
def test_any_text_gives_a_plant_or_problems(text: str) -> None:
    read_or_refuse(text)


@settings(deadline=None)
@given(st.integers(0, len(BOATHOUSE)), st.integers(0, 12), st.text(max_size=8))
def test_spoilt_file_gives_a_plant_or_problems(start: int, length: int, spoiler: str) -> None:
    read_or_refuse(BOATHOUSE[:start] + spoiler + BOATHOUSE[start + length :])


@settings(deadline=None)
@given(_file)
def test_any_parts_and_tables_give_a_plant_or_problems(text: str) -> None:
    read_or_refuse(text)


@settings(deadline=None)
@given(st.sampled_from(_KEYS), _values)
def test_boathouse_with_any_value_at_any_key_gives_a_plant_or_problems(key: str, value: str) -> None:
    for name in ("pump", "injector", "tub", "filter", "split", "return hose"):
        read_or_refuse(BOATHOUSE, (f"{name}.{key}={value}",))


@settings(deadline=None)
@given(st.text())
def test_any_setting_gives_a_plant_or_problems(setting: str) -> None:
    read_or_refuse(BOATHOUSE, (setting,))


@settings(deadline=None)
@given(
    st.dictionaries(
        st.sampled_from(["pump", "return hose", "nobody"]), st.dictionaries(st.sampled_from(_KEYS), _values)
    )
)
def test_any_change_gives_a_plant_or_problems(changes: dict[str, dict[str, str]]) -> None:
    rows = [
        f'[change."{name}"]\n' + "\n".join(f"{k} = {v}" for k, v in fields.items()) for name, fields in changes.items()
    ]
    read_or_refuse('format = 1\nbased_on = "boathouse.toml"\n' + "\n".join(rows))
