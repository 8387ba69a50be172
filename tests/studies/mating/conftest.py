"""Loops of two or three parts for the tests of the joints."""

from collections.abc import Callable

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant

_SPARE = '{part = "pump", name = "spare", height = "0.3 m", curve = [["30 L/min", "3 m"]]}'
"""A loop file needs a pump; this one is taken out again, so that the joints are those of the given parts alone."""
LoopOf = Callable[..., Plant]

_TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "10 degC"
place = "outdoors"
"""


@pytest.fixture(scope="session")
def loop_of() -> LoopOf:
    """Suction fitting, the given parts, return, all of 3/4 in; the ends towards the given parts may be stated."""

    def read(*parts: str, suction: str = "", back: str = 'height = "0.5 m"', ways: str = "", tables: str = "") -> Plant:
        first = f'{{part = "suction fitting", height = "0.2 m"{suction}}}'
        rows = ",\n".join((first, *parts, _SPARE, f'{{part = "return", {back}}}'))
        plant = read_plant(f'format = 1\nsize = "3/4 in"\nloop = [\n{rows}\n]\n{ways}\n{_TUB}\n{tables}').plant
        items = tuple(item for item in plant.loop.items if item.name != "spare")
        return plant.model_copy(update={"loop": plant.loop.model_copy(update={"items": items})})

    return read
