import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import dry
from sanitize.laws.injector.geometry import loss_ratio, nozzle_drop_coefficient, recovery_coefficient

Z = st.floats(0.0, 400e3)
P2 = st.floats(60e3, 250e3)
KAPPA = st.floats(-0.3, 0.95)
PV = 1228.0


@given(P2, Z, KAPPA)
def test_port_pressure_dry_any_case_never_below_vapour_and_linear_above(p2: float, z: float, kappa: float) -> None:
    port = dry.port_pressure_dry(p2, z, kappa, PV)
    assert port >= PV
    if dry.is_cavitating_dry(p2, z, kappa, PV):
        assert PV == port
    else:
        assert p2 - kappa * z == port


def test_port_pressure_dry_zero_flow_stands_at_the_outlet() -> None:
    assert 108e3 == dry.port_pressure_dry(108e3, 0.0, 0.8, PV)


@given(P2, Z, KAPPA, st.floats(0.9, 1.3))
def test_inlet_pressure_round_trip_returns_the_port(p2: float, z: float, kappa: float, drop: float) -> None:
    port = dry.port_pressure_dry(p2, z, kappa, PV)
    inlet = dry.inlet_pressure(port, z, drop)
    assert port == pytest.approx(dry.port_pressure_from_inlet(inlet, z, drop), abs=1e-6)


def test_minimum_pressure_is_linear_in_the_differential() -> None:
    """Sun and Niu 2012: minimum pressure linear in the drop over the injector; here po = p1 - dp/xi."""
    z = np.linspace(10e3, 60e3, 6)
    kappa, drop = 0.8, 1.05
    port = dry.port_pressure_dry(100e3, z, kappa, PV)
    differential = dry.inlet_pressure(port, z, drop) - 100e3
    slope = np.diff(port) / np.diff(differential)
    assert np.full(5, -kappa / (drop - kappa)) == pytest.approx(slope, rel=1e-9)


def test_critical_ratio_measured_venturi_is_met_by_its_own_loss_ratio_and_nearly_by_the_defaults() -> None:
    """Ahn, Kang and Kim 2021: 0.74, whatever the inlet pressure and the tail."""
    drop = nozzle_drop_coefficient(0.96, 0.15)
    default = loss_ratio(drop, recovery_coefficient(0.8, 0.05, 0.15, 0.15))
    for inlet in (200e3, 400e3, 800e3):
        assert 0.74 == pytest.approx(dry.critical_pressure_ratio(0.26, inlet, PV), abs=0.005)
        # The defaults are not fitted to that device.
        assert 0.74 == pytest.approx(dry.critical_pressure_ratio(default, inlet, PV), abs=0.03)


@given(st.floats(120e3, 800e3), st.floats(0.1, 0.8), st.floats(0.9, 1.2))
def test_choked_flow_at_the_critical_ratio_meets_the_unchoked_flow(p1: float, xi: float, drop: float) -> None:
    p2 = p1 * dry.critical_pressure_ratio(xi, p1, PV)
    flow = dry.choked_flow_m3s(p1, PV, 5e-5, 1000.0, drop)
    z = 0.5 * 1000.0 * (flow / 5e-5) ** 2
    assert PV == pytest.approx(p2 - drop * (1 - xi) * z, abs=1e-4)
    assert p1 == pytest.approx(dry.inlet_pressure(PV, z, drop), rel=1e-12)


def test_choked_flow_inlet_at_vapour_pressure_is_zero() -> None:
    assert 0.0 == dry.choked_flow_m3s(PV, PV, 5e-5, 1000.0, 1.0)
    assert 0.0 == dry.choked_flow_m3s(0.5 * PV, PV, 5e-5, 1000.0, 1.0)


def test_dead_head_vacuum_pressure_at_port_is_negative() -> None:
    assert -4e3 == dry.dead_head_vacuum_pa_diff(105e3, 101e3)
