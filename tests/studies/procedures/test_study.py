"""Each procedure with one tub's own figures: what it must say, what it must not, and its amounts by hand."""

import re
from typing import get_args

import pytest

from sanitize.basis.tables import sources
from sanitize.loopfile.read import read_plant
from sanitize.studies.procedures.result import Kind
from sanitize.studies.procedures.study import study_procedure
from sanitize.studies.procedures.tub import facts_of

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "return", height = "0.5 m"},
]
[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "6 degC"
[sanitizer]
uses = "USES"
"""
CALCIUM_HYPOCHLORITE = '[[product]]\nproduct = "calcium hypochlorite"\nstrength_percent = 65\n'


def plant_of(uses: str = "chlorine", more: str = "", volume: str = "400 L"):
    return read_plant(LOOP.replace("USES", uses).replace("400 L", volume) + more).plant


def text_of(kind: Kind, plant) -> str:
    return " ".join(action.text for action in study_procedure(plant, kind).actions)


@pytest.mark.parametrize("kind", get_args(Kind))
def test_procedure_names_its_steps_waits_sources_and_whom_to_ask(kind: Kind) -> None:
    result = study_procedure(plant_of(), kind)
    assert len(result.actions) >= 5
    assert any(action.wait_s is not None and action.wait_s >= 900.0 for action in result.actions)
    assert result.ask
    for action in result.actions:
        assert (action.standing == "published") == bool(action.source)
    assert set(result.sources) <= set(sources())
    assert result.when.endswith(".")


@pytest.mark.parametrize("kind", ["vomit", "faeces", "after-lay-up", "biofilm-purge"])
def test_procedure_drains_before_it_refills_and_chlorinates(kind: Kind) -> None:
    text = text_of(kind, plant_of())
    assert text.index("Drain everything") < text.index("Fill to the normal level") < text.rindex("mg/L in 400 L")
    assert text.index("Throw the cartridge away") < text.index("Fill to the normal level")


def test_shock_of_400_litres_is_the_label_by_hand() -> None:
    """10 mg/L in 400 L is 4.0 g of chlorine: 6.2 g of a product of 65 %; twice the tub, twice of it."""
    assert "Add 6.2 g of calcium hypochlorite" in text_of("faeces", plant_of(more=CALCIUM_HYPOCHLORITE))
    assert "Add 12 g of calcium hypochlorite" in text_of("faeces", plant_of(more=CALCIUM_HYPOCHLORITE, volume="800 L"))


def test_shock_never_takes_a_stabilised_product_where_another_serves() -> None:
    more = '[[product]]\nproduct = "dichlor"\nstrength_percent = 56\n' + CALCIUM_HYPOCHLORITE
    assert "dichlor" not in text_of("biofilm-purge", plant_of(more=more))


def test_peroxide_must_be_gone_before_chlorine_comes() -> None:
    assert "Peroxide and chlorine destroy each other" in text_of("first-fill", plant_of("peroxide"))
    assert "Peroxide" not in text_of("first-fill", plant_of("chlorine"))


def test_waits_follow_the_tubs_own_turnover() -> None:
    """Six turnovers of a large slow tub are longer than the least hour; those of a small one are not."""
    slow, quick = plant_of(volume="20000 L"), plant_of()
    waits = [max(a.wait_s or 0.0 for a in study_procedure(plant, "blood").actions) for plant in (slow, quick)]
    turnover_s = facts_of(slow, 20).turnover_s
    assert waits == [pytest.approx(6.0 * turnover_s), 3600.0]
    assert 6.0 * turnover_s > 3600.0


def test_loop_without_flow_waits_by_the_hour_and_says_so() -> None:
    shut = '  {part = "ball valve", handle = "90 deg"},\n  {part = "return"'
    dead = LOOP.replace('  {part = "return"', shut)
    plant = read_plant(dead.replace("USES", "chlorine")).plant
    result = study_procedure(plant, "first-fill")
    assert "flow-unknown" in {notice.code for notice in result.notices}
    assert 3600.0 in {action.wait_s for action in result.actions}


def test_filter_soak_puts_grease_before_scale_and_keeps_acid_from_chlorine() -> None:
    """Common practice, without a source: acid sets grease; acid on chlorine gives off gas."""
    text = text_of("filter-soak", plant_of())
    assert text.index("Grease first") < text.index("cleaner for scale")
    assert re.search(r"Never acid on a greasy cartridge.*Never an acid after or with chlorine", text)
