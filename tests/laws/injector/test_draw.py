import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sanitize.laws.injector.draw import GasDraw, gas_draw_at, gas_pressure_per_flow
from sanitize.laws.injector.energy import available_pa_diff, most_gas_pa
from sanitize.laws.injector.gas_line import GasLine, line_flow_m3s, port_supply
from sanitize.laws.injector.geometry import nozzle_drop_coefficient, throat_dynamic_pressure
from sanitize.laws.injector.mixing import Mixer
from sanitize.laws.injector.port import port_pressure_with_gas

ATM, PV, RHO, THROAT = 101_325.0, 1228.0, 999.7, 5e-5
MIXER = Mixer(0.8, 0.05, 0.15, 1.0, 0.15)
LINE = GasLine(ATM, 1.2041, 1.81e-5, 1.8, 4e-3, 0.0, 0.0, 500.0, 2 / 60e3, 2.0, 1.5e3, 5e-6)
FLOW = st.floats(0.5e-4, 1e-3)
P2 = st.floats(75e3, 140e3)
MIXERS = st.builds(
    Mixer,
    st.floats(0.4, 1.0),
    st.floats(0.02, 0.1),
    st.floats(0.05, 0.5),
    st.floats(0.0, 2.0),
    st.floats(0.02, 0.3),
)
LINES = st.builds(
    GasLine,
    st.floats(80e3, 103e3),
    st.just(1.2),
    st.just(1.81e-5),
    st.floats(0.2, 5.0),
    st.floats(1.5e-3, 6e-3),
    st.floats(0.0, 5.0),
    st.one_of(st.just(0.0), st.floats(1e10, 1e13)),
    st.floats(0.0, 2e3),
    st.just(2 / 60e3),
    st.just(2.0),
    st.floats(0.0, 5e3),
    st.one_of(st.just(np.inf), st.floats(3e-7, 1e-5)),
)


def _draw(flow: float, p2: float, mixer: Mixer = MIXER, line: GasLine = LINE) -> GasDraw:
    return gas_draw_at(flow, p2, THROAT, RHO, 10.0, PV, mixer, line)


@given(FLOW, P2, MIXERS, LINES)
def test_draw_any_case_is_none_exactly_where_the_dry_port_is_not_low_enough(
    flow: float, p2: float, mixer: Mixer, line: GasLine
) -> None:
    z = throat_dynamic_pressure(flow, THROAT, RHO)
    dry = port_pressure_with_gas(z, 0.0, p2, mixer, PV).pa_abs
    draw = _draw(flow, p2, mixer, line)
    assert (dry < line.atmosphere_pa_abs - line.cracking_pa_diff) == (draw.gas_flow_m3s > 0.0)
    if draw.gas_flow_m3s == 0.0:
        assert dry == draw.port_pa_abs


@given(FLOW, P2, MIXERS, LINES)
def test_draw_any_case_line_and_injector_agree_on_the_port(flow: float, p2: float, mixer: Mixer, line: GasLine) -> None:
    draw = _draw(flow, p2, mixer, line)
    assert np.isfinite([float(x) for x in draw]).all()
    assert draw.port_pa_abs >= PV
    if draw.gas_flow_m3s > 0.0:
        offered = port_supply(draw.gas_flow_m3s, line).pa_abs
        if draw.is_line_choked:
            assert draw.port_pa_abs < offered
            assert draw.gas_flow_m3s == pytest.approx(line_flow_m3s(draw.port_pa_abs, line), rel=1e-6)
        else:
            assert offered == pytest.approx(draw.port_pa_abs, abs=0.05)
    gas = gas_pressure_per_flow(flow, 10.0, line.atmosphere_pa_abs) * draw.gas_flow_m3s
    assert gas == pytest.approx(draw.gas_pa, rel=1e-12)


@given(FLOW, P2, MIXERS, LINES, st.floats(10.0, 5e3))
def test_draw_higher_outlet_pressure_draws_no_more(
    flow: float, p2: float, mixer: Mixer, line: GasLine, more: float
) -> None:
    assert _draw(flow, p2 + more, mixer, line).gas_flow_m3s <= _draw(flow, p2, mixer, line).gas_flow_m3s * (1 + 1e-9)


@given(FLOW, P2, MIXERS, LINES, st.floats(1.0, 2e3), st.floats(1.05, 3.0))
def test_draw_stiffer_valve_or_longer_line_draws_less(
    flow: float, p2: float, mixer: Mixer, line: GasLine, pc: float, times: float
) -> None:
    now = _draw(flow, p2, mixer, line)
    assume(now.gas_flow_m3s > 1e-9)
    stiffer = line._replace(cracking_pa_diff=line.cracking_pa_diff + pc)
    longer = line._replace(tube_length_m=line.tube_length_m * times)
    assert _draw(flow, p2, mixer, stiffer).gas_flow_m3s < now.gas_flow_m3s
    assert _draw(flow, p2, mixer, longer).gas_flow_m3s < now.gas_flow_m3s * (1 + 1e-9)


@given(FLOW, P2, MIXERS, LINES)
def test_draw_any_case_stays_below_the_energy_bound(flow: float, p2: float, mixer: Mixer, line: GasLine) -> None:
    """In totals; below 20 kPa absolute the model is not used."""
    draw = _draw(flow, p2, mixer, line)
    assume(20e3 < draw.port_pa_abs < p2)
    z = throat_dynamic_pressure(flow, THROAT, RHO)
    inlet = draw.port_pa_abs + nozzle_drop_coefficient(0.96, 0.15) * z
    pays = available_pa_diff(inlet, p2, z, draw.gas_pa, 0.15, mixer.throat_to_outlet_ratio)
    assert draw.gas_pa <= most_gas_pa(draw.port_pa_abs, p2, pays)


