"""Each fault of a small loop by hand, and the states of the suction study among the rows."""

import pytest

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.errors import InputError
from sanitize.laws.water import density_kgm3
from sanitize.studies.faults.hazards import all_fault_cautions
from sanitize.studies.faults.result import FAULTS
from sanitize.studies.faults.study import study_faults
from sanitize.studies.suction.study import study_suction

WEIGHT_NM3 = float(density_kgm3(10.0)) * GRAVITY_MS2


def nominal(figure) -> float:
    assert figure.nominal is not None
    return figure.nominal


@pytest.fixture(scope="module")
def usual(faults_of):
    return faults_of()


def test_faults_every_one_of_a_whole_loop_is_a_row(usual) -> None:
    assert set(FAULTS) - {"chiller blocked"} == {row.fault for row in (usual.sound, *usual.faults)}
    assert "nothing wrong" == usual.sound.fault


def test_return_shut_puts_the_pumps_head_and_the_depth_on_the_port(usual, row_of) -> None:
    """5 m x 1.05 and 0.30 m of water over the port; a leaking valve then lets it rise 0.80 + 5.25 m."""
    row = row_of(usual, "return shut")
    assert WEIGHT_NM3 * (5.0 * 1.05 + 0.30) == pytest.approx(nominal(row.port_pressure_closed_pa_gauge), rel=1e-12)
    assert (0.0, 0.0, False) == (nominal(row.flow_m3s), nominal(row.gas_flow_m3s), row.water_moves)
    leaking = next(item for item in row.standings if (item.level, item.check_valve) == ("normal", "leaking"))
    assert 6.05 == pytest.approx(nominal(leaking.water_height_m), rel=1e-12)
    assert (False, True) == (row.reaches_ozone_unit, leaking.reaches_ozone_unit)


def test_leaking_valve_with_its_top_below_the_water_floods_the_unit(faults_of, row_of) -> None:
    """With the pump off the water stands in the line as high as in the tub: 0.80 m, over a top at 0.70 m."""
    low = (('highest_point = "1.75 m"', 'highest_point = "0.70 m"'), ('height = "1.60 m"', 'height = "0.60 m"'))
    result = faults_of(*low)
    row = row_of(result, "gas check valve leaking")
    assert 0.80 == pytest.approx(nominal(row.water_height_m), rel=1e-12)
    assert (True, "danger") == (row.reaches_ozone_unit, row.severity)
    assert "fault-water-in-ozone-unit" == result.cautions[0].code
    assert "gas check valve leaking" in result.cautions[0].text


def test_leaking_valve_with_its_top_above_the_water_floods_nothing(usual, row_of) -> None:
    row = row_of(usual, "gas check valve leaking")
    assert (False, False) == (row.reaches_ozone_unit, any(item.reaches_ozone_unit for item in row.standings))


def test_leaking_valve_draws_as_one_that_opens_by_itself(faults_of, row_of, usual) -> None:
    easy = faults_of(('"1.5 kPa"', '"0 kPa"'))
    assert easy.sound.gas_flow_m3s == row_of(usual, "gas check valve leaking").gas_flow_m3s
    assert nominal(easy.sound.gas_flow_m3s) > nominal(usual.sound.gas_flow_m3s)


def test_filter_loaded_takes_flow_and_vacuum(usual, row_of) -> None:
    row = row_of(usual, "filter loaded")
    assert nominal(row.flow_m3s) < nominal(usual.sound.flow_m3s)
    assert nominal(row.port_pressure_closed_pa_gauge) > nominal(usual.sound.port_pressure_closed_pa_gauge)
    assert nominal(row.filter_drop_pa_diff) > nominal(usual.sound.filter_drop_pa_diff)


def test_filter_torn_gives_flow_and_takes_the_drop(usual, row_of) -> None:
    row = row_of(usual, "filter torn")
    assert nominal(row.flow_m3s) > nominal(usual.sound.flow_m3s)
    assert nominal(row.filter_drop_pa_diff) < nominal(usual.sound.filter_drop_pa_diff)


