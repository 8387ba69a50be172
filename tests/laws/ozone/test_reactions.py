"""Ozone with other oxidants, through the surface, and against what bathers bring."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.basis.tables import model_table
from sanitize.laws.ozone.oxidant_balance import (
    chlorine_left_to_carry_g_per_day,
    oxidant_need_g_per_day,
    undersized_ratio,
)
from sanitize.laws.ozone.reactions import (
    BROMINE_PER_OZONE,
    CHLORINE_PER_OZONE,
    PEROXIDE_PER_OZONE,
    bromide_rate_per_min,
    hypobromite_rate_per_min,
    hypochlorite_rate_per_min,
    peroxide_rate_per_min,
)
from sanitize.laws.ozone.surface import surface_loss_mg_per_h


def test_peroxide_leads_over_hydroxide_from_a_tenth_of_a_micromole_on() -> None:
    """Staehelin and Hoigne 1982, abstract: above 1e-7 mol/L the hydroperoxide ion dominates; twice at that place."""
    speed = model_table("ozone_water")[("peroxide_speed_l_per_mol_s",)].value
    by_hydroxide = 3.0 * 70.0 * 10.0 ** (7.0 - 14.0) * 60.0
    ratio = float(peroxide_rate_per_min(1e-7 * 34014.7, 7.0, speed)) / by_hydroxide
    assert 0.3 < ratio < 3.0


def test_peroxide_all_of_it_is_the_ion_far_above_its_pk() -> None:
    """1 mmol/L: 2 * 2.8e6 * 1e-3 = 5600 1/s."""
    assert 5600.0 * 60.0 == pytest.approx(float(peroxide_rate_per_min(34.0147, 18.0, 2.8e6)), rel=1e-5)


@pytest.mark.parametrize(
    ("rate", "one_mmol_mgl", "speed"),
    [
        (hypochlorite_rate_per_min, 70.906, 120.0),
        (hypobromite_rate_per_min, 159.808, 430.0),
        (bromide_rate_per_min, 79.904, 160.0),
    ],
)
def test_rate_of_one_millimole_is_its_constant(
    rate: Callable[[float, float], object], one_mmol_mgl: float, speed: float
) -> None:
    """By hand: k * 1e-3 mol/L * 60 s."""
    assert 0.06 * speed == pytest.approx(float(np.asarray(rate(one_mmol_mgl, speed))))


def test_oxidants_take_their_moles() -> None:
    """H2O2 34.01, O3 48.00, Cl2 70.91, Br2 159.81; two ozone for each peroxide, else one for one."""
    assert 34.01 / 96.0 == pytest.approx(PEROXIDE_PER_OZONE, rel=1e-3)
    assert [70.91 / 48.0, 159.81 / 48.0] == pytest.approx([CHLORINE_PER_OZONE, BROMINE_PER_OZONE], rel=1e-3)


def test_surface_is_at_rest_at_equilibrium() -> None:
    """0.05 mg/L with S = 0.4 stands against 125 mg/m3."""
    assert 0.0 == pytest.approx(float(surface_loss_mg_per_h(0.05, 125.0, 0.4, 1e-5, 0.5)), abs=1e-12)


def test_surface_film_is_a_published_transfer_time_over_an_assumed_depth() -> None:
    """Schmalz 2011, abstract: 5.8 d from still and 20 h from rough water, here with 2 m of depth."""
    table = model_table("ozone_water")
    assert 2.0 / (5.8 * 86400.0) == pytest.approx(table[("surface_film_still_ms",)].value, rel=0.01)
    assert 2.0 / (20.0 * 3600.0) == pytest.approx(table[("surface_film_moving_ms",)].high, rel=0.01)


def test_balance_one_bather_without_ozone_takes_its_chlorine() -> None:
    """1 g of ozone stands for 1.48 g of chlorine; 0.5 g supplied leave half of it."""
    need = oxidant_need_g_per_day(1.0, 1.0)
    assert [1.48, 0.74, 0.0] == pytest.approx(
        chlorine_left_to_carry_g_per_day(need, [0.0, 0.5, 2.0]).tolist(), abs=0.005
    )


@given(st.floats(0.01, 50.0), st.floats(0.1, 5.0), st.floats(0.001, 10.0))
def test_balance_is_undersized_where_the_other_sanitizer_must_carry(bathers: float, each: float, supply: float) -> None:
    need = oxidant_need_g_per_day(bathers, each)
    short = float(undersized_ratio(need, supply)) > 1.0
    assert short == (float(chlorine_left_to_carry_g_per_day(need, supply)) > 0.0)


def test_balance_nothing_needed_is_never_undersized() -> None:
    assert [0.0, 0.0, math.inf] == undersized_ratio([0.0, 0.0, 1.0], [0.0, 1.0, 0.0]).tolist()


@pytest.mark.parametrize(
    "call",
    [
        lambda: peroxide_rate_per_min(-1.0, 7.0, 2.8e6),
        lambda: hypochlorite_rate_per_min(1.0, -1.0),
        lambda: hypobromite_rate_per_min(-1.0, 430.0),
        lambda: bromide_rate_per_min(-1.0, 160.0),
        lambda: surface_loss_mg_per_h(0.1, 0.0, 0.4, 1e-5, -1.0),
        lambda: oxidant_need_g_per_day(-1.0, 1.0),
        lambda: undersized_ratio(1.0, -1.0),
        lambda: chlorine_left_to_carry_g_per_day(1.0, -1.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        call()
