import fluids
import pytest

from sanitize.laws.injector import two_phase

BORE_M, LENGTH_M, WATER_KGM3, PRESSURE = 0.02664, 1.0, 999.7, 108e3
AIR_KGM3 = 1.2041 * PRESSURE / 101_325.0


def _library(water_lpm: float, air_lpm: float, method: str) -> float:
    """Friction over that of the water alone, by a correlation of the library; air at 1 atm and 20 degC."""
    water, air = WATER_KGM3 * water_lpm / 60e3, 1.2041 * air_lpm / 60e3
    alone = fluids.one_phase_dP(water, WATER_KGM3, 1.306e-3, BORE_M, 1.5e-6, LENGTH_M)
    both = fluids.two_phase_dP(
        water + air, air / (water + air), WATER_KGM3, BORE_M, LENGTH_M, AIR_KGM3, 1.306e-3, 1.78e-5,
        0.0742, PRESSURE, 0.0, 1.5e-6, Method=method,
    )  # fmt: skip
    return both / alone


@pytest.mark.parametrize(("water_lpm", "air_lpm"), [(40, 1), (40, 4), (40, 10), (25, 5)])
def test_multiplier_stands_between_the_rival_correlations(water_lpm: float, air_lpm: float) -> None:
    gas = 101_325.0 * air_lpm / water_lpm
    ours = two_phase.two_phase_multiplier(gas, PRESSURE)
    # Within 4 % of one correlation, below the one that is taken as the upper end.
    assert _library(water_lpm, air_lpm, "Muller_Steinhagen_Heck") == pytest.approx(ours, rel=0.04)
    assert ours < _library(water_lpm, air_lpm, "Friedel")


def test_void_ratio_equals_the_independent_library() -> None:
    gas = 101_325.0 * 4 / 40
    quality = 1.2041 * 4 / (1.2041 * 4 + WATER_KGM3 * 40)
    expected = fluids.two_phase_voidage.homogeneous(quality, WATER_KGM3, AIR_KGM3)
    assert expected == pytest.approx(two_phase.void_ratio(gas, PRESSURE), rel=1e-9)


def test_mixture_density_weightless_gas_thins_the_water() -> None:
    """By hand: one part gas to four parts water weighs four fifths."""
    assert pytest.approx(800.0) == two_phase.mixture_density_kgm3(1000.0, 25e3, 100e3)
    assert pytest.approx(0.25) == two_phase.gas_ratio(25e3, 100e3)
