"""Targets, products, drift, and what is said beside the steps."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.laws.chemistry.carbonate import Water, carbon_moll, species
from sanitize.laws.chemistry.constants import log_kh
from sanitize.laws.chemistry.degassing import AIR_LOG_ATM
from sanitize.plant.loop import Plant
from sanitize.plant.water import PROFILES, Product
from sanitize.studies.dosing.products import density_gml, liquid_strength, peroxide_by_weight
from sanitize.studies.dosing.result import Dosing
from sanitize.studies.dosing.targets import PRACTICE, calcium_matters, targets_of

Dosed = Callable[..., Dosing]
ALL = (
    'product = "sodium hypochlorite"\nstrength_percent = 12.5\nstrength_by = "volume"',
    'product = "sodium bisulfate"',
)


@pytest.mark.parametrize("profile", PROFILES)
def test_every_guideline_gives_all_targets_and_says_which_are_practice(
    profile: str, water_plant: Callable[..., Plant]
) -> None:
    sanitizer = water_plant().sanitizer
    assert sanitizer is not None
    found = targets_of(water_plant(), sanitizer.model_copy(update={"profile": profile}))
    assert {"ph", "total_alkalinity", "calcium_hardness", "free_chlorine", "combined_chlorine", "cyanuric_acid"} == set(
        found
    )
    assert {one.origin for one in found.values()} <= {profile, PRACTICE}
    assert profile in {one.origin for one in found.values()}


def test_guideline_changes_the_dose(dosed: Dosed) -> None:
    """1.2 mg/L is low for a private cold tub, 2 to 4, and inside the Austrian 0.6 to 2.0 (section 24, as read)."""
    how = {"free_chlorine": '"1.2 mg/L"', "total_chlorine": '"1.2 mg/L"'}
    assert dosed(*ALL, **how).steps
    assert not dosed(*ALL, uses='chlorine"\ntargets = "Austria plunge pool', **how).steps


def test_own_target_goes_before_the_guideline(dosed: Dosed) -> None:
    result = dosed(*ALL, uses='chlorine"\nfree_chlorine = "5 mg/L (4.5 mg/L to 5.5 mg/L)')
    (target,) = [one for one in result.targets if one.item == "free_chlorine"]
    assert ("own", "stated", "below") == (target.origin, target.standing, target.stands)
    assert 4.75 == pytest.approx(result.after.free_chlorine_mgl.nominal, rel=1e-6)


@pytest.mark.parametrize(
    ("tub", "expected"),
    [("", None), ('lining = "wood"', False), ('lining = "tile"', True),
     ('lining = "acrylic"\nwetted_metals = ["titanium", "stainless steel"]', False),
     ('wetted_metals = ["brass"]', True)],
)  # fmt: skip
def test_calcium_matters_to_cement_copper_zinc_and_aluminium(
    tub: str, expected: bool | None, water_plant: Callable[..., Plant]
) -> None:
    assert expected is calcium_matters(water_plant(tub=tub))


@pytest.mark.parametrize(("percent", "grams_per_litre"), [(3.0, 30.3), (6.0, 61.3), (12.0, 125.2), (35.0, 396.2)])
def test_peroxide_of_the_usual_strengths_by_weight(percent: float, grams_per_litre: float) -> None:
    """Strength times density, 1.010, 1.021, 1.043 and 1.132 (from memory); half a unit of the last digit."""
    assert grams_per_litre == pytest.approx(
        1000.0 * liquid_strength("hydrogen peroxide", percent / 100.0, "weight"), abs=0.06
    )


def test_household_hypochlorite_of_6_percent_by_weight() -> None:
    """5.71 % of chlorine at 1.08 kg/L: 16.2 mL hold a gram."""
    assert 16.2 == pytest.approx(1.0 / liquid_strength("sodium hypochlorite", 0.06, "weight"), abs=0.05)


def test_density_lies_on_the_straight_line_between_two_strengths() -> None:
    """20 % acid 1.098 and 31.45 % 1.160, half-way between."""
    assert 1.129 == pytest.approx(density_gml("hydrochloric acid", 0.25725))


def test_peroxide_by_volume_is_compared_by_weight() -> None:
    """12.5 g in 100 mL of 1.043 kg/L are 12.0 % by weight: at the limit, not above."""
    item = Product(product="hydrogen peroxide", strength_ratio=0.125, by="volume")
    assert 0.120 == pytest.approx(peroxide_by_weight(item), abs=0.0005)


@pytest.mark.parametrize(("percent", "expected"), [(12, False), (35, True)])
def test_strong_peroxide_is_a_danger(percent: int, expected: bool, dosed: Dosed) -> None:
    product = f'product = "hydrogen peroxide"\nstrength_percent = {percent}'
    result = dosed(product, uses="peroxide", peroxide='"40 mg/L"', free_chlorine=None, total_chlorine=None)
    assert expected is ("strong-peroxide" in {one.code for one in result.cautions if one.severity == "danger"})


def test_drift_ends_where_the_water_is_in_balance_with_the_air(dosed: Dosed) -> None:
    """At the fast end, after a week: carbon dioxide in the water as by Henry's law at 417 ppm."""
    result = dosed(*ALL)
    water = Water(150.0 / 100_086.9, 0.0, 2.5e-5 * 300.0, 10.0, ())
    ph = result.drift[-1].ph.high
    alkalinity = result.after.total_alkalinity_mgl.nominal / 50_043.0
    dioxide = species(ph, carbon_moll(ph, alkalinity, water), water).carbon_dioxide
    assert np.log10(float(dioxide)) == pytest.approx(float(log_kh(10.0)) + AIR_LOG_ATM, abs=0.05)


