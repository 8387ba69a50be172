"""A loop without an injector: its readings are weighed against the same faults of its water."""

import numpy as np
import pytest

from sanitize.plant.answers import Answers
from sanitize.plant.loop import Plant
from sanitize.studies.cloudy.prepared import prepare
from sanitize.studies.cloudy.readings import SOUND, explained, told_by_faults
from sanitize.studies.cloudy.study import diagnose

LOOP = """
loop = [
  {part = "suction fitting", size = "3/4 in", height = "0.20 m", cover_rated_flow = "150 L/min"},
  {part = "flexible hose", name = "suction hose", length = "2.5 m"},
  {part = "pump", height = "0.70 m", curve = [["0 L/min", "9 m"], ["90 L/min", "0 m"]]},
  {part = "filter", drop = "9 kPa", at_flow = "40 L/min", medium_share = 0.7},
  {part = "chiller", drop = "5 kPa", at_flow = "40 L/min"},
  INJECTOR
  {part = "flexible hose", name = "return hose", length = "2 m"},
  {part = "return", height = "0.55 m"},
]"""
NAMES = ("bucket_flow_m3s", "pump_inlet_pa_gauge", "pump_pa_gauge", "filter_drop_pa")
FAULTS = (
    "return partly blocked", "suction partly blocked", "filter loaded", "filter torn", "air leak before the pump",
    "pump worn", "chiller blocked",
)  # fmt: skip


@pytest.fixture(scope="module")
def plain(plant_of):
    def made(tables: str = "", injector: str = "") -> Plant:
        return plant_of(LOOP.replace("INJECTOR", injector), tables, size="3/4 in")

    return made


@pytest.fixture(scope="module")
def shown(plain) -> dict[str, np.ndarray]:
    return {fault: values[:, 0] for fault, values in told_by_faults(plain(), 0, 20, NAMES).items()}


def test_faults_are_those_of_a_loop_whose_injector_resists_nothing(plain, shown: dict[str, np.ndarray]) -> None:
    """A bench that loses 0.05 kPa at 20 L/min: every fault shows the same within 3 %."""
    drops = 'inlet_to_port = ["0.1 kPa", "20 L/min"], outlet_to_port = ["0.05 kPa", "20 L/min"]'
    wide = f'{{part = "injector", {drops}, height = "0.6 m"}},'
    tables = '[gas_line]\nlength = "1.8 m"\nbore = "4 mm"\n'
    other = told_by_faults(plain(tables, wide), 0, 20, NAMES)
    for fault in (SOUND, *FAULTS):
        assert other[fault][:, 0] == pytest.approx(shown[fault], rel=0.03, abs=60.0), fault


@pytest.mark.parametrize(
    ("fault", "cause"),
    [
        ("return partly blocked", "restricted_flow"),
        ("suction partly blocked", "restricted_flow"),
        ("filter loaded", "clogged_filter"),
        ("filter torn", "filter_bypassed"),
    ],
)
def test_readings_of_a_fault_raise_its_cause(plain, shown: dict[str, np.ndarray], fault: str, cause: str) -> None:
    flow, inlet, pressure, drop = shown[fault]
    readings = (
        f'[measured]\nbucket_flow = "{60e3 * flow:.3f} L/min"\npump_inlet_pressure = "{inlet / 1e3:.3f} kPa"\n'
        f'pump_pressure = "{pressure / 1e3:.3f} kPa"\nfilter_drop = "{drop / 1e3:.3f} kPa"\n'
    )
    found = explained(plain(readings), 64, 20)
    assert found is not None
    assert fault in found.faults[0].faults
    before = next(row for row in diagnose(prepare(plain(), 16), Answers()).causes if row.cause == cause)
    after = next(row for row in diagnose(prepare(plain(readings), 16), Answers()).causes if row.cause == cause)
    assert after.chance_ratio.ends[1] > 2.0 * before.chance_ratio.ends[1]


def test_water_that_stands_is_told_by_a_bucket_alone(plain) -> None:
    found = explained(plain('[measured]\nbucket_flow = "0 L/min"\n'), 64, 20)
    assert found is not None
    assert {"return shut", "suction blocked", "pump stopped"} == set(found.faults[0].faults)