def test_pump_worn_is_a_pump_with_a_lower_curve(faults_of, row_of, usual) -> None:
    """0.8 x 5 m."""
    weak = faults_of(('["0 L/min", "5 m"]', '["0 L/min", "4 m"]'))
    row = row_of(usual, "pump worn")
    assert nominal(weak.sound.flow_m3s) == pytest.approx(nominal(row.flow_m3s), rel=1e-8)
    assert nominal(weak.sound.gas_flow_m3s) == pytest.approx(nominal(row.gas_flow_m3s), rel=1e-6)
    assert nominal(row.port_pressure_closed_pa_gauge) > nominal(usual.sound.port_pressure_closed_pa_gauge)


@pytest.mark.parametrize("fault", ["gas line kinked", "gas check valve stuck shut"])
def test_gas_that_cannot_pass_is_none_and_the_water_runs_as_with_the_port_closed(
    usual, row_of, small_plant, fault
) -> None:
    row = row_of(usual, fault)
    assert (0.0, 0.0, True) == (nominal(row.gas_flow_m3s), row.draws_share_ratio, row.ozone_leaves_unit)
    assert study_suction(small_plant(), 0).flow_port_closed_m3s == row.flow_m3s
    assert False is row.air_enters


def test_water_in_the_line_weighs_on_the_valves_opening(faults_of, row_of, usual) -> None:
    """From the port at 0.50 m up to 1.00 m: the line opens at 1.5 kPa and 0.50 m of water."""
    top = (('highest_point = "1.75 m"', 'highest_point = "1.00 m"'), ('height = "1.60 m"', 'height = "0.90 m"'))
    wet = row_of(faults_of(*top), "gas line full of water")
    stiff = faults_of(*top, ('"1.5 kPa"', f'"{1.5 + WEIGHT_NM3 * 0.5 / 1000.0:.12f} kPa"'))
    assert nominal(stiff.sound.gas_flow_m3s) == pytest.approx(nominal(wet.gas_flow_m3s), rel=1e-8)
    assert 0.0 < nominal(wet.gas_flow_m3s) < nominal(usual.sound.gas_flow_m3s)
    assert 1.00 == pytest.approx(nominal(wet.water_height_m), rel=1e-12)


def test_suction_blocked_leaves_the_port_at_its_depth(usual, row_of) -> None:
    row = row_of(usual, "suction blocked")
    assert WEIGHT_NM3 * 0.30 == pytest.approx(nominal(row.port_pressure_closed_pa_gauge), rel=1e-12)
    assert (0.0, "danger", "suction-holds") == (nominal(row.flow_m3s), row.severity, row.hazards[0].code)


def test_suction_blocked_before_an_injector_before_the_pump_pulls_on_the_port(faults_of, row_of) -> None:
    """0.30 m of water over the port less 1.05 x 5 m."""
    injector = '{part = "injector", throat = "9 mm", loss_ratio = 0.25, height = "0.50 m"},'
    pump = '{part = "pump", height = "0.30 m"'
    row = row_of(faults_of((injector, ""), (pump, injector + pump)), "suction blocked")
    assert WEIGHT_NM3 * (0.30 - 5.25) == pytest.approx(nominal(row.port_pressure_closed_pa_gauge), rel=1e-12)
    assert True is row.air_enters


@pytest.mark.parametrize("fault", ["return partly blocked", "suction partly blocked"])
def test_opening_partly_blocked_takes_flow(usual, row_of, fault) -> None:
    assert nominal(row_of(usual, fault).flow_m3s) < nominal(usual.sound.flow_m3s)


def test_return_partly_blocked_presses_on_the_port_and_the_suction_does_not(usual, row_of) -> None:
    """A gauge at the pump's inlet tells them apart: it rises with the return, and falls with the suction."""
    back, front = row_of(usual, "return partly blocked"), row_of(usual, "suction partly blocked")
    inlet = nominal(usual.sound.pump_inlet_pressure_pa_gauge)
    assert nominal(front.pump_inlet_pressure_pa_gauge) < inlet < nominal(back.pump_inlet_pressure_pa_gauge)


def test_air_leak_costs_nothing_where_the_inlet_stands_above_the_air(usual, row_of) -> None:
    row = row_of(usual, "air leak before the pump")
    assert nominal(usual.sound.pump_inlet_pressure_pa_gauge) > 0.0
    assert (usual.sound.flow_m3s, False) == (row.flow_m3s, row.air_enters_before_pump)


