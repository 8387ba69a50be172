"""On every demo: the states of the suction study are rows, and each fault moves the figures its way."""

from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.faults.study import study_faults
from sanitize.studies.suction.study import study_suction

DEMOS = sorted((Path(__file__).resolve().parents[3] / "demos").glob("*.toml"))
CASES = 32
FAULT_OF_STATE = {
    "off": "pump stopped",
    "running": "nothing wrong",
    "returns shut": "return shut",
    "filter loaded": "filter loaded",
}
SHARED = (
    "check_valve", "level", "port_pressure_pa_gauge", "water_height_m", "passes_highest_point", "reaches_ozone_unit",
    "air_enters", "text",
)  # fmt: skip


@pytest.fixture(scope="module", params=DEMOS, ids=lambda path: path.stem)
def plant(request):
    path = request.param
    return read_plant(
        path.read_text(encoding="utf-8"), path=str(path), reader=lambda name: Path(name).read_text()
    ).plant


@pytest.fixture(scope="module")
def result(plant):
    return study_faults(plant, CASES)


@pytest.fixture(scope="module")
def rows(result):
    return {row.fault: row for row in (result.sound, *result.faults)}


def _shared(item) -> dict[str, object]:
    return {key: getattr(item, key) for key in SHARED}


def test_states_of_the_suction_study_are_rows_with_the_same_figures(plant, result, rows) -> None:
    suction = study_suction(plant, CASES)
    for state in suction.states:
        row = rows[FAULT_OF_STATE[state.state]]
        same = [item for item in row.standings if (item.level, item.check_valve) == (state.level, state.check_valve)]
        assert [_shared(state)] == [_shared(item) for item in same]
    sound = result.sound
    assert (suction.flow_m3s, suction.injector_flow_m3s) == (sound.flow_m3s, sound.injector_flow_m3s)
    assert (suction.gas_flow_m3s, suction.draws_share_ratio) == (sound.gas_flow_m3s, sound.draws_share_ratio)
    assert suction.port_pressure_closed_pa_gauge == sound.port_pressure_closed_pa_gauge
    assert set(suction.cautions) <= set(result.cautions)


def test_rim_and_leaking_states_are_rows_of_their_own_too(plant, rows) -> None:
    states = {(s.state, s.level, s.check_valve): _shared(s) for s in study_suction(plant, CASES).states}
    full = rows["tub over-full"].standings
    assert states["running", "rim", "sound"] == _shared(full[0])
    assert [states["off", "rim", valve] for valve in ("sound", "leaking")] == [
        _shared(item) for item in full if item.pump == "off"
    ]
    for item in rows["gas check valve leaking"].standings:
        assert states["off" if item.pump == "off" else "running", item.level, "leaking"] == _shared(item)


@pytest.mark.parametrize(
    ("fault", "side"),
    [
        ("filter loaded", -1),
        ("filter torn", 1),
        ("return partly blocked", -1),
        ("suction partly blocked", -1),
        ("pump worn", -1),
    ],
)
def test_flow_moves_as_the_fault_says(rows, fault, side) -> None:
    """The flow with the port closed, as gas that comes or goes moves the water too."""
    if fault not in rows:
        assert "filter" in fault
        return
    before, after = rows["nothing wrong"].flow_m3s.nominal, rows[fault].flow_m3s.nominal
    assert (after - before) * side > 0.0


def test_port_follows_the_height_of_the_water(rows) -> None:
    low, normal, rim = (
        rows[fault].port_pressure_closed_pa_gauge.nominal for fault in ("tub low", "nothing wrong", "tub over-full")
    )
    assert low < normal < rim


def test_no_gas_where_nothing_passes_and_less_where_water_weighs_on_it(rows) -> None:
    sound = rows["nothing wrong"].gas_flow_m3s
    for fault in ("gas line kinked", "return shut", "suction blocked", "pump stopped", "suction uncovered"):
        assert (0.0, 0.0, 0.0) == rows[fault].gas_flow_m3s.ends
        assert True is rows[fault].ozone_leaves_unit
    assert rows["gas line full of water"].gas_flow_m3s.nominal <= sound.nominal
    assert rows["tub over-full"].gas_flow_m3s.nominal <= sound.nominal <= rows["tub low"].gas_flow_m3s.nominal


def test_air_leak_costs_flow_only_where_the_inlet_may_stand_below_the_air(rows) -> None:
    sound, leak = rows["nothing wrong"], rows["air leak before the pump"]
    if sound.pump_inlet_pressure_pa_gauge.low < 0.0:
        assert leak.flow_m3s.low <= sound.flow_m3s.low
    else:
        assert leak.flow_m3s.nominal == sound.flow_m3s.nominal
