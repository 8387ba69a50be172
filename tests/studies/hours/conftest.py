"""A loop of few parts whose run time can be worked out by hand, and what it answers."""

from collections.abc import Callable
from typing import Any

import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.hours.result import Hours, Need
from sanitize.studies.hours.study import study_needs

LOOP = """
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "return", height = "0.50 m"},
]
"""
PlantOf = Callable[..., Plant]
HoursOf = Callable[..., Hours]


@pytest.fixture(scope="session")
def loop_text() -> str:
    """The loop: 400 L at 10 degC by the tub of the studies' tests."""
    return LOOP


@pytest.fixture(scope="session")
def hours_of(plant_of: PlantOf) -> HoursOf:
    """The answer for that loop with further tables, the nominal case alone; or for another loop."""

    def study(tables: str = "", loop: str = LOOP, cases: int = 0, **more: Any) -> Hours:
        return study_needs(plant_of(loop, tables, **more), cases)

    return study


@pytest.fixture(scope="session")
def need_of(hours_of: HoursOf) -> Callable[..., Need]:
    """One need of that answer by its name."""

    def named(name: str, tables: str = "", **more: Any) -> Need:
        return next(need for need in hours_of(tables, **more).needs if need.name == name)

    return named
