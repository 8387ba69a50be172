"""A small tub with ozone in a room, its texts replaceable, and its balance with a few cases."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.run import Run
from sanitize.studies.ozone.contact import passage
from sanitize.studies.ozone.model import Flows
from sanitize.studies.ozone.result import Ozone
from sanitize.studies.ozone.study import study_ozone
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.states import gas_side, levels, solve_states

LOOP = """
loop = [
  {part = "suction fitting", height = "0.15 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.10 m", curve = [["0 L/min", "6.5 m"], ["30 L/min", "5.2 m"], ["60 L/min", "0 m"]]},
  {part = "injector", throat = "9 mm", loss_ratio = 0.25, height = "0.80 m"},
  {part = "flexible hose", name = "return hose", length = "1.6 m"},
  {part = "return", height = "0.40 m"},
]"""
TABLES = """
[room]
volume = "30 m3"
air_changes_per_hour = 0.5

[gas_line]
length = "1.5 m"
bore = "4 mm"
check_valve_opens_at = "1.0 kPa"
highest_point = "1.40 m"

[ozone]
output = "100 mg/h"
at_gas_flow = "2 L/min"
height = "1.30 m"
"""
TUB = """
[tub]
volume = "400 L"
water_level = "0.60 m"
rim = "0.70 m"
water_temperature = "10 degC"
place = "indoors"
"""
CASES = 16


@pytest.fixture(scope="session")
def ozone_plant(plant_of) -> Callable[..., Plant]:
    """The small tub, with texts of its file replaced by others."""

    def made(*changes: tuple[str, str]) -> Plant:
        texts = [LOOP, TABLES, TUB]
        for old, new in changes:
            assert any(old in text for text in texts), old
            texts = [text.replace(old, new) for text in texts]
        loop, tables, tub = texts
        return plant_of(loop, tables, tub=tub)

    return made


@pytest.fixture(scope="session")
def ozone_of(ozone_plant) -> Callable[..., Ozone]:
    """The study of the small tub with texts replaced."""

    def studied(*changes: tuple[str, str], cases: int = CASES) -> Ozone:
        return study_ozone(ozone_plant(*changes), cases)

    return studied


@pytest.fixture(scope="session")
def small_ozone(ozone_of) -> Ozone:
    """The study of the small tub as it stands."""
    return ozone_of()


@pytest.fixture(scope="session")
def draws() -> Draws:
    """A few cases."""
    return Draws(CASES, 20)


@pytest.fixture(scope="session")
def flows(ozone_plant, draws: Draws) -> Flows:
    """What the loop of the small tub moves."""
    plant = ozone_plant()
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    running: Run = answers["running", "normal"]
    assert running.port is not None
    answer, _ = gas_answer(plant, draws, running, gas_side(plant, draws, running.port.height_m))
    assert np.all(answer.gas_flow_m3s > 0.0)
    return Flows(
        running=running,
        way=passage(running, answer.injector_flow_m3s, answer.flow_m3s),
        gas_m3s=answer.gas_flow_m3s,
        injector_m3s=answer.injector_flow_m3s,
        total_m3s=answer.flow_m3s,
        outlet_pa_gauge=answer.outlet_pa_gauge,
        solved=answer.solved,
    )
