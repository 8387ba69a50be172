import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import bench
from sanitize.laws.injector.geometry import nozzle_drop_coefficient

FLOWS = np.array([3e-4, 4e-4, 5e-4, 6e-4])


@given(st.floats(0.85, 0.99), st.floats(-0.2, 0.95), st.floats(2e-5, 1.5e-4))
def test_constants_from_coefficients_round_trip_returns_throat_and_coefficients(
    cd: float, kappa: float, throat_m2: float
) -> None:
    inlet_m2 = 3.2e-4
    drop = nozzle_drop_coefficient(cd, throat_m2 / inlet_m2)
    constants = bench.constants_from_coefficients(drop, kappa, throat_m2, 999.7)
    known = bench.coefficients_from_constants(constants, throat_m2, inlet_m2, 999.7)
    assert (cd, drop, kappa) == pytest.approx(
        (known.discharge_coefficient, known.nozzle_drop, known.recovery), rel=1e-9, abs=1e-12
    )
    guessed = bench.coefficients_without_throat(constants, cd, inlet_m2, 999.7)
    assert (throat_m2, drop, kappa) == pytest.approx(
        (guessed.throat_m2, guessed.nozzle_drop, guessed.recovery), rel=1e-9, abs=1e-12
    )


def test_coefficients_from_constants_throat_as_wide_as_inlet_is_refused() -> None:
    with pytest.raises(ValueError, match="smaller than the inlet"):
        bench.coefficients_from_constants(bench.Constants(2e11, 1e11), 3e-4, 3e-4, 1000.0)


def test_constants_student_venturi_pair_gives_the_measured_coefficient() -> None:
    """Student test of a venturi: 25 L/min, +0.10 and -0.66 bar gauge, areas 2.1e-4 and 0.36e-4 m2; Cd 0.925."""
    flow = 25e-3 / 60
    constants = bench.constants_from_pair(76e3, flow, 0.0, flow)
    found = bench.coefficients_from_constants(constants, 0.36e-4, 2.1e-4, 997.5)
    assert 0.925 == pytest.approx(found.discharge_coefficient, abs=0.0015)  # areas printed to two figures


def test_constants_from_pair_without_flow_is_refused() -> None:
    with pytest.raises(ValueError, match="positive"):
        bench.constants_from_pair(76e3, 0.0, 60e3, 5e-4)


def test_constants_at_density_scale_with_it() -> None:
    constants = bench.constants_at_density(bench.Constants(2e11, 1e11), 998.2, 2 * 998.2)
    assert (4e11, 2e11) == pytest.approx(constants, rel=1e-12)
    assert bench.loss_ratio_from_constants(bench.Constants(2e11, 1e11)) == pytest.approx(
        bench.loss_ratio_from_constants(constants), rel=1e-12
    )


def test_fit_constants_hand_worked_rows_give_slope_and_error() -> None:
    """By hand with u = Q^2: u = 1, 2; dp1 = 1, 3 (x 1e5); k = 7/5, residuals -.4, .2, s^2 = .2, error .2."""
    flow = np.sqrt(np.array([1.0, 2.0]))
    port = np.full(2, 50e3)
    fit = bench.fit_constants(flow, port + np.array([1e5, 3e5]), port + np.array([0.5e5, 1.5e5]), port)
    assert 1.4e5 == pytest.approx(fit.constants.nozzle_pa_s2m6, rel=1e-12)
    assert 0.2e5 == pytest.approx(fit.nozzle_error_pa_s2m6, rel=1e-12)
    assert 0.1e5 == pytest.approx(fit.recovery_error_pa_s2m6, rel=1e-12)
    # The two drops are proportional, so their ratio is certain.
    assert (0.5, 0.0) == pytest.approx((fit.loss_ratio, fit.loss_ratio_error), abs=1e-8)


def test_fit_constants_low_port_rows_are_left_out() -> None:
    port = np.array([80e3, 60e3, 40e3, 15e3])
    inlet = port + 2e11 * FLOWS**2
    inlet[3] += 50e3
    fit = bench.fit_constants(FLOWS, inlet, port + 1.5e11 * FLOWS**2, port)
    assert [True, True, True, False] == fit.is_used.tolist()
    assert (2e11, 1.5e11) == pytest.approx(fit.constants, rel=1e-9)


def test_fit_constants_one_row_has_no_error_estimate() -> None:
    fit = bench.fit_constants(FLOWS[:1], np.array([98e3]), np.array([93.5e3]), np.array([80e3]))
    assert (2e11, 1.5e11) == pytest.approx(fit.constants, rel=1e-12)
    assert np.isinf([fit.nozzle_error_pa_s2m6, fit.recovery_error_pa_s2m6, fit.loss_ratio_error]).all()


def test_fit_constants_no_usable_row_is_refused() -> None:
    low = np.full(4, 10e3)
    with pytest.raises(ValueError, match="no test row"):
        bench.fit_constants(FLOWS, low, low, low)
    with pytest.raises(ValueError, match="one length"):
        bench.fit_constants(FLOWS, low, low[:3], low)


def test_fit_constants_gauge_noise_spreads_the_loss_ratio_as_its_error_says() -> None:
    """The errors cover what they claim: 400 tests with 1 kPa gauges, about 20 kPa over the nozzle."""
    rng = np.random.default_rng(5)
    found, claimed = [], []
    for _ in range(400):
        port = 90e3 - 1e10 * FLOWS**2
        noise = rng.normal(0.0, 1e3, (3, 4))
        fit = bench.fit_constants(
            FLOWS, port + 1e11 * FLOWS**2 + noise[0], port + 7.5e10 * FLOWS**2 + noise[1], port + noise[2]
        )
        found.append(fit.loss_ratio)
        claimed.append(fit.loss_ratio_error)
    assert 0.25 == pytest.approx(np.mean(found), abs=0.01)
    # Spread of a spread from 400 draws is 4 %; three degrees of freedom bias the claimed one by 8 %.
    assert np.std(found) == pytest.approx(np.sqrt(np.mean(np.square(claimed))), rel=0.15)
