"""What an addition makes of the water: against PHREEQC, by stoichiometry, and there and back."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.laws.chemistry.products import BRINGS
from sanitize.studies.dosing.water import Holds, alkalinity_eq, alkalinity_mgl

PH_NEAR, SI_NEAR = 0.02, 0.03
"""Other activity coefficients, pairs left out, and an ionic strength from dissolved solids."""


def water(
    ph: float = 7.4, alkalinity: float = 80.0, calcium: float = 150.0, temperature_c: float = 10.0, **more: float
) -> Holds:
    """A water as tested, one case; more: moles per litre of what else it holds."""
    zero = np.zeros(1)
    holds = Holds(
        temperature_c=temperature_c, hypobromous_pk=zero + 8.65, alkalinity=zero + alkalinity_eq(alkalinity),
        carbon=zero, calcium=zero + calcium / 100_086.9, sodium=zero, chlorine=zero, combined=zero, bromine=zero,
        bromide=zero, cyanuric=zero, peroxide=zero, persulfate=zero, solids_mgl=zero + 250.0,
    )  # fmt: skip
    holds = replace(holds, **{key: zero + value for key, value in more.items()})
    holds = replace(holds, sodium=np.maximum(holds.alkalinity - 2.0 * holds.calcium, 0.0))
    return holds.with_ph(zero + ph)


@pytest.mark.parametrize(
    ("product", "formula", "mmol"),
    [
        ("hydrochloric acid", "HCl", 0.2),
        ("sodium bisulfate", "NaHSO4", 0.2),
        ("sodium bicarbonate", "NaHCO3", 0.5),
        ("sodium carbonate", "Na2CO3", 0.15),
        ("calcium chloride", "CaCl2", 0.5),
    ],
)
@pytest.mark.parametrize("temperature_c", [2.0, 10.0, 30.0])
def test_ph_and_index_after_an_addition_agree_with_phreeqc(
    product: str, formula: str, mmol: float, temperature_c: float, phreeqc: Callable[..., Any]
) -> None:
    """Start: pH as PHREEQC reads it, alkalinity 1.6 and calcium 1.5 mmol/L as made up."""
    recipe = {"NaHCO3": 1.6, "CaCl2": 1.5, "CO2": 0.1}
    before = phreeqc(recipe, temperature_c)
    tested = water(before.pH, float(alkalinity_mgl(1.6e-3)), 150.13, temperature_c)
    after = tested.with_added(product, 1e-3 * mmol)
    more = dict(recipe)
    more[formula] = more.get(formula, 0.0) + mmol
    theirs = phreeqc(more, temperature_c)
    assert theirs.pH == pytest.approx(float(after.ph[0]), abs=PH_NEAR)
    assert theirs.si("Calcite") == pytest.approx(after.expected().saturation_index.nominal, abs=SI_NEAR)


def test_water_as_tested_reads_as_tested() -> None:
    found = water(7.8, 95.0, 210.0, chlorine=3.0 / 70_906.0, cyanuric=20.0 / 129_074.0).expected()
    assert 7.8 == pytest.approx(found.ph.nominal, abs=1e-6)
    assert (95.0, 210.0, 3.0, 20.0) == pytest.approx(
        (
            found.total_alkalinity_mgl.nominal, found.calcium_hardness_mgl.nominal, found.free_chlorine_mgl.nominal,
            found.cyanuric_acid_mgl.nominal,
        )
    )  # fmt: skip


def test_alkalinity_of_cyanurate_is_left_out_of_the_carbonate_alkalinity() -> None:
    """30 mg/L at pH 7.5 and 25 degC, with pK 6.966: 0.300 mg/L for each mg/L by hand, 50.04/129.07/(1 + 10^-0.534)."""
    found = water(7.5, temperature_c=25.0, cyanuric=30.0 / 129_074.0).expected()
    assert 0.300 * 30.0 == pytest.approx(
        found.total_alkalinity_mgl.nominal - found.carbonate_alkalinity_mgl.nominal, abs=0.03
    )


@pytest.mark.parametrize(
    ("product", "chlorine", "stabiliser", "calcium"),
    [("sodium hypochlorite", 1.0, 0.0, 0.0), ("calcium hypochlorite", 1.0, 0.0, 0.71), ("dichlor", 1.0, 0.910, 0.0)],
)
def test_chlorine_products_bring_with_them_what_their_formula_says(
    product: str, chlorine: float, stabiliser: float, calcium: float
) -> None:
    """For 1 mg/L of chlorine: Ca(OCl)2 half a mole of calcium, NaCl2(CNO)3 half a mole of cyanuric acid, by hand."""
    before = water()
    after = before.with_added(product, 1.0 / 70_906.0)
    assert chlorine == pytest.approx(70_906.0 * float(after.chlorine[0]))
    assert stabiliser == pytest.approx(129_074.0 * float(after.cyanuric[0]), abs=0.001)
    assert calcium == pytest.approx(100_086.9 * float((after.calcium - before.calcium)[0]), abs=0.005)


@pytest.mark.parametrize(
    ("product", "used"),
    [
        ("sodium hypochlorite", 0.0), ("calcium hypochlorite", 0.0), ("dichlor", -0.5), ("trichlor", -1.0),
        ("bromine tablets", -1.0), ("potassium monopersulfate", -1.5),
    ],
)  # fmt: skip
def test_oxidizers_leave_behind_the_alkalinity_of_their_salts(product: str, used: float) -> None:
    """Strong cations less strong anions when chlorine is chloride, persulfate sulfate; cyanurate stays a base.

    By hand for each mole of Cl2: NaOCl to NaCl 0; NaCl2Cy to NaCl, HCl and H3Cy -0.5; Cl3Cy to 3 HCl -1.
    """
    assert used == BRINGS[product].used_alkalinity


acid = st.sampled_from(["hydrochloric acid", "sodium bisulfate"])
waters = st.builds(
    water, ph=st.floats(6.8, 8.4), alkalinity=st.floats(40.0, 200.0), calcium=st.floats(10.0, 400.0),
    temperature_c=st.floats(1.0, 40.0),
)  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(waters, acid, st.floats(1e-5, 2e-4), st.floats(1e-5, 2e-4))
def test_more_acid_gives_a_lower_ph_and_no_other_carbon(before: Holds, product: str, dose: float, more: float) -> None:
    one, two = before.with_added(product, dose), before.with_added(product, dose + more)
    assert two.ph[0] < one.ph[0] < before.ph[0]
    assert before.carbon[0] == two.carbon[0]


@settings(max_examples=25, deadline=None)
@given(waters, st.floats(1e-5, 3e-4))
def test_acid_and_soda_of_the_same_equivalents_leave_only_carbon_behind(before: Holds, dose: float) -> None:
    """2 HCl + Na2CO3 = 2 NaCl + CO2 + H2O: alkalinity is back, one mole of carbon more, so the pH is lower."""
    after = before.with_added("hydrochloric acid", 2.0 * dose).with_added("sodium carbonate", dose)
    assert before.alkalinity[0] == pytest.approx(after.alkalinity[0])
    assert before.carbon[0] + dose == pytest.approx(after.carbon[0])
    assert after.ph[0] < before.ph[0]


@settings(max_examples=15, deadline=None)
@given(waters, waters, st.floats(0.0, 1.0))
def test_water_change_balances_everything(tub: Holds, fill: Holds, share: float) -> None:
    mixed = tub.mixed(fill, np.full(1, share))
    for name in ("alkalinity", "carbon", "calcium", "solids_mgl"):
        expected = (1.0 - share) * getattr(tub, name)[0] + share * getattr(fill, name)[0]
        assert expected == pytest.approx(getattr(mixed, name)[0])
