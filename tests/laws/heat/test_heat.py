"""Heat of a tub: the case by hand, limits, and the direction of every flow."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.heat.cooling import chiller_capacity_w, cooling_time_s, holding_run_s
from sanitize.laws.heat.surface import still_vapour_wm2pa, surface_heat_wm2, wind_vapour_wm2pa
from sanitize.laws.heat.walls import pipe_transmittance_wmk, sweating_heat_wm2, transmittance_wm2k
from sanitize.laws.water import vapour_pressure_pa_abs


def sum_ua_wk() -> float:
    """400 L in polyethylene: wall 6 mm and 2.3 m2, floor 0.6 m2 on a slab, lid of 50 mm foam, 8 m of 3/4 in pipe."""
    wall = float(transmittance_wm2k(0.006, 0.50, 0.005, 0.13)) * 2.3
    floor = float(transmittance_wm2k(0.006, 0.50, 0.005, 0.5)) * 0.6
    lid = float(transmittance_wm2k(0.050, 0.035, 0.16, 0.17)) * 0.6
    pipe = float(pipe_transmittance_wmk(0.02057, 0.02667, 0.17, 9.0)) * 8.0
    return wall + floor + lid + pipe


def test_tub_by_hand_gains_cooling_and_times() -> None:
    """By hand: U 6.80, 1.93 and 0.57, 0.638 W/mK; 15.64 + 1.16 + 0.34 + 5.10 = 22.24 W/K; times 15 K and 64 W: 398 W.

    Then 590 W - 398 W = 192 W at 5 degC, and at 20 degC 1040 W - 64 W = 976 W: ln(976/192) 1677e3/52.25 = 14.5 h.
    """
    ua = sum_ua_wk()
    assert 22.24 == pytest.approx(ua, abs=0.03)
    temperatures = np.array([20.0, 5.0])
    gains = ua * (20.0 - temperatures) + 64.0
    cooling = chiller_capacity_w(1000.0, temperatures, 20.0, 20.0, 25.0, 0.03, 0.008)
    assert 398.0 == pytest.approx(gains[1], abs=1.0)
    assert 590.0 == pytest.approx(cooling[1], abs=0.5)
    hours = float(cooling_time_s(temperatures, cooling - gains, 1.677e6)) / 3600.0
    assert 14.5 == pytest.approx(hours, abs=0.1)
    assert 15.2 == pytest.approx(float(holding_run_s(gains[1] - 64.0, 0.0, cooling[1], 64.0)) / 3600.0, abs=0.1)


def test_cooling_without_gains_is_the_label() -> None:
    """400 L by 15 K at a constant 1 kW: 1677 kJ/K x 15 K / 1 kW = 6.99 h."""
    assert 6.99 == pytest.approx(float(cooling_time_s([20.0, 5.0], [1000.0, 1000.0], 1.677e6)) / 3600.0, abs=0.005)


def test_cooling_in_many_steps_is_that_in_one_where_all_is_linear() -> None:
    steps = np.linspace(20.0, 5.0, 40)
    one = cooling_time_s([20.0, 5.0], [976.0, 192.0], 1.677e6)
    assert float(one) == pytest.approx(float(cooling_time_s(steps, 192.0 + 784.0 * (steps - 5.0) / 15.0, 1.677e6)))


def test_cooling_below_what_the_chiller_holds_never_ends() -> None:
    assert np.inf == float(cooling_time_s([20.0, 5.0], [900.0, 0.0], 1.677e6))


def test_holding_with_a_pump_that_brings_more_than_the_chiller_takes_never_ends() -> None:
    assert np.inf == float(holding_run_s(10.0, 0.0, 60.0, 64.0))


def test_holding_a_tub_that_cools_by_itself_needs_no_chiller() -> None:
    assert 0.0 == float(holding_run_s(-50.0, 0.0, 500.0, 64.0))


@pytest.mark.parametrize(
    ("water", "air", "humidity", "vapour", "expected"),
    [(5.0, 20.0, 0.5, 0.034, 117.0), (10.0, 20.0, 0.5, 0.034, 70.0), (5.0, 20.0, 0.7, 0.034, 133.0),
     (38.0, 20.0, 0.5, 0.049, -428.0)],
)  # fmt: skip
def test_surface_by_hand(water: float, air: float, humidity: float, vapour: float, expected: float) -> None:
    """By hand: 31 + 75 + 10, 21 + 52 - 2, the first with 26 for the vapour, and -54 - 107 - 268; to 1 W/m2 each."""
    over = vapour_pressure_pa_abs(water)
    inside = humidity * vapour_pressure_pa_abs(air)
    heat = surface_heat_wm2(water, air, air, over, inside, vapour, 101325.0)
    assert expected == pytest.approx(float(heat), abs=2.0)


@given(st.floats(0.0, 40.0), st.floats(0.0, 0.3))
def test_surface_in_balance_with_its_air_passes_nothing(temperature: float, vapour: float) -> None:
    over = vapour_pressure_pa_abs(temperature)
    heat = surface_heat_wm2(temperature, temperature, temperature, over, over, vapour, 101325.0)
    assert 0.0 == pytest.approx(float(heat), abs=1e-9)


def test_still_vapour_is_blended_over_four_kelvin() -> None:
    expected = [0.034, 0.034, 0.0415, 0.049, 0.049]
    assert expected == pytest.approx(still_vapour_wm2pa([10.0, 18.0, 20.0, 22.0, 30.0], 20.0, 0.034, 0.049).tolist())


def test_wind_vapour_at_rest_is_74_percent_of_the_handbook() -> None:
    assert 0.74 * 0.0887 == pytest.approx(float(wind_vapour_wm2pa(0.0)))


def test_pipe_without_wall_is_its_film() -> None:
    assert np.pi * 0.02 * 9.0 == pytest.approx(float(pipe_transmittance_wmk(0.02, 0.02, 0.17, 9.0)))


def test_wall_of_nothing_is_its_surfaces() -> None:
    """Bare metal, 1 / 0.135 = 7.4 W/(m2 K)."""
    assert 7.4 == pytest.approx(float(transmittance_wm2k(0.0, 50.0, 0.005, 0.13)), abs=0.05)


def test_capacity_at_its_rating_point_is_the_rated_one_and_never_negative() -> None:
    assert 800.0 == float(chiller_capacity_w(800.0, 20.0, 25.0, 20.0, 25.0, 0.03, 0.008))
    assert 0.0 == float(chiller_capacity_w(800.0, -20.0, 45.0, 20.0, 25.0, 0.03, 0.008))


@pytest.mark.parametrize(
    "call",
    [
        lambda: transmittance_wm2k(-1.0, 1.0, 0.1, 0.1),
        lambda: pipe_transmittance_wmk(0.03, 0.02, 0.17, 9.0),
        lambda: surface_heat_wm2(5.0, 20.0, 20.0, -1.0, 1.0, 0.03, 101325.0),
        lambda: still_vapour_wm2pa(5.0, 20.0, -0.1, 0.1),
        lambda: wind_vapour_wm2pa(-1.0),
        lambda: chiller_capacity_w(-1.0, 5.0, 20.0, 20.0, 25.0, 0.03, 0.008),
        lambda: cooling_time_s([5.0, 20.0], [1.0, 1.0], 1.0),
        lambda: holding_run_s(1.0, 0.0, -1.0, 0.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call) -> None:
    with pytest.raises(ValueError, match=r"need|are|is"):
        call()


def test_sweating_of_bare_metal_by_hand() -> None:
    """0.045 W/m2Pa times 1169 less 910 Pa."""
    assert 11.66 == pytest.approx(float(sweating_heat_wm2(5.6, 1169.0, 910.0, 0.045)), abs=0.01)


def test_sweating_ends_at_the_dew_point_and_on_ice() -> None:
    assert [0.0, 0.0, 0.0] == sweating_heat_wm2([9.2, 15.0, -1.0], 1169.0, [1169.0, 1705.0, 568.0], 0.045).tolist()


@given(st.floats(0.0, 40.0), st.floats(1.0, 3000.0), st.floats(1.0, 3000.0))
def test_sweating_never_cools_and_grows_with_damp_air(wall_c: float, wall_pa: float, more_pa: float) -> None:
    drier, damper = sweating_heat_wm2(wall_c, np.array([0.999 * wall_pa, wall_pa + more_pa]), wall_pa, 0.045)
    assert 0.0 == drier
    assert 0.045 * more_pa == pytest.approx(float(damper), rel=1e-6)


@pytest.mark.parametrize("pressures", [(-1.0, 900.0), (1100.0, -1.0)])
def test_sweating_refuses_a_negative_pressure(pressures: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        sweating_heat_wm2(5.0, *pressures, 0.045)
