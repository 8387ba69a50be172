"""The plan: whether its doses bring the water where it should be, in which order, and what speaks against them."""

from collections.abc import Callable
from datetime import date
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.basis.errors import InputError
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.products import ORDER
from sanitize.studies.dosing.result import Dosing, Step
from sanitize.studies.dosing.study import study_dosing

Dosed = Callable[..., Dosing]
HYPOCHLORITE = 'product = "sodium hypochlorite"\nstrength_percent = 12.5\nstrength_by = "volume"'
BISULFATE = 'product = "sodium bisulfate"\nstrength_percent = 93'
BICARBONATE = 'product = "sodium bicarbonate"\nstrength_percent = 100'
SODA = 'product = "sodium carbonate"\nstrength_percent = 100'
CALCIUM = 'product = "calcium chloride"\nstrength_percent = 77'
ALL = (HYPOCHLORITE, BISULFATE, BICARBONATE, SODA, CALCIUM)
TODAY = date(2026, 4, 12)


def amount(step: Step) -> float:
    return step.mass_g if step.mass_g is not None else step.volume_ml or 0.0


def total(result: Dosing, product: str) -> float:
    """What is planned of a product, the portions left over among it."""
    steps = [step for step in result.steps if step.product == product]
    return steps[0].portions_count * amount(steps[0]) if steps else 0.0


def test_water_inside_its_ranges_needs_nothing(dosed: Dosed) -> None:
    result = dosed(*ALL)
    assert ((), None, ()) == (result.steps, result.water_change, result.unreached)
    assert {"inside"} == {target.stands for target in result.targets}


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


def test_plan_goes_there_and_back(dosed: Dosed) -> None:
    """What the plan leads to, tested again, needs nothing more but what it left for a second test."""
    first = dosed(*ALL, ph="7.0", total_alkalinity='"50 mg/L"', calcium_hardness='"60 mg/L"', free_chlorine='"1 mg/L"',
                  total_chlorine='"1 mg/L"')  # fmt: skip
    after = first.after
    again = dosed(
        *ALL, ph=f"{after.ph.nominal}", total_alkalinity=f'"{after.total_alkalinity_mgl.nominal} mg/L"',
        calcium_hardness=f'"{after.calcium_hardness_mgl.nominal} mg/L"', total_chlorine=None,
        free_chlorine=f'"{after.free_chlorine_mgl.nominal} mg/L"',
        dissolved_solids=f'"{after.dissolved_solids_mgl.nominal} mg/L"',
    )  # fmt: skip
    assert len(first.steps) >= 3
    assert () == again.steps


def test_acid_alone_where_alkalinity_is_high_lowers_both_without_a_change_of_water(dosed: Dosed) -> None:
    result = dosed(*ALL, ph="7.8", total_alkalinity='"105 mg/L"')
    assert {"sodium bisulfate"} == {step.product for step in result.steps}
    assert result.after.ph.nominal < 7.6
    assert result.after.total_alkalinity_mgl.nominal < 100.0


@settings(max_examples=4, deadline=None)
@given(ph=st.floats(6.9, 8.3), alkalinity=st.floats(30.0, 95.0), chlorine=st.floats(0.0, 3.5))
def test_twice_the_volume_takes_twice_the_dose(dosed: Dosed, ph: float, alkalinity: float, chlorine: float) -> None:
    how = {"ph": f"{ph:.2f}", "total_alkalinity": f'"{alkalinity:.0f} mg/L"', "free_chlorine": f'"{chlorine:.1f} mg/L"',
           "total_chlorine": None}  # fmt: skip
    one, two = dosed(*ALL, **how), dosed(*ALL, volume="800 L", **how)
    for product in ORDER:
        assert 2.0 * total(one, product) == pytest.approx(total(two, product), rel=1e-6, abs=0.11)


def test_steps_stand_in_the_order_of_carrying_out(dosed: Dosed) -> None:
    result = dosed(*ALL, ph="8.2", total_alkalinity='"45 mg/L"', calcium_hardness='"40 mg/L"', tub='lining = "tile"',
                   free_chlorine='"0 mg/L"', total_chlorine='"0 mg/L"')  # fmt: skip
    order = [ORDER.index(step.product) for step in result.steps]
    assert sorted(order) == order
    assert 4 == len(set(order))
    assert list(range(1, len(order) + 1)) == [step.number for step in result.steps]


