"""Loops for the tests of the studies: written as a loop file, solved for one condition."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run

TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "10 degC"
"""

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]


@pytest.fixture(scope="session")
def plant_of() -> PlantOf:
    """A plant from the text of its loop and ways, and of further tables; 400 L at 10 degC, water at 0.80 m."""

    def read(loop: str, tables: str = "", size: str = "1 in", tub: str = TUB) -> Plant:
        return read_plant(f'format = 1\nsize = "{size}"\n{loop}\n{tub}\n{tables}').plant

    return read


@pytest.fixture(scope="session")
def run_of(plant_of: PlantOf) -> RunOf:
    """The same loop, solved at its water level; without cases the nominal one alone."""

    def solved(loop: str, tables: str = "", size: str = "1 in", cases: int = 0, level_m: float = 0.8) -> Run:
        draws = Draws(cases)
        return run(plant_of(loop, tables, size), draws, Condition(np.full(draws.size, level_m)))

    return solved
