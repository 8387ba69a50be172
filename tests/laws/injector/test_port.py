import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from sanitize.laws.injector.choke import choke_pressure_pa_abs, choked_port_pressure_pa_abs
from sanitize.laws.injector.dry import port_pressure_dry
from sanitize.laws.injector.energy import available_pa_diff, most_gas_pa
from sanitize.laws.injector.geometry import nozzle_drop_coefficient, recovery_coefficient
from sanitize.laws.injector.mixing import Mixer
from sanitize.laws.injector.port import Port, port_pressure_with_gas, small_draw_pa

PV = 1228.0
DEFAULT = Mixer(0.8, 0.05, 0.15, 1.0, 0.15)
MIXER = st.builds(
    Mixer,
    st.floats(0.25, 1.0),
    st.floats(0.0, 0.3),
    st.floats(0.02, 0.75),
    st.floats(0.0, 2.0),
    st.floats(0.01, 0.24),
)
Z = st.floats(1e3, 200e3)
P2 = st.floats(70e3, 250e3)
GAS = st.floats(1.0, 4e5)


@given(Z, P2, MIXER)
def test_port_without_gas_equals_the_dry_law(z: float, p2: float, mixer: Mixer) -> None:
    b, km, kd, _, r = mixer
    dry = port_pressure_dry(p2, z, recovery_coefficient(b, km, kd, r), PV)
    assert dry == pytest.approx(port_pressure_with_gas(z, 0.0, p2, mixer, PV).pa_abs, rel=1e-9)


@given(Z, GAS, P2, MIXER)
def test_port_with_gas_equals_a_plain_scalar_solution(z: float, gas: float, p2: float, mixer: Mixer) -> None:
    """The equations written out once more and solved by another method."""
    b, km, kd, kg, r = mixer

    def diffuser(end: float) -> float:
        t, d = 1 + gas / end, 1 + gas / p2
        return p2 - end + gas * np.log(p2 / end) - z * b**2 * (t**2 - (r / b) ** 2 * d**2 - kd * t)

    choke = b * np.sqrt((2 + km + kg) * z * gas)
    end = choke if diffuser(choke) <= 0 else brentq(diffuser, choke, p2 + 50 * z * (1 + gas / p2) ** 2, xtol=1e-9)
    port = end - z * (2 * b - b**2 * (2 + km) * (1 + gas / end) - b**2 * kg * gas / end)
    assert max(port, PV) == pytest.approx(port_pressure_with_gas(z, gas, p2, mixer, PV).pa_abs, rel=1e-8)


@given(Z, GAS, P2, MIXER, st.floats(1.001, 3.0))
def test_port_more_gas_needs_more_pressure(z: float, gas: float, p2: float, mixer: Mixer, times: float) -> None:
    less = port_pressure_with_gas(z, gas, p2, mixer, PV)
    more = port_pressure_with_gas(z, times * gas, p2, mixer, PV)
    assert more.pa_abs > less.pa_abs or more.is_at_vapour_pressure


@given(Z, GAS, P2, MIXER)
def test_port_slopes_equal_differences(z: float, gas: float, p2: float, mixer: Mixer) -> None:
    here = port_pressure_with_gas(z, gas, p2, mixer, PV)
    assume(gas > 100.0)
    point = np.array([z, gas, p2])
    for i, slope in enumerate((here.per_z, here.per_gas, here.per_outlet)):
        step = np.zeros(3)
        step[i] = 1e-5 * point[i]
        ends = [port_pressure_with_gas(*at, mixer, PV) for at in (point - step, point + step)]
        assume(ends[0].is_at_vapour_pressure == ends[1].is_at_vapour_pressure)
        assume(ends[0].is_choked == ends[1].is_choked)
        assert (ends[1].pa_abs - ends[0].pa_abs) / (2 * step[i]) == pytest.approx(slope, rel=1e-3, abs=1e-4)


def _first_choked_outlet(z: float, gas: float) -> tuple[float, Port, Port]:
    low, high = 30e3, 300e3
    for _ in range(80):
        middle = 0.5 * (low + high)
        is_choked = port_pressure_with_gas(z, gas, middle, DEFAULT, PV).is_choked
        low, high = (middle, high) if is_choked else (low, middle)
    return (
        low,
        port_pressure_with_gas(z, gas, low, DEFAULT, PV),
        port_pressure_with_gas(z, gas, high, DEFAULT, PV),
    )


