"""The JSON Schema takes what reads and refuses wrong keys and kinds."""

import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from sanitize.loopfile.schema import json_schema
from sanitize.loopfile.starter import starter_file

HERE = Path(__file__).parent
GOOD = sorted(path.stem for path in (HERE / "good").glob("*.toml"))

KEYS_AND_KINDS = (
    "format_missing", "format_newer", "format_text", "top_key_misspelt", "table_misspelt", "table_unknown",
    "units_word", "table_in_double_brackets", "table_as_text", "size_metric", "size_bare_number", "size_not_made",
    "title_number",
    "loop_missing", "loop_empty", "loop_as_one_table", "loop_as_text", "loop_behind_a_table", "size_behind_a_table",
    "title_behind_loop_tables", "tub_missing", "part_not_a_table", "part_word_missing", "part_key_misspelt",
    "part_word_a_number", "part_misspelt", "part_unheard_of", "key_misspelt", "key_of_another_part",
    "quantity_bare_number", "quantity_no_unit", "quantity_decimal_comma", "quantity_unit_misspelt",
    "quantity_of_another_kind", "quantity_is_a_table", "range_where_none_is_held", "word_misspelt", "count_too_large",
    "flag_in_quotes", "number_in_quotes", "number_is_text", "number_out_of_limits", "required_missing",
    "height_missing", "unknown_curve", "unknown_tub", "unknown_bore", "curve_bare_numbers", "curve_of_heads_first",
    "curve_of_three_values", "curve_empty", "curve_is_text", "curve_with_a_range", "drops_one_pair", "bench_flow_first",
    "split_of_one_way", "split_of_one_way_twice", "split_ways_not_a_list", "way_as_one_table", "way_empty",
    "way_is_no_table", "change_without_base", "six_mistakes",
)  # fmt: skip


@pytest.fixture(scope="module")
def validator() -> Any:
    schema = json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


@pytest.mark.parametrize("name", GOOD)
def test_schema_takes_good_files(validator: Any, name: str) -> None:
    errors = list(validator.iter_errors(tomllib.loads((HERE / "good" / f"{name}.toml").read_text(encoding="utf-8"))))
    assert not errors


def test_schema_takes_the_starter_file(validator: Any) -> None:
    assert not list(validator.iter_errors(tomllib.loads(starter_file())))


@pytest.mark.parametrize("name", KEYS_AND_KINDS)
def test_schema_refuses_wrong_keys_and_kinds(validator: Any, name: str) -> None:
    doc = tomllib.loads((HERE / "bad" / f"{name}.toml").read_text(encoding="utf-8"))
    assert list(validator.iter_errors(doc))


def test_schema_takes_changes_and_own_parts_where_other_files_are_named(validator: Any) -> None:
    based = {"format": 1, "based_on": "a.toml", "change": {"return hose": {"length": "2 m"}}, "tub": {"rim": "1 m"}}
    own = tomllib.loads((HERE / "good" / "boathouse.toml").read_text(encoding="utf-8")) | {"parts_file": "mine.toml"}
    own["loop"][4] = {"part": "my bend", "count": 3}
    assert not list(validator.iter_errors(based))
    assert not list(validator.iter_errors(own))
    del own["parts_file"]
    assert list(validator.iter_errors(own))


def test_schema_describes_every_part_and_gives_examples(validator: Any) -> None:
    definitions = validator.schema["$defs"]
    height = definitions["pump"]["properties"]["height"]
    assert definitions["pump"]["description"].startswith("A pump by its curve")
    assert height["examples"] == ["0.55 m"]
