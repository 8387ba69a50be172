import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.tee_shift import admissible_shift, dissipation, limited_shift

K = st.floats(-1.0, 3.0)
SHARE = st.floats(0.0, 1.0)


def test_dissipation_by_hand_is_the_mean_weighted_by_flow() -> None:
    assert float(dissipation(0.25, 1.0, 0.2)) == pytest.approx(0.4)


def test_admissible_shift_lossy_tee_has_the_whole_band() -> None:
    low, high = admissible_shift(0.5, 1.2, 0.4)
    assert (float(low), float(high)) == (-0.3, 0.3)


def test_admissible_shift_thrifty_tee_may_lose_no_less_than_nothing() -> None:
    low, high = admissible_shift(0.5, 0.3, -0.1)
    assert float(low) == pytest.approx(-0.1)
    assert float(high) == 0.3


def test_limited_shift_upwards_is_whole() -> None:
    assert limited_shift([0.01, 0.2], 0.5, 0.3, -0.1).tolist() == [0.01, 0.2]


def test_admissible_shift_of_coefficients_that_make_energy_has_no_downward_part() -> None:
    low, _ = admissible_shift(0.5, -0.3, 0.1)
    assert float(low) == 0.0


def test_limited_shift_keeps_its_rank_below_nominal() -> None:
    """Half way down a drawn shift is half way down the admissible one."""
    assert limited_shift([-0.3, -0.15, 0.0], 0.5, 0.3, -0.1).tolist() == pytest.approx([-0.1, -0.05, 0.0])


@given(SHARE, K, K, st.floats(-0.3, 0.3))
def test_limited_shift_stays_admissible(share: float, branch_k: float, run_k: float, shift: float) -> None:
    low, high = admissible_shift(share, branch_k, run_k)
    assert float(low) - 1e-12 <= float(limited_shift(shift, share, branch_k, run_k)) <= float(high)
