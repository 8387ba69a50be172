"""What passes the filters, and what the pumps take."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from sanitize.basis.errors import NoSolutionError
from sanitize.studies.draws import Draws
from sanitize.studies.hours.flows import flows_of, pump_power_w, treated_m3s
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run

START = '{part = "suction fitting", height = "0.2 m"}'
PUMP = '{part = "pump", height = "0.1 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]}'
FILTER = '{part = "filter", drop = "6 kPa", at_flow = "40 L/min"}'
END = '{part = "return", height = "0.5 m"}'
SPLIT = '{part = "split", ways = ["kept", "past"]}'


def loop(*parts: str, ways: str = "") -> str:
    return f"loop = [{', '.join(parts)}]\n{ways}"


def test_treated_flow_behind_a_filter_in_the_loop_is_all_of_it(run_of: Callable[..., Any]) -> None:
    answer = run_of(loop(START, PUMP, FILTER, END))
    assert float(answer.flow_m3s[0]) == pytest.approx(float(treated_m3s(answer)[0]))


def test_treated_flow_of_a_filter_in_one_way_is_that_ways(run_of: Callable[..., Any]) -> None:
    ways = f'way.kept = [{FILTER}]\nway.past = [{{part = "known loss", k = 20}}]'
    answer = run_of(loop(START, PUMP, SPLIT, END, ways=ways))
    own = answer.station("filter").flow_m3s[0]
    assert float(own) == pytest.approx(float(treated_m3s(answer)[0]))
    assert own < 0.9 * answer.flow_m3s[0]


def test_treated_flow_of_a_way_and_then_all_of_it_is_all_of_it(run_of: Callable[..., Any]) -> None:
    second = FILTER.replace("drop", 'name = "second", drop')
    ways = f'way.kept = [{FILTER}]\nway.past = [{{part = "known loss", k = 20}}]'
    answer = run_of(loop(START, PUMP, SPLIT, second, END, ways=ways))
    assert float(answer.flow_m3s[0]) == pytest.approx(float(treated_m3s(answer)[0]))


def test_treated_flow_counts_no_water_twice_that_passes_two_filters(run_of: Callable[..., Any]) -> None:
    second = FILTER.replace("drop", 'name = "second", drop')
    answer = run_of(loop(START, PUMP, FILTER, second, END))
    assert float(answer.flow_m3s[0]) == pytest.approx(float(treated_m3s(answer)[0]))


def test_treated_flow_with_a_return_of_its_own_for_either_way(run_of: Callable[..., Any]) -> None:
    ways = (
        f'way.kept = [{FILTER}, {{part = "return", name = "east", height = "0.5 m"}}]\n'
        'way.past = [{part = "return", name = "west", height = "0.5 m"}]'
    )
    answer = run_of(loop(START, PUMP, SPLIT, ways=ways))
    assert float(answer.station("east").flow_m3s[0]) == pytest.approx(float(treated_m3s(answer)[0]))


def test_treated_flow_of_a_filter_before_two_returns_is_all_of_it(run_of: Callable[..., Any]) -> None:
    ways = (
        'way.kept = [{part = "return", name = "east", height = "0.5 m"}]\n'
        'way.past = [{part = "return", name = "west", height = "0.5 m"}]'
    )
    answer = run_of(loop(START, PUMP, FILTER, SPLIT, ways=ways))
    assert float(answer.flow_m3s[0]) == pytest.approx(float(treated_m3s(answer)[0]))


def test_treated_flow_of_a_loop_without_filter_is_all_that_moves(run_of: Callable[..., Any]) -> None:
    answer = run_of(loop(START, PUMP, END))
    assert float(answer.flow_m3s[0]) == pytest.approx(float(treated_m3s(answer)[0]))


def test_flows_that_pass_no_filter_have_no_answer(plant_of: Callable[..., Any]) -> None:
    shut = '{part = "ball valve", handle = "90 deg"}'
    ways = f'way.kept = [{shut}, {FILTER}]\nway.past = [{{part = "known loss", k = 20}}]'
    plant = plant_of(loop(START, PUMP, SPLIT, END, ways=ways))
    draws = Draws(0)
    answer = run(plant, draws, Condition(np.array([0.8])))
    with pytest.raises(NoSolutionError, match="No water passes the filter"):
        flows_of(plant, draws, answer, answer)


def test_power_of_running_pumps_adds_up_and_follows_their_speed(plant_of: Callable[..., Any]) -> None:
    """100 W, and 100 W at half speed by the cube: 12.5 W; the third stands."""
    slow = PUMP.replace("power", 'name = "slow", speed = "1450 rpm", curve_speed = "2900 rpm", power')
    off = PUMP.replace("power", 'name = "off", running = false, power')
    plant = plant_of(loop(START, PUMP, slow, off, END))
    answer = run(plant, Draws(0), Condition(np.array([0.8])))
    assert 112.5 == pytest.approx(float(pump_power_w(plant, Draws(0), answer)[0]))


def test_power_that_is_not_given_is_five_times_what_the_water_gets(plant_of: Callable[..., Any]) -> None:
    """Wire to water 0.2: rho g Q H / 0.2, H = 5 m (1 - (Q/60)^2)."""
    plant = plant_of(loop(START, PUMP.replace('power = "100 W", ', ""), END))
    answer = run(plant, Draws(0), Condition(np.array([0.8])))
    flow = float(answer.flow_m3s[0])
    head = 5.0 * (1.0 - (flow * 60e3 / 60.0) ** 2)
    assert 999.7 * 9.80665 * flow * head / 0.2 == pytest.approx(
        float(pump_power_w(plant, Draws(0), answer)[0]), rel=1e-4
    )
