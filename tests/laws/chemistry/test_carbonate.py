"""Carbonate with its pairs against PHREEQC, its exact limits, and what must hold for every water."""

import itertools
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.laws.chemistry.carbonate import Water, alkalinity_moll, carbon_moll, ph_of, species
from sanitize.laws.chemistry.constants import log_k1, log_k2, log_kw
from sanitize.laws.chemistry.saturation import calcite_index

PH_NEAR, SI_NEAR = 0.02, 0.03
TEMPERATURES = (2.0, 5.0, 15.0, 25.0, 40.0)
RECIPES = [
    {"NaHCO3": alkalinity, "CaCl2": calcium, "CO2": gas, **more}
    for alkalinity, calcium, gas, more in itertools.product(
        (0.4, 1.6, 4.0), (0.2, 1.5, 4.0), (0.03, 0.3), ({}, {"HCl": 0.2}, {"NaOH": 0.2}, {"Na2CO3": 0.1})
    )
]


def ours(recipes: list[dict[str, float]], temperature_c: float) -> tuple[Any, Any]:
    """pH and index of recipes [mmol/L], with the ionic strength of their own species."""

    def total(*names: str) -> Any:
        return np.array([1e-3 * sum(recipe.get(name, 0.0) for name in names) for recipe in recipes])

    soda = ("Na2CO3", "Na2CO3")
    alkalinity = total("NaHCO3", "NaOH", *soda) - total("HCl", "NaHSO4")
    carbon = total("NaHCO3", "Na2CO3", "CO2")
    sodium, calcium = total("NaHCO3", "NaOH", "NaHSO4", *soda), total("CaCl2")
    others = total("CaCl2", "CaCl2", "HCl") + 4.0 * total("NaHSO4")
    water, ph = Water(calcium, sodium, 0.5 * (others + sodium + 4.0 * calcium + carbon), temperature_c), carbon
    for _ in range(4):
        ph = ph_of(alkalinity, carbon, water)
        found = species(ph, carbon, water)
        single = found.bicarbonate + found.sodium + found.calcium_bicarbonate + found.sodium_carbonate
        double = found.carbonate + found.calcium
        water = water._replace(ionic_strength_moll=0.5 * (others + single + 4.0 * double))
    return ph, calcite_index(ph, carbon, water)


@pytest.mark.parametrize("temperature_c", TEMPERATURES)
def test_grid_of_waters_agrees_with_phreeqc(temperature_c: float, phreeqc: Callable[..., Any]) -> None:
    """pH within 0.02 and saturation index within 0.03: other activity coefficients, and pairs that are left out."""
    theirs = [phreeqc(recipe, temperature_c) for recipe in RECIPES]
    ph, index = ours(RECIPES, temperature_c)
    assert [one.pH for one in theirs] == pytest.approx(ph, abs=PH_NEAR)
    assert [one.si("Calcite") for one in theirs] == pytest.approx(index, abs=SI_NEAR)


def test_strong_acid_and_bisulfate_agree_with_phreeqc(phreeqc: Callable[..., Any]) -> None:
    base = {"NaHCO3": 1.6, "CaCl2": 1.5, "CO2": 0.1}
    recipes = [base | {"HCl": 1.0}, base | {"NaHSO4": 0.2}]
    theirs = [phreeqc(recipe, 10.0) for recipe in recipes]
    ph, index = ours(recipes, 10.0)
    assert [one.pH for one in theirs] == pytest.approx(ph, abs=PH_NEAR)
    assert [one.si("Calcite") for one in theirs] == pytest.approx(index, abs=SI_NEAR)


def test_species_agree_with_phreeqc(phreeqc: Callable[..., Any]) -> None:
    """Within 1 %, the small ones within 3 %: other activity coefficients."""
    theirs = phreeqc({"NaHCO3": 3.0, "CaCl2": 3.0, "CO2": 0.03}, 15.0)
    found = species(theirs.pH, 3.03e-3, Water(3.0e-3, 3.0e-3, theirs.I, 15.0))
    for name, value, near in (
        ("CO2", found.carbon_dioxide, 0.03), ("HCO3-", found.bicarbonate, 0.01), ("CO3-2", found.carbonate, 0.03),
        ("Ca+2", found.calcium, 0.01), ("CaCO3", found.calcium_carbonate, 0.03),
        ("CaHCO3+", found.calcium_bicarbonate, 0.03), ("NaHCO3", found.sodium_bicarbonate, 0.03),
    ):  # fmt: skip
        assert theirs.species[name] == pytest.approx(float(value), rel=near), name


