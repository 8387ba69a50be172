"""Files that read without problems, and what they hold."""

from pathlib import Path

import pytest

from sanitize.loopfile.read import LoadedPlant, read_plant
from sanitize.plant.injector import BenchRow, Injector
from sanitize.plant.loop import Join, Split, walk
from sanitize.plant.machines import Pump
from sanitize.plant.pipework import Pipe, Reducer

GOOD = Path(__file__).parent / "good"


def load(name: str) -> LoadedPlant:
    return read_plant((GOOD / f"{name}.toml").read_text(encoding="utf-8"), path=f"{name}.toml")


@pytest.fixture(scope="module")
def boathouse() -> LoadedPlant:
    return load("boathouse")


@pytest.fixture(scope="module")
def quarry() -> LoadedPlant:
    return load("quarry")


def test_boathouse_parts_have_their_names_in_order(boathouse: LoadedPlant) -> None:
    expected = [
        "suction fitting", "reducer", "flexible hose", "pump", "elbow 90", "filter", "split", "injector",
        "throttle valve", "return hose", "return",
    ]  # fmt: skip
    assert expected == [part.name for part in walk(boathouse.plant.loop)]


def test_boathouse_parts_have_their_positions_as_people_count(boathouse: LoadedPlant) -> None:
    expected = ["loop[1]", "loop[7]", 'way."side stream"[1]', "way.bypass[1]", "loop[8]"]
    places = [part.where for part in walk(boathouse.plant.loop)]
    assert expected == [places[0], *places[6:10]]


def test_boathouse_reducer_starts_at_the_size_of_the_fitting_before(boathouse: LoadedPlant) -> None:
    expected = ("1-1/2", "3/4")
    reducer = boathouse.plant.loop.items[1]
    assert isinstance(reducer, Reducer)
    assert expected == (reducer.size, reducer.to_size)


def test_boathouse_everything_behind_the_reducer_has_the_size_of_the_file(boathouse: LoadedPlant) -> None:
    expected = {"3/4"}
    assert expected == {part.size for part in walk(boathouse.plant.loop)[2:]}


def test_boathouse_ways_stand_in_the_order_of_the_split(boathouse: LoadedPlant) -> None:
    expected = ("side stream", "bypass")
    split = boathouse.plant.loop.items[6]
    assert isinstance(split, Split)
    assert expected == tuple(chain.name for chain in split.chains)
    assert split.straight == "bypass"


def test_boathouse_pump_curve_is_in_base_units(boathouse: LoadedPlant) -> None:
    expected = ((0.0, 4.4), (pytest.approx(25 / 60000), 3.5), (pytest.approx(52 / 60000), 0.0))
    pump = boathouse.plant.loop.items[3]
    assert isinstance(pump, Pump)
    assert expected == pump.curve


def test_boathouse_nothing_is_assumed(boathouse: LoadedPlant) -> None:
    expected: tuple[()] = ()
    assert expected == boathouse.notices


def test_boathouse_begins_and_ends_in_the_tub(boathouse: LoadedPlant) -> None:
    assert boathouse.plant.loop.starts_in_tub
    assert boathouse.plant.loop.ends_in_tub


def test_quarry_join_and_the_part_behind_it_take_the_size_of_the_ways(quarry: LoadedPlant) -> None:
    expected = ("1-1/4", "1-1/4")
    join = quarry.plant.loop.items[0]
    assert isinstance(join, Join)
    assert expected == (join.size, quarry.plant.loop.items[1].size)


def test_quarry_own_sizes_run_on_without_a_size_of_the_file(quarry: LoadedPlant) -> None:
    expected = {"pump": "1-1/4", "bushing": "1-1/4", "riser": "1", "hose to the wall": "1", "check valve": "3/4"}
    sizes = {part.name: part.size for part in walk(quarry.plant.loop)}
    assert expected == {name: sizes[name] for name in expected}


