"""Filters that load: what the condition says reaches the drop."""

import numpy as np
import pytest

from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run

LOOP = """loop = [
  {part = "suction fitting", height = "0.2 m"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "4 m"], ["50 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min", medium_share = 0},
  {part = "return", height = "0.5 m"},
]"""


@pytest.mark.parametrize("condition", [
    Condition(np.full(1, 0.8), filter="loaded"),
    Condition(np.full(1, 0.8), filter_drop_ratios={"filter": np.full(1, 2.5)}),
])  # fmt: skip
def test_filter_without_medium_loads_by_its_dirt_alone(run_of, condition: Condition) -> None:
    """Loaded to 2.5 times: 6 kPa of housing with the flow's square, and 9 kPa of dirt with flow and viscosity."""
    clean = run_of(LOOP)
    loaded = run(clean.assembly.plant, clean.assembly.draws, condition)
    flow, water = loaded.flow_m3s[0] / (40.0 / 60_000.0), loaded.assembly.water
    expected = 9000.0 * flow * water.viscosity_pas / 1.0016e-3 + 6000.0 * flow**2 * water.density_kgm3 / 998.2
    assert expected == pytest.approx(float(loaded.station("filter").loss_pa[0]), rel=1e-4)


def test_condition_of_some_cases_keeps_their_filters() -> None:
    condition = Condition(np.arange(3.0), filter_drop_ratios={"filter": np.array([1.0, 2.0, 3.0])})
    np.testing.assert_array_equal([3.0, 1.0], condition.of_cases(np.array([2, 0])).filter_drop_ratios["filter"])
