import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import gas_tube

RHO, MU = 1.2041, 1.81e-5


def _flow_at(reynolds: float, bore_m: float) -> float:
    return reynolds * np.pi * bore_m * MU / (4 * RHO)


def test_tube_drop_slow_gas_is_the_parabolic_flow_of_hagen_and_poiseuille() -> None:
    """By hand: 32 mu L V/d^2."""
    bore, length = 4e-3, 1.8
    flow = _flow_at(500.0, bore)
    velocity = flow / (np.pi / 4 * bore**2)
    assert 32 * MU * length * velocity / bore**2 == pytest.approx(
        gas_tube.tube_drop(flow, length, bore, 0.0, RHO, MU).pa_diff, rel=1e-12
    )


@pytest.mark.parametrize("reynolds", [4e3, 2e4])
def test_tube_drop_fast_gas_equals_the_independent_library(reynolds: float) -> None:
    bore, length = 4e-3, 1.8
    flow = _flow_at(reynolds, bore)
    velocity = flow / (np.pi / 4 * bore**2)
    friction = fluids.friction.Blasius(reynolds)
    expected = friction * length / bore * 0.5 * RHO * velocity**2
    assert expected == pytest.approx(gas_tube.tube_drop(flow, length, bore, 0.0, RHO, MU).pa_diff, rel=1e-9)


def test_tube_drop_between_the_laws_is_continuous_at_reynolds_1187() -> None:
    """By hand: 64/Re = 0.3164 Re^-0.25 at Re = (64/0.3164)^(4/3) = 1187.4."""
    reynolds = (64 / 0.3164) ** (4 / 3)
    assert reynolds == pytest.approx(1187.4, abs=0.05)
    below, above = (
        gas_tube.tube_drop(_flow_at(reynolds * x, 4e-3), 1.0, 4e-3, 0.0, RHO, MU) for x in (1 - 1e-9, 1 + 1e-9)
    )
    assert below.pa_diff == pytest.approx(above.pa_diff, rel=1e-8)
    assert 1.75 * below.slope_pa_sm3 == pytest.approx(above.slope_pa_sm3, rel=1e-6)


def test_tube_drop_fittings_take_their_velocity_heads() -> None:
    """By hand: K rho/2 V^2 with V = 10 m/s and K = 3."""
    bore = 4e-3
    flow = 10 * np.pi / 4 * bore**2
    assert 3 * 0.5 * RHO * 100 == pytest.approx(gas_tube.tube_drop(flow, 0.0, bore, 3.0, RHO, MU).pa_diff, rel=1e-12)


@given(st.floats(0.0, 5e-4), st.floats(0.1, 10.0), st.floats(1e-3, 1e-2), st.floats(0.0, 10.0))
def test_tube_drop_slope_equals_difference_and_rises(flow: float, length: float, bore: float, loss: float) -> None:
    step = 1e-9
    here = gas_tube.tube_drop(flow, length, bore, loss, RHO, MU)
    up = gas_tube.tube_drop(flow + step, length, bore, loss, RHO, MU)
    assert up.pa_diff > here.pa_diff
    low, high = sorted((here.slope_pa_sm3, up.slope_pa_sm3))
    assert low * (1 - 1e-3) <= (up.pa_diff - here.pa_diff) / step <= high * (1 + 1e-3)


def test_valve_constant_kv_and_cv_are_the_library_conversion() -> None:
    assert gas_tube.valve_constant_from_kv(fluids.control_valve.Cv_to_Kv(0.06), RHO) == pytest.approx(
        gas_tube.valve_constant_from_cv(0.06, RHO),
        rel=1e-3,  # the conversion has three figures
    )


def test_valve_constant_kv_of_one_passes_one_cubic_metre_of_water_at_one_bar() -> None:
    assert pytest.approx(1e5, rel=1e-12) == gas_tube.valve_constant_from_kv(1.0, 1000.0) * (1 / 3600) ** 2


def test_valve_constant_opening_equals_the_velocity_head_in_it() -> None:
    """By hand: 20 m/s through the opening, rho/2 V^2."""
    assert 0.5 * RHO * 400 == pytest.approx(
        gas_tube.valve_constant_from_opening(2e-6, RHO) * (20 * 2e-6) ** 2, rel=1e-12
    )