def test_quarry_size_within_a_way_ends_with_the_way(quarry: LoadedPlant) -> None:
    expected = {"barb (1)": "5/8", "thin tube": "5/8", "barb (2)": "5/8", "globe valve": "1", "union": "1"}
    sizes = {part.name: part.size for part in walk(quarry.plant.loop)}
    assert expected == {name: sizes[name] for name in expected}


def test_quarry_ways_that_end_in_the_tub_end_the_loop(quarry: LoadedPlant) -> None:
    last = quarry.plant.loop.items[-1]
    assert isinstance(last, Split)
    assert all(chain.ends_in_tub for chain in last.chains)
    assert quarry.plant.loop.ends_in_tub


def test_quarry_metric_and_us_units_stand_side_by_side(quarry: LoadedPlant) -> None:
    """5 ft 3 in = 1.6002 m; 9 gpm of 231 in3 = 34.0687 L/min; 200 gal = 0.757082 m3; 41 degF = 5 degC."""
    parts = {part.name: part for part in walk(quarry.plant.loop)}
    pump, riser = parts["pump"], parts["riser"]
    assert isinstance(pump, Pump)
    assert isinstance(riser, Pipe)
    assert riser.length_m.nominal == pytest.approx(1.6002)
    assert pump.curve[1] == pytest.approx((34.0687e-3 / 60.0, 3.0), rel=1e-5)
    assert quarry.plant.tub.volume_m3 == pytest.approx(0.757082, rel=1e-6)
    assert quarry.plant.tub.temperature_c == pytest.approx(5.0)


def test_quarry_bench_rows_are_in_base_units(quarry: LoadedPlant) -> None:
    """6 inHg = 20318.3 Pa."""
    injector = next(part for part in walk(quarry.plant.loop) if isinstance(part, Injector))
    expected = BenchRow(flow_m3s=20e-3 / 60.0, inlet_pa_gauge=40e3, outlet_pa_gauge=9e3, port_vacuum_pa=20318.3)
    found = {name: pytest.approx(value, rel=1e-5) for name, value in injector.bench[0].model_dump().items()}
    assert expected.model_dump() == found


def test_quarry_notices_say_what_stands_in_and_how_to_measure_it(quarry: LoadedPlant) -> None:
    expected = [
        ("unknown-value", 'loop[4] "riser", height is unknown; 3.3 ft (2.0 to 5.0) stands in. '
         "Measure it with a tape measure, from the mark to the middle of the part."),
        ("assumed-check-valve", "[gas_line] check_valve_opens_at is not given; 0.22 psi (0.044 to 1.0) stands in. "
         "Measure it with a water column: the depth at which it starts to bubble."),
    ]  # fmt: skip
    assert expected == [
        (notice.code, notice.text) for notice in sorted(quarry.notices, key=lambda one: one.code, reverse=True)
    ]


def test_water_holds_its_tests_products_and_targets() -> None:
    plant = load("water").plant
    first, second = plant.water_test
    assert ("strips", "drops") == (first.method, second.method)
    assert second.date is not None
    assert "2026-03-14" == second.date.isoformat()
    assert second.ph is not None
    assert (7.7, 7.8, 7.9) == pytest.approx((second.ph.low, second.ph.nominal, second.ph.high))
    assert first.alkalinity_mgl is not None
    assert 60.0 == pytest.approx(first.alkalinity_mgl.nominal)
    assert ("sodium hypochlorite", "sodium bisulfate") == tuple(product.product for product in plant.product)
    assert "volume" == plant.product[0].by
    assert (0.125, 60.0 * 86400.0) == pytest.approx((plant.product[0].strength_ratio, plant.product[0].age_s))
    assert plant.sanitizer is not None
    assert (0.1, 0.5) == pytest.approx((plant.sanitizer.scale_step_g, plant.sanitizer.syringe_step_ml))
    assert ("stainless steel", "copper") == plant.tub.wetted_metals
    assert plant.fill_water is not None
    assert plant.fill_water.conductivity_us_cm is not None
    assert 220.0 == pytest.approx(plant.fill_water.conductivity_us_cm.nominal)
