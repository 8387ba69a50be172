"""The answer about faults as text, JSON and CSV, from rows made up for it."""

import csv
import io
import json
import re
from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any

import pytest

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.report.faults import faults_csv, faults_json, faults_text
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.faults.result import FaultRow, Faults, Hazard, Standing
from sanitize.studies.suction.result import BlockedSuction

LITRE_PER_MINUTE_M3S = 1.0 / 60_000.0
NOTHING = Figure(0.0, 0.0, 0.0)
CLAIMS = re.compile(r"\b(safe|safely|sanitized|sterile|disinfected|purified|harmless)\b", re.IGNORECASE)


def flow(low: float, nominal: float, high: float) -> Figure:
    return Figure(low * LITRE_PER_MINUTE_M3S, nominal * LITRE_PER_MINUTE_M3S, high * LITRE_PER_MINUTE_M3S)


def standing(leaking: bool, floods: bool, level: str = "normal") -> Standing:
    return Standing(
        level=level,  # type: ignore[arg-type]
        pump="running",
        check_valve="leaking" if leaking else "sound",
        port_pressure_pa_gauge=Figure(1000.0, 1200.0, 1500.0),
        water_height_m=Figure(0.8, 0.8, 0.9),
        passes_highest_point=floods,
        reaches_ozone_unit=floods,
        air_enters=False,
        text="Water waits.",
    )


def row(**changes: Any) -> FaultRow:
    made = FaultRow(
        fault="nothing wrong",
        assumed="Nothing.",
        level="normal",
        water_moves=True,
        flow_m3s=flow(30, 35, 37),
        injector_flow_m3s=flow(30, 35, 37),
        port_pressure_closed_pa_gauge=Figure(-12000.0, -5800.0, 2700.0),
        gas_flow_m3s=flow(0.5, 1.9, 5.6),
        draws_share_ratio=0.62,
        steady_share_ratio=1.0,
        pump_inlet_pressure_pa_gauge=Figure(-900.0, 200.0, 400.0),
        filter_drop_pa_diff=Figure(4000.0, 5000.0, 6000.0),
        water_height_m=Figure(0.75, 0.75, 0.75),
        passes_highest_point=False,
        reaches_ozone_unit=False,
        air_enters=True,
        air_enters_before_pump=False,
        ozone_leaves_unit=False,
        standings=(standing(False, False), standing(True, False)),
        water="Water runs.",
        air="Gas is drawn.",
        ozone="Ozone goes with it.",
        seen="Bubbles.",
        action="Write it down.",
        hazards=(),
        severity=None,
    )
    return replace(made, **changes)


SHUT = {
    "fault": "return shut",
    "water_moves": False,
    "flow_m3s": NOTHING,
    "gas_flow_m3s": NOTHING,
    "draws_share_ratio": 0.0,
    "pump_inlet_pressure_pa_gauge": None,
    "filter_drop_pa_diff": None,
    "air_enters": False,
    "ozone_leaves_unit": True,
    "standings": (standing(False, False), standing(True, True)),
    "hazards": (Hazard("ozone-from-unit", "danger", "Ozone leaves into the room's air."),),
    "severity": "danger",
}


@pytest.fixture
def result() -> Callable[..., Faults]:
    def made(**changes: Any) -> Faults:
        whole = Faults(
            title="Boathouse larch barrel",
            units="metric",
            cases_count=256,
            seed=20,
            sound=row(),
            faults=(row(**SHUT), row(fault="pump worn", flow_m3s=Figure(None, None, None), steady_share_ratio=0.0)),
            blocked_suctions=(BlockedSuction("suction fitting", 45000.0, 58.0),),
            notices=(Notice("fault-sizes-estimated", "sizes are estimates."),),
            cautions=(
                Caution("fault-ozone-from-unit", "danger", "Ozone leaves.", "Switch off.", "ccdeh_2007", "the code"),
                Caution("cold-water", "caution", "Cold.", "Be brief.", "", "a physician"),
            ),
        )
        return replace(whole, **changes)

    return made


def line_of(text: str, start: str, number: int = 0) -> str:
    return [line for line in text.splitlines() if line.startswith(start)][number]


def test_text_tells_dangers_before_everything_else(result) -> None:
    text = faults_text(result())
    places = [text.index(word) for word in ("DANGER", "One fault at a time", "Fault by fault", "Cautions", "Notices")]
    assert sorted(places) == places
    assert text.index("Ozone leaves. DO: Switch off.") < text.index("One fault at a time")


def test_text_without_danger_has_no_such_heading(result) -> None:
    assert "DANGER" not in faults_text(result(cautions=()))


def test_text_overview_shows_every_fault_with_its_figures(result) -> None:
    text = faults_text(result())
    assert ["nothing", "wrong", "35", "(30", "to", "37)", "1.9", "(0.50", "to", "5.6)", "-5.8", "(-12", "to", "2.7)",
            "62", "%"] == line_of(text, "  nothing wrong").split()  # fmt: skip
    assert ["!", "return", "shut", "0", "0", "-5.8", "(-12", "to", "2.7)", "-"] == line_of(
        text, "! return shut"
    ).split()
    assert "not steady" in line_of(text, "  pump worn")