def test_air_leak_costs_head_where_the_inlet_stands_below_the_air(faults_of, row_of) -> None:
    """A pump 1.2 m up, 0.4 m above the water: it then runs as one with 0.75 x 5 m."""
    raised = ('{part = "pump", height = "0.30 m"', '{part = "pump", height = "1.20 m"')
    result = faults_of(raised)
    row = row_of(result, "air leak before the pump")
    assert True is row.air_enters_before_pump
    weak = faults_of(raised, ('["0 L/min", "5 m"]', '["0 L/min", "3.75 m"]'))
    assert nominal(weak.sound.flow_m3s) == pytest.approx(nominal(row.flow_m3s), rel=1e-8)


def test_tub_low_sinks_as_the_table_says(usual, row_of, faults_of) -> None:
    """0.15 m: as the same tub filled to 0.65 m."""
    row = row_of(usual, "tub low")
    lower = faults_of(('water_level = "0.80 m"', 'water_level = "0.65 m"'), ('rim = "0.90 m"', 'rim = "0.75 m"'))
    assert lower.sound.port_pressure_closed_pa_gauge == row.port_pressure_closed_pa_gauge
    assert lower.sound.gas_flow_m3s == row.gas_flow_m3s


def test_tub_low_stays_over_a_high_suction(faults_of, row_of, run_of) -> None:
    """A suction at 0.75 m with its 1 in mouth: the water stops at 0.75 m and half a bore, 26.24 mm."""
    result = faults_of(('{part = "suction fitting", height = "0.20 m"', '{part = "suction fitting", height = "0.75 m"'))
    low, normal = row_of(result, "tub low"), result.sound
    fallen = nominal(normal.port_pressure_closed_pa_gauge) - nominal(low.port_pressure_closed_pa_gauge)
    assert WEIGHT_NM3 * (0.80 - 0.75 - 0.02624 / 2.0) == pytest.approx(fallen, rel=1e-3)


def test_suction_uncovered_stops_the_water_and_lets_air_in(usual, row_of) -> None:
    """The water stands at the suction, 0.20 m, below the port at 0.50 m."""
    row = row_of(usual, "suction uncovered")
    assert -WEIGHT_NM3 * 0.30 == pytest.approx(nominal(row.port_pressure_closed_pa_gauge), rel=1e-12)
    assert (False, True, True) == (row.water_moves, row.air_enters_before_pump, row.air_enters)


def test_faults_without_filter_and_check_valve_are_left_out_and_said(faults_of) -> None:
    result = faults_of(
        ('  {part = "filter", drop = "6 kPa", at_flow = "40 L/min", medium_share = 0.3},\n', ""),
        ('check_valve_opens_at = "1.5 kPa"', "check_valve = false"),
    )
    missing = set(FAULTS) - {row.fault for row in (result.sound, *result.faults)} - {"chiller blocked"}
    assert {"filter loaded", "filter torn", "gas check valve leaking", "gas check valve stuck shut"} == missing
    assert "faults-left-out" in {notice.code for notice in result.notices}


def test_faults_come_most_dangerous_first(usual) -> None:
    weights = [["danger", "caution", None].index(row.severity) for row in usual.faults]
    assert sorted(weights) == weights
    assert weights[0] == 0


def test_ozone_that_no_gas_carries_is_a_danger_in_a_room(faults_of, row_of) -> None:
    for place, severity in (("indoors", "danger"), ("outdoors", "caution")):
        row = row_of(faults_of(('place = "indoors"', f'place = "{place}"')), "pump stopped")
        assert severity == next(hazard.severity for hazard in row.hazards if hazard.code == "ozone-from-unit")


def test_cautions_gather_every_hazard_of_every_fault(usual) -> None:
    told = {(caution.code, caution.severity): caution.text for caution in usual.cautions}
    for row in usual.faults:
        for hazard in row.hazards:
            assert row.fault in told[f"fault-{hazard.code}", hazard.severity]


def test_cautions_of_faults_stand_in_the_list_of_all_at_their_gravest(usual) -> None:
    listed = {caution.code: caution.severity for caution in all_fault_cautions()}
    gathered = [caution for caution in usual.cautions if caution.code.startswith("fault-")]
    found = {(caution.code, caution.severity) for caution in gathered}
    assert {code for code, _ in found} <= set(listed)
    assert {code for code, severity in found if severity == "danger"} <= {
        code for code, severity in listed.items() if severity == "danger"
    }
    assert ("fault-suction-holds", "danger") in found


