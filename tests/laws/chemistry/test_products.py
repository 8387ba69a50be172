"""Doses of products by stoichiometry, against what the trade's tables print."""

import pytest

from sanitize.laws.chemistry.products import BRINGS, active_mol, chlorine_of_hypochlorite_ratio


@pytest.mark.parametrize(
    ("product", "strength_ratio", "amount"),
    [
        ("hydrochloric acid", 0.3145 * 1.16, 19.97), ("sodium bisulfate", 1.0, 23.99),
        ("sodium bisulfate", 0.93, 25.80), ("sodium bicarbonate", 1.0, 16.79), ("sodium carbonate", 1.0, 10.59),
    ],
)  # fmt: skip
def test_amount_for_ten_mg_of_alkalinity_in_a_cubic_metre_by_hand(
    product: str, strength_ratio: float, amount: float
) -> None:
    """10 g of calcium carbonate are 0.19983 equivalents; molar masses from the elements, last digit printed."""
    found = abs(BRINGS[product].alkalinity) * float(active_mol(product, amount, strength_ratio))
    assert 0.19983 == pytest.approx(found, rel=5e-4)


def test_amount_of_calcium_chloride_for_ten_mg_of_hardness_in_a_cubic_metre_by_hand() -> None:
    """10 g of calcium carbonate are 0.099913 mol, 14.69 g of the dihydrate (147.01 g/mol), of which 0.7549 is CaCl2."""
    assert 0.099913 == pytest.approx(float(active_mol("calcium chloride", 14.69, 0.7549)), rel=5e-4)


@pytest.mark.parametrize(
    ("product", "formula_gmol", "share", "theory_ratio"),
    [
        ("calcium hypochlorite", 142.98, 2.0, 0.992), ("dichlor", 255.98, 2.0, 0.554), ("dichlor", 219.95, 2.0, 0.645),
        ("trichlor", 232.41, 3.0, 0.915), ("bromine tablets", 241.47, 2.0, 0.587),
    ],
)  # fmt: skip
def test_pure_products_have_the_available_chlorine_that_the_trade_prints(
    product: str, formula_gmol: float, share: float, theory_ratio: float
) -> None:
    """Moles of Cl2 in a mole times 70.906 over the molar mass: 99.2, 55.4 (dihydrate), 64.5, 91.5 and 58.7 %."""
    assert theory_ratio == pytest.approx(share * BRINGS[product].counted_gmol / formula_gmol, abs=5e-4)


@pytest.mark.parametrize("product", BRINGS)
def test_every_product_brings_something_and_charges_balance(product: str) -> None:
    """Strong cations less strong anions and alkalinity is nothing; stabiliser, carbon and chlorine are counted apart.

    Potassium of the triple salt, 2.5 for each mole of KHSO5 with its own monovalent anion, is the one not tracked.
    """
    brings = BRINGS[product]
    assert any(value != 0.0 for value in brings[1:])
    cations, anions = brings.sodium + 2.0 * brings.calcium, brings.chloride + 2.0 * brings.sulfate + brings.bromide
    if product == "potassium monopersulfate":
        cations, anions = 2.5, anions + brings.persulfate
    if product == "bromine tablets":
        cations = anions = 0.0
    assert brings.alkalinity == pytest.approx(cations - anions)


def test_hypochlorite_by_weight_holds_a_tenth_more_than_by_volume() -> None:
    """12.5 % NaOCl in a solution of 1.17 kg/L: 139 g of chlorine in a litre."""
    assert 139.0 == pytest.approx(1170.0 * float(chlorine_of_hypochlorite_ratio(0.125)), abs=0.5)
