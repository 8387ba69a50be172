import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.heads import (
    hump_runs_full,
    lift_over_hump_m,
    npsh_available_m,
    outlet_froude,
    pressure_before_return_pa_gauge,
    pressure_behind_suction_pa_gauge,
    static_lift_m,
)

WEIGHT_NM3 = 1000.0 * 9.80665


def test_static_lift_under_water_is_zero_at_any_depth() -> None:
    assert static_lift_m([0.0, 0.4, 0.8], 0.8).tolist() == [0.0, 0.0, 0.0]


def test_static_lift_of_a_free_return_is_its_height_over_the_water() -> None:
    assert static_lift_m(1.05, [0.8, 0.5]).tolist() == pytest.approx([0.25, 0.55])


def test_lift_over_hump_running_full_is_that_of_the_outlet() -> None:
    assert lift_over_hump_m(2.0, [0.5, 1.0], 0.8, True).tolist() == pytest.approx([0.0, 0.2])


def test_lift_over_hump_running_part_full_is_that_of_the_hump() -> None:
    assert lift_over_hump_m(2.0, [0.5, 1.0], 0.8, False).tolist() == pytest.approx([1.2, 1.2])


def test_outlet_froude_is_one_where_velocity_head_is_half_a_bore() -> None:
    """Fr = 1 means V^2 = g d, so V^2/2g = d/2."""
    velocity = np.sqrt(2.0 * 9.80665 * 0.02)
    assert float(outlet_froude(velocity, 0.04)) == pytest.approx(1.0, rel=1e-12)
    assert float(outlet_froude(2.0 * velocity, 0.04)) == pytest.approx(2.0, rel=1e-12)


@pytest.mark.parametrize(
    ("froude", "hump_pa_abs", "expected"),
    [(1.0, 30e3, True), (0.99, 30e3, False), (1.0, 20.9e3, False), (0.5, 10e3, False)],
)
def test_hump_runs_full_needs_speed_and_pressure(froude: float, hump_pa_abs: float, expected: bool) -> None:
    assert expected == bool(hump_runs_full(froude, hump_pa_abs, 1e3, 1.0, 20e3))


def test_pressure_before_return_at_rest_is_the_water_column() -> None:
    heights = np.array([0.2, 0.8, 1.8])
    pressures = pressure_before_return_pa_gauge(heights, 0.0, 0.0, 0.8, 0.0, 1.0, 1000.0)
    assert pressures.tolist() == pytest.approx([0.6 * WEIGHT_NM3, 0.0, -WEIGHT_NM3])


def test_pressure_just_before_a_plain_exit_is_that_of_the_tub() -> None:
    """The jet keeps its velocity head: static pressure in the mouth is the water's outside, under water or free."""
    assert float(pressure_before_return_pa_gauge(0.5, 1.7, 0.0, 0.5, 1.7, 1.0, 999.0)) == pytest.approx(0.0)


def test_pressure_before_a_nozzle_is_its_loss_less_the_velocity_head_in_the_pipe() -> None:
    """By hand at the nozzle's height: 5 x 1000 x 2^2 / 2 less 1000 x 1^2 / 2."""
    assert float(pressure_before_return_pa_gauge(0.5, 1.0, 0.0, 0.5, 2.0, 5.0, 1000.0)) == pytest.approx(9500.0)


def test_pressure_before_return_one_metre_higher_is_9_8_kpa_less() -> None:
    low, high = pressure_before_return_pa_gauge([0.5, 1.5], 1.0, 4e3, 0.8, 1.0, 1.0, 1000.0)
    assert float(low - high) == pytest.approx(WEIGHT_NM3)


@given(st.floats(0.0, 3.0), st.floats(0.0, 2.0), st.floats(0.0, 2e4), st.floats(0.0, 1.5))
def test_pressures_from_suction_and_from_return_meet_at_the_pumps_head(
    velocity: float, height: float, loss: float, level: float
) -> None:
    """All losses and the exit on the return side: the pump must give their sum, whatever the height."""
    inlet = pressure_behind_suction_pa_gauge(height, velocity, 0.0, level, 1000.0)
    outlet = pressure_before_return_pa_gauge(height, velocity, loss, level, velocity, 1.0, 1000.0)
    assert loss + 500.0 * velocity**2 == pytest.approx(float(outlet - inlet), abs=1e-8)


@given(st.floats(0.0, 3.0), st.floats(-2.0, 2.0), st.floats(0.0, 2e4))
def test_npsh_is_total_head_over_vapour_pressure(velocity: float, height: float, loss: float) -> None:
    static = float(pressure_behind_suction_pa_gauge(height, velocity, loss, 0.8, 1000.0))
    total_pa_abs = 101_325.0 + static + 500.0 * velocity**2
    expected = (total_pa_abs - 1228.0) / WEIGHT_NM3
    assert expected == pytest.approx(float(npsh_available_m(101_325.0, 1228.0, height, 0.8, loss, 1000.0)), abs=1e-9)


def test_npsh_library_formula_agrees() -> None:
    """A library's suction head at rest: the pressure of a static column over vapour pressure."""
    from fluids.core import head_from_P

    rest = head_from_P(101_325.0 - 872.6, 999.97) + 0.4
    assert rest == pytest.approx(float(npsh_available_m(101_325.0, 872.6, 0.1, 0.5, 0.0, 999.97)), rel=1e-4)
