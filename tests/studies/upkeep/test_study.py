"""Tests made from a known decay and demand give them back; amounts by hand; tests that contradict are refused."""

import math

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.studies.upkeep.study import study_upkeep

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "return", height = "0.5 m"},
]
[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "6 degC"
"""
HYPOCHLORITE = '[[product]]\nproduct = "calcium hypochlorite"\nstrength_percent = 65\n'


def water_on(day: int, residual: float, added: float = 0.0, item: str = "free_chlorine") -> str:
    more = f'added = "{added} mg/L"\n' if added else ""
    return f'[[water_test]]\ndate = 2026-06-{day:02d}\nmethod = "drops"\n{item} = "{residual:.3f} mg/L"\n{more}'


def study(*tests: str, dips: float = 0.0, uses: str = "chlorine", more: str = HYPOCHLORITE, volume: str = "400 L"):
    bathers = f"[bathers]\nper_day = {dips}\n" if dips else ""
    text = LOOP.replace("400 L", volume) + f'[sanitizer]\nuses = "{uses}"\n' + bathers + "".join(tests) + more
    return study_upkeep(read_plant(text).plant, 4096)


def test_decay_alone_is_found_again() -> None:
    """3.0 mg/L at 0.3 a day is 2.22 after one day; a target of 3 then takes 0.9 mg/L, in 400 L 0.36 g."""
    result = study(water_on(1, 3.0), water_on(2, 3.0 * math.exp(-0.3)), water_on(3, 3.0 * math.exp(-0.6)))
    assert result.decay_per_day.low < 0.3 < result.decay_per_day.high
    assert result.decay_per_day.high - result.decay_per_day.low < 0.5 * (
        result.decay_per_day_before.high - result.decay_per_day_before.low
    )
    assert 0.3 * result.target_mgl == pytest.approx(result.use_mgl_per_day.nominal, rel=0.15)
    assert 0.4 * result.use_mgl_per_day.nominal == pytest.approx(result.use_g_per_day.nominal)
    assert math.log(result.target_high_mgl / result.target_low_mgl) / 0.3 == pytest.approx(
        result.every_days.nominal, rel=0.15
    )


def test_bathers_and_decay_are_told_apart_by_a_day_without_use() -> None:
    """Two dips of 0.6 g in 400 L are 3 mg/L a day; they show where the residual falls by more than the decay."""
    decay, use = 0.2, 2.0 * 0.6 / 0.4
    end = (6.0 + use / decay) * math.exp(-decay) - use / decay
    result = study(
        water_on(1, 6.0),
        water_on(2, end, added=5.0),
        water_on(3, (end + 5.0 + use / decay) * math.exp(-decay) - use / decay),
        dips=2.0,
    )
    assert result.dip_demand_g.low < 0.6 < result.dip_demand_g.high
    assert result.dip_demand_g.high < result.dip_demand_g_before.high / 2.0
    assert result.one_dip_mgl.nominal == pytest.approx(result.dip_demand_g.nominal / 0.4)
    assert "one-dip-may-use-it-up" not in {notice.code for notice in result.notices}


def test_amount_is_the_label_by_hand() -> None:
    """From 2 to 4 mg/L in 400 L is 0.8 g of chlorine: 1.23 g of a product of 65 %; twice the tub, twice of it."""
    tests = (water_on(1, 3.0), water_on(2, 2.2))
    small, large = study(*tests), study(*tests, volume="800 L")
    span = small.target_high_mgl - small.target_low_mgl
    assert span * 0.4 / 0.65 == pytest.approx(small.dose_to_top.amount.nominal, rel=1e-6)
    assert "g" == small.dose_to_top.unit
    assert 2.0 * small.dose_to_top.amount.nominal == pytest.approx(large.dose_to_top.amount.nominal)


def test_salts_of_hypochlorite_are_the_stoichiometry() -> None:
    """1.65 mg of salt stay behind for a mg of chlorine from sodium hypochlorite: 1500 mg/L over so much a day."""
    more = '[[product]]\nproduct = "sodium hypochlorite"\nstrength_percent = 12.5\nstrength_by = "volume"\n'
    result = study(water_on(1, 3.0), water_on(2, 2.2), more=more)
    salts = next(drain for drain in result.drains if "salts" in drain.why)
    # hypochlorite weighs 74.44 + 58.44 a mole with its own salt, and both end as salt or its like: 1.65 to 1.88
    assert 1500.0 / 1.88 / result.use_mgl_per_day.nominal <= salts.days.nominal * 1.01
    assert salts.days.nominal <= 1.01 * 1500.0 / 1.64 / result.use_mgl_per_day.nominal


def test_stabilised_product_calls_for_a_change_of_water_by_its_stabiliser() -> None:
    """Dichlor brings 0.91 mg of cyanuric acid with a mg of chlorine."""
    result = study(water_on(1, 3.0), water_on(2, 2.2), more='[[product]]\nproduct = "dichlor"\nstrength_percent = 56\n')
    stabiliser = next(drain for drain in result.drains if "stabiliser" in drain.why)
    most = stabiliser.days.nominal * result.use_mgl_per_day.nominal * 0.91
    assert 25.0 < most < 55.0


@pytest.mark.parametrize(
    ("uses", "item", "product"),
    [("bromine", "bromine", "bromine tablets"), ("peroxide", "peroxide", "hydrogen peroxide")],
)
def test_other_residuals_have_their_own_product(uses: str, item: str, product: str) -> None:
    high = 40.0 if uses == "peroxide" else 5.0
    result = study(water_on(1, high, item=item), water_on(2, 0.8 * high, item=item), uses=uses, more="")
    assert (product, item) == (result.daily_dose.product, result.item)


def test_residual_that_rises_with_nothing_added_is_refused() -> None:
    with pytest.raises(InputError, match="more than there was and what was added"):
        study(water_on(1, 1.0), water_on(2, 4.0))


def test_fall_that_nothing_explains_is_refused() -> None:
    with pytest.raises(InputError, match="no decay and no bathers explain it"):
        study(water_on(1, 9.0), water_on(2, 0.2))


@pytest.mark.parametrize(
    ("tests", "said"),
    [
        ((water_on(1, 3.0),), "1 test reads"),
        ((water_on(1, 3.0), water_on(1, 2.0)), "two tests have the same date"),
        ((water_on(1, 3.0), water_on(2, 2.0).replace("date = 2026-06-02\n", "")), "a test has no date"),
    ],
)
def test_tests_that_cannot_be_fitted_are_refused(tests: tuple[str, ...], said: str) -> None:
    with pytest.raises(InputError, match=said):
        study(*tests)


def test_keeper_of_no_residual_is_refused() -> None:
    with pytest.raises(InputError, match="keeps no residual"):
        study(water_on(1, 3.0), water_on(2, 2.0), uses="none")
