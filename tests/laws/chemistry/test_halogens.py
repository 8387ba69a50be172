"""Free chlorine and bromine, alone and with cyanuric acid: published values, rival formula, limits, properties."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.laws.chemistry.cyanurate import hypochlorous_moll, pk_cyanuric
from sanitize.laws.chemistry.halogens import (
    acid_share_ratio,
    bromine_of_chlorine_mgl,
    peroxide_for_chlorine_mgl,
    pk_hypochlorous,
    strength_left_ratio,
)

Rows = Callable[[str], list[dict[str, str]]]
CL2, H3CY = 70906.0, 129074.0


def test_hypochlorous_pk_agrees_with_the_treatment_model() -> None:
    """A water treatment model of the US EPA: K = exp(13800/8.31441 (1/293.15 - 1/T) - 17.500); fits of other data."""
    t = np.linspace(2.0, 38.0, 19)
    rival = -np.log10(np.exp(13800.0 / 8.31441 * (1.0 / 293.15 - 1.0 / (t + 273.15)) - 17.500))
    assert rival == pytest.approx(pk_hypochlorous(t), abs=0.035)


def test_acid_share_is_half_at_its_pk_and_a_tenth_one_above() -> None:
    assert 0.5 == pytest.approx(float(acid_share_ratio(8.65, 8.65)))
    assert 1.0 / 11.0 == pytest.approx(float(acid_share_ratio(9.65, 8.65)))


def test_bromine_is_2_25_times_the_chlorine() -> None:
    """New Hampshire Env-Ws 1102.01(b) prints 2.25."""
    assert 2.25 == pytest.approx(float(bromine_of_chlorine_mgl(1.0)), abs=0.005)


def test_peroxide_takes_its_moles_of_chlorine() -> None:
    """H2O2 34.01, Cl2 70.91."""
    assert 34.01 / 70.91 == pytest.approx(float(peroxide_for_chlorine_mgl(1.0)), abs=1e-4)


def test_strength_halves_and_halves() -> None:
    assert [1.0, 0.5, 0.25] == strength_left_ratio([0.0, 7.0, 14.0], 7.0).tolist()


def test_free_of_cyanurate_is_what_was_published(check_rows: Rows) -> None:
    """Within 0.03: their model has further species, and pK7a carries +- 0.059. Dichlor brings 0.910 of the acid."""
    for row in check_rows("free_of_cyanurate"):
        chlorine, ph, t = (float(row[name]) for name in ("chlorine_mgl", "ph", "temperature_c"))
        acid = hypochlorous_moll(chlorine / CL2, 0.910 * chlorine / H3CY, ph, t)
        free = CL2 * float(acid / acid_share_ratio(ph, pk_hypochlorous(t)))
        assert float(row["free_mgl"]) == pytest.approx(free, abs=0.03)


def test_without_cyanuric_acid_it_is_the_plain_share() -> None:
    expected = 2.0 * float(acid_share_ratio(7.5, pk_hypochlorous(10.0)))
    assert expected == pytest.approx(CL2 * float(hypochlorous_moll(2.0 / CL2, 0.0, 7.5, 10.0)), rel=1e-9)


@settings(max_examples=60)
@given(st.floats(0.05, 10.0), st.floats(0.0, 150.0), st.floats(6.5, 8.5), st.floats(2.0, 40.0))
def test_chlorine_and_cyanuric_acid_are_all_accounted_for(chlorine: float, acid: float, ph: float, t: float) -> None:
    """Every species by its own constant from the answer, added up again."""
    x = float(hypochlorous_moll(chlorine / CL2, acid / H3CY, ph, t))
    kelvin = t + 273.15
    k7, k9 = 10.0 ** -(2028.0 / kelvin - 2.15), 10.0 ** -(2229.0 / kelvin - 1.65)
    weights = np.array([1.0, 10.0 ** (float(pk_cyanuric(t)) - ph), x / k9, x * x / (k9 * k7)])
    species = acid / H3CY * weights / weights.sum()
    hypochlorite = x * 10.0 ** (ph - float(pk_hypochlorous(t)))
    assert chlorine / CL2 == pytest.approx(x + hypochlorite + species[2] + 2.0 * species[3], rel=1e-9)


@settings(max_examples=40)
@given(st.floats(0.2, 8.0), st.floats(10.0, 40.0), st.floats(6.8, 8.2), st.floats(2.0, 36.0))
def test_more_cyanuric_acid_and_more_cold_leave_less(chlorine: float, fold: float, ph: float, t: float) -> None:
    """With ten times as much of the acid or more, whose hold on chlorine outweighs the share by pH."""

    def left(times: float, warmth: float) -> float:
        return float(hypochlorous_moll(chlorine / CL2, times * chlorine / H3CY, ph, warmth))

    assert left(1.2 * fold, t) < left(fold, t) < left(fold, t + 2.0)


@pytest.mark.parametrize(
    "call", [lambda: hypochlorous_moll(-1.0, 0.0, 7.0, 20.0), lambda: strength_left_ratio(1.0, 0.0)]
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        call()