def test_acid_never_moves_the_ph_by_more_than_the_most_at_once(dosed: Dosed) -> None:
    result = dosed(*ALL, ph="8.3")
    points = [result.ph.nominal, *(step.after.ph.nominal for step in result.steps)]
    assert all(0.0 < before - after <= 0.2 + 0.01 for before, after in pairwise(points))


def test_first_portion_is_half_at_most_and_the_others_wait_for_a_test(dosed: Dosed) -> None:
    result = dosed(*ALL, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    assert [False, True] == [step.only_if_retest for step in result.steps]
    assert [2, 2] == [step.portions_count for step in result.steps]


def test_acid_and_chlorine_are_three_turnovers_and_an_hour_apart(dosed: Dosed) -> None:
    """In 20 m3 a turnover takes long, and decides; in 400 L the hour does."""
    how = {"ph": "7.9", "free_chlorine": '"1 mg/L"', "total_chlorine": '"1 mg/L"'}
    for volume, decides in (("400 L", "hour"), ("20000 L", "turnovers")):
        result = dosed(*ALL, volume=volume, **how)
        last = [step for step in result.steps if step.product == "sodium bisulfate"][-1]
        assert result.turnover_s is not None
        least = 3600.0 if decides == "hour" else 3.0 * result.turnover_s.high
        assert least == pytest.approx(last.wait_s)


def test_bicarbonate_and_calcium_are_two_hours_apart(dosed: Dosed) -> None:
    """So that they do not cloud the water together (common practice); an hour is enough between two of a kind."""
    result = dosed(*ALL, ph="7.2", total_alkalinity='"40 mg/L"', calcium_hardness='"50 mg/L"', tub='lining = "tile"')
    waits = [step.wait_s for step in result.steps if step.product == "sodium bicarbonate"]
    assert "calcium chloride" == result.steps[len(waits)].product
    assert [3600.0, 7200.0] == waits


def test_small_dose_becomes_a_stock_that_holds_it(dosed: Dosed) -> None:
    """Ten steps of 0.1 mL are 1 mL; the same share of the jar as of what was dissolved goes into the tub."""
    result = dosed(*ALL, volume="100 L", free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    (step, *_) = result.steps
    assert step.stock is not None
    assert step.stock.volume_ml is not None
    assert step.stock.volume_ml >= 1.0
    assert amount(step) == pytest.approx(step.stock.volume_ml * step.stock.add_ml / step.stock.made_ml)


def test_small_dose_of_what_must_not_be_dissolved_is_said_instead(dosed: Dosed) -> None:
    product = 'product = "calcium hypochlorite"\nstrength_percent = 65'
    how = {"volume": "200 L", "free_chlorine": '"1 mg/L"', "total_chlorine": '"1 mg/L"'}
    result = dosed(product, **how)
    assert [None] == list({step.stock for step in result.steps})
    assert "dose-below-scale" in {notice.code for notice in result.notices}
    allowed = dosed(f"{product}\nmay_dissolve = true", **how)
    assert allowed.steps[0].stock is not None


def test_reading_error_widens_the_dose_and_the_expected_test(dosed: Dosed) -> None:
    how = {"ph": "7.9", "free_chlorine": '"1 mg/L"', "total_chlorine": '"1 mg/L"'}
    strips, drops = (dosed(*ALL, cases=64, method=f'"{method}"', **how) for method in ("strips", "drops"))
    for result in (strips, drops):
        for step in result.steps:
            assert step.low <= amount(step) <= step.high
    widths = [result.hocl_mgl.high - result.hocl_mgl.low for result in (drops, strips)]
    assert widths[0] < widths[1]


def test_acid_is_held_back_where_the_error_could_carry_the_ph_too_far(dosed: Dosed) -> None:
    """With strips of +- 0.3 an acid dose for pH 7.7 that the lowest readings do not need stays inside 7.2."""
    result = dosed(*ALL, cases=64, ph='"7.7 +- 0.5"', total_alkalinity='"70 mg/L"')
    assert "held-back" in {notice.code for notice in result.notices}


def test_least_chemicals_chlorine_that_also_hardens_saves_calcium(dosed: Dosed) -> None:
    """1.5 mg/L of chlorine from calcium hypochlorite brings 1.06 mg/L of hardness, by half a mole for each."""
    product = 'product = "calcium hypochlorite"\nstrength_percent = 65'
    result = dosed(product, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')
    risen = result.after.calcium_hardness_mgl.nominal - result.before.calcium_hardness_mgl.nominal
    assert 1.5 * 0.5 * 100.087 / 70.906 == pytest.approx(risen, rel=1e-3)


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


FILL = """
[fill_water]
method = "drops"
ph = 7.6
total_alkalinity = "60 mg/L"
calcium_hardness = "80 mg/L"
dissolved_solids = "150 mg/L"
"""


def test_stabiliser_too_high_becomes_a_change_of_water_by_hand(dosed: Dosed) -> None:
    """From 60 to 15 mg/L, half-way to none of 30, with fill water of none: three quarters."""
    result = dosed(*ALL, cyanuric_acid='"60 mg/L"', more=FILL)
    assert result.water_change is not None
    assert 0.75 == pytest.approx(result.water_change.share_ratio.nominal, rel=1e-6)
    assert 300.0 == pytest.approx(result.water_change.volume_l.nominal, rel=1e-6)
    assert 15.0 == pytest.approx(result.after.cyanuric_acid_mgl.nominal, rel=1e-6)
    assert 2.5 == pytest.approx(result.after.free_chlorine_mgl.nominal, abs=0.6)


def test_no_water_is_let_out_for_a_reading_error(dosed: Dosed) -> None:
    """36 mg/L by strips, +- 15, may well be inside 30."""
    stabilised = 'product = "dichlor"\nstrength_percent = 56'
    result = dosed(stabilised, cases=64, cyanuric_acid='"36 mg/L"', method='"strips"', more=FILL)
    assert result.water_change is None
    assert ["perhaps by reading error alone" in one.text for one in result.unreached] == [True]


def test_combined_chlorine_is_oxidized_where_monopersulfate_is_at_hand_and_else_diluted(dosed: Dosed) -> None:
    """1 mg/L as chlorine in 400 L takes 400 x 5.014 mg of the triple salt, 2.0 g; without it 3/4 is changed."""
    how = {"total_chlorine": '"4 mg/L"'}
    with_it = dosed(*ALL, 'product = "potassium monopersulfate"\nstrength_percent = 42.8', more=FILL, **how)
    assert with_it.water_change is None
    assert "reads as combined chlorine" in with_it.unreached[0].text
    assert 2.006 == pytest.approx(total(with_it, "potassium monopersulfate"), rel=2e-3)
    without = dosed(*ALL, more=FILL, **how)
    assert without.water_change is not None
    assert 0.75 == pytest.approx(without.water_change.share_ratio.nominal, rel=1e-6)


def test_soda_is_said_to_be_spared_where_carbon_dioxide_leaves_by_itself(dosed: Dosed) -> None:
    result = dosed(*ALL, ph="6.9")
    assert "sodium carbonate" in {step.product for step in result.steps}
    assert any(text.startswith("Soda may be spared") for text in result.advice)


def test_what_no_addition_lowers_without_fill_water_asks_for_its_test(dosed: Dosed) -> None:
    result = dosed(*ALL, calcium_hardness='"400 mg/L"')
    assert result.water_change is None
    assert ["calcium_hardness"] == [one.item for one in result.unreached]
    assert "[fill_water]" in result.unreached[0].text


def test_too_much_chlorine_is_left_to_fall_by_its_decay(dosed: Dosed) -> None:
    """From 8 to 4 mg/L at 0.01 an hour: ln 2/0.01 = 69 h."""
    result = dosed(*ALL, free_chlorine='"8 mg/L"', total_chlorine='"8 mg/L"')
    (one,) = result.unreached
    assert () == result.steps
    assert "about 69 h (35 to 140)" in one.text


def test_ph_drifts_up_by_what_leaves_into_the_air(dosed: Dosed) -> None:
    days = [result.ph.nominal for result in dosed(*ALL).drift]
    assert 7.4 < days[0] < days[1] < days[2] < 8.5


@pytest.mark.parametrize(
    ("products", "how", "codes"),
    [
        ((HYPOCHLORITE, BISULFATE), {}, {"chlorine-with-acid"}),
        (('product = "calcium hypochlorite"', 'product = "trichlor"'), {},
         {"hypochlorite-with-cyanurates", "trichlor-in-a-small-tub"}),
        ((HYPOCHLORITE, 'product = "hydrogen peroxide"\nstrength_percent = 3'), {}, {"peroxide-with-chlorine"}),
        (('product = "potassium monopersulfate"', 'product = "dichlor"'), {},
         {"persulfate-with-chlorine", "stabiliser-in-the-cold"}),
        ((BICARBONATE, CALCIUM), {}, {"carbonate-with-calcium"}),
    ],
)  # fmt: skip
def test_conflicts_of_what_stands_on_one_shelf(dosed: Dosed, products: Any, how: Any, codes: set[str]) -> None:
    assert codes == {one.code for one in dosed(*products, **how).conflicts}


def test_trichlor_is_never_in_a_plan(dosed: Dosed) -> None:
    result = dosed('product = "trichlor"', free_chlorine='"0 mg/L"', total_chlorine='"0 mg/L"')
    assert {"sodium hypochlorite"} == {step.product for step in result.steps}
    assert not result.steps[0].at_hand


def problems_of(plant: Plant, **more: Any) -> list[str]:
    with pytest.raises(InputError) as caught:
        study_dosing(plant, TODAY, **more)
    return [f"{problem.where}: {problem.found}" for problem in caught.value.problems]


def test_chlorine_beside_peroxide_is_refused(water_plant: Callable[..., Plant]) -> None:
    (problem,) = problems_of(water_plant(peroxide='"30 mg/L"'))
    assert problem.startswith("[[water_test]] peroxide: 30 mg/L stands beside 3 mg/L of free chlorine")


def test_old_test_is_refused_unless_asked(water_plant: Callable[..., Plant]) -> None:
    plant = water_plant(date="2026-04-02")
    assert ["[[water_test]] date: the latest test is 10 days old, and water changes from day to day"] == problems_of(
        plant, max_age_days=3.0
    )
    assert "2026-04-02" == study_dosing(plant, TODAY, 10.0, cases=0).tested_on


def test_test_of_tomorrow_is_refused(water_plant: Callable[..., Plant]) -> None:
    (problem,) = problems_of(water_plant(date="2026-04-13"))
    assert "after 2026-04-12" in problem


def test_everything_that_is_missing_is_told_at_once(water_plant: Callable[..., Plant]) -> None:
    plant = water_plant(ph=None, total_alkalinity=None, free_chlorine=None, total_chlorine=None)
    assert 3 == len(problems_of(plant))
    (problem,) = problems_of(water_plant().model_copy(update={"sanitizer": None}))
    assert problem.startswith("[sanitizer]: is missing")
    assert 2 == len(problems_of(water_plant().model_copy(update={"sanitizer": None, "water_test": ()})))


def test_alkalinity_that_the_ph_does_not_allow_is_refused(water_plant: Callable[..., Plant]) -> None:
    """At pH 10.4 and 10 degC hydroxide alone, 10^(10.4 - 14.53), is 3.7 mg/L."""
    (problem,) = problems_of(water_plant(ph="10.4", total_alkalinity='"2 mg/L"'))
    assert problem.startswith("[[water_test]] total_alkalinity: 2 mg/L cannot stand beside pH 10.4")


def test_chlorine_is_never_added_for_the_ph(dosed: Dosed) -> None:
    """Hypochlorite is a base at hand, soda must be bought; 3 mg/L of chlorine inside 2 to 4 needs none."""
    result = dosed(HYPOCHLORITE, ph="6.9")
    assert {"sodium carbonate"} == {step.product for step in result.steps}


@pytest.mark.parametrize(
    ("temperature", "codes"),
    [("3 degC", {"cyanurate-range"}), ("20 degC", set()), ("38 degC", {"cyanurate-range", "hypochlorous-range"})],
)
def test_laws_carried_past_their_range_are_said(dosed: Dosed, temperature: str, codes: set[str]) -> None:
    """Cyanurates from 5 to 35 degC, hypochlorous acid up to 35 degC."""
    result = dosed(*ALL, cyanuric_acid='"10 mg/L"', temperature=f'"{temperature}"')
    assert codes == {notice.code for notice in result.notices if notice.code.endswith("-range")}


def test_a_trifle_of_calcium_is_no_reason_to_add_stabiliser(dosed: Dosed) -> None:
    """Calcium already high, 255 of 250 mg/L: 1 mg/L more by hypochlorite, rather than 1.4 mg/L of stabiliser."""
    powder = 'product = "calcium hypochlorite"\nstrength_percent = 65'
    result = dosed(powder, 'product = "dichlor"\nstrength_percent = 56', calcium_hardness='"255 mg/L"',
                   free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"')  # fmt: skip
    assert {"calcium hypochlorite"} == {step.product for step in result.steps}


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
