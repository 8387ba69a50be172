"""The tub's temperature with each fault, by the heat of a day, and what readings of it point to."""

from dataclasses import replace

import numpy as np
import pytest

from sanitize.plant.answers import Answers
from sanitize.plant.loop import Plant
from sanitize.studies.cloudy.prepared import prepare
from sanitize.studies.cloudy.readings import SOUND, explained, fault_odds, likelihoods, told_by_faults
from sanitize.studies.cloudy.study import diagnose
from sanitize.studies.cloudy.warmth import Warmth, warmth_of
from sanitize.studies.cloudy.witness import Ages, told_by_thermometer
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.states import levels

LOOP = """
loop = [
  {part = "suction fitting", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.3 m", power = "80 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "injector", throat = "9 mm", height = "0.9 m"},
  {part = "split", ways = ["chilled", "past"], straight = "past"},
  {part = "flexible hose", length = "8 m"},
  {part = "return", height = "0.5 m"},
]
way.chilled = [{part = "chiller", drop = "9 kPa", at_flow = "10 L/min", min_flow = "4 L/min"}]
way.past = [{part = "throttle valve", handle = "35 deg"}]
"""
TABLES = """
[gas_line]
length = "1.8 m"
bore = "4 mm"
[chiller]
capacity = "1 kW"
rated_water = "20 degC"
rated_air = "25 degC"
[surroundings]
air_temperature = "20 degC"
humidity = 0.2
wall = "polyethylene"
wall_thickness = "6 mm"
wall_area = "2.3 m2"
surface_area = "0.6 m2"
lid = "polystyrene foam"
lid_thickness = "50 mm"
covered = "24 h"
"""
TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "5 degC"
place = "indoors"
"""
HOUR_S = 3600.0
CASES = 256


@pytest.fixture(scope="module")
def chilled(plant_of):
    """The tub of 400 L with its chiller, with further tables."""

    def made(tables: str = "") -> Plant:
        return plant_of(LOOP, TABLES + tables, size="3/4 in", tub=TUB)

    return made


def solved(plant: Plant, cases: int = 0) -> tuple[Draws, Run]:
    draws = Draws(cases)
    return draws, run(plant, draws, Condition(levels(plant, draws)["normal"]))


def warmth(plant: Plant, run_s: float | None, cases: int = 0) -> tuple[Warmth, Run]:
    draws, running = solved(plant, cases)
    found = warmth_of(plant, draws, running, run_s)
    assert found is not None
    return found, running


def test_tub_cooled_all_day_rests_where_its_heat_balance_closes(chilled) -> None:
    """By hand, W/K: walls 15.64, floor 1.16 to 18 degC, lid 0.34, pipes 5.1, housings 1.4, leak under the lid 0.43;
    24.1 (20 - T) - 2.3 + 64 W of pump = 1 kW (1 + 0.03 (T - 20) + 0.008 x 5), so T = 1.92 degC."""
    found, _ = warmth(chilled(), 24 * HOUR_S)
    every = np.ones(1, dtype=bool)
    assert 1.92 == pytest.approx(float(found.settles_c(found.run_s, every)[0]), abs=0.1)
    assert 5.0 == pytest.approx(float(found.tub_c(found.run_s, every)[0]), abs=1e-3)


def test_tub_without_the_chiller_rests_above_the_air_by_its_pump(chilled) -> None:
    """(64 - 2.3) W over 24.1 W/K, and 6.4 W of vapour under the lid that now leave: 20 + 2.3 degC."""
    found, _ = warmth(chilled(), 24 * HOUR_S)
    nobody = np.zeros(1, dtype=bool)
    assert 22.3 == pytest.approx(float(found.settles_c(found.run_s, nobody)[0]), abs=0.1)


def test_chiller_that_stopped_leaves_the_set_temperature_as_its_tub_warms(chilled) -> None:
    """+0.72 K/h at first without pump; with 64 W of pump 0.137 K/h more; after a week it has come to rest."""
    found, _ = warmth(chilled(), 24 * HOUR_S)
    nobody = np.zeros(1, dtype=bool)

    def after(hours: float) -> float:
        return float(replace(found, off_s=np.array([hours * HOUR_S])).tub_c(found.run_s, nobody)[0])

    assert 5.0 == pytest.approx(after(0.0), abs=1e-3)
    assert 0.86 == pytest.approx((after(0.2) - 5.0) / 0.2, rel=0.05)
    assert float(found.settles_c(found.run_s, nobody)[0]) == pytest.approx(after(240.0), abs=0.1)
    assert after(5.0) < after(20.0) < after(80.0)


def test_too_few_hours_leave_the_tub_above_its_set_temperature(chilled) -> None:
    """It holds 5 degC in 15.2 h a day; in 4 h it does not."""
    every = np.ones(1, dtype=bool)
    temperatures = [float(warmth(chilled(), hours * HOUR_S)[0].tub_c(np.array([hours * HOUR_S]), every)[0])
                    for hours in (4.0, 10.0, 18.0)]  # fmt: skip
    assert temperatures[0] > temperatures[1] + 2.0 > 5.0 + 2.0
    assert 5.0 == pytest.approx(temperatures[2], abs=1e-3)


def test_hours_that_somebody_told_are_no_fault_of_their_own(chilled) -> None:
    assert "pump runs too few hours" in warmth(chilled(), None)[0].faults()
    assert "pump runs too few hours" not in warmth(chilled(), 4 * HOUR_S)[0].faults()


def test_flow_below_the_chillers_least_stops_its_cold(chilled) -> None:
    plant = chilled()
    draws, _ = solved(plant)
    level = levels(plant, draws)["normal"]
    found, sound = warmth(plant, 18 * HOUR_S)
    shut = run(plant, draws, Condition(level, chiller_blocked_ratio=0.95))
    assert shut.station("chiller").flow_m3s[0] < 4 / 60e3 < sound.station("chiller").flow_m3s[0]
    assert found.with_loop(sound)[0] + 3.0 < found.with_loop(shut)[0]


def measured(**readings: str) -> str:
    return "\n[measured]\n" + "".join(f'{key} = "{value}"\n' for key, value in readings.items())


def ranks(plant: Plant, answers: Answers, ages: Ages | None = None) -> dict[str, float]:
    result = diagnose(prepare(plant, 16, ages=ages), answers)
    return {row.cause: row.chance_ratio.ends[1] for row in result.causes}


def test_warm_water_points_to_the_chiller_and_cold_water_away_from_it(chilled) -> None:
    ages = Ages(runs_s=18 * HOUR_S)
    usual = ranks(chilled(), Answers(), ages)["chiller_not_cooling"]
    warm = ranks(chilled(measured(water_temperature="14 degC")), Answers(), ages)["chiller_not_cooling"]
    cold = ranks(chilled(measured(water_temperature="5.2 degC")), Answers(), ages)["chiller_not_cooling"]
    assert warm > 5.0 * usual
    assert cold < 0.5 * usual


def test_warm_water_is_what_hours_too_few_predict_and_no_fault(chilled) -> None:
    """With 4 h a day told, a sound tub is warm: the reading lies within its band."""
    plant = chilled(measured(water_temperature="14 degC"))
    found = explained(plant, CASES, 20, 4 * HOUR_S)
    assert found is not None
    assert abs(found.gaps[0].miss_errors) < 2.0
    told = explained(plant, CASES, 20, 18 * HOUR_S)
    assert told is not None
    assert told.gaps[0].miss_errors > 5.0
    assert "chiller gives no cold" == told.faults[0].faults[0]


def test_no_difference_over_the_chiller_is_a_chiller_without_cold(chilled) -> None:
    found = explained(chilled(measured(chiller_drop="0.0 degC +- 0.2 degC")), CASES, 20)
    assert found is not None
    assert found.gaps[0].miss_errors < -2.0
    assert ("chiller gives no cold", ("-",)) == (found.faults[0].faults[0], found.faults[0].signs)
    assert "chiller_not_cooling" == found.faults[0].points_to


def test_air_as_read_warms_what_the_balance_expects(chilled) -> None:
    hot = told_by_faults(
        chilled(measured(air_temperature="35 degC")), 0, 20, ("water_temperature_c",), run_s=12 * HOUR_S
    )
    mild = told_by_faults(chilled(), 0, 20, ("water_temperature_c",), run_s=12 * HOUR_S)
    assert mild[SOUND][0, 0] + 2.0 < hot[SOUND][0, 0]


NAMES = ("bucket_flow_m3s", "pump_pa_gauge", "port_vacuum_pa", "chiller_drop_k")


def found_first(plant: Plant, names: tuple[str, ...], truth: str, tubs: int = 32) -> float:
    """Share of simulated tubs with a fault, drawn from the ranges, whose readings put it first."""
    columns = [NAMES.index(name) for name in names]
    shown = told_by_faults(plant, tubs, 777, NAMES, may_stand=False)[truth]
    told = {fault: values[columns] for fault, values in told_by_faults(plant, 512, 20, NAMES, may_stand=False).items()}
    noise, first = np.random.default_rng(5), 0
    for case in range(1, tubs + 1):
        values = shown[columns, case]
        errors = np.array([0.15 if name == "chiller_drop_k" else 0.03 * abs(value) + 200.0 * (abs(value) > 1.0)
                           for name, value in zip(names, values, strict=True)])  # fmt: skip
        read = values + errors * noise.standard_normal(len(names))
        first += truth in fault_odds(likelihoods(told, read, errors), told, errors)[0].faults
    return first / tubs


@pytest.mark.parametrize("truth", ["chiller blocked", "chiller gives no cold"])
def test_temperatures_part_what_gauges_cannot(chilled, truth: str) -> None:
    """Bucket, pump gauge and vacuum leave a blocked chiller and one without cold among others; its drop names them."""
    plant = chilled()
    gauges = found_first(plant, NAMES[:3], truth)
    assert found_first(plant, NAMES, truth) >= max(0.75, gauges + 0.25)


def test_low_flow_with_the_temperatures_told_moves_what_holds_the_water_up(chilled) -> None:
    """A blocked chiller read by gauges alone, and with its drop: its cause rises."""
    shown = told_by_faults(chilled(), 0, 20, NAMES, may_stand=False)["chiller blocked"][:, 0]
    gauges = {
        "bucket_flow": f"{60e3 * shown[0]:.3f} L/min", "pump_pressure": f"{shown[1] / 1e3:.3f} kPa",
        "port_vacuum": f"{shown[2] / 1e3:.3f} kPa",
    }  # fmt: skip
    before = ranks(chilled(measured(**gauges)), Answers())
    after = ranks(chilled(measured(**gauges, chiller_drop=f"{shown[3]:.3f} degC")), Answers())
    assert after["chiller_low_flow"] > 2.0 * before["chiller_low_flow"]


def test_thermometer_alone_tells_a_loop_whose_readings_are_not_weighed(plant_of) -> None:
    """Half above by chance at 2 K over the file's temperature, surely at 4 K with an error of 1 K."""
    loop = LOOP.replace('  {part = "injector", throat = "9 mm", height = "0.9 m"},\n', "")
    for read, share in (("7 degC", 0.5), ("9 degC", 1.0), ("5 degC", 0.0)):
        plant = plant_of(loop, measured(water_temperature=read), size="3/4 in", tub=TUB)
        (told,) = told_by_thermometer(plant)
        assert (share, "water_warm") == (pytest.approx(told.share_ratio, abs=0.01), told.sign)
        assert "water_warm" in {item.sign for item in prepare(plant, 16).told}


@pytest.mark.parametrize(("read", "answers", "told"), [
    ("14 degC", Answers(), True), ("14 degC", Answers((), ("water_warm",)), False), ("5 degC", Answers(), False),
    ("5 degC", Answers(("water_warm",)), True),
])  # fmt: skip
def test_warm_water_is_cautioned_against_by_thermometer_and_by_eye(
    chilled, read: str, answers: Answers, told: bool
) -> None:
    result = diagnose(prepare(chilled(measured(water_temperature=read)), 16), answers)
    assert told == ("water-too-warm" in {caution.code for caution in result.cautions})
