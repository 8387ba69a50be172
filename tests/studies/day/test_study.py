"""The day of a loop file: switch times, lid, room, cautions and what they rest on."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.cautions.rules import all_cautions
from sanitize.studies.day.cautions import RULES, DayFacts, all_day_cautions, cautions_of_day
from sanitize.studies.day.result import SimulatedDay
from sanitize.studies.day.study import study_day
from sanitize.studies.day.switching import is_planned, plan_of, switching_of
from sanitize.studies.ozone.study import study_ozone

PlantOf = Callable[..., Plant]
LOOP = """
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "8 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "injector", height = "0.9 m",inlet_to_port = ["30 kPa", "25 L/min"], outlet_to_port = ["23 kPa", "25 L/min"]},
  {part = "flexible hose", length = "2 m"},
  {part = "return", height = "0.50 m"},
]
"""
OZONE = """[ozone]
output = "90 mg/h"
at_gas_flow = "1 L/min"
feed = "dried air"
"""
TIMER = """[timer]
pump_times = [["06:00", "09:00"], ["17:00", "20:00"]]
ozone_times = [["06:00", "08:00"]]
[bathers]
per_day = 2
times = [["18:00", "19:00"]]
"""
ROOM = """[room]
volume = "30 m3"
air_changes_per_hour = 0.5
"""


TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "10 degC"
place = "{place}"
"""


@pytest.fixture(scope="module")
def tub_of(plant_of: PlantOf) -> PlantOf:
    """The loop of these tests with further tables, indoors or outdoors."""
    return lambda tables, place="indoors": plant_of(LOOP, tables, tub=TUB.format(place=place))


@pytest.fixture(scope="module")
def day_of(tub_of: PlantOf) -> Callable[..., SimulatedDay]:
    def study(tables: str, cases: int = 16, days: int = 1) -> SimulatedDay:
        return study_day(tub_of(tables), cases, days=days)

    return study


@pytest.fixture(scope="module")
def plain(day_of: Callable[..., SimulatedDay]) -> SimulatedDay:
    return day_of(OZONE + TIMER + ROOM)


def codes(result: SimulatedDay) -> set[str]:
    return {notice.code for notice in result.notices}


def warned(result: SimulatedDay) -> dict[str, str]:
    return {caution.code: caution.severity for caution in result.cautions}


def test_day_ozone_made_is_the_units_output_times_its_hours(plain: SimulatedDay) -> None:
    """90 mg/h for two hours, as the injector draws more than a litre a minute in the nominal case."""
    assert 180.0 == pytest.approx(plain.fed_mg_per_day.nominal)


def test_day_what_is_made_dissolves_or_is_vented(plain: SimulatedDay) -> None:
    made, dissolved, vented = (
        figure.nominal for figure in (plain.fed_mg_per_day, plain.dissolved_mg_per_day, plain.vented_mg_per_day)
    )
    assert made is not None
    assert made == pytest.approx((dissolved or 0.0) + (vented or 0.0))
    assert plain.imbalance_ratio < 1e-6


def test_day_bathers_ask_for_a_gram_each(plain: SimulatedDay) -> None:
    assert 2.0 == pytest.approx(plain.oxidant_need_g_per_day.nominal)
    assert (plain.oxidant_supply_g_per_day.ends[2]) < 0.2


def test_day_moments_run_from_midnight_to_midnight(plain: SimulatedDay) -> None:
    assert [0.0, 86400.0] == [plain.moments[0].time_s, plain.moments[-1].time_s]
    for moment in plain.moments:
        for figure in (moment.ozone_mgl, moment.room_ppmv, moment.haze_ntu):
            assert figure is not None
            assert 0.0 <= figure.ends[0] <= figure.ends[1] <= figure.ends[2]


def test_day_room_peaks_while_the_ozone_runs_and_the_wait_is_told(plain: SimulatedDay) -> None:
    peak = max(plain.moments, key=lambda moment: moment.room_ppmv.ends[1] if moment.room_ppmv else 0.0)
    assert 6.0 * 3600.0 < peak.time_s <= 8.0 * 3600.0
    ceiling, target, water = plain.waits
    assert [0.1, 0.05] == [ceiling.limit, target.limit]
    assert target.wait_s.ends[1] >= ceiling.wait_s.ends[1] > 0.0
    assert "the water" == water.what


def test_day_worst_wait_is_no_shorter_than_the_range(plain: SimulatedDay) -> None:
    for wait in plain.waits:
        assert wait.worst_s is None or wait.worst_s >= wait.wait_s.ends[2]


