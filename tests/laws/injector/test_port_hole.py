import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import port_hole

ATM, RHO = 101_325.0, 101_325.0 / (287.05 * 293.15)


def test_hole_flow_choked_equals_the_textbook_mass_flow_of_air() -> None:
    """Compressible-flow texts: choked air passes 0.0404 A p0/sqrt(T0) kg/s (SI)."""
    flow = port_hole.hole_flow(ATM, 20e3, 1e-6, ATM, RHO).flow_m3s
    assert 0.0404 * 1e-6 * ATM / np.sqrt(293.15) == pytest.approx(flow * RHO, rel=1.3e-3)  # half a last digit
    assert 11.92 == pytest.approx(flow * 60e3, abs=0.005)


def test_hole_flow_critical_ratio_of_a_diatomic_gas_is_0_528() -> None:
    assert 0.528 == pytest.approx(port_hole.CRITICAL_HOLE_RATIO, abs=0.0005)
    at, below = (
        port_hole.hole_flow(ATM, x * port_hole.CRITICAL_HOLE_RATIO * ATM, 1e-6, ATM, RHO).flow_m3s for x in (1.0, 0.2)
    )
    assert at == pytest.approx(below, rel=1e-12)


def test_hole_flow_small_drop_is_the_incompressible_orifice() -> None:
    """By hand: q = S sqrt(2 dp/rho)."""
    assert 2e-6 * np.sqrt(2 * 50.0 / RHO) == pytest.approx(
        port_hole.hole_flow(ATM, ATM - 50.0, 2e-6, ATM, RHO).flow_m3s, rel=5e-4
    )


def test_hole_flow_port_not_below_is_none() -> None:
    for port in (ATM, 1.2 * ATM):
        flow = port_hole.hole_flow(ATM, port, 2e-6, ATM, RHO)
        assert flow.flow_m3s == 0.0
        assert np.isfinite(flow.per_upstream_m3s_pa)


@given(st.floats(60e3, 102e3), st.floats(0.05, 0.9999), st.floats(1e-7, 2e-5))
def test_hole_flow_slope_equals_difference(upstream: float, ratio: float, hole: float) -> None:
    port = ratio * upstream
    step = 0.01 * (upstream - port)
    up, down = (port_hole.hole_flow(upstream + s, port, hole, ATM, RHO).flow_m3s for s in (step, -step))
    slope = port_hole.hole_flow(upstream, port, hole, ATM, RHO).per_upstream_m3s_pa
    assert (up - down) / (2 * step) == pytest.approx(slope, rel=2e-2)


@given(st.floats(60e3, 102e3), st.floats(0.5283, 1.0), st.floats(1e-7, 2e-5))
def test_hole_outlet_round_trip_returns_the_port(upstream: float, ratio: float, hole: float) -> None:
    flow = port_hole.hole_flow(upstream, ratio * upstream, hole, ATM, RHO).flow_m3s
    outlet = port_hole.hole_outlet(upstream, flow, hole, ATM, RHO)
    # At the choke the pressure hangs on the flow by a square root of its rounding.
    assert ratio == pytest.approx(outlet.pa_abs / upstream, abs=1e-7)


@given(st.floats(60e3, 102e3), st.floats(0.0, 0.98), st.floats(1e-7, 2e-5))
def test_hole_outlet_slopes_equal_differences(upstream: float, share: float, hole: float) -> None:
    flow = share * port_hole.hole_flow(upstream, 0.0, hole, ATM, RHO).flow_m3s
    here = port_hole.hole_outlet(upstream, flow, hole, ATM, RHO)
    step = 1e-4 * upstream
    up, down = (port_hole.hole_outlet(upstream + s, flow, hole, ATM, RHO).pa_abs for s in (step, -step))
    assert (up - down) / (2 * step) == pytest.approx(here.per_upstream, rel=1e-3)
    step = 1e-4 * port_hole.hole_flow(upstream, 0.0, hole, ATM, RHO).flow_m3s
    up, down = (port_hole.hole_outlet(upstream, abs(flow + s), hole, ATM, RHO).pa_abs for s in (step, -step))
    assert up - down == pytest.approx(2 * step * here.per_flow_pa_sm3, rel=1e-3, abs=2e-2)


def test_hole_outlet_more_than_choked_flow_is_marked() -> None:
    most = port_hole.hole_flow(ATM, 0.0, 1e-6, ATM, RHO).flow_m3s
    assert port_hole.hole_outlet(ATM, 0.999 * most, 1e-6, ATM, RHO).is_passable
    beyond = port_hole.hole_outlet(ATM, 1.001 * most, 1e-6, ATM, RHO)
    assert not beyond.is_passable
    assert port_hole.CRITICAL_HOLE_RATIO * ATM == pytest.approx(beyond.pa_abs, rel=1e-9)
    assert not port_hole.hole_outlet(-5e3, 1e-6, 1e-6, ATM, RHO).is_passable


def test_hole_outlet_without_hole_is_the_pressure_before() -> None:
    outlet = port_hole.hole_outlet(90e3, 1e-4, np.inf, ATM, RHO)
    assert (90e3, 1.0) == (outlet.pa_abs, outlet.per_upstream)
    assert outlet.per_flow_pa_sm3 == 0.0