def test_port_through_the_choke_value_and_slopes_are_continuous() -> None:
    _, choked, free = _first_choked_outlet(60e3, 50e3)
    assert choked.is_choked
    assert not free.is_choked
    assert choked.pa_abs == pytest.approx(free.pa_abs, rel=1e-9)
    for one, other in zip(choked[1:4], free[1:4], strict=True):
        assert one == pytest.approx(other, rel=1e-3, abs=1e-3)


def test_port_choked_bore_does_not_feel_the_outlet() -> None:
    outlet, choked, _ = _first_choked_outlet(60e3, 50e3)
    lower = port_pressure_with_gas(60e3, 50e3, 0.8 * outlet, DEFAULT, PV)
    assert choked.pa_abs == lower.pa_abs
    assert lower.per_outlet == 0.0
    assert choked_port_pressure_pa_abs(60e3, 50e3, DEFAULT) == pytest.approx(lower.pa_abs, rel=1e-12)
    assert choke_pressure_pa_abs(60e3, 50e3, DEFAULT) == pytest.approx(lower.bore_end_pa_abs, rel=1e-12)


@given(Z, st.floats(0.0, 4e5), P2, MIXER)
def test_port_any_case_is_finite_and_not_below_the_vapour_pressure(
    z: float, gas: float, p2: float, mixer: Mixer
) -> None:
    port = port_pressure_with_gas(z, gas, p2, mixer, PV)
    assert np.isfinite([float(x) for x in port]).all()
    assert port.pa_abs >= PV
    if port.is_at_vapour_pressure:
        assert (port.pa_abs, port.per_z, port.per_gas, port.per_outlet) == (PV, 0.0, 0.0, 0.0)


@given(Z, GAS, P2, MIXER, st.floats(0.9, 0.985), st.floats(0.02, 0.3))
def test_port_any_case_gas_stays_below_what_the_water_pays(
    z: float, gas: float, p2: float, mixer: Mixer, cd: float, ratio: float
) -> None:
    """The bound in totals; below 20 kPa absolute the model is not used."""
    port = port_pressure_with_gas(z, gas, p2, mixer, PV).pa_abs
    assume(20e3 < port < p2)
    inlet = port + nozzle_drop_coefficient(cd, ratio) * z
    pays = available_pa_diff(inlet, p2, z, gas, ratio, mixer.throat_to_outlet_ratio)
    assert gas <= most_gas_pa(port, p2, pays) * (1 + 1e-9)


def test_port_no_water_flow_stands_at_the_outlet() -> None:
    for gas in (0.0, 20e3):
        port = port_pressure_with_gas(0.0, gas, 108e3, DEFAULT, PV)
        assert port.pa_abs == pytest.approx(108e3, rel=1e-12)
        assert port.per_outlet == pytest.approx(1.0, rel=1e-12)


def test_port_array_equals_scalars_one_by_one() -> None:
    z = np.array([0.0, 5e3, 60e3, 60e3, 150e3])
    gas = np.array([0.0, 1e3, 5e4, 0.0, 4e5])
    together = port_pressure_with_gas(z, gas, 100e3, DEFAULT, PV)
    for i in range(5):
        alone = port_pressure_with_gas(float(z[i]), float(gas[i]), 100e3, DEFAULT, PV)
        assert [float(x) for x in alone] == pytest.approx([float(x[i]) for x in together], rel=1e-12)


def test_small_draw_slope_is_the_hand_derived_one() -> None:
    """s = ln(p2/pt) + Z b^2 (Km + Kg + Kd)/pt + 2 Z r^2/p2 at the dry pt."""
    z, p2, supply = 60e3, 108e3, 99.8e3
    b, km, kd, kg, r = DEFAULT
    end = p2 - z * (b**2 * (1 - kd) - r**2)
    slope = np.log(p2 / end) + z * b**2 * (km + kg + kd) / end + 2 * z * r**2 / p2
    lack = supply - (p2 - z * recovery_coefficient(b, km, kd, r))
    assert lack / slope == pytest.approx(small_draw_pa(supply, p2, z, DEFAULT, PV), rel=1e-9)


@given(Z, P2, MIXER)
def test_small_draw_near_onset_meets_the_full_balance(z: float, p2: float, mixer: Mixer) -> None:
    dry = port_pressure_with_gas(z, 0.0, p2, mixer, PV)
    assume(not dry.is_at_vapour_pressure)
    assume(dry.bore_end_pa_abs > 20e3)
    gas = small_draw_pa(dry.pa_abs + 0.5, p2, z, mixer, PV)
    assert dry.pa_abs + 0.5 == pytest.approx(port_pressure_with_gas(z, gas, p2, mixer, PV).pa_abs, abs=0.01)
    assert small_draw_pa(dry.pa_abs - 1.0, p2, z, mixer, PV) == 0.0
