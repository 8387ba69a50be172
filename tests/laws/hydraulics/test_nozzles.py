import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.nozzles import equivalent_bore_m, jet_velocity_ms, nozzle_loss_coefficient


@given(st.floats(0.2, 0.95), st.floats(0.6, 1.0))
def test_nozzle_loss_gives_back_the_flow_of_the_orifice_equation(ratio: float, discharge: float) -> None:
    """Q = Cd A sqrt(2 dp / (rho (1 - b^4))) with dp the static drop: total loss less the pipe's velocity head."""
    pipe_m, velocity, density = 0.04, 1.3, 1000.0
    total = float(nozzle_loss_coefficient(ratio, discharge)) * density * velocity**2 / 2.0
    static = total - density * velocity**2 / 2.0
    area = math.pi * (ratio * pipe_m) ** 2 / 4.0
    flow = discharge * area * math.sqrt(2.0 * static / (density * (1.0 - ratio**4)))
    assert velocity * math.pi * pipe_m**2 / 4.0 == pytest.approx(flow, rel=1e-9)


def test_nozzle_loss_agrees_with_a_librarys_orifice_equation() -> None:
    """The library solves the ISO form for the flow at a given drop; Cd 0.62 and no expansion for water."""
    from fluids.flow_meter import flow_meter_discharge

    pipe_m, ratio, discharge, density, velocity = 0.04, 0.6, 0.62, 998.0, 1.1
    static = (float(nozzle_loss_coefficient(ratio, discharge)) - 1.0) * density * velocity**2 / 2.0
    mass = flow_meter_discharge(
        D=pipe_m, Do=ratio * pipe_m, P1=2e5 + static, P2=2e5, rho=density, C=discharge, expansibility=1.0
    )
    assert mass / density == pytest.approx(velocity * math.pi * pipe_m**2 / 4.0, rel=1e-9)


def test_nozzle_as_wide_as_the_pipe_is_a_plain_exit() -> None:
    assert nozzle_loss_coefficient(1.0, [0.62, 0.95]).tolist() == [1.0, 1.0]


def test_ideal_nozzle_loses_the_velocity_head_of_its_jet() -> None:
    assert float(nozzle_loss_coefficient(0.5, 1.0)) == pytest.approx(16.0)


@pytest.mark.parametrize("ratio", [0.0, 1.01])
def test_nozzle_ratio_out_of_span_is_refused(ratio: float) -> None:
    with pytest.raises(ValueError, match="opening"):
        nozzle_loss_coefficient(ratio, 0.8)


def test_jet_velocity_by_continuity() -> None:
    area = math.pi * 0.01**2 / 4.0
    assert jet_velocity_ms([3.0 * area, 0.62 * area], 0.01, [1.0, 0.62]).tolist() == pytest.approx([3.0, 1.0])
    assert float(jet_velocity_ms(3.0 * area, 0.01)) == pytest.approx(3.0)


@given(st.floats(0.003, 0.02), st.integers(1, 9))
def test_equivalent_bore_of_equal_jets_carries_their_flow_at_their_speed(bore_m: float, count: int) -> None:
    together = equivalent_bore_m([bore_m] * count)
    assert float(jet_velocity_ms(1e-3 / count, bore_m)) == pytest.approx(float(jet_velocity_ms(1e-3, together)))
