"""Water against printed tables, two libraries of IAPWS-95 and rival formulas."""

import math
from collections.abc import Callable
from typing import Any

import iapws
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.water import density_kgm3, vapour_pressure_pa_abs, viscosity_pas

EVERY_DEGREE_C = np.linspace(0.5, 45.0, 90)
LAWS = (density_kgm3, viscosity_pas, vapour_pressure_pa_abs)


@pytest.fixture(scope="session")
def coolprop() -> Callable[..., Any]:
    """CoolProp's property function; its import takes two seconds."""
    from CoolProp.CoolProp import PropsSI

    return PropsSI


@pytest.mark.parametrize(
    ("temperature_c", "printed_kgm3"),
    [(0.0, 999.8428), (10.0, 999.7027), (15.0, 999.1026), (20.0, 998.2067), (30.0, 995.6488)],
)
def test_density_recommended_values_of_tanaka_2001_agree(temperature_c: float, printed_kgm3: float) -> None:
    """As a restatement prints them; Kell's absolute density lies about 3 ppm below, for its older reference."""
    assert printed_kgm3 == pytest.approx(float(density_kgm3(temperature_c)), abs=0.0035)


def test_density_formula_of_tanaka_2001_agrees_over_its_range() -> None:
    t = np.linspace(0.0, 40.0, 81)
    tanaka = 999.974950 * (1.0 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))
    np.testing.assert_allclose(density_kgm3(t), tanaka, atol=0.0035, rtol=0.0)


def test_density_iapws_sr6_08_table_8_value_at_25_degc() -> None:
    """The release prints 997.047013 kg/m3 at 298.15 K and 0.1 MPa; Kell is good to 3 ppm."""
    np.testing.assert_allclose(density_kgm3(25.0), 997.047013, atol=0.003, rtol=0.0)


def test_density_is_greatest_at_four_degrees() -> None:
    temperature_c = np.linspace(0.0, 10.0, 1001)
    np.testing.assert_allclose(temperature_c[np.argmax(density_kgm3(temperature_c))], 3.98, atol=0.03, rtol=0.0)


def test_viscosity_iapws_sr6_08_table_8_value_at_25_degc() -> None:
    """The release's check value, 889.996774 micropascal seconds at 298.15 K."""
    np.testing.assert_allclose(viscosity_pas(25.0) * 1e6, 889.996774, atol=5e-7, rtol=0.0)


# Handbook of Chemistry and Physics 1992-93, vapour pressure of water, kPa.
@pytest.mark.parametrize(
    ("temperature_c", "printed_kpa"),
    [(1, 0.65716), (5, 0.8726), (10, 1.2281), (15, 1.7056), (20, 2.3388), (25, 3.169), (35, 5.6267), (45, 9.5895)],
)
def test_vapour_pressure_crc_handbook_table_agrees(temperature_c: float, printed_kpa: float) -> None:
    """Within 0.05 %: the formula lies 0.04 % below IAPWS-95 at 25 degC, and the table rounds to 0.01 %."""
    assert 1000.0 * printed_kpa == pytest.approx(float(vapour_pressure_pa_abs(temperature_c)), rel=5e-4)


@pytest.mark.parametrize(
    ("law", "column", "factor", "tolerance"),
    [
        (density_kgm3, "density_kgm3", 1.0, 4e-6),
        (viscosity_pas, "viscosity_mpas", 1e-3, 5e-5),
        (vapour_pressure_pa_abs, "vapour_pressure_pa_abs", 1.0, 5e-4),
    ],
)
def test_water_iapws_95_table_agrees(
    law: Callable[..., Any],
    column: str,
    factor: float,
    tolerance: float,
    check_rows: Callable[[str], list[dict[str, str]]],
) -> None:
    for row in check_rows("water_properties"):
        found = float(law(float(row["temperature_c"])))
        assert float(row[column]) * factor == pytest.approx(found, rel=tolerance)


def test_water_coolprop_agrees_over_the_whole_range(coolprop: Callable[..., Any]) -> None:
    kelvin = EVERY_DEGREE_C + 273.15
    at_one_atmosphere = ("T", kelvin, "P", 101325.0, "Water")
    np.testing.assert_allclose(density_kgm3(EVERY_DEGREE_C), coolprop("D", *at_one_atmosphere), rtol=4e-6)
    np.testing.assert_allclose(viscosity_pas(EVERY_DEGREE_C), coolprop("V", *at_one_atmosphere), rtol=5e-5)
    boiling = coolprop("P", "T", kelvin, "Q", 0.0, "Water")
    np.testing.assert_allclose(vapour_pressure_pa_abs(EVERY_DEGREE_C), boiling, rtol=5e-4)


def test_water_industrial_formulation_of_iapws_agrees() -> None:
    for temperature_c in (2.0, 12.0, 27.0, 44.0):
        state = iapws.IAPWS97(T=temperature_c + 273.15, P=0.101325)
        assert state.rho == pytest.approx(float(density_kgm3(temperature_c)), rel=1e-5)
        assert state.mu == pytest.approx(float(viscosity_pas(temperature_c)), rel=2e-4)
        saturated = iapws.IAPWS97(T=temperature_c + 273.15, x=0)
        np.testing.assert_allclose(vapour_pressure_pa_abs(temperature_c), saturated.P * 1e6, rtol=5e-4)


def test_density_digit_swap_of_a_reprint_would_be_seen() -> None:
    """Jones and Harris 1992 print 16.897850 in the denominator; at 40 degC it costs 0.4 kg/m3, far over 4e-6."""
    swap = (1.0 + 16.879850e-3 * 40.0) / (1.0 + 16.897850e-3 * 40.0)
    assert abs(float(density_kgm3(40.0)) * swap - 992.2164) > 0.4


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("outside_c", [-0.01, 45.01, math.nan])
def test_water_outside_its_range_is_refused(law: Callable[..., Any], outside_c: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 45 degC"):
        law(np.array([10.0, outside_c]))


@given(st.lists(st.floats(0.0, 45.0), min_size=1, max_size=5))
def test_water_array_equals_its_scalars(temperatures_c: list[float]) -> None:
    for law in LAWS:
        together = law(np.array(temperatures_c))
        np.testing.assert_allclose(together, [float(law(t)) for t in temperatures_c], rtol=1e-14)


@given(st.floats(0.0, 44.0), st.floats(0.01, 1.0))
def test_water_warmer_is_thinner_and_has_more_vapour(temperature_c: float, step_c: float) -> None:
    assert viscosity_pas(temperature_c + step_c) < viscosity_pas(temperature_c)
    assert vapour_pressure_pa_abs(temperature_c + step_c) > vapour_pressure_pa_abs(temperature_c)
