"""Temperatures among the readings: the drop over the chiller is a heat balance, and it tells of the flow."""

import numpy as np
import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.predicted import as_read, predicted
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.states import levels

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", size = "1-1/2 in", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]], head_share = "0.7 (0.4 to 1.0)"},
  {part = "split", ways = ["chilled", "past"], straight = "past"},
  {part = "injector", throat = "9 mm", height = "0.9 m"},
  {part = "return", height = "0.5 m"},
]
way.chilled = [{part = "chiller", drop = "9 kPa", at_flow = "8 L/min"}]
way.past = [{part = "throttle valve", handle = "30 deg"}]
[tub]
volume = "430 L"
water_level = "0.8 m"
water_temperature = "6 degC"
place = "indoors"
[gas_line]
length = "1.8 m"
bore = "4 mm"
[chiller]
capacity = "900 W"
rated_water = "20 degC"
rated_air = "25 degC"
[surroundings]
air_temperature = "18 degC"
"""


def plant_of(*settings: str) -> Plant:
    return read_plant(LOOP, overrides=settings).plant


def nominal_drop(plant: Plant) -> tuple[float, float]:
    """Drop over the chiller in the nominal case [K], and the flow through it [m3/s]."""
    draws = Draws(0)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    drop = predicted(plant, draws, running, None, ["chiller_drop_k"])["chiller_drop_k"]
    return float(drop[0]), float(running.station("chiller").flow_m3s[0])


def test_drop_is_the_capacity_over_the_flow_through_the_chiller_alone() -> None:
    """By hand: 900 W (1 + 0.03 (6 - 20) - 0.008 (18 - 25)) = 572.4 W; water of 999.94 kg/m3 and 4195 J/kgK."""
    drop, flow = nominal_drop(plant_of())
    assert 572.4 / (999.94 * flow * 4195.0) == pytest.approx(drop, rel=1e-4)
    assert flow < 12 / 60e3


@pytest.mark.parametrize(
    ("settings", "capacity_w"),
    [
        (("measured.air_temperature=30 degC",), 900.0 * (1.0 - 0.03 * 14.0 - 0.008 * 5.0)),
        (("measured.water_temperature=12 degC",), 900.0 * (1.0 - 0.03 * 8.0 + 0.008 * 7.0)),
    ],
)
def test_drop_is_predicted_for_water_and_air_as_they_were_read(settings: tuple[str, ...], capacity_w: float) -> None:
    plant = as_read(plant_of("measured.chiller_drop=1 degC", *settings))
    drop, flow = nominal_drop(plant)
    density = 999.94 if plant.tub.temperature_c == 6.0 else 999.50
    assert capacity_w / (density * flow * 4195.0) == pytest.approx(drop, rel=1e-4)


def test_water_that_was_read_warmer_moves_more_flow_than_cold_water() -> None:
    warm = as_read(plant_of("measured.water_temperature=20 degC"))
    assert 20.0 == warm.tub.temperature_c
    assert nominal_drop(plant_of())[1] < nominal_drop(warm)[1]


def flow_after(*settings: str) -> tuple[float, float]:
    """Mean flow back into the tub and through the chiller in the cases that a file's readings leave [L/min]."""
    plant = plant_of(*settings)
    draws, _, _ = narrowed(plant, 1024, 20)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    return tuple(60e3 * float(np.mean(flow[running.solved])) for flow in (
        running.flow_m3s, running.station("chiller").flow_m3s
    ))  # fmt: skip


def test_large_drop_tells_of_a_low_flow_and_a_small_one_of_a_high_flow() -> None:
    (few, few_chilled), (many, many_chilled) = (
        flow_after(f"measured.chiller_drop={drop} degC +- 0.1 degC") for drop in (1.9, 1.1)
    )
    assert few < many - 1.0
    assert 572.4 / (999.94 * few_chilled / 60e3 * 4195.0) == pytest.approx(1.9, rel=0.15)
    assert 572.4 / (999.94 * many_chilled / 60e3 * 4195.0) == pytest.approx(1.1, rel=0.15)


@pytest.mark.parametrize(
    ("settings", "idle"),
    [
        (("measured.water_temperature=8 degC",), "water_temperature"),
        (("measured.bucket_flow=25 L/min", "measured.air_temperature=8 degC"), "air_temperature"),
        (("measured.chiller_drop=1.4 degC", "measured.air_temperature=18 degC"), ""),
        (("measured.bucket_flow=25 L/min", "measured.water_temperature=8 degC"), ""),
    ],
)
def test_temperature_that_narrows_nothing_is_told(settings: tuple[str, ...], idle: str) -> None:
    told = [item.text for item in narrowed(plant_of(*settings), 64, 20)[2] if item.code.startswith("temperatures-")]
    assert bool(idle) == bool(told)
    assert all(idle in text for text in told)


@pytest.mark.parametrize(
    ("old", "said"),
    [
        ('{part = "chiller", drop = "9 kPa", at_flow = "8 L/min"}', "there is no chiller in the loop for it"),
        (
            '[chiller]\ncapacity = "900 W"\nrated_water = "20 degC"\nrated_air = "25 degC"',
            "there is no [chiller] for it",
        ),
    ],
)
def test_drop_without_a_chiller_of_known_capacity_is_refused(old: str, said: str) -> None:
    assert old in LOOP
    new = '{part = "elbow 90"}' if old.startswith("{") else ""
    with pytest.raises(InputError) as caught:
        read_plant(LOOP.replace(old, new), overrides=("measured.chiller_drop=1 degC",))
    assert said in str(caught.value)
