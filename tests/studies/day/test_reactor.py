"""The integrator between switch times: closed forms, a rival integrator, its matrix, balances, positivity."""

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sanitize.laws.ozone.demand import ozone_after_demand_mgl
from sanitize.studies.day.reactor import (
    FAST,
    OVER,
    OXIDANT,
    OZONE,
    ROOM,
    SEEN,
    SLOW,
    SMALL,
    STATES,
    Rates,
    _Matrix,
    advance,
    slopes,
)

PAIRS = ("demand_mgl_min", "ozone_speed", "oxidant_speed")


def _none(cases: int = 1) -> dict[str, np.ndarray]:
    return {field.name: np.zeros((2, cases) if field.name in PAIRS else cases) for field in fields(Rates)}


def _rates(**given: np.ndarray) -> Rates:
    return Rates(**{**_none(), **given})


def _drawn(seed: int, cases: int) -> tuple[np.ndarray, Rates]:
    """States and rates over the ranges that a tub may have, spread over decades."""
    rng = np.random.default_rng(seed)

    def spread(low: float, high: float, shape: tuple[int, ...] = (cases,)) -> np.ndarray:
        return np.exp(rng.uniform(np.log(low), np.log(high), shape))

    rates = Rates(
        feed_mgl_min=spread(1e-4, 0.02),
        loss_per_min=spread(0.01, 0.6),
        from_air_l=spread(1e-8, 1e-5),
        demand_mgl_min=np.stack([spread(1e-4, 0.2), spread(1e-4, 0.2)]),
        dilution_per_min=spread(1e-7, 1e-4),
        ozone_speed=np.stack([spread(0.5, 10.0), spread(0.005, 0.1)]),
        oxidant_speed=np.stack([spread(0.01, 1.0), spread(1e-4, 0.01)]),
        meeting_speed=spread(1e-3, 2.0),
        oxidant_each=spread(0.5, 3.5),
        oxidant_each_ozone=spread(0.3, 3.5),
        oxidant_loss_per_min=spread(1e-5, 1e-3),
        over_feed_mgm3_min=spread(1e-3, 10.0),
        over_of_ozone=spread(1e-2, 50.0),
        over_loss_per_min=spread(0.01, 0.3),
        room_of_over_per_min=spread(1e-6, 1e-3),
        room_loss_per_min=spread(0.01, 0.3),
    )
    scale = np.array([0.1, 2.0, 1.0, 3.0, 1.0, 0.1])[:, np.newaxis]
    return spread(0.01, 1.0, (STATES, cases)) * scale, rates


def test_ozone_that_meets_a_demand_follows_the_closed_form() -> None:
    """Second order without feed or decay; within the tolerance of a step times some steps."""
    rates = _rates(ozone_speed=np.array([[2.0], [0.0]]))
    state = np.zeros((STATES, 1))
    state[OZONE], state[FAST] = 0.5, 0.75
    found = advance(state, rates, 3.0, 0.1, 1e-5).state
    expected = float(ozone_after_demand_mgl(0.5, 0.75, 2.0, 3.0))
    assert expected == pytest.approx(found[OZONE, 0], rel=1e-4)
    assert 0.25 == pytest.approx(found[FAST, 0] - found[OZONE, 0], rel=1e-9)


