"""The steps of a plan: their order, portions, waits and stocks, and what holds one back."""

from collections.abc import Callable
from itertools import pairwise

import pytest

from sanitize.studies.dosing.products import ORDER
from sanitize.studies.dosing.result import Dosing
from tests.studies.dosing.shelf import ALL, amount

Dosed = Callable[..., Dosing]


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
