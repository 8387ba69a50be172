"""Ozone in the air of a room: linearity, inverses, a rival integrator, published removal."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sanitize.laws.ozone.room_air import (
    changes_for_per_h,
    emission_for_mg_per_h,
    over_water_mgm3,
    steady_mgm3,
    time_to_fall_min,
)

EMISSION = st.floats(0.0, 1e4)
VOLUME = st.floats(1.0, 500.0)
RATE = st.floats(0.0, 20.0)
DECAY = st.floats(0.1, 5.0)


@given(EMISSION, EMISSION, VOLUME, RATE, DECAY)
def test_room_is_linear_in_what_comes_in(one: float, other: float, volume: float, changes: float, decay: float) -> None:
    both = float(steady_mgm3(one + other, volume, changes, decay))
    apart = float(steady_mgm3(one, volume, changes, decay)) + float(steady_mgm3(other, volume, changes, decay))
    assert both == pytest.approx(apart)


@given(st.floats(0.01, 5.0), VOLUME, RATE, DECAY)
def test_room_emission_that_it_bears_brings_it_to_the_limit(
    limit: float, volume: float, changes: float, decay: float
) -> None:
    emission = emission_for_mg_per_h(limit, volume, changes, decay)
    assert limit == pytest.approx(float(steady_mgm3(emission, volume, changes, decay)))


@given(st.floats(1.0, 1e4), st.floats(0.01, 5.0), VOLUME, DECAY)
def test_room_air_changes_that_hold_the_limit_do(emission: float, limit: float, volume: float, decay: float) -> None:
    changes = float(changes_for_per_h(emission, limit, volume, decay))
    reached = float(steady_mgm3(emission, volume, changes, decay))
    assert reached == pytest.approx(limit) if changes > 0.0 else reached <= limit * (1.0 + 1e-9)


def test_room_by_hand() -> None:
    """28 mg/h into 10 m3 with 2.8 changes' worth of decay and no air change: 28/28 = 1 mg/m3."""
    assert 1.0 == pytest.approx(float(steady_mgm3(28.0, 10.0, 0.0, 2.8)))


def test_room_removal_makes_ozone_halve_in_minutes() -> None:
    """Weschler 2000, abstract: half-life indoors 7 to 10 min in most; with 2 air changes an hour here 9 min."""
    assert 9.0 == pytest.approx(float(time_to_fall_min(1.0, 0.5, 2.0, 2.8)), abs=0.5)


def test_room_falls_as_an_integrator_says() -> None:
    time = float(time_to_fall_min(2.0, 0.1, 0.5, 1.0))
    rival = solve_ivp(lambda _, c: -(0.5 + 1.0) / 60.0 * c, (0.0, time), [2.0], rtol=1e-10, atol=1e-12)
    assert 0.1 == pytest.approx(float(rival.y[0, -1]), rel=1e-6)


@pytest.mark.parametrize("fading", [0.3, 1.5, 40.0])
def test_breathed_air_falls_as_an_integrator_says_while_the_water_gives_off(fading: float) -> None:
    """Room and water as two boxes, also where both fall equally fast; what is near adds to the room."""
    time = float(time_to_fall_min(2.0, 0.1, 0.5, 1.0, 0.8, 0.4, fading)) / 60.0
    rival = solve_ivp(
        lambda _, y: [-1.5 * y[0] + y[1], -fading * y[1]], (0.0, time), [2.0, 0.8], rtol=1e-11, atol=1e-13
    )
    assert 0.1 == pytest.approx(float(rival.y[0, -1] + 0.4 / 0.8 * rival.y[1, -1]), rel=1e-6)


def test_breathed_air_waits_for_the_water_where_only_that_is_above_the_limit() -> None:
    """By hand: a room at nothing, ten times the limit over the water, fading by 2.3026 an hour: an hour."""
    assert 60.0 == pytest.approx(float(time_to_fall_min(0.0, 0.1, 0.5, 1.0, 0.0, 1.0, np.log(10.0))))


def test_room_below_the_limit_takes_no_time() -> None:
    assert 0.0 == float(time_to_fall_min(0.01, 0.1, 0.5, 1.0))


def test_over_water_by_hand() -> None:
    """Half sphere of 1 m: 2 pi m2, half of it inflow, at 1 m/min: pi m3/min; 60 pi mg/h give 1 mg/m3."""
    assert 1.0 == pytest.approx(float(over_water_mgm3(60.0 * np.pi, 1.0, 1.0)))


@pytest.mark.parametrize(
    "call",
    [
        lambda: steady_mgm3(1.0, 0.0, 0.5, 1.0),
        lambda: steady_mgm3(-1.0, 10.0, 0.5, 1.0),
        lambda: steady_mgm3(1.0, 10.0, 0.0, 0.0),
        lambda: emission_for_mg_per_h(-0.1, 10.0, 0.5, 1.0),
        lambda: changes_for_per_h(1.0, 0.0, 10.0, 1.0),
        lambda: over_water_mgm3(1.0, 0.0, 1.0),
        lambda: time_to_fall_min(1.0, 0.0, 0.5, 1.0),
        lambda: time_to_fall_min(1.0, 0.1, 0.0, 0.0),
        lambda: time_to_fall_min(1.0, 0.1, 0.5, 1.0, 1.0, 0.0, 0.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above 0|takes ozone away|0 or more"):
        call()
