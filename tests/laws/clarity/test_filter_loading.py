"""Filter loading: limits by hand, Ruth's line of t/V against V, inverses and properties."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.clarity.filter_loading import (
    cake_drop_pa_diff,
    cake_solids_kg,
    exponential_drop_ratio,
    exponential_time_s,
)

DAY_S = 86400.0
ratios = st.floats(1.01, 50.0)
times = st.floats(0.01, 400.0)


def test_exponential_is_one_when_clean_and_the_known_ratio_at_the_known_time() -> None:
    got = exponential_drop_ratio(np.array([0.0, 30.0]) * DAY_S, 30.0 * DAY_S, 2.5)
    np.testing.assert_allclose([1.0, 2.5], got, rtol=1e-14)


def test_exponential_is_the_intermediate_blocking_law() -> None:
    """dR/dq ~ R^1 (m = 1 of the blocking laws): the relative growth is the same at every time."""
    t = np.linspace(0.0, 60.0, 6001) * DAY_S
    ratio = exponential_drop_ratio(t, 30.0 * DAY_S, 2.5)
    growth = np.gradient(ratio, t)[1:-1] / ratio[1:-1]
    np.testing.assert_allclose(math.log(2.5) / (30.0 * DAY_S), growth, rtol=1e-6)


@given(times, ratios, ratios)
def test_exponential_time_round_trip_returns_the_ratio(days: float, known: float, ratio: float) -> None:
    time = exponential_time_s(ratio, days * DAY_S, known)
    assert ratio == pytest.approx(float(exponential_drop_ratio(time, days * DAY_S, known)), rel=1e-9)


@pytest.mark.parametrize(("time", "loaded", "ratio"), [(-1.0, 1.0, 2.0), (1.0, 0.0, 2.0), (1.0, 1.0, 1.0)])
def test_exponential_without_meaning_is_refused(time: float, loaded: float, ratio: float) -> None:
    with pytest.raises(ValueError, match=r"since the cleaning|that loads"):
        exponential_drop_ratio(time, loaded, ratio)


def test_exponential_time_of_a_drop_below_the_clean_one_is_refused() -> None:
    with pytest.raises(ValueError, match="the clean one or more"):
        exponential_time_s(0.9, 1.0, 2.0)


def test_cake_by_hand() -> None:
    """mu 1e-3, v = 5e-4 / 0.5 = 1e-3 m/s, w = 0.01 / 0.5 = 0.02 kg/m2, alpha 1e11: 1e-3 * 1e-3 * 2e9 = 2000 Pa."""
    assert 2000.0 == pytest.approx(float(cake_drop_pa_diff(5e-4, 0.5, 0.01, 1e11, 1e-3)), rel=1e-14)


def test_cake_at_constant_pressure_is_ruths_line_of_t_over_v() -> None:
    """t/V = (mu alpha c / 2 A^2 dp) V + mu R_m / (A dp), the published constant-pressure form, by stepping the law."""
    viscosity, resistance, solids_kgm3, area, medium, pressure = 1e-3, 1e11, 0.05, 0.5, 2e9, 20e3
    volume = np.linspace(0.0, 2.0, 200_001)
    clean_per_flow = viscosity * medium / area
    cake_per_flow = cake_drop_pa_diff(1.0, area, solids_kgm3 * volume, resistance, viscosity)
    seconds_per_m3 = (clean_per_flow + cake_per_flow) / pressure
    time = np.sum(0.5 * (seconds_per_m3[1:] + seconds_per_m3[:-1]) * np.diff(volume))
    slope = viscosity * resistance * solids_kgm3 / (2.0 * area**2 * pressure)
    expected = slope * volume[-1] + viscosity * medium / (area * pressure)
    assert expected == pytest.approx(float(time / volume[-1]), rel=1e-9)


@given(st.floats(1e-5, 1e-2), st.floats(0.1, 20.0), st.floats(1e-4, 1.0), st.floats(1e9, 1e14))
def test_cake_solids_round_trip_returns_the_mass(flow: float, area: float, solids: float, resistance: float) -> None:
    drop = cake_drop_pa_diff(flow, area, solids, resistance, 1.3e-3)
    assert solids == pytest.approx(float(cake_solids_kg(drop, flow, area, resistance, 1.3e-3)), rel=1e-12)


@given(st.floats(0.1, 10.0), st.floats(1.1, 4.0))
def test_cake_on_more_cloth_falls_with_the_square_of_the_area(area: float, factor: float) -> None:
    """More cloth lowers both the speed of the water and the thickness of the cake."""
    drops = cake_drop_pa_diff(5e-4, np.array([area, factor * area]), 0.02, 1e11, 1e-3)
    assert factor**2 == pytest.approx(drops[0] / drops[1], rel=1e-12)


@pytest.mark.parametrize(("area", "solids", "resistance"), [(0.0, 1.0, 1.0), (1.0, -1.0, 1.0), (1.0, 1.0, -1.0)])
def test_cake_without_meaning_is_refused(area: float, solids: float, resistance: float) -> None:
    with pytest.raises(ValueError, match="a cake needs"):
        cake_drop_pa_diff(1e-4, area, solids, resistance, 1e-3)


def test_cake_solids_at_rest_are_refused() -> None:
    with pytest.raises(ValueError, match="flow, area, resistance and viscosity above 0"):
        cake_solids_kg(100.0, 0.0, 1.0, 1e11, 1e-3)
