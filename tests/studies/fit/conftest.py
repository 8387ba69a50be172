"""A small loop whose readings the tests make themselves."""

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", size = "1-1/2 in", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "reducer", size = "1-1/2 in", to = "3/4 in"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min", medium_share = 0.3},
  {part = "injector", throat = "9 mm", height = "0.9 m"},
  {part = "flexible hose", length = "2 m"},
  {part = "return", height = "0.5 m"},
]
[tub]
volume = "430 L"
water_level = "0.8 m"
water_temperature = "6 degC"
[gas_line]
length = "1.8 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
"""


@pytest.fixture(scope="session")
def plant_of():
    """The loop's plant with settings such as those of --set."""

    def build(*settings: str) -> Plant:
        return read_plant(LOOP, overrides=settings).plant

    return build