def test_day_air_over_the_water_is_highest_while_the_ozone_runs(plain: SimulatedDay) -> None:
    """People bathe ten hours after it: what they breathe is not what somebody breathes who leans over it before."""
    assert plain.over_water_ppmv is not None
    assert plain.face_ppmv is not None
    faces = [moment.face_ppmv.ends[1] for moment in plain.moments if moment.face_ppmv is not None]
    assert plain.over_water_ppmv.ends[1] >= max(faces) > 10.0 * plain.face_ppmv.ends[1]


def test_day_a_closed_room_with_this_unit_is_a_danger(plain: SimulatedDay) -> None:
    assert "danger" == warned(plain)["room-above-ceiling"]


def test_day_with_a_lid_over_the_ozone_is_a_danger(day_of: Callable[..., SimulatedDay]) -> None:
    result = day_of(OZONE + TIMER + ROOM + '[surroundings]\nlid = "softwood"\nlid_thickness = "40 mm"\n')
    assert "danger" == warned(result)["ozone-gathers-under-lid"]
    assert result.under_lid_ppmv is not None
    assert result.under_lid_ppmv.ends[1] > 5.0
    assert "lid-times-assumed" in codes(result)


def test_day_without_times_runs_the_pump_all_day_and_says_so(day_of: Callable[..., SimulatedDay]) -> None:
    result = day_of(OZONE + "[bathers]\nper_day = 1\n")
    assert {"no-switch-times", "bathing-times-assumed", "room-assumed", "lid-not-given"} <= codes(result)
    assert "all day" == result.switched.origin
    assert () == result.waits
    assert 12.0 == pytest.approx(result.room_m3 or 0.0)


def test_day_without_ozone_has_haze_only(day_of: Callable[..., SimulatedDay]) -> None:
    result = day_of(TIMER.replace('ozone_times = [["06:00", "08:00"]]\n', ""))
    assert 0.0 == result.fed_mg_per_day.nominal
    assert () == result.ways
    assert result.haze_peak_ntu.ends[1] > 0.0
    assert not {code for code in warned(result) if code in {rule.code for rule in RULES} - {"bathers-outpace-oxidants"}}


def test_day_twice_the_room_holds_less_ozone(day_of: Callable[..., SimulatedDay], plain: SimulatedDay) -> None:
    wide = day_of(OZONE + TIMER + ROOM.replace("30 m3", "60 m3"))
    assert wide.room_peak_ppmv is not None
    assert plain.room_peak_ppmv is not None
    assert 0.5 == pytest.approx(wide.room_peak_ppmv.ends[1] / plain.room_peak_ppmv.ends[1], rel=0.02)


def test_day_outdoors_has_no_room(tub_of: PlantOf) -> None:
    result = study_day(tub_of(OZONE + TIMER, "outdoors"), 16, days=1)
    assert result.room_peak_ppmv is None
    assert result.face_ppmv is not None
    assert "the air over the water" == result.waits[0].what


def test_day_chiller_holds_the_water(day_of: Callable[..., SimulatedDay]) -> None:
    result = day_of(
        TIMER.replace('ozone_times = [["06:00", "08:00"]]\n', "") + '[chiller]\ncapacity = "2 kW"\n', days=3
    )
    assert result.chiller_run_s is not None
    assert 0.0 < result.chiller_run_s.ends[1] < 6.0 * 3600.0
    assert 10.0 == pytest.approx(result.water_coldest_c.ends[1], abs=0.5)
    assert result.water_warmest_c.ends[1] < 14.0


def test_switching_lid_off_as_stated(tub_of: PlantOf) -> None:
    around = '[surroundings]\nlid = "softwood"\nlid_thickness = "40 mm"\nlid_off = [["17:00", "20:00"]]\n'
    switching, notices = switching_of(tub_of(OZONE + TIMER + around))
    assert [(20.0, 17.0)] == [(w.start_s / 3600.0, w.end_s / 3600.0) for w in switching.lid]
    assert () == notices


def test_switching_ozone_without_times_of_its_own_runs_with_the_pump(tub_of: PlantOf) -> None:
    timer = '[timer]\npump_times = [["06:00", "09:00"]]\n'
    switching, _ = switching_of(tub_of(OZONE + timer))
    assert switching.pump == switching.ozone


WORST = DayFacts(
    family="metric",
    has_ozone=True,
    kept="chlorine",
    indoors=True,
    face_ppmv=0.2,
    room_ppmv=0.3,
    room_above_s=3600.0,
    under_lid_ppmv=50.0,
    entry_mgl=0.1,
    oxidant_low_mgl=0.2,
    brought_g=4.0,
    left_over_g=2.0,
)
CALM = replace(
    WORST, face_ppmv=0.01, room_ppmv=0.05, room_above_s=0.0, under_lid_ppmv=1.0, entry_mgl=0.01, oxidant_low_mgl=2.0,
    left_over_g=0.0,
)  # fmt: skip


