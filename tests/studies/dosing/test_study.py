"""The plan: whether its doses bring the water where it should be, and what speaks against them."""

from collections.abc import Callable
from typing import Any

import pytest

from sanitize.studies.dosing.result import Dosing
from tests.studies.dosing.shelf import ALL, BICARBONATE, BISULFATE, CALCIUM, HYPOCHLORITE

Dosed = Callable[..., Dosing]


def test_water_inside_its_ranges_needs_nothing(dosed: Dosed) -> None:
    result = dosed(*ALL)
    assert ((), None, ()) == (result.steps, result.water_change, result.unreached)
    assert {"inside"} == {target.stands for target in result.targets}


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


def test_soda_is_said_to_be_spared_where_carbon_dioxide_leaves_by_itself(dosed: Dosed) -> None:
    result = dosed(*ALL, ph="6.9")
    assert "sodium carbonate" in {step.product for step in result.steps}
    assert any(text.startswith("Soda may be spared") for text in result.advice)


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
