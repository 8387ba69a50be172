"""The suction answer as JSON and CSV."""

import csv
import io
import json
from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any

from sanitize.basis.figure import Figure
from sanitize.report.record import csv_columns, suction_csv, suction_json
from sanitize.studies.suction.result import PartAlong, Suction

MakeAnswer = Callable[..., Suction]


def _read(made: Suction) -> dict[str, Any]:
    def refuse(word: str) -> None:
        raise AssertionError(word)

    found: dict[str, Any] = json.loads(suction_json(made), parse_constant=refuse)
    return found


def test_json_has_its_version_and_every_field_by_its_name(answer: MakeAnswer) -> None:
    record = _read(answer())
    assert list(record)[:2] == ["schema_version", "record"]
    assert (record["schema_version"], record["record"]) == (1, "suction")
    assert list(record)[2:] == [field.name for field in fields(Suction)]
    assert [list(part) for part in record["parts"]] == [[field.name for field in fields(PartAlong)]] * 12


def test_json_figures_are_low_nominal_high_in_full(answer: MakeAnswer) -> None:
    made = answer(flow_port_closed_m3s=Figure(0.1, 1.0 / 3.0, 0.5))
    assert _read(made)["flow_port_closed_m3s"] == {"low": 0.1, "nominal": 1.0 / 3.0, "high": 0.5}


def test_json_what_does_not_exist_is_null(answer: MakeAnswer) -> None:
    made = answer(onset_flow_m3s=Figure(0.0001, None, None), atmosphere_pa_abs=float("nan"))
    assert _read(made)["onset_flow_m3s"] == {"low": 0.0001, "nominal": None, "high": None}
    assert _read(made)["atmosphere_pa_abs"] is None


def test_json_lines_of_pump_and_system_are_figures_too(answer: MakeAnswer) -> None:
    made = answer()
    endless = replace(made.pump_line, system_head_m=((0.1, 0.2, float("inf")), *made.pump_line.system_head_m[1:]))
    line = _read(replace(made, pump_line=endless))["pump_line"]
    assert line["system_head_m"][0] == {"low": 0.1, "nominal": 0.2, "high": None}
    assert len(line["flow_m3s"]) == len(line["pump_head_m"]) == len(line["system_head_m"]) == 11


def test_json_keeps_names_in_any_script(answer: MakeAnswer) -> None:
    assert _read(answer(title="Bottich für Åse"))["title"] == "Bottich für Åse"


def test_csv_columns_end_in_their_unit() -> None:
    assert csv_columns()[7:10] == ["flow_low_m3s", "flow_nominal_m3s", "flow_high_m3s"]
    assert csv_columns()[-3:] == [
        "pressure_behind_low_pa_gauge",
        "pressure_behind_nominal_pa_gauge",
        "pressure_behind_high_pa_gauge",
    ]


def test_csv_has_a_row_for_every_part_with_full_floats(answer: MakeAnswer) -> None:
    made = answer()
    rows = list(csv.DictReader(io.StringIO(suction_csv(made))))
    assert [part.name for part in made.parts] == [row["name"] for row in rows]
    assert float(rows[0]["flow_nominal_m3s"]) == made.parts[0].flow_m3s.nominal


def test_csv_what_does_not_exist_is_empty_and_a_comma_is_kept(answer: MakeAnswer) -> None:
    first = replace(answer().parts[0], name="hose, long", height_m=Figure(None, None, None))
    row = next(csv.DictReader(io.StringIO(suction_csv(answer(parts=(first,))))))
    assert row["height_low_m"] == ""
    assert row["name"] == "hose, long"