def test_cautions_of_the_worst_day_are_all_of_them_and_of_a_calm_day_none() -> None:
    assert [rule.code for rule in RULES] == [caution.code for caution in cautions_of_day(WORST)]
    assert () == cautions_of_day(CALM)


def test_caution_while_bathing_is_a_danger_from_the_ceiling_on() -> None:
    (mild,) = cautions_of_day(replace(CALM, face_ppmv=0.07))
    (bad,) = cautions_of_day(replace(CALM, face_ppmv=0.1))
    assert ["caution", "danger"] == [mild.severity, bad.severity]


def test_caution_of_peroxide_knows_no_least_amount() -> None:
    """No guideline takes peroxide alone as enough, so none tells how little is too little."""
    assert () == cautions_of_day(replace(CALM, kept="peroxide", oxidant_low_mgl=0.0))


def test_caution_codes_of_a_day_are_its_own() -> None:
    own = {caution.code for caution in all_day_cautions()}
    assert not own & {caution.code for caution in all_cautions()}


def test_corners_lie_beyond_the_drawn_cases(tub_of: PlantOf) -> None:
    """The worst for the air and for entry are no better than the 95th of a hundred drawn cases."""
    from sanitize.studies.day.hydraulics import hydraulics_of
    from sanitize.studies.day.ranges import AIR_CORNER, ENTRY_CORNER, Ranges
    from sanitize.studies.day.water import chemistry_of, water_of

    plant = tub_of(OZONE + TIMER + ROOM)
    loop = hydraulics_of(plant, 16, 20)
    tested, _ = water_of(plant)
    chemistry = chemistry_of(plant, tested, Ranges(loop.draws))
    for corner in (AIR_CORNER, ENTRY_CORNER):
        assert float(chemistry.demand_each_mg[0, corner]) <= np.percentile(chemistry.demand_each_mg[0, :-2], 50)
        assert float(chemistry.ozone_speed[0, corner]) == chemistry.ozone_speed[0].min()


def test_day_without_end_comes_to_the_steady_balance(tub_of: PlantOf) -> None:
    """Pump and unit on all day, nobody in it, no lid: the study of the steady state solves the same in one linear step.

    Within 3 %: it takes the surface from a usual depth, and lets ozone decay in the pipe too.
    """
    plant = tub_of(OZONE + ROOM)
    day, rest = study_day(plant, 0, days=4), study_ozone(plant, 0)
    assert rest.residual_mgl.nominal == pytest.approx(day.moments[-1].ozone_mgl.nominal, rel=0.03)
    assert rest.room_ppmv is not None
    assert day.moments[-1].room_ppmv is not None
    assert rest.room_ppmv.nominal == pytest.approx(day.moments[-1].room_ppmv.nominal, rel=0.03)
    assert 24.0 * (rest.vented_mg_per_h.nominal or 0.0) == pytest.approx(day.vented_mg_per_day.nominal, rel=0.03)


def test_switching_with_a_timer_without_times_follows_the_plan(tub_of: PlantOf) -> None:
    """Two hours of ozone on a timer of its own, off two hours before people bathe."""
    tables = OZONE + TIMER.replace('pump_times = [["06:00", "09:00"], ["17:00", "20:00"]]\n', "").replace(
        'ozone_times = [["06:00", "08:00"]]', 'ozone_hours = "2 h"\ntwo_timers = true'
    )
    plant = tub_of(tables)
    assert is_planned(plant)
    plan = plan_of(plant)
    switching, _ = switching_of(plant, plan)
    assert "planned" == switching.origin
    assert plan.run_s == pytest.approx(sum(window.length_s for window in switching.pump))
    assert plan.ozone_run_s == pytest.approx(sum(window.length_s for window in switching.ozone))
    assert not any(window.holds(17.0 * 3600.0) for window in switching.ozone)


def test_switching_lets_ozone_run_with_the_pump_where_the_plan_leaves_it_off(tub_of: PlantOf) -> None:
    """A unit without hours is not taken for one that is unplugged: the air of that room is the question."""
    plant = tub_of(OZONE + ROOM + '[timer]\nquiet = [["22:00", "06:00"]]\n')
    plan = plan_of(plant)
    switching, notices = switching_of(plant, plan)
    assert 0.0 == plan.ozone_run_s
    assert switching.pump == switching.ozone
    assert "plan-without-ozone" in {notice.code for notice in notices}