@pytest.mark.parametrize(
    ("tub", "said"),
    [('lining = "tile"', "attacks cement, copper, brass and zinc"), ('lining = "acrylic"', "for information"),
     ("", "Write lining and wetted_metals")],
)  # fmt: skip
def test_low_index_is_told_by_what_the_water_touches(tub: str, said: str, dosed: Dosed) -> None:
    result = dosed(*ALL, ph="7.2", total_alkalinity='"60 mg/L"', calcium_hardness='"100 mg/L"', tub=tub)
    assert () == result.steps
    assert any(said in text for text in result.advice)


def test_ph_that_will_leave_its_range_by_itself_is_told_with_the_day(dosed: Dosed) -> None:
    result = dosed(*ALL)
    first = next(one for one in result.drift if one.ph.nominal > 7.6)
    assert any(text.startswith(f"Within about {first.days:.0f} d") for text in result.advice)
    warm = dosed(*ALL, uses='chlorine"\nph = "8.0 (7.0 to 8.5)')
    assert not any(text.startswith("Within about") for text in warm.advice)


def test_metals_of_the_fill_water_are_told(dosed: Dosed) -> None:
    result = dosed(*ALL, more='[fill_water]\nph = 7.5\ntotal_alkalinity = "50 mg/L"\niron = "0.5 mg/L"\n')
    assert any("holds iron" in text for text in result.advice)


def test_blind_spots_name_peroxide_and_cold_reagents(dosed: Dosed) -> None:
    result = dosed(*ALL, 'product = "hydrogen peroxide"\nstrength_percent = 3', temperature='"4 degC"')
    told = " ".join(result.blind_spots)
    assert "Peroxide reads as chlorine" in told
    assert "Cold reagents" in told
    assert "Cold reagents" not in " ".join(dosed(*ALL, temperature='"20 degC"').blind_spots)


def test_loop_without_an_answer_leaves_hours_to_wait(water_plant: Callable[..., Plant]) -> None:
    from sanitize.studies.dosing.study import study_dosing

    plant = water_plant(*ALL, free_chlorine='"1 mg/L"', total_chlorine='"1 mg/L"', tub="")
    pump = plant.loop.items[1].model_copy(update={"running": False})
    still = plant.model_copy(
        update={"loop": plant.loop.model_copy(update={"items": (plant.loop.items[0], pump, plant.loop.items[2])})}
    )
    result = study_dosing(still, cases=0)
    assert result.turnover_s is None
    assert 1800.0 == result.steps[0].wait_s
    assert "flow-unknown" in {notice.code for notice in result.notices}
