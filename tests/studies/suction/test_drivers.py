"""The input that moves the verdict most, against scipy's rank correlation and against trying every input in turn."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import spearmanr

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.drivers import drivers
from sanitize.studies.suction.states import gas_side, levels

PlantOf = Callable[..., Plant]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'


def _margin(plant: Plant, draws: Draws) -> Array:
    condition = Condition(levels(plant, draws)["normal"])
    answer = run(plant, draws, condition)
    assert answer.port is not None
    return np.asarray(answer.port.port_pa_gauge + gas_side(plant, draws, answer.port.height_m).opens_at_pa)


def _one_at_a_time(plant: Plant, inputs: list[str]) -> dict[str, float]:
    """How far the margin moves when one input alone goes from its 5th to its 95th percentile."""
    nominal = Draws(0)
    _margin(plant, nominal)
    moves = {}
    for key in inputs:
        ends = []
        for rank in (0.05, 0.95):
            moved = Draws(0)
            moved.inputs = {name: replace(item, rank=np.full(1, 0.5)) for name, item in nominal.inputs.items()}
            moved.inputs[key] = replace(moved.inputs[key], rank=np.full(1, rank))
            ends.append(float(_margin(plant, moved)[0]))
        moves[key] = abs(ends[1] - ends[0])
    return moves


@pytest.mark.parametrize(
    ("injector", "strongest"),
    [
        ('{part="injector",throat="9 mm",height="0.7 m"}', "injector loss ratio"),
        (
            '{part="injector",throat="9 mm",height="0.7 m",loss_ratio=0.25,discharge_coefficient=0.96}',
            "injector.throat",
        ),
    ],
    ids=["known by its throat", "known from the bench"],
)
def test_strongest_driver_is_the_one_that_trying_each_in_turn_finds(
    plant_of: PlantOf, injector: str, strongest: str
) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="elbow 90",count=4}},{injector},{{part="flexible hose",length="2 m"}},{RETURN}]'
    )
    plant, draws = plant_of(loop), Draws(512)
    margin = _margin(plant, draws)
    moves = _one_at_a_time(plant, list(draws.inputs))
    by_trial = sorted(moves, key=lambda key: -moves[key])
    found = drivers(draws, margin, np.ones(draws.size, dtype=bool))
    assert strongest == by_trial[0]
    assert strongest == found[0].key
    assert set(by_trial[:2]) <= {driver.key for driver in found[:4]}


def test_sign_says_which_way_an_input_moves_the_margin(plant_of: PlantOf) -> None:
    """More of the pressure lost, a weaker pull, a margin further up; a stronger pump, further down."""
    known = '{part="injector",throat="9 mm +- 1 %",height="0.7 m",discharge_coefficient=0.96,loss_ratio=0.25}'
    plant, draws = plant_of(f"loop=[{SUCTION},{PUMP},{known},{RETURN}]"), Draws(256)
    margin = _margin(plant, draws)
    found = {item.key: item for item in drivers(draws, margin, np.ones(257, dtype=bool), most=99)}
    assert found["injector.loss_ratio"].correlation_ratio > 0.1
    assert found["pump.head"].correlation_ratio < -0.3
    assert found["gas_line.check_valve_opens_at"].correlation_ratio > 0.1
    assert set(draws.inputs) == set(found)


def _synthetic(cases: int = 256) -> tuple[Draws, dict[str, Array]]:
    draws = Draws(cases)
    return draws, {key: draws.rank(key, f"label of {key}", f"how to measure {key}") for key in "abcdef"}


def test_correlation_is_that_of_scipy_without_the_nominal_case() -> None:
    draws, ranks = _synthetic()
    margin = 3.0 * ranks["b"] - ranks["d"] ** 2 + 0.5 * ranks["e"] * ranks["a"]
    found = {item.key: item for item in drivers(draws, margin, np.ones(257, dtype=bool), most=99)}
    for key in "abcdef":
        expected = spearmanr(ranks[key][1:], margin[1:]).statistic
        assert expected == pytest.approx(found[key].correlation_ratio, abs=1e-9)
    assert "b" == drivers(draws, margin, np.ones(257, dtype=bool))[0].key


def test_steep_but_monotone_input_counts_in_full() -> None:
    """Rank correlation sees order alone: exp(20 u) is as good as u."""
    draws, ranks = _synthetic()
    found = drivers(draws, np.exp(20.0 * ranks["c"]), np.ones(257, dtype=bool))
    assert "c" == found[0].key
    assert 1.0 == pytest.approx(found[0].correlation_ratio)
    assert ("label of c", "how to measure c") == (found[0].label, found[0].measure)


def test_cases_without_an_answer_are_left_out() -> None:
    draws, ranks = _synthetic()
    solved = ranks["a"] < 0.6
    margin = np.where(solved, ranks["b"], np.nan)
    found = drivers(draws, margin, solved)
    assert "b" == found[0].key
    assert 1.0 == pytest.approx(found[0].correlation_ratio)


def test_five_are_named_and_none_where_there_is_nothing_to_rank() -> None:
    draws, ranks = _synthetic()
    assert 5 == len(drivers(draws, ranks["a"], np.ones(257, dtype=bool)))
    assert () == drivers(draws, ranks["a"], np.zeros(257, dtype=bool))
    assert () == drivers(Draws(0), np.zeros(1), np.ones(1, dtype=bool))
