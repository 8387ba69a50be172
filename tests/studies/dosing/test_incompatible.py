"""What must not meet in the water, on the lining or in a jar: no plan brings it together."""

from collections.abc import Callable
from itertools import pairwise

import pytest

from sanitize.basis.errors import InputError
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.plan import Tools, stock_of, wait_after
from sanitize.studies.dosing.products import usable
from sanitize.studies.dosing.result import Dosing
from sanitize.studies.dosing.study import study_dosing
from sanitize.studies.draws import SEED, Draws

Dosed = Callable[..., Dosing]
NO_CHLORINE = {"free_chlorine": '"0 mg/L"', "total_chlorine": '"0 mg/L"'}
UNTESTED = {"free_chlorine": None, "total_chlorine": None}
ACID = 'product = "hydrochloric acid"\nstrength_percent = 31.45'
BISULFATE = 'product = "sodium bisulfate"\nstrength_percent = 93'


@pytest.mark.parametrize(
    ("uses", "test", "code"),
    [
        ("chlorine", NO_CHLORINE | {"peroxide": '"40 mg/L"'}, "peroxide-in-the-water"),
        ("bromine", UNTESTED | {"bromine": '"0 mg/L"', "peroxide": '"40 mg/L"'}, "peroxide-in-the-water"),
        ("peroxide", {"peroxide": '"0 mg/L"'}, "chlorine-in-the-water"),
        ("peroxide", UNTESTED | {"bromine": '"5 mg/L"', "peroxide": '"0 mg/L"'}, "chlorine-in-the-water"),
    ],
)
def test_residual_is_not_added_onto_what_destroys_it(
    uses: str, test: dict[str, str | None], code: str, dosed: Dosed
) -> None:
    result = dosed(uses=uses, **test)
    assert () == result.steps
    assert (code, "danger") in {(one.code, one.severity) for one in result.conflicts}
    assert any(f"No {uses} is added" in one.text for one in result.unreached)


def test_trace_of_peroxide_does_not_hold_the_chlorine_back(dosed: Dosed) -> None:
    result = dosed(uses="chlorine", peroxide='"1 mg/L"', **NO_CHLORINE)
    assert {"sodium hypochlorite"} == {step.product for step in result.steps}


@pytest.mark.parametrize(
    ("lining", "at_hand", "expected"),
    [
        ("concrete", (), "hydrochloric acid"),
        ("tile", (BISULFATE,), "hydrochloric acid"),
        ("concrete", (ACID, BISULFATE), "hydrochloric acid"),
        ("stainless steel", (ACID,), "sodium bisulfate"),
        ("acrylic", (ACID,), "hydrochloric acid"),
        ("acrylic", (), "sodium bisulfate"),
    ],
)
def test_acid_is_one_that_the_lining_bears(lining: str, at_hand: tuple[str, ...], expected: str, dosed: Dosed) -> None:
    result = dosed(*at_hand, ph="8.2", tub=f'lining = "{lining}"')
    assert {expected} == {step.product for step in result.steps}
    spared = any("at hand is left out" in text for text in result.advice)
    assert spared is (lining != "acrylic" and bool(at_hand))


@pytest.mark.parametrize(("ph", "alkalinity"), [("6.2", "300"), ("6.3", "60")])
def test_soda_carries_no_alkalinity_past_its_range(ph: str, alkalinity: str, dosed: Dosed) -> None:
    """Carbon dioxide leaves by itself: 300 mg/L is not made 700 for the pH's sake."""
    result = dosed(ph=ph, total_alkalinity=f'"{alkalinity} mg/L"')
    assert max(100.0, float(alkalinity)) + 0.5 >= result.after.total_alkalinity_mgl.nominal
    assert any("carbon dioxide holds it down" in one.text for one in result.unreached if one.item == "ph")


def test_soda_and_the_acid_that_takes_it_back_are_not_in_one_plan(dosed: Dosed) -> None:
    """Soda at hand and no bicarbonate: bicarbonate is bought, as soda would take the pH to 8.6 and acid back."""
    soda = 'product = "sodium carbonate"'
    result = dosed(soda, ACID, ph="7.9", total_alkalinity='"30 mg/L"')
    assert {"sodium bicarbonate", "hydrochloric acid"} == {step.product for step in result.steps}
    assert "sodium carbonate" in {step.product for step in dosed(soda, ph="6.9").steps}


