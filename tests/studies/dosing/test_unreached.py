"""What no addition lowers: a change of water, waiting, or a test that is missing."""

from collections.abc import Callable

import pytest

from sanitize.studies.dosing.result import Dosing
from tests.studies.dosing.shelf import ALL, total

Dosed = Callable[..., Dosing]


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