def test_without_ions_it_is_the_textbook_sum() -> None:
    """Alk = CT (a1 + 2 a2) + OH - H with the fractions of a two-proton acid, no activities, no pairs."""
    h, k1, k2, kw = 10.0**-7.4, *(10.0 ** float(log(10.0)) for log in (log_k1, log_k2, log_kw))
    below = h * h + k1 * h + k1 * k2
    expected = 2e-3 * (k1 * h + 2.0 * k1 * k2) / below + kw / h - h
    assert expected == pytest.approx(float(alkalinity_moll(7.4, 2e-3, Water(0.0, 0.0, 0.0, 10.0))), rel=1e-9)


def test_weak_acid_without_carbon_is_its_own_equation() -> None:
    """Half of an acid neutralised at pH = pK, but for water's own ions: [A-] = c/2."""
    kw = 10.0 ** float(log_kw(25.0))
    expected = 0.5e-3 + kw / 1e-7 - 1e-7
    water = Water(0.0, 0.0, 0.0, 25.0, ((1e-3, 7.0),))
    assert expected == pytest.approx(float(alkalinity_moll(7.0, 0.0, water)), rel=1e-9)
    assert 7.0 == pytest.approx(float(ph_of(expected, 0.0, water)), abs=1e-9)


WATERS = st.tuples(
    st.floats(2.0, 40.0), st.floats(0.0, 5e-3), st.floats(0.0, 5e-3), st.floats(0.0, 0.05), st.floats(0.0, 5e-4)
)


def _water(drawn: tuple[float, ...]) -> Water:
    t, calcium, sodium, strength, acid = drawn
    return Water(calcium, sodium, strength, t, ((acid, 7.2),))


@settings(max_examples=60)
@given(WATERS, st.floats(6.0, 9.5), st.floats(1e-4, 8e-3))
def test_carbon_and_ph_and_alkalinity_close_the_circle(drawn: tuple[float, ...], ph: float, carbon: float) -> None:
    water = _water(drawn)
    alkalinity = alkalinity_moll(ph, carbon, water)
    assert ph == pytest.approx(float(ph_of(alkalinity, carbon, water)), abs=1e-8)
    assert carbon == pytest.approx(float(carbon_moll(ph, alkalinity, water)), rel=1e-6)


@settings(max_examples=60)
@given(WATERS, st.floats(6.0, 9.5), st.floats(1e-4, 8e-3), st.floats(1e-5, 1e-3))
def test_more_acid_gives_a_lower_ph(drawn: tuple[float, ...], ph: float, carbon: float, acid: float) -> None:
    water = _water(drawn)
    alkalinity = float(alkalinity_moll(ph, carbon, water))
    assert float(ph_of(alkalinity - acid, carbon, water)) < ph


@settings(max_examples=60)
@given(WATERS, st.floats(4.5, 10.5), st.floats(1e-4, 8e-3))
def test_species_add_up_to_their_totals(drawn: tuple[float, ...], ph: float, carbon: float) -> None:
    water = _water(drawn)
    found = species(ph, carbon, water)
    paired = found.calcium_carbonate + found.calcium_bicarbonate
    with_sodium = found.sodium_carbonate + found.sodium_bicarbonate
    single = found.carbon_dioxide + found.bicarbonate + found.carbonate
    assert carbon == pytest.approx(float(single + paired + with_sodium), rel=1e-9)
    assert drawn[1] == pytest.approx(float(found.calcium + paired), rel=1e-9, abs=1e-15)
    assert drawn[2] == pytest.approx(float(found.sodium + with_sodium), rel=1e-9, abs=1e-15)


def test_arrays_are_their_numbers_one_by_one() -> None:
    alkalinity, t = np.array([0.6e-3, 1.6e-3, 2.4e-3]), np.array([[5.0], [25.0]])
    many = ph_of(alkalinity, 1.9e-3, Water(1e-3, 1e-3, 5e-3, t))
    assert (2, 3) == many.shape
    one_by_one = [[float(ph_of(a, 1.9e-3, Water(1e-3, 1e-3, 5e-3, c))) for a in alkalinity] for c in t[:, 0]]
    assert many == pytest.approx(np.array(one_by_one), abs=1e-12)


@pytest.mark.parametrize(
    "call",
    [
        lambda: carbon_moll(7.4, 1e-4, Water(0.0, 0.0, 0.0, 10.0, ((1e-3, 6.9),))),
        lambda: carbon_moll(1.0, 1e-3, Water(0.0, 0.0, 0.0, 10.0)),
        lambda: alkalinity_moll(7.0, -1e-3, Water(0.0, 0.0, 0.0, 10.0)),
        lambda: ph_of(-0.1, 1e-3, Water(0.0, 0.0, 0.0, 10.0)),
    ],
)
def test_waters_that_cannot_be_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"hold more|between|0 or more|outside"):
        call()
