import pytest

from sanitize.laws.injector.gauge import pressure_in_own_bore_pa


def test_pressure_in_own_bore_wider_gauge_reads_higher() -> None:
    """By hand: 1 m/s at the gauge, 2 m/s in the bore, rho/2 (1 - 4) = -1.5 kPa."""
    assert 48.5e3 == pytest.approx(pressure_in_own_bore_pa(50e3, 5e-4, 5e-4, 2.5e-4, 1000.0), abs=1e-6)