@given(FLOW, P2, MIXERS, LINES)
def test_draw_open_port_needs_more_inlet_pressure_than_a_blocked_one(
    flow: float, p2: float, mixer: Mixer, line: GasLine
) -> None:
    draw = _draw(flow, p2, mixer, line)
    assume(draw.gas_flow_m3s > 1e-9)
    assume(not draw.is_at_vapour_pressure)
    blocked = port_pressure_with_gas(throat_dynamic_pressure(flow, THROAT, RHO), 0.0, p2, mixer, PV)
    assert draw.port_pa_abs > blocked.pa_abs


def test_draw_through_onset_is_continuous() -> None:
    low, high = 1e-4, 1e-3
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if _draw(middle, 108e3).gas_flow_m3s > 0.0 else (middle, high)
    flows = high * (1 + np.array([1e-8, 1e-6, 1e-4, 1e-2]))
    drawn = gas_draw_at(flows, 108e3, THROAT, RHO, 10.0, PV, MIXER, LINE).gas_flow_m3s
    assert drawn[0] < 1e-3 * drawn[-1]
    assert (np.diff(drawn) > 0.0).all()
    assert _draw(low, 108e3).gas_flow_m3s == 0.0


def test_draw_choked_plain_bore_falls_with_the_water_flow() -> None:
    """By hand: G = po^2/(8 Z) for a plain bore without friction, here with a line that hardly resists."""
    mixer = Mixer(1.0, 0.0, 0.3, 0.0, 0.2)
    line = LINE._replace(tube_length_m=0.05, tube_bore_m=0.03, unit_drop_pa_diff=0.0, hole_m2=np.inf)
    flow = np.array([6e-4, 7e-4, 8e-4])
    draw = gas_draw_at(flow, 90e3, THROAT, RHO, 10.0, PV, mixer, line)
    assert draw.is_choked.all()
    z = throat_dynamic_pressure(flow, THROAT, RHO)
    assert (ATM - 1.5e3) ** 2 / (8 * z) == pytest.approx(draw.gas_pa, rel=1e-3)
    assert (np.diff(draw.gas_pa) < 0.0).all()


def test_draw_throttled_line_with_cavitating_throat_stops_at_the_vapour_pressure() -> None:
    line = LINE._replace(valve_pa_s2m6=1e15)
    draw = _draw(1e-3, 100e3, MIXER, line)
    assert draw.is_at_vapour_pressure
    assert draw.port_pa_abs == PV
    assert line_flow_m3s(PV, line) == pytest.approx(draw.gas_flow_m3s, rel=1e-9)


def test_draw_no_water_flow_has_neither_suction_nor_gaps() -> None:
    still = _draw(0.0, 108e3)
    assert (0.0, 0.0, 108e3) == (still.gas_flow_m3s, still.gas_pa, still.port_pa_abs)


def test_draw_no_water_flow_below_atmosphere_lets_in_what_the_line_passes() -> None:
    still = _draw(0.0, 90e3)
    assert line_flow_m3s(90e3, LINE) == pytest.approx(still.gas_flow_m3s, rel=1e-12)
    slow = _draw(1e-8, 90e3)
    assert still.gas_flow_m3s == pytest.approx(slow.gas_flow_m3s, rel=1e-3)


def test_draw_negative_flow_is_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        _draw(-1e-4, 108e3)


def test_draw_higher_place_leaves_the_gauge_onset_and_lowers_the_gas() -> None:
    """Same gauge pressure at the outlet at sea level and at 2000 m; the dry drop does not know the air."""
    flow = np.linspace(2e-4, 8e-4, 200)
    sea, high = (
        gas_draw_at(
            flow, air + 5e3, THROAT, RHO, 10.0, PV, MIXER,
            LINE._replace(atmosphere_pa_abs=air, density_kgm3=1.2041 * air / ATM),
        )
        for air in (ATM, 79.5e3)
    )  # fmt: skip
    assert ((sea.gas_flow_m3s > 0) == (high.gas_flow_m3s > 0)).all()
    drawing = sea.gas_flow_m3s > 0
    assert (high.gas_pa[drawing] < sea.gas_pa[drawing]).all()


def test_draw_array_equals_scalars_one_by_one() -> None:
    flow = np.array([0.0, 2e-4, 4e-4, 6e-4, 9e-4])
    together = gas_draw_at(flow, 100e3, THROAT, RHO, 10.0, PV, MIXER, LINE)
    for i, one in enumerate(flow):
        alone = _draw(float(one), 100e3)
        assert [float(x) for x in alone] == pytest.approx([float(x[i]) for x in together], rel=1e-10)


def test_gas_pressure_per_flow_warm_water_swells_the_gas() -> None:
    """By hand: 10 degC against 40 degC, 313.15/283.15."""
    assert 313.15 / 283.15 == pytest.approx(
        gas_pressure_per_flow(5e-4, 40.0, ATM) / gas_pressure_per_flow(5e-4, 10.0, ATM), rel=1e-12
    )


def test_gas_pressure_per_flow_water_at_20_degrees_keeps_the_stated_volume() -> None:
    """By hand: 2 L/min of gas to 40 L/min of water is a twentieth of the atmospheric pressure."""
    per_flow = gas_pressure_per_flow(40 / 60e3, 20.0, ATM)
    assert ATM / 20 == pytest.approx(per_flow * 2 / 60e3, rel=1e-12)
