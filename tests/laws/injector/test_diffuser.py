import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from sanitize.laws.injector.diffuser import diffuser_balance, dry_bore_end_pa_abs, highest_bore_end_pa_abs
from sanitize.laws.injector.mixing import Mixer

MIXER = st.builds(
    Mixer, st.floats(0.25, 1.0), st.floats(0.0, 0.3), st.floats(0.0, 0.75), st.just(1.0), st.floats(0.01, 0.24)
)
P = st.floats(20e3, 250e3)
Z = st.floats(0.0, 200e3)
GAS = st.floats(0.0, 2e5)


@given(P, P, Z, GAS, MIXER)
def test_diffuser_balance_slopes_equal_differences(
    end: float, outlet: float, z: float, gas: float, mixer: Mixer
) -> None:
    here = diffuser_balance(end, outlet, z, gas, mixer)
    arguments = np.array([end, outlet, z, gas])
    for i, slope in enumerate(here[1:]):
        step = np.zeros(4)
        step[i] = 0.5
        up = diffuser_balance(*(arguments + step), mixer).residual_pa
        down = diffuser_balance(*(arguments - step * (arguments > 0.5)), mixer).residual_pa
        width = 1.0 if arguments[i] > 0.5 else 0.5
        assert (up - down) / width == pytest.approx(slope, rel=1e-3, abs=1e-3)


def test_diffuser_balance_work_equals_the_integral_of_the_mixture_volume() -> None:
    """Without velocity and loss the balance is the integral of (1 + G/p) dp, done numerically here."""
    gas = 40e3
    work, _ = quad(lambda p: 1 + gas / p, 80e3, 130e3)
    balance = diffuser_balance(80e3, 130e3, 0.0, gas, Mixer(0.5, 0.0, 0.2, 0.0, 0.1))
    assert work == pytest.approx(balance.residual_pa, rel=1e-9)


def test_diffuser_balance_handbook_form_with_liquid_side_flow_replaced_by_gas() -> None:
    """Pump Handbook: (1 + M + phi_t)^2 - a^2 (1 + M + phi_d)^2 - Kdi (1 + M + phi_t)(1 + M) on Z b^2, at M = 0."""
    b, a, kd, z, end, outlet, gas = 0.4, 0.3, 0.2, 70e3, 90e3, 120e3, 20e3
    phi_t, phi_d = gas / end, gas / outlet
    handbook = (1 + phi_t) ** 2 - a**2 * (1 + phi_d) ** 2 - kd * (1 + phi_t)
    expected = outlet - end + gas * np.log(outlet / end) - z * b**2 * handbook
    assert expected == pytest.approx(
        diffuser_balance(end, outlet, z, gas, Mixer(b, 0.3, kd, 1.0, a * b)).residual_pa, rel=1e-12
    )


@given(P, Z, MIXER)
def test_dry_bore_end_any_case_balances_without_gas(outlet: float, z: float, mixer: Mixer) -> None:
    end = dry_bore_end_pa_abs(z, outlet, mixer)
    if end > 0:
        assert pytest.approx(0.0, abs=1e-6) == diffuser_balance(end, outlet, z, 0.0, mixer).residual_pa


@given(P, Z, GAS, MIXER)
def test_highest_bore_end_any_case_is_not_below_the_root(outlet: float, z: float, gas: float, mixer: Mixer) -> None:
    top = highest_bore_end_pa_abs(outlet, z, gas, mixer)
    assert diffuser_balance(top, outlet, z, gas, mixer).residual_pa <= 1e-6
