"""The two corners behind the drawn cases: nothing that is drawn may be worse for those who breathe or get in."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.basis.band import Band
from sanitize.plant.loop import Plant
from sanitize.studies.day.hydraulics import hydraulics_of
from sanitize.studies.day.ranges import AIR_CORNER, CORNERS, ENTRY_CORNER, Ranges
from sanitize.studies.day.readings import entries, highest
from sanitize.studies.day.study import run_day
from sanitize.studies.day.supply import supply_of
from sanitize.studies.day.water import WaterKept, chemistry_of
from sanitize.studies.draws import Draws
from sanitize.studies.ozone.numbers import Numbers, Worst
from sanitize.studies.ozone.water import KnownWater, water_state

PlantOf = Callable[..., Plant]
CASES = 256
BELOW_ANY_TEST_MGL, BELOW_ANY_METER_PPMV = 1e-5, 1e-5
"""Within the integrator's own tolerance."""
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
TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "{water_c} degC"
place = "{place}"
"""
TABLES = """
[ozone]
{output}
feed = "room air"
[timer]
pump_times = [["06:00", "09:00"], ["14:00", "20:00"]]
ozone_times = [["06:00", "08:00"], ["14:00", "17:45"]]
[bathers]
per_day = {bathers}
times = [["18:00", "19:00"]]
[sanitizer]
uses = "{uses}"
[[water_test]]
ph = "{ph} +- 0.2"
cyanuric_acid = "{cyanuric} mg/L +- {cyanuric_error} mg/L"
"""
ROOM = '[room]\nvolume = "30 m3"\n'
RATED = 'output = "90 mg/h"\nat_gas_flow = "1 L/min"'
CURVE = 'outputs = [["0.3 L/min", "20 mg/h"], ["1 L/min", "90 mg/h"], ["4 L/min", "60 mg/h"]]'


def tables(
    output: str = RATED, bathers: float = 2.0, uses: str = "chlorine", ph: float = 7.4, cyanuric: float = 0.0
) -> str:
    return TABLES.format(
        output=output, bathers=bathers, uses=uses, ph=ph, cyanuric=cyanuric, cyanuric_error=0.3 * cyanuric
    )


@settings(max_examples=12, deadline=None)
@given(
    water_c=st.floats(3.0, 38.0),
    ph=st.floats(6.8, 7.8),
    uses=st.sampled_from(["none", "chlorine"]),
    cyanuric=st.sampled_from([0.0, 30.0]),
    bathers=st.floats(0.2, 12.0),
    output_mg_per_h=st.floats(20.0, 2000.0),
)
def test_no_drawn_case_is_worse_than_the_corner(
    plant_of: PlantOf, water_c: float, ph: float, uses: str, cyanuric: float, bathers: float, output_mg_per_h: float
) -> None:
    output = f'output = "{output_mg_per_h:.1f} mg/h"\nat_gas_flow = "1 L/min"'
    tub = TUB.format(water_c=f"{water_c:.2f}", place="indoors")
    plant = plant_of(LOOP, tables(output, round(bathers, 1), uses, round(ph, 2), cyanuric) + ROOM, tub=tub)
    ran = run_day(plant, CASES, days=2)
    room = highest(ran.seen.room_ppmv)
    entry = ran.seen.ozone_mgl[entries(ran.day.stretches), 0].max(axis=0)
    assert room[AIR_CORNER] >= room[:-CORNERS].max() - BELOW_ANY_METER_PPMV
    assert entry[ENTRY_CORNER] >= entry[:-CORNERS].max() - BELOW_ANY_TEST_MGL


@pytest.mark.parametrize("lid", ["", '[surroundings]\nlid = "softwood"\nlid_thickness = "40 mm"\n'])
def test_outdoors_whoever_gets_in_breathes_no_more_than_in_the_worse_corner(plant_of: PlantOf, lid: str) -> None:
    """There the ozone that is still in the water is all that a bather breathes, driven out by people moving."""
    ran = run_day(plant_of(LOOP, tables() + lid, tub=TUB.format(water_c=5.0, place="outdoors")), CASES, days=2)
    face = highest(ran.seen.face_ppmv, ran.day.stretches.bathing)
    assert face[-CORNERS:].max() >= face[:-CORNERS].max() > 0.0


@pytest.mark.parametrize("output", [RATED, CURVE, CURVE.replace("60 mg/h", "0.5 mg/h")])
@pytest.mark.parametrize("feed", ["room air", "dried air"])
def test_corner_is_fed_the_most_of_all_cases(plant_of: PlantOf, output: str, feed: str) -> None:
    """Also where a data sheet's output falls again at high gas flows; and no case loses more, or dissolves more."""
    texts = tables(output).replace('"room air"', f'"{feed}"')
    plant = plant_of(LOOP, texts + ROOM, tub=TUB.format(water_c=10.0, place="indoors"))
    loop = hydraulics_of(plant, CASES, 20)
    supply, _ = supply_of(plant, loop, Ranges(loop.draws))
    assert supply is not None
    dissolved = supply.fed_mg_min * supply.dissolved_ratio(np.full((1, CASES + 1 + CORNERS), 10.0))[0]
    assert supply.fed_mg_min[-CORNERS:].tolist() == pytest.approx([supply.fed_mg_min.max()] * CORNERS)
    assert dissolved[ENTRY_CORNER] >= dissolved[:-CORNERS].max()
    vented = supply.fed_mg_min - dissolved
    assert vented[AIR_CORNER] >= vented[:-CORNERS].max()


@pytest.mark.parametrize("water_c", [3.0, 10.0, 24.0, 38.0])
@pytest.mark.parametrize("ph", [6.9, 7.4, 8.1])
@pytest.mark.parametrize(("place", "worst"), [(AIR_CORNER, "air"), (ENTRY_CORNER, "entry")])
def test_corner_destroys_ozone_as_slowly_as_the_worst_end_of_the_steady_balance(
    plant_of: PlantOf, water_c: float, ph: float, place: int, worst: Worst
) -> None:
    """Both commands look at the same worst ends: own decay, and what 1 mg/L of chlorine with cyanuric acid takes."""
    band, bound = Band(ph - 0.2, ph, ph + 0.2), Band(10.0, 30.0, 50.0)
    draws = Draws(CASES, 20)
    steady = water_state(
        KnownWater(ph=band, free_chlorine_mgl=Band.exact(1.0), cyanuric_mgl=bound), water_c, Numbers(draws, worst)
    )
    plant = plant_of(LOOP, "", tub=TUB.format(water_c=water_c, place="indoors"))
    day = chemistry_of(plant, WaterKept("chlorine", Band.exact(1.0), band, bound), Ranges(draws))
    own = day.decay_per_min(np.full((1, CASES + 1 + CORNERS), water_c))[0]
    assert float(steady.own_decay_per_min[0]) == pytest.approx(own[place])
    assert own[place] <= own.min()
    assert float((steady.decay_per_min - steady.own_decay_per_min)[0]) == pytest.approx(day.meeting_speed[place])
    assert day.meeting_speed[place] <= day.meeting_speed.min()


def test_corner_brings_the_least_of_either_kind_of_demand(plant_of: PlantOf) -> None:
    plant = plant_of(LOOP, "", tub=TUB.format(water_c=10.0, place="indoors"))
    each = chemistry_of(plant, WaterKept("none", Band.exact(0.0), None, None), Ranges(Draws(CASES, 20))).demand_each_mg
    for corner in (AIR_CORNER, ENTRY_CORNER):
        assert np.all(each[:, corner] <= each.min(axis=1))
    assert each[:, 0].tolist() == pytest.approx([300.0, 700.0])
