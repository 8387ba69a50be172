"""The flows on which the needs stand: with gas drawn where a gas line is open."""

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.hours.study import study_needs
from sanitize.studies.suction.study import study_suction

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "injector", throat = "9 mm", height = "0.95 m", loss_ratio = 0.24},
  {part = "flexible hose", length = "1.5 m"},
  {part = "return", height = "0.50 m"},
]
[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "10 degC"
"""
LINE = '[gas_line]\nlength = "1.8 m"\nbore = "4 mm"\n'


def test_flow_of_the_needs_is_that_with_the_gas_line_open() -> None:
    """All the water passes the injector: the suction study's own flow with gas flowing, less than with it closed."""
    plant = read_plant(LOOP + LINE).plant
    suction, hours = study_suction(plant, 16), study_needs(plant, 16)
    assert suction.flow_m3s.nominal < 0.97 * suction.flow_port_closed_m3s.nominal
    assert suction.flow_m3s.nominal == pytest.approx(hours.flow_m3s.nominal, rel=1e-6)


def test_flow_without_a_gas_line_is_that_with_the_port_closed() -> None:
    plant = read_plant(LOOP).plant
    suction, hours = study_suction(plant, 16), study_needs(plant, 16)
    assert suction.flow_port_closed_m3s.nominal == pytest.approx(hours.flow_m3s.nominal, rel=1e-6)
