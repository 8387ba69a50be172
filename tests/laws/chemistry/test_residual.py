"""A residual under decay and use: against an integrator, and its inverse."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sanitize.laws.chemistry.residual import days_between, residual_after_mgl


@pytest.mark.parametrize(
    ("start", "decay", "use", "days"), [(3.0, 0.24, 0.5, 2.0), (5.0, 1.2, 0.0, 1.0), (2.0, 0.1, 1.0, 1.5)]
)
def test_residual_is_that_of_an_integrator(start: float, decay: float, use: float, days: float) -> None:
    found = solve_ivp(lambda _, c: -decay * c - use, (0.0, days), [start], rtol=1e-10, atol=1e-12).y[0, -1]
    assert found == pytest.approx(float(residual_after_mgl(start, decay, use, days)), rel=1e-7)


def test_residual_used_up_stays_at_nothing() -> None:
    assert [0.0, 0.0] == residual_after_mgl(1.0, 0.2, 5.0, np.array([1.0, 9.0])).tolist()


@given(
    st.floats(0.5, 10.0), st.floats(0.05, 0.95), st.floats(0.01, 3.0), st.floats(0.0, 5.0)
)  # fmt: skip
def test_days_between_is_the_inverse(high: float, share: float, decay: float, use: float) -> None:
    days = days_between(high, share * high, decay, use)
    assert share * high == pytest.approx(float(residual_after_mgl(high, decay, use, days)), rel=1e-6)


def test_half_life_is_the_textbook_one() -> None:
    """ln 2 over k."""
    assert np.log(2.0) / 0.24 == pytest.approx(float(days_between(4.0, 2.0, 0.24, 0.0)))
    assert np.inf == float(days_between(4.0, 0.0, 0.24, 0.0))


def test_levels_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(ValueError, match="falls from the high level"):
        days_between(1.0, 2.0, 0.2, 0.0)
    with pytest.raises(ValueError, match="above 0"):
        residual_after_mgl(1.0, 0.0, 0.0, 1.0)
