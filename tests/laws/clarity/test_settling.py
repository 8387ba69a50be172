"""Stokes' law in the jar: against the drag curve of a library, limits, and cases by hand."""

import pytest
from fluids.drag import v_terminal
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws import water
from sanitize.laws.clarity.settling import (
    STOKES_REYNOLDS,
    crossing_time_s,
    particle_reynolds,
    settling_velocity_ms,
)

DENSITY, VISCOSITY = 999.97, 1.5182e-3


@pytest.mark.parametrize(("diameter_m", "density"), [(1e-6, 1080.0), (5e-6, 2710.0), (1e-5, 2650.0), (5e-5, 2650.0)])
def test_settling_against_a_drag_curve_agrees(diameter_m: float, density: float) -> None:
    """Barati's drag curve lies within 3 % of 24/Re at these Reynolds numbers, all below 0.05."""
    rival = v_terminal(D=diameter_m, rhop=density, rho=DENSITY, mu=VISCOSITY, Method="Barati")
    assert rival == pytest.approx(float(settling_velocity_ms(diameter_m, density, DENSITY, VISCOSITY)), rel=0.03)


def test_settling_clay_in_5_degc_by_hand() -> None:
    """9.80665 (2e-6)^2 1650.03 / (18 1.5182e-3) = 2.3685e-6 m/s; 0.1 m in 42221 s, 11.7 h."""
    velocity = settling_velocity_ms(2e-6, 2650.0, DENSITY, VISCOSITY)
    assert 2.3685e-6 == pytest.approx(float(velocity), rel=1e-4)
    assert 11.7 == pytest.approx(float(crossing_time_s(0.1, velocity)) / 3600.0, abs=0.05)


def test_settling_bubble_of_20_um_in_5_degc_rises_within_12_minutes() -> None:
    """9.80665 (2e-5)^2 998.7 / (18 1.5182e-3) = 1.4336e-4 m/s upward, 0.1 m in 698 s."""
    velocity = settling_velocity_ms(2e-5, 1.27, water.density_kgm3(5.0), water.viscosity_pas(5.0))
    assert velocity < 0.0
    assert 698.0 == pytest.approx(float(crossing_time_s(0.1, velocity)), rel=0.003)


def test_settling_of_equal_density_never_clears() -> None:
    assert float("inf") == float(crossing_time_s(0.1, settling_velocity_ms(1e-5, 1000.0, 1000.0, 1e-3)))


def test_reynolds_of_sand_stays_in_stokes_range_and_of_gravel_does_not() -> None:
    for diameter, inside in ((5e-5, True), (1e-3, False)):
        velocity = settling_velocity_ms(diameter, 2650.0, DENSITY, VISCOSITY)
        assert inside == (float(particle_reynolds(diameter, velocity, DENSITY, VISCOSITY)) < STOKES_REYNOLDS)


@given(st.floats(1e-7, 1e-4), st.floats(0.0, 5000.0))
def test_settling_goes_with_the_square_of_the_diameter(diameter: float, density: float) -> None:
    once, twice = (float(settling_velocity_ms(d, density, 998.0, 1e-3)) for d in (diameter, 2.0 * diameter))
    assert 4.0 * once == pytest.approx(twice)


def test_settling_of_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="must be above 0"):
        settling_velocity_ms(0.0, 2650.0, 1000.0, 1e-3)
    with pytest.raises(ValueError, match="height"):
        crossing_time_s(0.0, 1.0)
    with pytest.raises(ValueError, match="viscosity"):
        particle_reynolds(1e-6, 1.0, 1000.0, 0.0)
