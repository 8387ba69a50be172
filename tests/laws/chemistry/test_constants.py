"""Equilibrium constants: values printed at 25 degC, and rival formulas from 0 to 45 degC."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.laws.chemistry import constants
from sanitize.laws.chemistry.activity import debye_hueckel_slope, ionic_strength_moll, log_activity_coefficient
from sanitize.laws.chemistry.cyanurate import pk_cyanuric

Rows = Callable[[str], list[dict[str, str]]]
T = np.linspace(0.0, 45.0, 46)
K = T + 273.15
OURS = {
    "calcite": constants.log_calcite,
    "calcium carbonate pair": constants.log_calcium_carbonate_pair,
    "calcium bicarbonate pair": constants.log_calcium_bicarbonate_pair,
    "sodium bicarbonate pair": constants.log_sodium_bicarbonate_pair,
    "sodium carbonate pair": constants.log_sodium_carbonate_pair,
    "cyanuric": lambda t: -pk_cyanuric(t),
}


def test_constants_at_25_degc_are_those_printed(check_rows: Rows) -> None:
    """Half of the last printed digit."""
    rows = check_rows("chemistry_constants")
    assert set(OURS) == {row["constant"] for row in rows}
    for row in rows:
        half = 0.5 * 10.0 ** -len(row["log10"].partition(".")[2])
        assert float(row["log10"]) == pytest.approx(float(OURS[row["constant"]](25.0)), abs=half), row["constant"]


def test_k1_agrees_with_harned_and_davis_1943() -> None:
    """log K1 = 14.8435 - 3404.71/T - 0.032786 T, 0 to 50 degC; two fits of different data."""
    assert 14.8435 - 3404.71 / K - 0.032786 * K == pytest.approx(constants.log_k1(T), abs=0.004)


def test_k2_agrees_with_harned_and_scholes_1941() -> None:
    """log K2 = 6.4980 - 2902.39/T - 0.02379 T; two fits of different data."""
    assert 6.4980 - 2902.39 / K - 0.02379 * K == pytest.approx(constants.log_k2(T), abs=0.004)


def test_kw_agrees_with_stumm_and_morgan() -> None:
    """log Kw = 6.0875 - 4470.99/T - 0.01706 T; two fits of different data."""
    assert 6.0875 - 4470.99 / K - 0.01706 * K == pytest.approx(constants.log_kw(T), abs=0.005)


def test_kh_at_25_degc_is_the_usual_0_034() -> None:
    """0.034 mol/(L atm), a figure of every handbook (from memory)."""
    assert 0.034 == pytest.approx(10.0 ** float(constants.log_kh(25.0)), abs=0.0005)


def test_calcium_bicarbonate_is_that_of_the_data_file() -> None:
    """phreeqc.dat has it from carbonate: 1317.0071 + 0.34546894 T ..., less the constant of bicarbonate.

    Within 2e-4: the abstract's coefficients are rounded.
    """
    from_carbonate = 1317.0071 + 0.34546894 * K - 39916.84 / K - 517.70761 * np.log10(K) + 563713.9 / K**2
    assert from_carbonate == pytest.approx(constants.log_calcium_bicarbonate_pair(T) - constants.log_k2(T), abs=2e-4)


def test_davies_by_hand() -> None:
    """I = 0.1 at 25 degC: root 0.31623, 0.31623/1.31623 - 0.03 = 0.21025; times 0.5115 and 1 or 4."""
    assert -0.5115 * 0.21025 == pytest.approx(float(log_activity_coefficient(1, 0.1, 25.0)), abs=1e-4)
    assert -4.0 * 0.5115 * 0.21025 == pytest.approx(float(log_activity_coefficient(-2, 0.1, 25.0)), abs=4e-4)
    assert 0.01 == pytest.approx(float(log_activity_coefficient(0, 0.1, 25.0)))


def test_slope_at_25_degc_is_the_usual_0_51() -> None:
    """0.509 on molality, 0.5115 on concentration (from memory)."""
    assert 0.51 == pytest.approx(float(debye_hueckel_slope(25.0)), abs=0.005)


@pytest.mark.parametrize(
    "call",
    [
        lambda: constants.log_k1(-0.1),
        lambda: constants.log_kw(45.1),
        lambda: ionic_strength_moll(-1.0),
        lambda: log_activity_coefficient(1, 0.6, 20.0),
    ],
)
def test_what_lies_outside_is_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"between|0 or more"):
        call()
