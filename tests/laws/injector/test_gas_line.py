import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector.gas_line import GasLine, line_drop, line_flow_m3s, port_supply

ATM = 101_325.0
LINE = GasLine(ATM, 1.2041, 1.81e-5, 1.8, 4e-3, 2.0, 1e10, 500.0, 2 / 60e3, 1.5, 1.5e3, 5e-6)
FREE = GasLine(ATM, 1.2041, 1.81e-5, 0.0, 4e-3, 0.0, 0.0, 0.0, 2 / 60e3, 2.0, 0.0, np.inf)
LINES = st.builds(
    GasLine,
    st.floats(75e3, 103e3),
    st.floats(0.9, 1.3),
    st.just(1.81e-5),
    st.floats(0.1, 10.0),
    st.floats(1e-3, 1e-2),
    st.floats(0.0, 10.0),
    st.one_of(st.just(0.0), st.floats(1e9, 1e13)),
    st.one_of(st.just(0.0), st.floats(10.0, 5e3)),
    st.just(2 / 60e3),
    st.floats(1.0, 2.0),
    st.floats(0.0, 7e3),
    st.one_of(st.just(np.inf), st.floats(1e-7, 1e-5)),
)


def test_line_drop_is_the_sum_of_its_parts() -> None:
    """By hand: the unit at its rated flow takes its rated drop, the valve k q^2."""
    flow = 2 / 60e3
    only_tube = line_drop(flow, LINE._replace(valve_pa_s2m6=0.0, unit_drop_pa_diff=0.0)).pa_diff
    assert only_tube + 500.0 + 1e10 * flow**2 == pytest.approx(line_drop(flow, LINE).pa_diff, rel=1e-12)


def test_port_supply_without_flow_is_the_atmosphere_less_the_check_valve() -> None:
    still = port_supply(0.0, LINE)
    assert pytest.approx(ATM - 1.5e3, rel=1e-15) == still.pa_abs
    assert np.isfinite(still.slope_pa_sm3)


@given(LINES, st.floats(2e3, 110e3))
def test_line_flow_any_line_round_trip_returns_the_port(line: GasLine, port: float) -> None:
    flow = line_flow_m3s(port, line)
    lack = line.atmosphere_pa_abs - line.cracking_pa_diff - port
    if lack <= 0.0:
        assert flow == 0.0
        return
    supply = port_supply(flow, line)
    tolerance = max(1e-6 * port, 0.02)
    # Where the hole is choked the port may stand lower than it.
    assert supply.pa_abs >= port - tolerance
    is_choked = np.isfinite(line.hole_m2) and not port_supply(flow * (1 + 1e-6), line).is_passable
    assert is_choked or port == pytest.approx(supply.pa_abs, abs=tolerance)


@given(LINES, st.floats(2e3, 90e3), st.floats(0.01, 0.95))
def test_port_supply_slope_equals_difference_and_falls(line: GasLine, port: float, share: float) -> None:
    flow = share * line_flow_m3s(port, line)
    step = 1e-5 * flow
    here, up = port_supply(flow, line), port_supply(flow + step, line)
    if flow > 0.0:
        steep, flat = sorted((here.slope_pa_sm3, up.slope_pa_sm3))
        assert steep * (1 + 1e-2) - 1.0 <= (up.pa_abs - here.pa_abs) / step <= flat * (1 - 1e-2) + 1.0


@given(LINES, st.floats(2e3, 90e3), st.floats(1.01, 5.0))
def test_line_flow_longer_line_passes_less(line: GasLine, port: float, times: float) -> None:
    longer = line._replace(tube_length_m=line.tube_length_m * times)
    assert line_flow_m3s(port, longer) <= line_flow_m3s(port, line)


def test_line_flow_nothing_in_the_way_is_unlimited() -> None:
    assert line_flow_m3s(90e3, FREE) == np.inf
    assert line_flow_m3s(ATM, FREE) == 0.0


def test_line_flow_only_a_hole_is_the_choked_flow() -> None:
    """Ideal-gas nozzle flow: 11.92 L/min per mm2 at 20 degC."""
    assert 11.92 == pytest.approx(line_flow_m3s(30e3, FREE._replace(hole_m2=1e-6)) * 60e3, abs=0.005)


def test_line_flow_only_a_tube_is_the_laminar_flow() -> None:
    """By hand: pi d^4 dp/(128 mu L)."""
    line = FREE._replace(tube_length_m=2.0)
    assert np.pi * 4e-3**4 * 50.0 / (128 * 1.81e-5 * 2.0) == pytest.approx(line_flow_m3s(ATM - 50.0, line), rel=1e-9)


def test_line_flow_array_equals_scalars_one_by_one() -> None:
    port = np.array([20e3, 70e3, 99e3, 105e3])
    together = line_flow_m3s(port, LINE)
    assert [line_flow_m3s(float(p), LINE) for p in port] == pytest.approx(together.tolist(), rel=1e-12)
