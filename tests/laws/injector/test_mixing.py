import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import mixing as mx

MIXER = st.builds(
    mx.Mixer,
    st.floats(0.25, 1.0),
    st.floats(0.0, 0.3),
    st.floats(0.02, 0.75),
    st.floats(0.0, 2.0),
    st.floats(0.01, 0.24),
)
Z = st.floats(1e3, 200e3)
GAS = st.floats(0.0, 1e5)
PORT = st.floats(20e3, 120e3)


def test_bore_end_frictionless_is_the_root_of_the_jet_pump_quadratic() -> None:
    """Cunningham 1974 as an open library writes it: r^2 - (1 + n) r + n v = 0, n = 2 Z c b^2/po, v = VG/V1.

    There c = (1 - b)/b and v = phi_o b/(1 - b).
    """
    b, z, port, gas = 0.35, 80e3, 70e3, 25e3
    n, v = 2 * z * b * (1 - b) / port, gas / port * b / (1 - b)
    ratio = 0.5 * (1 + n + np.sqrt((1 + n) ** 2 - 4 * n * v))
    end = mx.bore_end_pressure(port, z, gas, mx.Mixer(b, 0.0, 0.1, 0.0, 0.1))
    assert ratio * port == pytest.approx(end.pa_abs, rel=1e-12)


def test_bore_end_without_gas_rises_as_a_sudden_enlargement() -> None:
    """Borda and Carnot by hand: from the jet's head Z to Z b^2 with (1 - b)^2 Z lost."""
    b = np.array([0.3, 0.6, 1.0])
    end = mx.bore_end_pressure(60e3, 50e3, 0.0, mx.Mixer(b, 0.0, 0.1, 1.0, 0.1))
    assert 60e3 + 50e3 * (1 - b**2 - (1 - b) ** 2) == pytest.approx(end.pa_abs, rel=1e-12)


def test_mach_half_air_half_water_meets_the_published_speed_of_sound() -> None:
    """Pump Handbook: about 70 ft/s for a 50/50 mixture; the isothermal model gives 20.1 m/s, 6 % below."""
    pressure = gas = 101325.0
    z = 1.0 / mx.mach_squared(pressure, 1.0, gas, 1.0)
    speed = np.sqrt(2 * z / 998.2) * (1 + gas / pressure)
    assert 70 * 0.3048 == pytest.approx(speed, rel=0.06)


@given(PORT, Z, GAS, MIXER)
def test_bore_end_any_case_balances_momentum_or_is_choked(port: float, z: float, gas: float, mixer: mx.Mixer) -> None:
    end = mx.bore_end_pressure(port, z, gas, mixer)
    total = port + mx.bore_rise_coefficient(mixer) * z
    product = mx.gas_weight_coefficient(mixer) * z * gas
    if end.is_possible:
        assert pytest.approx(0.0, abs=1e-5) == mx.mixing_balance(port, end.pa_abs, z, gas, mixer).residual_pa
        assert end.pa_abs >= np.sqrt(product) * (1 - 1e-12)
    else:
        assert total <= 2 * np.sqrt(product) * (1 + 1e-9)
        assert np.sqrt(product) == pytest.approx(end.pa_abs, rel=1e-12)


@given(PORT, Z, st.floats(100.0, 1e5), MIXER)
def test_bore_end_slopes_equal_differences(port: float, z: float, gas: float, mixer: mx.Mixer) -> None:
    total = port + mx.bore_rise_coefficient(mixer) * z
    if total <= 0.0 or total**2 < 4.4 * mx.gas_weight_coefficient(mixer) * z * gas:
        return
    end = mx.bore_end_pressure(port, z, gas, mixer)
    point = np.array([port, z, gas])
    for i, slope in enumerate((end.per_port, end.per_z, end.per_gas)):
        step = np.zeros(3)
        step[i] = 1e-6 * point[i]
        up, down = (mx.bore_end_pressure(*at, mixer).pa_abs for at in (point + step, point - step))
        assert (up - down) / (2 * step[i]) == pytest.approx(slope, rel=1e-4, abs=1e-4)


def test_mixing_no_water_flow_stands_still_at_the_port() -> None:
    assert mx.bore_end_pressure(90e3, 0.0, 10e3, mx.Mixer(0.8, 0.05, 0.15, 1.0, 0.1)).pa_abs == 90e3
