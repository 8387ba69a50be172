"""Loops for the tests of advice: one way, one pump, an injector below the water line."""

from collections.abc import Callable

import pytest

from sanitize.plant.loop import Plant

GAS = """
[gas_line]
length = "1.6 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
highest_point = "1.90 m"
[ozone]
output = "90 mg/h"
at_gas_flow = "8 L/min"
height = "1.80 m"
"""
TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "10 degC"
place = "outdoors"
"""
SUCTION = (
    '{part = "suction fitting", height = "0.20 m", cover_rated_flow = "400 L/min", cover_free_share = 0.4,'
    ' cover_diameter = "250 mm"}, {part = "flexible hose", name = "suction hose", length = "0.6 m"}, '
)
PUMP = '{part = "pump", height = "0.10 m", curve = [["0 L/min", "5 m"], ["50 L/min", "4 m"], ["100 L/min", "0 m"]]}, '
INJECTOR = '{part = "injector", throat = "15 mm", height = "0.55 m", loss_ratio = 0.5}, '
RETURN = '{part = "flexible hose", name = "return hose", length = "3.0 m"}, {part = "return", height = "0.50 m"}'

LoopOf = Callable[..., Plant]


@pytest.fixture(scope="session")
def loop_of(plant_of: Callable[..., Plant]) -> LoopOf:
    """A loop from its sections, each replaceable: suction, pump, between pump and injector, injector, return."""

    def build(
        between: str = '{part = "flexible hose", name = "riser", length = "0.8 m"}, ',
        injector: str = INJECTOR,
        back: str = RETURN,
        *,
        suction: str = SUCTION,
        pump: str = PUMP,
        tables: str = GAS,
        ways: str = "",
    ) -> Plant:
        return plant_of(f"loop = [{suction}{pump}{between}{injector}{back}]\n{ways}", tables, tub=TUB)

    return build
