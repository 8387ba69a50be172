import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sanitize.laws.injector import onset
from sanitize.laws.injector.dry import inlet_pressure, port_pressure_dry

ATM = 101_325.0
XI = st.floats(0.05, 0.9)
K = st.floats(-1e12, 1e12)


@given(XI, st.floats(1e3, 200e3), st.floats(0.0, 7e3))
def test_required_differential_any_injector_puts_the_port_at_the_opening_pressure(
    xi: float, p1g: float, pc: float
) -> None:
    differential = onset.required_differential_pa_diff(xi, p1g, pc)
    assert -pc == pytest.approx(p1g - differential / xi, abs=1e-6)
    limit = onset.outlet_pressure_limit_pa_gauge(xi, p1g, pc)
    assert p1g - differential == pytest.approx(limit, abs=1e-6)


@given(st.floats(1e3, 80e3), st.floats(95e3, 160e3), st.floats(0.2, 0.95), st.floats(0.96, 1.2))
def test_required_differential_agrees_with_the_port_pressure(z: float, p2: float, kappa: float, drop: float) -> None:
    pc = 1.5e3
    port = port_pressure_dry(p2, z, kappa, 0.0)
    inlet = inlet_pressure(port, z, drop)
    xi = 1 - kappa / drop
    assume(abs(port - ATM + pc) > 1.0)
    needed = onset.required_differential_pa_diff(xi, inlet - ATM, pc)
    assert bool(onset.draws_dry(port, ATM, pc)) == bool(inlet - p2 > needed)


def test_rule_of_thumb_is_the_required_differential_of_a_loss_ratio_of_one_fifth() -> None:
    assert onset.rule_of_thumb_differential_pa_diff(50e3) == pytest.approx(
        onset.required_differential_pa_diff(0.20, 50e3, 0.0), rel=1e-12
    )


@given(st.floats(-50e3, 50e3), K, K, st.floats(1e-6, 5e-3))
def test_flow_window_any_case_holds_exactly_the_flows_that_draw(s: float, k2: float, k_dn: float, flow: float) -> None:
    window = onset.flow_window(s, k2, k_dn)
    margin = (k2 - k_dn) * flow**2 - s
    assume(abs(margin) > 1e-9 * (abs(s) + abs(k2 - k_dn) * flow**2))
    assert (margin > 0.0) == bool(window.onset_m3s < flow < window.stops_m3s)


@pytest.mark.parametrize(
    ("s", "k2", "k_dn", "expected"),
    [
        (8e3, 3e11, 1e11, (2e-4, np.inf)),
        (8e3, 1e11, 1e11, (np.inf, np.inf)),
        (8e3, 1e11, 3e11, (np.inf, np.inf)),
        (0.0, 3e11, 1e11, (0.0, np.inf)),
        (0.0, 1e11, 1e11, (np.inf, np.inf)),
        (0.0, 1e11, 3e11, (np.inf, np.inf)),
        (-8e3, 3e11, 1e11, (0.0, np.inf)),
        (-8e3, 1e11, 1e11, (0.0, np.inf)),
        (-8e3, 1e11, 3e11, (0.0, 2e-4)),
    ],
)
def test_flow_window_each_sign_gives_its_case(s: float, k2: float, k_dn: float, expected: tuple[float, float]) -> None:
    assert expected == pytest.approx(tuple(onset.flow_window(s, k2, k_dn)), rel=1e-12)


def test_flow_window_array_equals_scalars_one_by_one() -> None:
    s = np.array([8e3, 0.0, -8e3, -8e3])
    k2 = np.array([3e11, 1e11, 1e11, 3e11])
    together = onset.flow_window(s, k2, 2e11)
    for i in range(4):
        alone = onset.flow_window(float(s[i]), float(k2[i]), 2e11)
        assert tuple(alone) == (together.onset_m3s[i], together.stops_m3s[i])