@pytest.mark.parametrize(("ph", "product"), [("8.7", "sodium bisulfate"), ("6.5", "sodium carbonate")])
def test_no_portion_moves_the_ph_by_more_than_the_most_at_once(ph: str, product: str, dosed: Dosed) -> None:
    """At most 0.2 also where the water buffers least, near 8.3, for the portions that follow the first."""
    result = dosed(ph=ph, total_alkalinity='"70 mg/L"', temperature='"40 degC"')
    steps = [step for step in result.steps if step.product == product]
    moved = [abs(b.after.ph.nominal - a.after.ph.nominal) for a, b in pairwise(steps)]
    assert len(moved) > 0
    assert max(moved) <= 0.21


def test_stabiliser_too_high_is_not_fed_from_the_shelf(dosed: Dosed) -> None:
    dichlor = 'product = "dichlor"\nstrength_percent = 56'
    assert {"sodium hypochlorite"} == {
        step.product for step in dosed(dichlor, cyanuric_acid='"60 mg/L"', **NO_CHLORINE).steps
    }
    assert {"dichlor"} == {step.product for step in dosed(dichlor, cyanuric_acid='"10 mg/L"', **NO_CHLORINE).steps}


def test_sour_monopersulfate_follows_chlorine_as_an_acid_would(dosed: Dosed) -> None:
    """An hour and three turnovers, as between chlorine and acid."""
    assert 3600.0 == wait_after("sodium hypochlorite", "potassium monopersulfate", 600.0)
    assert 9000.0 == wait_after("sodium hypochlorite", "sodium bisulfate", 3000.0)
    assert 3600.0 == wait_after("sodium hypochlorite", None, 600.0)
    assert 1800.0 == wait_after("sodium hypochlorite", "sodium hypochlorite", 600.0)
    result = dosed('product = "potassium monopersulfate"', free_chlorine='"1 mg/L"', total_chlorine='"3 mg/L"')
    met = [
        before.wait_s for before, after in pairwise(result.steps)
        if (before.product, after.product) == ("sodium hypochlorite", "potassium monopersulfate")
    ]  # fmt: skip
    assert [True] == [wait >= 3600.0 for wait in met]
    assert "persulfate-with-chlorine" in {one.code for one in result.conflicts}


@pytest.mark.parametrize(("product", "percent"), [("bromine tablets", 96), ("dichlor", 100), ("trichlor", 95)])
def test_strength_above_the_pure_substance_is_refused(product: str, percent: int, dosed: Dosed) -> None:
    """Of the pure hydantoin 58.7 % count as chlorine: 96 on a label counts the hydantoin itself."""
    with pytest.raises(InputError, match="more than the pure substance has"):
        dosed(f'product = "{product}"\nstrength_percent = {percent}', uses="chlorine")


def test_stock_solution_is_one_that_dissolves(water_plant: Callable[..., Plant]) -> None:
    """Of bicarbonate 50 g dissolve in a litre of cold water, 100 g do not."""
    plant = water_plant('product = "sodium bicarbonate"')
    item = next(one for one in usable(plant, "none", False, Draws(0, SEED)) if one.product == "sodium bicarbonate")
    stock = stock_of(item, 4.0, Tools(5.0, 1.0))
    assert stock is not None
    assert (50.0, 80.0) == (stock.mass_g, stock.add_ml)
    assert stock_of(item, 4.0, Tools(10.0, 1.0)) is None


@pytest.mark.parametrize(("step_ml", "expected"), [(1.0, False), (10.0, True)])
def test_syringe_too_coarse_for_the_stock_is_told(
    step_ml: float, expected: bool, water_plant: Callable[..., Plant]
) -> None:
    """Of 1.2 g of bisulfate on a scale of 1 g: 10 g in a litre, 120 mL of it, sixty steps of 2 mL or six of 20."""
    plant = water_plant(BISULFATE, ph="8.0")
    assert plant.sanitizer is not None
    tools = {"scale_step_g": 1.0, "syringe_step_ml": step_ml * 2.0}
    plant = plant.model_copy(update={"sanitizer": plant.sanitizer.model_copy(update=tools)})
    codes = {notice.code for notice in study_dosing(plant, cases=0).notices}
    assert expected is ("stock-below-syringe" in codes)
