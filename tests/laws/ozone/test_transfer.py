"""Ozone from gas into water: limits, a rival integrator, rival laws of bubbles, balances."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws._iapws import _Tension
from scipy.linalg import expm

from sanitize.laws.ozone.feed import curve_output_mg_per_h, gas_gm3, rated_flow_ratio, rated_output_ratio
from sanitize.laws.ozone.kla import (
    bubble_diameter_m,
    diffusivity_m2s,
    dissipation_wkg,
    film_ms,
    surface_tension_nm,
    transfer_per_s,
)
from sanitize.laws.ozone.plume import rise_units, rise_velocity_ms, swarm_film_ms
from sanitize.laws.ozone.transfer import along_pipe, equilibrium_ratio, rising_ratio
from sanitize.laws.water import density_kgm3, viscosity_pas

RATIO = st.floats(1e-3, 1.0)
UNITS = st.floats(0.0, 50.0)
OZONE = st.floats(0.0, 20.0)
SOLUBLE = st.floats(0.1, 0.7)


@pytest.mark.parametrize("ratio", [0.003, 0.05, 0.24, 1.0])
def test_pipe_no_contact_dissolves_nothing_and_endless_contact_one_equilibrium(ratio: float) -> None:
    found = along_pipe(0.0, 2.0, ratio, 0.394, [0.0, 1e6])
    dissolved = found.water_mgl / (ratio * 2.0)
    assert [0.0, 1.0 / (1.0 + ratio / 0.394)] == pytest.approx(dissolved.tolist(), abs=1e-12)
    assert float(equilibrium_ratio(ratio, 0.394)) == pytest.approx(float(dissolved[1]))


def test_pipe_without_decay_is_the_law_of_one_stream_beside_the_other() -> None:
    """By hand: x1 - x0 = (S c - x0)/(1 + A) (1 - exp(-N (1 + A))), A = 0.4/0.1 = 4, N = 0.2, x0 = 0.1, S c = 0.4."""
    by_hand = 0.1 + 0.3 / 5.0 * (1.0 - np.exp(-1.0))
    assert by_hand == pytest.approx(float(along_pipe(0.1, 1.0, 0.1, 0.4, 0.2).water_mgl))


def test_pipe_in_which_ozone_vanishes_at_once_takes_what_the_film_lets_through() -> None:
    """K without end: the water stays empty and the gas falls by exp(-A N); A = 4, N = 0.1."""
    found = along_pipe(0.0, 1.0, 0.1, 0.4, 0.1, 1e9)
    assert [0.0, np.exp(-0.4)] == pytest.approx([float(found.water_mgl), float(found.gas_gm3)], abs=1e-8)


@settings(max_examples=50)
@given(OZONE, OZONE, RATIO, SOLUBLE, st.floats(0.0, 5.0), st.floats(0.0, 5.0))
def test_pipe_agrees_with_a_matrix_exponential(
    x: float, gas: float, ratio: float, s: float, n: float, k: float
) -> None:
    a = s / ratio
    rival = expm(np.array([[-(n + k), n], [a * n, -a * n]])) @ np.array([x, s * gas])
    found = along_pipe(x, gas, ratio, s, n, k)
    assert rival.tolist() == pytest.approx([float(found.water_mgl), s * float(found.gas_gm3)], rel=1e-7, abs=1e-9)


@given(OZONE, OZONE, RATIO, SOLUBLE, UNITS)
def test_pipe_without_decay_loses_no_ozone(x: float, gas: float, ratio: float, s: float, n: float) -> None:
    found = along_pipe(x, gas, ratio, s, n)
    assert x + ratio * gas == pytest.approx(float(found.water_mgl + ratio * found.gas_gm3), rel=1e-9, abs=1e-9)


@given(OZONE, OZONE, RATIO, SOLUBLE, UNITS, UNITS)
def test_pipe_never_goes_below_nothing_nor_makes_ozone(
    x: float, gas: float, ratio: float, s: float, n: float, k: float
) -> None:
    found = along_pipe(x, gas, ratio, s, n, k)
    water, left = float(found.water_mgl), float(found.gas_gm3)
    assert water >= 0.0
    assert left >= 0.0
    assert water + ratio * left <= (x + ratio * gas) * (1.0 + 1e-9) + 1e-12


def test_pipe_with_the_unit_off_strips_the_water() -> None:
    found = along_pipe(0.1, 0.0, 0.1, 0.4, 0.5)
    assert float(found.water_mgl) < 0.1
    assert float(found.gas_gm3) > 0.0


def test_rising_none_at_no_depth_and_all_at_endless_depth() -> None:
    assert [0.0, 1.0] == pytest.approx(rising_ratio([0.0, 1e3]).tolist())


@pytest.mark.parametrize("temperature", [0.0, 10.0, 20.0, 40.0])
def test_surface_tension_agrees_with_the_international_formula(temperature: float) -> None:
    """IAPWS R1-76; the straight line stays within 0.5 % of it."""
    assert float(_Tension(temperature + 273.15)) == pytest.approx(float(surface_tension_nm(temperature)), rel=0.005)


@pytest.mark.parametrize("temperature", [5.0, 10.0, 20.0, 25.0])
def test_diffusivity_agrees_with_a_measured_line(temperature: float) -> None:
    """Johnson and Davis 1996, from memory: 1.10e-6 exp(-1896/T) m2/s; they differ by up to 10 % in cold water."""
    rival = 1.10e-6 * np.exp(-1896.0 / (temperature + 273.15))
    nu = viscosity_pas(temperature) / density_kgm3(temperature)
    assert rival == pytest.approx(float(diffusivity_m2s(temperature, nu)), rel=0.11)


@pytest.mark.parametrize("bubble", [0.002, 0.003, 0.004, 0.006])
def test_bubbles_rise_about_as_by_the_theory_of_waves(bubble: float) -> None:
    """Mendelson 1967, from memory: sqrt(2 sigma/(rho d) + g d/2)."""
    rival = np.sqrt(2.0 * 0.074 / (1000.0 * bubble) + 9.80665 * bubble / 2.0)
    assert rival == pytest.approx(float(rise_velocity_ms(bubble, 0.074, 1000.0)), rel=0.34)


def test_films_of_pipe_and_plume_are_of_one_size() -> None:
    """Two laws that share nothing, both for bubbles of a few mm in cold water: within a factor of six."""
    plume = float(swarm_film_ms(0.003, 0.3, 1.3e-6, 1.3e-9))
    pipe = float(film_ms(0.5, 1.3e-6, 1.3e-9, 0.4))
    assert 1.0 < pipe / plume < 6.0


def test_dissipation_is_the_power_of_the_lost_head() -> None:
    """1 m of 20 mm pipe, f 0.02, 1 m/s: 0.02/0.02/2 J/kg of loss, at 1 m/s in 1 s."""
    assert 0.5 == pytest.approx(float(dissipation_wkg(0.02, 1.0, 0.02)))


def test_bubbles_halve_with_more_dissipation_and_offer_more_surface() -> None:
    """eps^-0.4: a factor of 2^2.5 halves the diameter, which doubles the surface."""
    one, two = (float(bubble_diameter_m(eps, 0.074, 1000.0, 0.62)) for eps in (1.0, 2.0**2.5))
    assert 0.5 == pytest.approx(two / one)
    assert 2.0 == pytest.approx(float(transfer_per_s(1e-4, 0.1, two) / transfer_per_s(1e-4, 0.1, one)))


def test_plume_ten_centimetres_more_give_units_in_proportion() -> None:
    assert 1.25 == pytest.approx(
        float(rise_units(1e-4, 0.4, 0.5, 0.003, 0.3)) / float(rise_units(1e-4, 0.4, 0.4, 0.003, 0.3))
    )


def test_feed_published_unit_makes_its_output_in_its_gas() -> None:
    """Energies 2020, 13, 1199: 4180 ppm in 1 L/min at 0 degC and 1 atm are 0.537 g/h, by 22.414 L/mol."""
    grams_per_h = 4180e-6 / 22.41397 * 47.998 * 60.0
    assert 4180e-6 * 47.998 / 22.41397e-3 == pytest.approx(float(gas_gm3(1e3 * grams_per_h, 1.0 / 60000.0)))


def test_feed_is_level_above_its_rated_flow_and_in_proportion_below() -> None:
    assert [0.0, 0.25, 1.0, 1.0] == rated_output_ratio([0.0, 0.25, 1.0, 8.0]).tolist()
    assert [0.0, 45.0, 90.0, 90.0] == curve_output_mg_per_h([0.0, 1.0, 2.0, 5.0], [2.0], [90.0]).tolist()


def test_feed_thin_air_carries_less_oxygen() -> None:
    """Half the pressure is half the mass; so is twice the absolute temperature."""
    assert 0.5 == pytest.approx(float(rated_flow_ratio(2.0, 2.0, 50662.5)))
    assert 0.5 == pytest.approx(float(rated_flow_ratio(2.0, 2.0, 101325.0, 2.0 * 293.15 - 273.15)))


def test_feed_no_gas_holds_no_ozone() -> None:
    assert 0.0 == float(gas_gm3(90.0, 0.0))


@pytest.mark.parametrize(
    "call",
    [
        lambda: along_pipe(-0.1, 1.0, 0.1, 0.4, 1.0),
        lambda: along_pipe(0.1, 1.0, 0.0, 0.4, 1.0),
        lambda: along_pipe(0.1, 1.0, 0.1, 0.0, 1.0),
        lambda: equilibrium_ratio(-0.1, 0.4),
        lambda: rising_ratio(-1.0),
        lambda: diffusivity_m2s(10.0, 0.0),
        lambda: dissipation_wkg(0.02, -1.0, 0.02),
        lambda: bubble_diameter_m(0.0, 0.07, 1000.0, 0.62),
        lambda: film_ms(-1.0, 1e-6, 1e-9, 0.4),
        lambda: transfer_per_s(1e-4, 0.1, 0.0),
        lambda: rise_velocity_ms(0.0, 0.07, 1000.0),
        lambda: swarm_film_ms(0.003, 0.0, 1e-6, 1e-9),
        lambda: rise_units(1e-4, 0.4, -1.0, 0.003, 0.3),
        lambda: rated_flow_ratio(1.0, 0.0, 1e5),
        lambda: rated_output_ratio(-1.0),
        lambda: curve_output_mg_per_h(1.0, [2.0, 1.0], [1.0, 1.0]),
        lambda: gas_gm3(-1.0, 1.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above 0|0 or more"):
        call()
