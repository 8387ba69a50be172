import numpy as np
import pytest
from scipy.integrate import quad

from sanitize.laws.injector import energy
from sanitize.laws.injector.geometry import total_loss_coefficient


def test_available_without_gas_is_the_dry_total_loss() -> None:
    b, km, kd, drop, ratio, r, z = 0.8, 0.05, 0.15, 1.04, 0.2, 0.15, 50e3
    kappa = 2 * b - b**2 * (1 + km + kd) - r**2
    inlet, outlet = 110e3 + (drop - kappa) * z, 110e3
    expected = total_loss_coefficient(drop, ratio, b, km, kd) * z
    assert expected == pytest.approx(energy.available_pa_diff(inlet, outlet, z, 0.0, ratio, r), rel=1e-9)


def test_efficiency_is_the_isothermal_work_over_what_is_paid() -> None:
    """Work by numerical integration of p dV at constant p V = G."""
    work, _ = quad(lambda p: 12e3 / p, 95e3, 115e3)
    assert work / 18e3 == pytest.approx(energy.efficiency_ratio(12e3, 95e3, 115e3, 18e3), rel=1e-9)


def test_most_gas_is_carried_at_an_efficiency_of_one() -> None:
    most = energy.most_gas_pa(95e3, 115e3, 18e3)
    assert pytest.approx(1.0, rel=1e-12) == energy.efficiency_ratio(most, 95e3, 115e3, 18e3)


def test_bound_at_its_edges_is_finite_or_stated() -> None:
    assert energy.most_gas_pa(115e3, 95e3, 18e3) == np.inf
    assert energy.most_gas_pa(95e3, 115e3, -1.0) == 0.0
    assert energy.efficiency_ratio(12e3, 95e3, 115e3, 0.0) == np.inf
    assert energy.efficiency_ratio(0.0, 95e3, 115e3, 0.0) == 0.0


def test_available_with_as_much_gas_as_water_keeps_four_outlet_velocity_heads() -> None:
    """By hand: phi_2 = 1 doubles the outlet velocity; heads of 0.04 Z in and 0.01 Z out."""
    pays = energy.available_pa_diff(130e3, 110e3, 50e3, 110e3, 0.2, 0.1)
    assert 20e3 + 50e3 * (0.04 - 4 * 0.01) == pytest.approx(pays, rel=1e-12)
