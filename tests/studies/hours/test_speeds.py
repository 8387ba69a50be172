"""The same volume a day at other speeds, and the speed below which the injector stops drawing."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.studies.hours.result import Hours
from sanitize.studies.hours.speeds import draws_from_ratio

HoursOf = Callable[..., Hours]
PUMP = """[[loop]]
part = "suction fitting"
height = "0.20 m"
[[loop]]
part = "pump"
height = "0.10 m"
power = "100 W"
curve_speed = "3000 rpm"
speed = "3000 rpm"
curve = [["0 L/min", "6 m"], ["60 L/min", "0 m"]]
"""
END = """[[loop]]
part = "return"
height = "0.50 m"
"""
LOSS = """[[loop]]
part = "known loss"
k = 20
"""
SQUARE = PUMP + LOSS + END
"""Every loss goes with the square of the flow and nothing is lifted, so the affinity laws hold exactly."""
INJECTOR = f"""{PUMP}{LOSS.replace("20", "150")}[[loop]]
part = "injector"
height = "0.30 m"
inlet_to_port = ["30 kPa", "25 L/min"]
outlet_to_port = ["23 kPa", "25 L/min"]
{END}"""
CHILLER = """[[loop]]
part = "chiller"
drop = "2 kPa"
at_flow = "30 L/min"
min_flow = "20 L/min"
"""
GAS = '[gas_line]\ncheck_valve_opens_at = "6 kPa"\n'


def test_half_the_speed_by_the_affinity_laws(hours_of: HoursOf) -> None:
    """Half the flow, an eighth of the power, twice the time, a quarter of the energy."""
    speeds = hours_of(loop=SQUARE).speeds
    assert speeds is not None
    full, half = (next(row for row in speeds.rows if row.speed_ratio == ratio) for ratio in (1.0, 0.5))
    assert 0.5 == pytest.approx(half.flow_m3s.ends[1] / full.flow_m3s.ends[1], rel=1e-6)
    assert (12.5, 100.0) == (half.power_w.nominal, full.power_w.nominal)
    assert 2.0 == pytest.approx(half.run_s.ends[1] / full.run_s.ends[1], rel=1e-6)
    assert 0.25 == pytest.approx(half.energy_j.ends[1] / full.energy_j.ends[1], rel=1e-6)
    assert 25.0 == half.speed_per_s


def test_own_speed_is_the_answer_itself(hours_of: HoursOf) -> None:
    answer = hours_of(loop=SQUARE.replace('\nspeed = "3000 rpm"', '\nspeed = "2250 rpm"'))
    assert answer.speeds is not None
    own = next(row for row in answer.speeds.rows if row.speed_ratio == 0.75)
    assert answer.run_s.nominal == pytest.approx(own.run_s.nominal)
    assert answer.loaded_flow_m3s.nominal == pytest.approx(own.flow_m3s.nominal)
    assert answer.spread_energy_j.pump.nominal == pytest.approx(own.energy_j.nominal)
    assert None is own.draws_share_ratio
    assert None is answer.speeds.draws_from_per_s


def test_pump_without_its_curves_speed_has_no_other_speeds(hours_of: HoursOf) -> None:
    assert None is hours_of().speeds


def test_speed_below_which_it_stops_drawing_is_where_it_just_draws(hours_of: HoursOf) -> None:
    """Solved again a little above and a little below the speed that was found."""
    start = hours_of(GAS, loop=INJECTOR).speeds
    assert start is not None
    assert start.draws_from_per_s is not None
    limit = start.draws_from_per_s.ends[1]
    shares = []
    for factor in (1.02, 0.98):
        text = INJECTOR.replace('\nspeed = "3000 rpm"', f'\nspeed = "{60 * factor * limit} rpm"')
        speeds: Any = hours_of(GAS, loop=text).speeds
        row = min(speeds.rows, key=lambda row: abs(row.speed_per_s - factor * limit))
        shares.append(row.draws_share_ratio)
    assert [1.0, 0.0] == shares


def test_chiller_that_gets_too_little_is_named_at_slow_speeds(hours_of: HoursOf) -> None:
    speeds = hours_of(loop=PUMP + CHILLER + LOSS + END).speeds
    assert speeds is not None
    for row in speeds.rows:
        assert (row.flow_m3s.ends[1] < 20 / 60e3) == (row.too_little_for == ("chiller",))
    assert {(), ("chiller",)} == {row.too_little_for for row in speeds.rows}


@given(st.floats(0.41, 0.99))
def test_crossing_of_a_margin_that_goes_with_the_square_of_the_speed_is_exact(limit: float) -> None:
    """Margin a - b n^2, zero at the limit."""
    ratios = [1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4]
    margins = [np.array([limit**2 - ratio**2]) for ratio in ratios]
    assert limit == pytest.approx(float(draws_from_ratio(ratios, margins)[0]), abs=1e-12)


def test_crossing_next_to_a_speed_without_an_answer_is_the_slowest_that_draws() -> None:
    assert [0.8] == draws_from_ratio([1.0, 0.8, 0.6], [np.array([-2.0]), np.array([-1.0]), np.array([np.inf])]).tolist()
