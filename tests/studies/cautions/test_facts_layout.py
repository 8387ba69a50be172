"""What order and heights say by themselves."""

from collections.abc import Callable
from typing import Any

from sanitize.basis.band import Band
from sanitize.plant.gas import GasLine
from sanitize.plant.loop import Chain, Join, Plant, Split
from sanitize.plant.machines import Filter
from sanitize.studies.cautions.facts_layout import (
    behind_injector,
    gas_meets,
    injector_on_suction_side,
    pump_above_water,
    valve_missing,
)

MakePlant = Callable[..., Plant]
Parts = dict[str, Callable[..., Any]]


def _filter(name: str = "filter") -> Filter:
    return Filter(word="filter", name=name, size="3/4")


def _split(*chains: Chain) -> Split:
    return Split(word="split", name="split", size="3/4", ways=tuple(chain.name for chain in chains), chains=chains)


def test_injector_behind_the_pump_is_on_the_pressure_side(plant: MakePlant) -> None:
    assert not injector_on_suction_side(plant())


def test_injector_before_the_pump_is_on_the_suction_side(plant: MakePlant, parts: Parts) -> None:
    assert injector_on_suction_side(plant(parts["suction"](), parts["injector"](), parts["pump"](), parts["return"]()))


def test_injector_between_two_pumps_is_on_the_suction_side(plant: MakePlant, parts: Parts) -> None:
    items = (
        parts["suction"](),
        parts["pump"]("first"),
        parts["injector"](),
        parts["pump"]("second"),
        parts["return"](),
    )
    assert injector_on_suction_side(plant(*items))


def test_pump_in_the_other_way_does_not_meet_the_gas(plant: MakePlant, parts: Parts) -> None:
    ways = _split(
        Chain(name="side", items=(parts["injector"](),)), Chain(name="other", items=(parts["pump"]("booster"),))
    )
    assert not injector_on_suction_side(plant(parts["suction"](), parts["pump"](), ways, parts["return"]()))


def test_filter_behind_the_place_where_ways_meet_gets_the_gas(plant: MakePlant, parts: Parts) -> None:
    ways = _split(Chain(name="side", items=(parts["injector"](),)), Chain(name="bypass", items=(_filter("first"),)))
    assert gas_meets(plant(parts["suction"](), parts["pump"](), ways, _filter("second"), parts["return"]())) == (
        "second",
    )


def test_filter_behind_a_way_that_ends_in_the_tub_gets_no_gas(plant: MakePlant, parts: Parts) -> None:
    ways = _split(
        Chain(name="side", items=(parts["injector"](), parts["return"]())),
        Chain(name="main", items=(_filter("first"),)),
    )
    assert gas_meets(plant(parts["suction"](), parts["pump"](), ways, _filter("second"), parts["return"]())) == ()


def test_injector_in_a_way_of_a_join_comes_before_the_pump(plant: MakePlant, parts: Parts) -> None:
    chains = (
        Chain(name="a", items=(parts["suction"]("one"), parts["injector"]())),
        Chain(name="b", items=(parts["suction"]("two"),)),
    )
    join = Join(word="join", name="join", size="3/4", ways=("a", "b"), chains=chains)
    assert injector_on_suction_side(plant(join, parts["pump"](), parts["return"]()))


def test_parts_behind_the_injector_stand_once_in_order(plant: MakePlant, parts: Parts) -> None:
    made = plant(parts["suction"](), parts["pump"](), parts["injector"](), _filter(), parts["return"]())
    assert [part.name for part in behind_injector(made)] == ["filter", "return"]


def test_pump_above_the_lowest_level_counts_as_above(plant: MakePlant, parts: Parts) -> None:
    perhaps = parts["pump"]("perhaps").model_copy(update={"height_m": Band(0.70, 0.75, 0.80)})
    items = (parts["suction"](), parts["pump"]("low", 0.78), parts["pump"]("high", 0.795), perhaps, parts["return"]())
    assert pump_above_water(plant(*items)) == {"low": False, "high": True, "perhaps": True}


def test_check_valve_missing_or_not_described_counts_as_missing(plant: MakePlant) -> None:
    assert not valve_missing(plant())
    assert valve_missing(plant(gas_line=None))
    assert valve_missing(plant(gas_line=GasLine(opens_at_pa=Band.exact(1500.0), check_valve=False)))
