"""A loop whose only resistance besides the filter's cloth goes with the square of the flow."""

import pytest

LOOP = """loop = [
  {{part = "suction fitting", height = "0.20 m", bore = "100 mm"}},
  {{part = "pump", height = "0.20 m", curve = [["0 L/min", "6 m"], ["60 L/min", "0 m"]]}},
  {{part = "filter", drop = "6 kPa", at_flow = "40 L/min", medium_share = 1, {filter}}},
  {{part = "known loss", k = 40, bore = "25 mm"}},
  {more}
  {{part = "injector", throat = "9 mm", loss_ratio = 0.2, height = "{height}", inlet_bore = "26 mm"}},
  {{part = "return", height = "0.50 m", bore = "100 mm"}},
]"""
TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
water_temperature = "20 degC"
"""
GAS = '[gas_line]\nlength = "1.5 m"\nbore = "4 mm"\ncheck_valve_opens_at = "1 kPa"'


@pytest.fixture(scope="session")
def loading_plant(plant_of):
    """That loop with a filter and other parts as given."""

    def plant(filter_: str = 'days_to_loaded = "30 days"', more: str = "", height: str = "0.9 m", tables: str = GAS):
        return plant_of(LOOP.format(filter=filter_, more=more, height=height), tables, tub=TUB)

    return plant
