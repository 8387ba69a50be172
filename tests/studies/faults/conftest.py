"""A small loop with one number after another changed, and the study of its faults."""

from collections.abc import Callable

import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.faults.result import FaultRow, Faults
from sanitize.studies.faults.study import study_faults

LOOP = """
loop = [
  {part = "suction fitting", height = "0.20 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.30 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min", medium_share = 0.3},
  {part = "injector", throat = "9 mm", loss_ratio = 0.25, height = "0.50 m"},
  {part = "return", height = "0.55 m"},
]"""
TABLES = """
[gas_line]
length = "1.8 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
highest_point = "1.75 m"

[ozone]
output = "90 mg/h"
at_gas_flow = "2 L/min"
height = "1.60 m"
"""
TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "10 degC"
place = "indoors"
"""


@pytest.fixture(scope="session")
def small_plant(plant_of) -> Callable[..., Plant]:
    """The small loop, with texts of the file replaced by others."""

    def made(*changes: tuple[str, str]) -> Plant:
        texts = [LOOP, TABLES, TUB]
        for old, new in changes:
            assert any(old in text for text in texts), old
            texts = [text.replace(old, new) for text in texts]
        loop, tables, tub = texts
        return plant_of(loop, tables, tub=tub)

    return made


@pytest.fixture(scope="session")
def faults_of(small_plant) -> Callable[..., Faults]:
    """The study of the small loop with texts replaced; the nominal case alone unless told."""

    def studied(*changes: tuple[str, str], cases: int = 0) -> Faults:
        return study_faults(small_plant(*changes), cases)

    return studied


@pytest.fixture(scope="session")
def row_of() -> Callable[[Faults, str], FaultRow]:
    """One row by its fault."""

    def found(result: Faults, fault: str) -> FaultRow:
        return next(row for row in (result.sound, *result.faults) if row.fault == fault)

    return found
