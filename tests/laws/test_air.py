"""Air against the standard atmosphere, its own derivation and CoolProp."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.air import (
    AIR_VISCOSITY_PAS,
    air_density_kgm3,
    atmospheric_pressure_pa_abs,
    saturation_vapour_pa_abs,
)


def test_pressure_us_standard_atmosphere_table_agrees(
    check_rows: Callable[[str], list[dict[str, str]]],
) -> None:
    """The table stands in psi (12.23 and 10.108): half a unit of the first is 34 Pa, 0.04 %; 0.03 % suffices."""
    for row in check_rows("standard_atmosphere"):
        found = float(atmospheric_pressure_pa_abs(float(row["altitude_m"])))
        assert float(row["pressure_pa_abs"]) == pytest.approx(found, rel=3e-4)


def test_pressure_constants_follow_from_the_lapse_rate() -> None:
    """T = 288.15 - 0.0065 z and dp = -rho g dz give p = p0 (1 - L z / T0)^(g M / (R L))."""
    z = np.linspace(-400.0, 10_000.0, 53)
    exponent = 9.80665 * 0.0289644 / (8.31432 * 0.0065)
    expected = 101325.0 * (1.0 - 0.0065 * z / 288.15) ** exponent
    np.testing.assert_allclose(atmospheric_pressure_pa_abs(z), expected, rtol=3e-6)


def test_pressure_at_sea_level_is_one_atmosphere() -> None:
    np.testing.assert_allclose(atmospheric_pressure_pa_abs(0.0), 101325.0, rtol=1e-15)


@given(st.floats(-500.0, 10_900.0), st.floats(0.1, 100.0))
def test_pressure_higher_up_is_less(altitude_m: float, step_m: float) -> None:
    assert atmospheric_pressure_pa_abs(altitude_m + step_m) < atmospheric_pressure_pa_abs(altitude_m)


@given(st.floats(0.0, 3000.0))
def test_pressure_gradient_is_the_weight_of_the_air(altitude_m: float) -> None:
    """dp/dz = -rho g with the density of the standard temperature at that height."""
    low, high = atmospheric_pressure_pa_abs(np.array([altitude_m - 1.0, altitude_m + 1.0]))
    here = air_density_kgm3(atmospheric_pressure_pa_abs(altitude_m), 15.0 - 0.0065 * altitude_m)
    np.testing.assert_allclose((low - high) / 2.0, here * 9.80665, rtol=2e-5)


@pytest.mark.parametrize("altitude_m", [-501.0, 11_001.0, math.nan])
def test_pressure_outside_the_layer_is_refused(altitude_m: float) -> None:
    with pytest.raises(ValueError, match="between -500 and 11000 m"):
        atmospheric_pressure_pa_abs(np.array([0.0, altitude_m]))


def test_density_us_standard_atmosphere_at_sea_level_is_1_2250() -> None:
    np.testing.assert_allclose(air_density_kgm3(101325.0, 15.0), 1.2250, atol=5e-5, rtol=0.0)


def test_density_coolprop_dry_air_agrees_within_a_thousandth() -> None:
    from CoolProp.CoolProp import PropsSI

    for pressure in (60e3, 101325.0, 200e3):
        for temperature_c in (0.0, 20.0, 45.0):
            real = PropsSI("D", "T", temperature_c + 273.15, "P", pressure, "Air")
            np.testing.assert_allclose(air_density_kgm3(pressure, temperature_c), real, rtol=1.2e-3)


@pytest.mark.parametrize(
    ("pressure", "temperature_c"), [(-1.0, 20.0), (1e5, -100.0), (math.nan, 20.0), (1e5, math.nan)]
)
def test_density_without_meaning_is_refused(pressure: float, temperature_c: float) -> None:
    with pytest.raises(ValueError, match="air needs a pressure"):
        air_density_kgm3(pressure, temperature_c)


def test_viscosity_sutherland_formula_of_the_us_standard_atmosphere_agrees() -> None:
    """beta T^1.5 / (T + S), beta 1.458e-6 and S 110.4 K (from memory), at 20 degC; rounded to three digits."""
    sutherland = 1.458e-6 * 293.15**1.5 / (293.15 + 110.4)
    assert sutherland == pytest.approx(AIR_VISCOSITY_PAS, abs=5e-8)


def test_viscosity_coolprop_agrees_within_three_per_cent_from_8_to_32_degc() -> None:
    from CoolProp.CoolProp import PropsSI

    for temperature_c in (8.0, 20.0, 32.0):
        real = PropsSI("V", "T", temperature_c + 273.15, "P", 101325.0, "Air")
        assert real == pytest.approx(AIR_VISCOSITY_PAS, rel=0.04)


def test_saturation_iapws_over_liquid_water_agrees() -> None:
    """0.1 % is what the formula claims; CoolProp and IAPWS-97 share no line with it."""
    from iapws.iapws97 import _PSat_T

    t = np.linspace(0.5, 50.0, 34)
    expected = [1e6 * _PSat_T(float(one) + 273.15) for one in t]
    np.testing.assert_allclose(saturation_vapour_pa_abs(t), expected, rtol=1.5e-3)


@pytest.mark.parametrize(("celsius", "pascal"), [(-10.0, 286.3), (-20.0, 125.4), (-30.0, 50.88)])
def test_saturation_over_supercooled_water_is_the_meteorological_tables(celsius: float, pascal: float) -> None:
    """2.863, 1.254 and 0.5088 hPa over liquid water (meteorological tables, from memory)."""
    assert pascal == pytest.approx(float(saturation_vapour_pa_abs(celsius)), rel=5e-3)


@given(st.floats(-40.0, 49.0), st.floats(0.01, 1.0))
def test_saturation_of_warmer_air_is_higher(air_c: float, step_k: float) -> None:
    assert saturation_vapour_pa_abs(air_c + step_k) > saturation_vapour_pa_abs(air_c)


@pytest.mark.parametrize("air_c", [-40.5, 50.5, math.nan])
def test_saturation_outside_the_range_is_refused(air_c: float) -> None:
    with pytest.raises(ValueError, match="between -40 and 50 degC"):
        saturation_vapour_pa_abs(air_c)