def test_ozone_in_water_and_room_comes_to_its_steady_state() -> None:
    """By hand: C = feed / loss = 0.002 / 0.05, over the water (1 + 2 C) / 0.1, in the room 0.01 of it / 0.05."""
    one = np.ones(1)
    rates = _rates(
        feed_mgl_min=0.002 * one,
        loss_per_min=0.05 * one,
        over_feed_mgm3_min=one,
        over_of_ozone=2.0 * one,
        over_loss_per_min=0.1 * one,
        room_of_over_per_min=0.01 * one,
        room_loss_per_min=0.05 * one,
    )
    found = advance(np.zeros((STATES, 1)), rates, 2000.0, 0.1).state[:, 0]
    assert [0.04, 10.8, 2.16] == pytest.approx([found[OZONE], found[OVER], found[ROOM]], rel=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_state_agrees_with_a_second_integrator(seed: int) -> None:
    """scipy's Radau at 1e-9; to a tenth of what needs no precision of its own."""
    state, rates = _drawn(seed, 1)
    rival = solve_ivp(
        lambda _, y: slopes(y[:, np.newaxis], rates)[0][:, 0], (0.0, 120.0), state[:, 0], method="Radau", rtol=1e-9,
        atol=1e-12,
    )  # fmt: skip
    found = advance(state, rates, 120.0, 0.1, 1e-5).state[:, 0]
    assert np.all(np.abs(rival.y[:, -1] - found) <= 1e-4 * found + 0.1 * SMALL[:, 0])


def test_one_step_of_half_the_length_errs_a_sixteenth() -> None:
    """A method of order 3 errs by h^4 in one step; of two lengths, short against every rate."""
    state, rates = _drawn(3, 1)
    errors = []
    for length in (0.02, 0.01):
        rival = solve_ivp(
            lambda _, y: slopes(y[:, np.newaxis], rates)[0][:, 0], (0.0, length), state[:, 0], method="DOP853",
            rtol=1e-13, atol=1e-16,
        ).y[:, -1]  # fmt: skip
        done = advance(state, rates, length, length, 1e9)
        assert 1 == done.steps_count
        errors.append(float(abs(done.state[FAST, 0] - rival[FAST])))
    assert 16.0 == pytest.approx(errors[0] / errors[1], rel=0.1)


def test_matrix_is_the_jacobian_of_the_slopes() -> None:
    """By central differences of every row; the product with the solution gives the right side back."""
    state, rates = _drawn(11, 1)
    right = np.random.default_rng(5).normal(size=(STATES, 1))
    zero = np.zeros((SEEN, 1))
    jacobian, sight = np.empty((STATES, STATES)), np.empty((SEEN, STATES))
    for row in range(STATES):
        step = 1e-6 * max(float(state[row, 0]), 1e-3)
        up, down = state.copy(), state.copy()
        up[row] += step
        down[row] -= step
        (slope_up, seen_up), (slope_down, seen_down) = slopes(up, rates), slopes(down, rates)
        jacobian[:, row] = (slope_up - slope_down)[:, 0] / (2.0 * step)
        sight[:, row] = (seen_up - seen_down)[:, 0] / (2.0 * step)
    found, added = _Matrix(state, rates, 3.0).solve(right, zero)
    assert right[:, 0] == pytest.approx((3.0 * np.eye(STATES) - jacobian) @ found[:, 0], rel=1e-6, abs=1e-8)
    assert (sight @ found[:, 0] / 3.0) == pytest.approx(added[:, 0], rel=1e-6, abs=1e-8)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10**6), st.floats(0.5, 300.0))
def test_masses_close_and_nothing_is_negative(seed: int, length_min: float) -> None:
    """Ozone, the air over the water and the demands, whatever the tolerance, to 1e-9 of what moved."""
    state, rates = _drawn(seed, 4)
    done = advance(state, rates, length_min, 0.1)
    seen, change = done.seen, done.state - state
    assert float(done.state.min()) >= 0.0
    ozone = (
        rates.feed_mgl_min * length_min - rates.loss_per_min * seen[0] + rates.from_air_l * seen[1] - seen[3] - seen[4]
        - seen[5]
    )  # fmt: skip
    over = rates.over_feed_mgm3_min * length_min + rates.over_of_ozone * seen[0] - rates.over_loss_per_min * seen[1]
    room = rates.room_of_over_per_min * seen[1] - rates.room_loss_per_min * seen[2]
    oxidant = -rates.oxidant_each_ozone * seen[5] - rates.oxidant_each * (seen[6] + seen[7])
    moved = rates.feed_mgl_min * length_min + state[OZONE]
    assert change[OZONE] == pytest.approx(ozone, abs=1e-8 * float(moved.max()) + 1e-8)
    assert change[OVER] == pytest.approx(over, rel=1e-6, abs=1e-5)
    assert change[ROOM] == pytest.approx(room, rel=1e-6, abs=1e-5)
    assert np.all(change[OXIDANT] <= oxidant + 1e-6)
    for row, (by_ozone, by_oxidant) in {FAST: (3, 6), SLOW: (4, 7)}.items():
        brought = rates.demand_mgl_min[row - FAST] * length_min
        assert np.all(change[row] <= brought - seen[by_ozone] - seen[by_oxidant] + 1e-6)


def test_cases_do_not_touch_each_other() -> None:
    """Twenty cases at once against one by one, within the tolerance, as all take the steps of the stiffest."""
    state, rates = _drawn(2, 20)
    together = advance(state, rates, 60.0, 0.1, 1e-5).state
    for case in (0, 7, 19):
        alone = Rates(*(getattr(rates, field.name)[..., case : case + 1] for field in fields(Rates)))
        found = advance(state[:, case : case + 1], alone, 60.0, 0.1, 1e-5).state[:, 0]
        assert np.all(np.abs(together[:, case] - found) <= 2e-4 * found + 0.2 * SMALL[:, 0])
