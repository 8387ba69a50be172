"""How much of each product a plan takes, by hand and in PHREEQC."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.studies.dosing.products import ORDER
from sanitize.studies.dosing.result import Dosing
from tests.studies.dosing.shelf import ALL, HYPOCHLORITE, amount, total

Dosed = Callable[..., Dosing]


def test_chlorine_dose_by_hand(dosed: Dosed) -> None:
    """From 1 to 2.5 mg/L, half-way to the middle of 2 to 4, in 400 L: 600 mg, 4.8 mL with 125 g of chlorine a litre."""
    result = dosed(*ALL, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    assert 4.8 == pytest.approx(total(result, "sodium hypochlorite"), rel=1e-6)
    assert 2.5 == pytest.approx(result.after.free_chlorine_mgl.nominal, rel=1e-6)


@pytest.mark.parametrize(
    ("product", "expected"),
    [
        ('product = "sodium hypochlorite"\nstrength_percent = 12.5\nstrength_by = "weight"', 0.6 / 0.1393),
        ('product = "calcium hypochlorite"\nstrength_percent = 65', 0.6 / 0.65),
        ('product = "dichlor"\nstrength_percent = 56', 0.6 / 0.56),
    ],
)
def test_chlorine_dose_by_kind_and_strength(dosed: Dosed, product: str, expected: float) -> None:
    """0.6 g of chlorine; 12.5 % NaOCl by weight has 139 g in a litre: 0.125 x 1.17 x 70.906/74.442."""
    result = dosed(product, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    assert expected == pytest.approx(total(result, product.split('"')[1]), rel=1e-3)


def test_old_hypochlorite_is_dosed_higher_by_what_it_has_lost(dosed: Dosed) -> None:
    """A year at a half-life of a year: twice as much."""
    how = {"free_chlorine": '"1 mg/L"', "total_chlorine": '"1 mg/L"'}
    fresh, old = (dosed(HYPOCHLORITE + age, **how) for age in ("", '\nage = "365 days"'))
    assert 2.0 == pytest.approx(total(old, "sodium hypochlorite") / total(fresh, "sodium hypochlorite"), rel=1e-6)


def test_bicarbonate_dose_by_hand(dosed: Dosed) -> None:
    """From 40 to 70 mg/L in 400 L: 30 x 2 x 84.007/100.087 mg/L, 20.15 g; pH stays inside without an acid."""
    result = dosed(*ALL, total_alkalinity='"40 mg/L"', ph="7.2")
    assert 20.15 == pytest.approx(total(result, "sodium bicarbonate"), rel=0.002)
    assert 0.0 == total(result, "sodium bisulfate")


def test_calcium_dose_by_hand_and_only_where_something_needs_it(dosed: Dosed) -> None:
    """From 50 to 125 mg/L in 400 L: 75 x 110.984/100.087 / 0.77 mg/L, 43.2 g; a plastic lining needs none."""
    need = dosed(*ALL, calcium_hardness='"50 mg/L"', tub='lining = "tile"')
    spare = dosed(*ALL, calcium_hardness='"50 mg/L"', tub='lining = "acrylic"')
    assert 43.2 == pytest.approx(total(need, "calcium chloride"), rel=0.002)
    assert 0.0 == total(spare, "calcium chloride")
    copper = dosed(*ALL, calcium_hardness='"50 mg/L"', tub='lining = "acrylic"\nwetted_metals = ["copper"]')
    assert 43.2 == pytest.approx(total(copper, "calcium chloride"), rel=0.002)


def test_steps_end_where_phreeqc_ends(dosed: Dosed, phreeqc: Callable[..., Any]) -> None:
    """The planned bicarbonate and bisulfate, in PHREEQC, from a water made up to the same pH and alkalinity.

    Alkalinity 50 mg/L is 0.9991 mmol/L, calcium 150 mg/L 1.4987; the carbon dioxide that gives pH 7.9 is found there.
    """
    result = dosed(*ALL, ph="7.9", total_alkalinity='"50 mg/L"', free_chlorine='"0 mg/L"', total_chlorine='"0 mg/L"')
    salts = [step for step in result.steps if step.product in ("sodium bicarbonate", "sodium bisulfate")]
    low, high = 0.0, 0.2
    for _ in range(20):
        middle = 0.5 * (low + high)
        start = {"NaHCO3": 0.99913, "CaCl2": 1.49870, "CO2": middle}
        low, high = (middle, high) if phreeqc(start, 10.0).pH > 7.9 else (low, middle)
    recipe = dict(start)
    for step in salts:
        if step.product == "sodium bicarbonate":
            recipe["NaHCO3"] += amount(step) / 84.007 / 0.4
        else:
            recipe["NaHSO4"] = recipe.get("NaHSO4", 0.0) + 0.93 * amount(step) / 120.06 / 0.4
    assert {"NaHSO4"} <= set(recipe)
    assert phreeqc(recipe, 10.0).pH == pytest.approx(salts[-1].after.ph.nominal, abs=0.02)


@settings(max_examples=4, deadline=None)
@given(ph=st.floats(6.9, 8.3), alkalinity=st.floats(30.0, 95.0), chlorine=st.floats(0.0, 3.5))
def test_twice_the_volume_takes_twice_the_dose(dosed: Dosed, ph: float, alkalinity: float, chlorine: float) -> None:
    how = {"ph": f"{ph:.2f}", "total_alkalinity": f'"{alkalinity:.0f} mg/L"', "free_chlorine": f'"{chlorine:.1f} mg/L"',
           "total_chlorine": None}  # fmt: skip
    one, two = dosed(*ALL, **how), dosed(*ALL, volume="800 L", **how)
    for product in ORDER:
        assert 2.0 * total(one, product) == pytest.approx(total(two, product), rel=1e-6, abs=0.11)


def test_bromide_is_turned_into_bromine_by_an_oxidizer_mole_for_mole(dosed: Dosed) -> None:
    """From 2 to 4.5 mg/L of bromine in 400 L: 1000 mg, 6.257 mmol, 0.644 g of bromide and 3.55 mL of hypochlorite."""
    result = dosed('product = "sodium bromide"\nstrength_percent = 100', HYPOCHLORITE, uses="bromine",
                   bromine='"2 mg/L"', free_chlorine=None, total_chlorine=None)  # fmt: skip
    assert 4.5 == pytest.approx(result.after.bromine_mgl.nominal, rel=1e-6)
    assert (0.644, 3.55) == pytest.approx(
        (total(result, "sodium bromide"), total(result, "sodium hypochlorite")), rel=2e-3
    )
    assert 0.0 == result.after.free_chlorine_mgl.nominal


def test_peroxide_dose_by_hand(dosed: Dosed) -> None:
    """From 10 to 35 mg/L in 400 L: 10 g; a litre of 6 % by weight holds 61.3 g: 163 mL."""
    result = dosed('product = "hydrogen peroxide"\nstrength_percent = 6', uses="peroxide", peroxide='"10 mg/L"',
                   free_chlorine=None, total_chlorine=None)  # fmt: skip
    assert 163.0 == pytest.approx(total(result, "hydrogen peroxide"), abs=0.5)
    assert "peroxide-alone" in {caution.code for caution in result.cautions}


def test_least_chemicals_chlorine_that_also_hardens_saves_calcium(dosed: Dosed) -> None:
    """1.5 mg/L of chlorine from calcium hypochlorite brings 1.06 mg/L of hardness, by half a mole for each."""
    product = 'product = "calcium hypochlorite"\nstrength_percent = 65'
    result = dosed(product, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    risen = result.after.calcium_hardness_mgl.nominal - result.before.calcium_hardness_mgl.nominal
    assert 1.5 * 0.5 * 100.087 / 70.906 == pytest.approx(risen, rel=1e-3)


@pytest.mark.parametrize(
    "product",
    [
        HYPOCHLORITE,
        'product = "calcium hypochlorite"\nstrength_percent = 65',
        'product = "dichlor"\nstrength_percent = 56',
    ],
)
def test_alkalinity_falls_as_the_chlorine_is_used_up_by_an_equivalent_a_mole(product: str, dosed: Dosed) -> None:
    """1.5 mg/L of chlorine are 21.15 umol/L; HOCl to HCl is an equivalent each: 1.06 mg/L as calcium carbonate."""
    result = dosed(product, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    assert 1.06 == pytest.approx(result.used_up_alkalinity_mgl.nominal, abs=0.005)
