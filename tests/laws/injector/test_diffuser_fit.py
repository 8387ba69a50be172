import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sanitize.laws.injector import geometry as g
from sanitize.laws.injector.diffuser_fit import SMALLEST_DIFFUSER_LOSS, diffuser_for_recovery

CD = st.floats(0.85, 0.995)
B = st.floats(0.25, 1.0)
KM = st.floats(0.0, 0.3)
KD = st.floats(0.02, 0.8)
R = st.floats(0.01, 0.24)


@given(CD, B, KM, KD, R)
def test_diffuser_for_recovery_round_trip_returns_the_diffuser(
    cd: float, b: float, km: float, kd: float, r: float
) -> None:
    assume(kd > 0.0201)
    drop = g.nozzle_drop_coefficient(cd, 0.1)
    xi = g.loss_ratio(drop, g.recovery_coefficient(b, km, kd, r))
    fit = diffuser_for_recovery(g.recovery_from_loss_ratio(drop, xi), b, km, r)
    assert fit.is_feasible
    assert (kd, b) == pytest.approx((fit.diffuser_loss, fit.throat_to_bore_ratio), rel=1e-9)


@given(st.floats(-0.5, 1.1), B, KM, R)
def test_diffuser_for_recovery_anywhere_is_finite_and_meets_the_recovery_where_feasible(
    kappa: float, b: float, km: float, r: float
) -> None:
    fit = diffuser_for_recovery(kappa, b, km, r)
    assert np.isfinite(fit.diffuser_loss)
    assert SMALLEST_DIFFUSER_LOSS <= fit.diffuser_loss
    assert b <= fit.throat_to_bore_ratio <= 1.0
    if fit.is_feasible:
        found = g.recovery_coefficient(fit.throat_to_bore_ratio, km, fit.diffuser_loss, r)
        assert kappa == pytest.approx(found, abs=1e-9)
    else:
        best = g.recovery_coefficient(np.linspace(b, 1.0, 400), km, SMALLEST_DIFFUSER_LOSS, r)
        assert kappa > np.max(best) - 1e-6


def test_diffuser_for_recovery_bore_wider_than_outlet_is_not_feasible() -> None:
    assert not diffuser_for_recovery(0.3, 0.4, 0.05, 0.4).is_feasible
    assert diffuser_for_recovery(0.3, 0.4, 0.05, 0.39).is_feasible


def test_diffuser_for_recovery_array_equals_scalars_one_by_one() -> None:
    kappa = np.array([0.2, 0.7, 0.9, 0.95, 1.2])
    together = diffuser_for_recovery(kappa, 0.8, 0.05, 0.1)
    for i, one in enumerate(kappa):
        alone = diffuser_for_recovery(float(one), 0.8, 0.05, 0.1)
        assert tuple(alone) == tuple(column[i] for column in together)
