"""A small judgement by hand, and a loop with every part that a cause can need."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.cloudy.knowledge import Knowledge
from sanitize.studies.cloudy.prepared import Prepared, prepare

LOOP = """
loop = [
  {part = "suction fitting", size = "3/4 in", height = "0.20 m", cover_rated_flow = "150 L/min"},
  {part = "flexible hose", length = "2.5 m"},
  {part = "pump", height = "0.70 m", head_share = "1 +- 3 %", curve = [["0 L/min", "9 m"], ["90 L/min", "0 m"]]},
  {part = "filter", drop = "9 kPa", at_flow = "40 L/min", medium_share = 0.7},
  {part = "chiller", drop = "5 kPa", at_flow = "40 L/min", min_flow = "15 L/min"},
  {part = "injector", throat = "10 mm", loss_ratio = "0.25 +- 5 %", height = "0.50 m"},
  {part = "return", height = "0.55 m"},
]"""
TABLES = """
[gas_line]
length = "1.8 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
highest_point = "1.75 m"

[bathers]
per_day = 2
"""


@pytest.fixture(scope="session")
def small() -> Knowledge:
    """Causes A and B and something else, weights 0.5, 0.3, 0.2; signs s and t of one group, u alone."""
    shows = np.array([[[0.9, 0.8, 0.5], [0.2, 0.4, 0.5], [0.5, 0.5, 0.5]]])
    return Knowledge(
        causes=("A", "B", "something_else"),
        signs=("s", "t", "u"),
        pairs=(),
        weight=np.array([[0.5, 0.3, 0.2]]),
        shows=shows,
        groups=("one", "one", "alone"),
        correlation=np.array([0.5]),
        member=np.eye(3, dtype=bool),
    )


@pytest.fixture(scope="session")
def whole_plant(plant_of) -> Callable[..., Plant]:
    """The loop with every part, texts of it replaced, and with further tables."""

    def made(*changes: tuple[str, str], tables: str = "") -> Plant:
        loop = LOOP
        for old, new in changes:
            assert old in loop, old
            loop = loop.replace(old, new)
        return plant_of(loop, TABLES + tables, size="3/4 in")

    return made


@pytest.fixture(scope="session")
def ready(whole_plant) -> Prepared:
    """That loop made ready, without readings."""
    return prepare(whole_plant(), 16)
