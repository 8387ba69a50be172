import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import choke
from sanitize.laws.injector.mixing import Mixer, bore_end_pressure, mach_squared

MIXER = st.builds(
    Mixer,
    st.floats(0.25, 1.0),
    st.floats(0.0, 0.3),
    st.floats(0.02, 0.75),
    st.floats(0.0, 2.0),
    st.floats(0.01, 0.24),
)


def test_largest_gas_plain_bore_without_friction_falls_with_the_water_flow() -> None:
    """By hand: momentum po = pt + 2 Z phi_t has its least po at pt = sqrt(2 Z G), so G = po^2/(8 Z)."""
    z = np.array([20e3, 40e3, 80e3])
    most = choke.largest_gas_pa(80e3, z, Mixer(1.0, 0.0, 0.1, 0.0, 0.2))
    assert 80e3**2 / (8 * z) == pytest.approx(most, rel=1e-12)


@given(MIXER, st.floats(1e3, 200e3), st.floats(1.0, 2e5))
def test_choke_any_mixer_stands_at_its_own_mach_number(mixer: Mixer, z: float, gas: float) -> None:
    pressure = choke.choke_pressure_pa_abs(z, gas, mixer)
    expected = 2 / (2 + mixer.bore_loss + mixer.gas_loss)
    assert expected == pytest.approx(mach_squared(pressure, z, gas, mixer.throat_to_bore_ratio), rel=1e-9)


@given(MIXER, st.floats(1e3, 100e3), st.floats(40e3, 110e3))
def test_largest_gas_round_trip_returns_the_port(mixer: Mixer, z: float, port: float) -> None:
    most = choke.largest_gas_pa(port, z, mixer)
    assert port == pytest.approx(choke.choked_port_pressure_pa_abs(z, most, mixer), rel=1e-9)
    assert bore_end_pressure(port, z, 0.999 * most, mixer).is_possible
    assert not bore_end_pressure(port, z, 1.001 * most, mixer).is_possible


def test_largest_gas_no_water_flow_has_no_limit() -> None:
    assert np.inf == choke.largest_gas_pa(100e3, 0.0, Mixer(0.8, 0.05, 0.1, 1.0, 0.2))
