import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.local_loss import local_loss, low_reynolds_addition, small_reynolds_loss

DENSITY_KGM3 = 999.7
VISCOSITY_PAS = 1.3059e-3
BORE_M = 0.02624
AREA_M2 = np.pi * BORE_M**2 / 4.0
FLOW_AT_RE_1E4_M3S = 1e4 * VISCOSITY_PAS / (DENSITY_KGM3 * BORE_M) * AREA_M2


def test_local_loss_of_one_velocity_head_per_hand_is_half_rho_v_squared() -> None:
    # 2 m/s in any bore: 1000 x 4 / 2 Pa.
    loss, _ = local_loss(2.0 * AREA_M2, 1.0, BORE_M, 1000.0)
    assert float(loss) == pytest.approx(2000.0, rel=1e-12)


def test_local_loss_reversed_flow_is_odd_with_equal_slope() -> None:
    forward, backward = local_loss(3e-4, 0.7, BORE_M, 1000.0), local_loss(-3e-4, 0.7, BORE_M, 1000.0)
    assert -forward[0] == backward[0]
    assert forward[1] == backward[1]


@given(st.floats(-1e-3, 1e-3), st.floats(-1.0, 20.0))
def test_local_loss_slope_equals_finite_difference(flow_m3s: float, k: float) -> None:
    step = 1e-9
    above, below = (local_loss(flow_m3s + sign * step, k, BORE_M, 1000.0)[0] for sign in (1.0, -1.0))
    slope = local_loss(flow_m3s, k, BORE_M, 1000.0)[1]
    assert float((above - below) / (2.0 * step)) == pytest.approx(float(slope), rel=1e-5, abs=5.0 * abs(k) + 0.1)


def test_local_loss_shut_valve_is_refused() -> None:
    with pytest.raises(ValueError, match="finite"):
        local_loss([0.0, 1e-4], [1.0, np.inf], BORE_M, 1000.0)


def test_local_loss_arrays_equal_scalars_one_by_one() -> None:
    flows, ks = np.array([-2e-4, 0.0, 5e-4]), np.array([[0.5], [3.0]])
    loss, slope = local_loss(flows, ks, BORE_M, DENSITY_KGM3)
    one_by_one = [[local_loss(q, k[0], BORE_M, DENSITY_KGM3) for q in flows] for k in ks]
    np.testing.assert_array_equal(np.array([[float(pair[0]) for pair in row] for row in one_by_one]), loss)
    np.testing.assert_array_equal(np.array([[float(pair[1]) for pair in row] for row in one_by_one]), slope)


def test_low_reynolds_addition_equals_two_constant_method_less_its_value_at_1e4() -> None:
    """Hooper's K1/Re with K1 = 800 by an independent library: the difference of two Reynolds numbers is ours."""
    from fluids.fittings import Hooper2K

    def hooper(re: float) -> float:
        return float(Hooper2K(Di=1.0, Re=re, K1=800.0, Kinfty=0.4))

    for re in (300.0, 2500.0, 9000.0):
        assert hooper(re) - hooper(1e4) == pytest.approx(float(low_reynolds_addition(re)), rel=1e-9)


def test_low_reynolds_addition_from_1e4_up_is_zero_and_at_rest_infinite() -> None:
    assert low_reynolds_addition([0.0, 1e4, 3e5]).tolist() == [np.inf, 0.0, 0.0]


def test_low_reynolds_addition_negative_is_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        low_reynolds_addition(-1.0)


@given(st.floats(1.0, 9999.0), st.integers(1, 9))
def test_small_reynolds_loss_is_the_addition_times_velocity_head(re: float, count: int) -> None:
    flow = FLOW_AT_RE_1E4_M3S * re / 1e4
    loss, _ = small_reynolds_loss(flow, count, BORE_M, DENSITY_KGM3, VISCOSITY_PAS)
    expected, _ = local_loss(flow, count * low_reynolds_addition(re), BORE_M, DENSITY_KGM3)
    assert float(expected) == pytest.approx(float(loss), rel=1e-9)


def test_small_reynolds_loss_at_rest_has_the_viscous_slope() -> None:
    # 800/Re x rho V^2/2 = 400 mu V / D; per flow 400 mu / (D A).
    loss, slope = small_reynolds_loss(0.0, 1.0, BORE_M, DENSITY_KGM3, VISCOSITY_PAS)
    assert float(loss) == 0.0
    assert float(slope) == pytest.approx(400.0 * VISCOSITY_PAS / (BORE_M * AREA_M2), rel=1e-12)


def test_small_reynolds_loss_at_1e4_is_continuous() -> None:
    near = FLOW_AT_RE_1E4_M3S * np.array([1.0 - 1e-9, 1.0 + 1e-9])
    loss, slope = small_reynolds_loss(near, 5.0, BORE_M, DENSITY_KGM3, VISCOSITY_PAS)
    assert float(loss[0]) == pytest.approx(float(loss[1]), abs=1e-6)
    assert float(loss[1]) == 0.0
    assert float(slope[1]) == 0.0


@given(st.floats(-1.5, 1.5), st.sampled_from([0.04, 0.1, 0.7]))
def test_small_reynolds_loss_with_a_coefficient_rises_everywhere_and_slope_is_its_derivative(
    share: float, k: float
) -> None:
    def total(flow: float) -> tuple[float, float]:
        quadratic = local_loss(flow, k, BORE_M, DENSITY_KGM3)
        viscous = small_reynolds_loss(flow, 1.0, BORE_M, DENSITY_KGM3, VISCOSITY_PAS)
        return float(quadratic[0] + viscous[0]), float(quadratic[1] + viscous[1])

    flow = share * FLOW_AT_RE_1E4_M3S
    step = 1e-6 * FLOW_AT_RE_1E4_M3S
    (below, _), (_, slope), (above, _) = total(flow - step), total(flow), total(flow + step)
    assert above > below
    if min(abs(abs(share) - 1.0), abs(share)) > 1e-5:
        assert (above - below) / (2.0 * step) == pytest.approx(slope, rel=1e-4, abs=1.0)


def test_small_reynolds_loss_reversed_flow_is_odd() -> None:
    loss, slope = small_reynolds_loss([-2e-5, 2e-5], 3.0, BORE_M, DENSITY_KGM3, VISCOSITY_PAS)
    assert -loss[0] == loss[1]
    assert slope[0] == slope[1]
