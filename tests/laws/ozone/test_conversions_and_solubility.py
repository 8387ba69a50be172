"""Ozone in a gas and at equilibrium with water: print, hand-made cases, inverses."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.ozone.conversions import (
    OXYGEN_GMOL,
    mgm3_of_ppmv,
    ozone_gm3,
    ppmv_of_mgm3,
    volume_ratio_of_weight,
    weight_ratio_of_volume,
)
from sanitize.laws.ozone.solubility import saturation_mgl, solubility_ratio

Rows = Callable[[str], list[dict[str, str]]]
ATMOSPHERE = 101325.0


def test_ppm_of_the_limits_is_as_printed_by_mass(check_rows: Rows) -> None:
    for row in check_rows("ozone_in_air"):
        found = float(mgm3_of_ppmv(float(row["ozone_ppmv"]), float(row["temperature_c"]), ATMOSPHERE))
        assert float(row["ozone_mgm3"]) == pytest.approx(found, abs=float(row["half_unit_mgm3"]))


def test_weight_and_volume_agree_only_in_a_gas_as_heavy_as_ozone() -> None:
    assert 0.02 == pytest.approx(float(volume_ratio_of_weight(0.02, 47.998)))
    assert 0.02 > float(volume_ratio_of_weight(0.02, OXYGEN_GMOL)) > float(volume_ratio_of_weight(0.02))


def test_one_percent_by_weight_by_hand() -> None:
    """1 g ozone (1/48.0 mol) with 99 g air (99/28.96 mol): 0.606 % by volume; a mole fills 22.414 L at 0 degC."""
    share = (1.0 / 47.998) / (1.0 / 47.998 + 99.0 / 28.96)
    assert share == pytest.approx(float(volume_ratio_of_weight(0.01)))
    assert 1e3 * share * 47.998 / 22.41397 == pytest.approx(float(ozone_gm3(share, 0.0, ATMOSPHERE)), rel=1e-6)


@given(st.floats(0.0, 1.0), st.floats(2.0, 60.0))
def test_weight_of_volume_is_the_inverse(weight: float, carrier: float) -> None:
    back = float(weight_ratio_of_volume(volume_ratio_of_weight(weight, carrier), carrier))
    assert weight == pytest.approx(back, abs=1e-12)


@given(st.floats(0.0, 1e3), st.floats(-20.0, 50.0), st.floats(5e4, 1.1e5))
def test_mass_of_ppm_is_the_inverse(ozone: float, temperature: float, pressure: float) -> None:
    back = float(mgm3_of_ppmv(ppmv_of_mgm3(ozone, temperature, pressure), temperature, pressure))
    assert ozone == pytest.approx(back, rel=1e-12)


def _of_henry(row: dict[str, str], temperature_c: float) -> float:
    """Water over gas from a compiled constant: S = H R T, H = H25 exp(slope (1/T - 1/298.15)) mol/(m3 Pa)."""
    kelvin = temperature_c + 273.15
    henry = float(row["henry_molm3pa"]) * math.exp(float(row["temperature_slope_k"]) * (1.0 / kelvin - 1.0 / 298.15))
    return henry * 8.314462618 * kelvin


def _compiled(check_rows: Rows) -> list[dict[str, str]]:
    return [row for row in check_rows("ozone_solubility") if row["henry_molm3pa"]]


def test_solubility_is_the_compiled_constant_of_its_own_source(check_rows: Rows) -> None:
    """1.1e-4 and 2300 K as printed: half a unit of the last digits are 4.5 % and, over 15 K, 1 %."""
    row = next(row for row in _compiled(check_rows) if row["set"] == "Kosak-Channing 1983")
    for temperature in (10.0, 25.0, 30.0):
        assert _of_henry(row, temperature) == pytest.approx(float(solubility_ratio(temperature)), rel=0.055)


@pytest.mark.parametrize("temperature", [5.0, 10.0, 15.0, 25.0, 30.0])
def test_solubility_lies_among_the_compiled_constants(temperature: float, check_rows: Rows) -> None:
    """The rows disagree by this much among themselves; the bound is the widest of them."""
    compiled = [_of_henry(row, temperature) for row in _compiled(check_rows)]
    assert 0.97 * min(compiled) <= float(solubility_ratio(temperature)) <= 1.03 * max(compiled)


def test_solubility_lies_over_the_design_table_where_it_is_warm(check_rows: Rows) -> None:
    """The older table falls faster: within 12 % up to 15 degC, and at most 40 % below at 30 degC."""
    for row in check_rows("ozone_solubility"):
        if not row["water_over_gas_ratio"]:
            continue
        temperature, printed = float(row["temperature_c"]), float(row["water_over_gas_ratio"])
        ratio = printed / float(solubility_ratio(temperature))
        if 5.0 <= temperature <= 15.0:
            assert 0.88 < ratio < 1.12
        if temperature > 15.0:
            assert 0.60 < ratio < 1.0


def test_saturation_by_weight_is_not_that_by_volume() -> None:
    """2.5 % by weight in air at 0 degC: 16.7 mg/L; taken as 2.5 % by volume it would be 27 mg/L."""
    of_weight = saturation_mgl(ozone_gm3(volume_ratio_of_weight(0.025), 0.0, ATMOSPHERE), solubility_ratio(0.0))
    of_volume = saturation_mgl(ozone_gm3(0.025, 0.0, ATMOSPHERE), solubility_ratio(0.0))
    assert [16.7, 27.4] == pytest.approx([float(of_weight), float(of_volume)], abs=0.05)


@given(st.floats(-0.1, 45.0), st.floats(0.1, 5.0))
def test_solubility_falls_with_warmth(temperature: float, step: float) -> None:
    assert float(solubility_ratio(temperature + step)) < float(solubility_ratio(temperature))


@pytest.mark.parametrize(
    "call",
    [
        lambda: volume_ratio_of_weight(1.1),
        lambda: weight_ratio_of_volume(-0.1),
        lambda: ozone_gm3(0.1, 20.0, 0.0),
        lambda: ppmv_of_mgm3(-1.0, 20.0, 1e5),
        lambda: saturation_mgl(-1.0, 0.4),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"0 or more|between 0 and 1"):
        call()


def test_arrays_give_what_scalars_give() -> None:
    temperatures = np.array([2.0, 10.0, 38.0])
    assert solubility_ratio(temperatures).tolist() == [float(solubility_ratio(value)) for value in temperatures]