def test_chiller_is_told_when_its_water_fails(faults_of, row_of) -> None:
    chiller = '{part = "chiller", drop = "5 kPa", at_flow = "40 L/min", min_flow = "15 L/min"},'
    result = faults_of(('{part = "injector"', chiller + '{part = "injector"'))
    codes = {row.fault: {hazard.code for hazard in row.hazards} for row in result.faults}
    assert "chiller-freezes" in codes["return shut"]
    assert "chiller-freezes" not in codes["filter torn"]
    assert "chiller blocked" not in {row.fault for row in faults_of().faults}


def test_chiller_that_is_blocked_drops_as_one_stated_so(plant_of) -> None:
    """Passages of which 70 % are blocked drop (1 / 0.3)^1.8 = 8.73 times as much: as a chiller stated so."""
    loop = (
        '{part = "suction fitting", height = "0.2 m", cover_rated_flow = "150 L/min"}, '
        '{part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]}, '
        '{part = "chiller", drop = "5 kPa", at_flow = "40 L/min", exponent = 1.8}, '
        '{part = "injector", throat = "9 mm", height = "0.9 m"}, {part = "return", height = "0.5 m"}'
    )
    rows = {row.fault: row for row in study_faults(plant_of(f"loop = [{loop}]"), 0).faults}
    same = study_faults(plant_of(f"loop = [{loop.replace('5 kPa', f'{5.0 * 0.3**-1.8:.6f} kPa')}]"), 0).sound
    assert nominal(same.flow_m3s) == pytest.approx(nominal(rows["chiller blocked"].flow_m3s), rel=1e-6)
    assert "chiller-freezes" in {hazard.code for hazard in rows["chiller blocked"].hazards}


def test_faults_of_a_loop_without_injector_are_refused(plant_of) -> None:
    parts = '{part = "suction fitting", height = "0.2 m"}, {part = "return", height = "0.5 m"}'
    pump = '{part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]}'
    with pytest.raises(InputError, match="no injector"):
        study_faults(plant_of(f"loop = [{parts.replace('}, {', '}, ' + pump + ', {')}]"), 0)


def test_pump_worn_that_lifts_no_more_is_said(faults_of, row_of) -> None:
    """5.25 m up to a return at 6.05 m with a pump of 6 m is enough; with 0.8 of it no water comes."""
    high = (
        ('{part = "return", height = "0.55 m"}', '{part = "return", height = "6.05 m"}'),
        ('["0 L/min", "5 m"]', '["0 L/min", "6 m"]'),
    )
    result = faults_of(*high)
    row = row_of(result, "pump worn")
    assert (1.0, 0.0) == (result.sound.steady_share_ratio, row.steady_share_ratio)
    assert row.seen.startswith("No steady flow is found: the pump no longer lifts the water")
    assert (None, True) == (row.flow_m3s.nominal, row.ozone_leaves_unit)
    assert {"ozone-from-unit", "water-untreated"} <= {hazard.code for hazard in row.hazards}


def test_readings_narrow_the_faults_too(small_plant, row_of) -> None:
    """A bucket that measures the flow narrows what it may be."""
    usual = study_faults(small_plant(), 256)
    measured = small_plant(("[ozone]", '[measured]\nbucket_flow = "41 L/min +- 0.3 L/min"\n[ozone]'))
    narrowed = study_faults(measured, 256)
    for fault in ("nothing wrong", "gas line kinked"):
        wide, narrow = (row_of(result, fault).flow_m3s for result in (usual, narrowed))
        assert narrow.high - narrow.low < wide.high - wide.low


def test_sentences_name_the_flow_before_and_after(usual, row_of) -> None:
    assert "The flow falls from" in row_of(usual, "filter loaded").seen
    assert "No water comes back into the tub." in row_of(usual, "return shut").seen
    assert "No bubbles of gas at the return." in row_of(usual, "gas line kinked").seen
    for row in usual.faults:
        assert all((row.assumed, row.water, row.air, row.ozone, row.seen, row.action))