def test_text_ways_tell_where_water_air_and_ozone_go(result) -> None:
    text = faults_text(result())
    assert ["nothing", "wrong", "0.75", "no", "gas", "only", "return"] == line_of(text, "  nothing wrong", 1).split()
    assert ["!", "return", "shut", "0.75", "if", "leaking", "no", "unit"] == line_of(text, "! return shut", 1).split()


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"reaches_ozone_unit": True}, "YES"),
        ({"standings": (standing(False, False), standing(False, True, "rim"))}, "if full"),
        ({"standings": (standing(False, False), standing(True, True, "rim"))}, "if both"),
        ({"fault": "gas check valve leaking", "standings": (standing(True, False), standing(True, True, "rim"))},
         "if full"),
    ],
)  # fmt: skip
def test_text_says_when_water_reaches_the_unit(result, changes, word) -> None:
    made = result(faults=(row(fault="tub low", **changes) if "fault" not in changes else row(**changes),))
    assert word in line_of(faults_text(made), f"  {made.faults[0].fault}", 1)


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"air_enters_before_pump": True}, "YES"),
        ({"water_moves": False, "air_enters": True}, "at the port"),
        ({"gas_flow_m3s": Figure(0.0, 1e-5, 2e-5), "ozone_leaves_unit": True}, "return or unit"),
    ],
)
def test_text_says_where_air_enters_and_ozone_leaves(result, changes, word) -> None:
    assert word in line_of(faults_text(result(faults=(row(fault="tub low", **changes),))), "  tub low", 1)


def test_text_tells_each_fault_in_sentences_with_its_hazards(result) -> None:
    block = faults_text(result()).split("\n\nReturn shut\n")[1].split("\n\n")[0]
    labels = [line[2:15].strip() for line in block.splitlines() if line[2:15].strip()]
    assert ["Assumed", "Danger", "Water", "Air and gas", "Ozone", "You see", "Do"] == labels
    assert "Ozone leaves into the room's air." in block


def test_text_shows_us_units_where_asked(result) -> None:
    text = faults_text(result(units="us"))
    assert "water gal/min" in text
    assert "gas ft3/h" in text
    assert "closed port psi" in text


def test_text_keeps_its_width_and_ends_with_one_line_end(result) -> None:
    text = faults_text(result(), width=90)
    assert max(len(line) for line in text.splitlines()) <= 90
    assert text.endswith("\n")
    assert not text.endswith("\n\n")


def test_text_names_the_numbers_and_their_standing(result) -> None:
    text = faults_text(result())
    assert "worn_pump_head_ratio: 0.8 (0.6 to 0.95), estimate" in text


def test_text_claims_nothing(result) -> None:
    assert [] == CLAIMS.findall(faults_text(result()))


def test_json_holds_every_field_and_its_version(result) -> None:
    record = json.loads(faults_json(result()))
    assert ("faults", 1) == (record["record"], record["schema_version"])
    assert {field.name for field in fields(Faults)} == set(record) - {"record", "schema_version"}
    assert {field.name for field in fields(FaultRow)} == set(record["sound"])
    assert {"low": -12000.0, "nominal": -5800.0, "high": 2700.0} == record["sound"]["port_pressure_closed_pa_gauge"]
    assert record["faults"][0]["pump_inlet_pressure_pa_gauge"] is None
    assert "danger" == record["faults"][0]["severity"]
    assert "leaking" == record["faults"][0]["standings"][1]["check_valve"]


def test_json_leaves_what_does_not_exist_null(result) -> None:
    record = json.loads(faults_json(result()))
    assert {"low": None, "nominal": None, "high": None} == record["faults"][1]["flow_m3s"]


def test_csv_has_a_row_for_each_fault_with_its_hazards(result) -> None:
    made = result()
    rows = list(csv.DictReader(io.StringIO(faults_csv(made)), strict=True))
    assert [row.fault for row in (made.sound, *made.faults)] == [row["fault"] for row in rows]
    assert made.sound.flow_m3s.nominal == float(rows[0]["flow_nominal_m3s"])
    assert made.sound.port_pressure_closed_pa_gauge.low == float(rows[0]["port_pressure_closed_low_pa_gauge"])
    assert "true" == rows[0]["air_enters"]
    worst = made.faults[0]
    assert "; ".join(hazard.code for hazard in worst.hazards) == rows[1]["hazards"]


def test_csv_leaves_what_does_not_exist_empty(result) -> None:
    still = replace(result(), sound=row(pump_inlet_pressure_pa_gauge=None))
    first = next(csv.DictReader(io.StringIO(faults_csv(still)), strict=True))
    assert ("", "4000.0") == (first["pump_inlet_pressure_nominal_pa_gauge"], first["filter_drop_low_pa_diff"])
