"""Water and air between two switch times: how all that is dissolved changes, over all cases at once.

Time is in minutes, water in mg/L, air in mg/m3.
"""

from dataclasses import dataclass, fields
from typing import NamedTuple

import numpy as np

from sanitize.studies.draws import Array

OZONE, OXIDANT, FAST, SLOW, OVER, ROOM = range(6)
"""Rows of a state: dissolved ozone, the other oxidant, fast and slow demand, air over the water, air of the room."""
STATES = 6
SEEN = 8
"""Rows of what is added up: ozone, air over the water, air of the room, each times minutes; then what reacted [mg/L]:
ozone with fast and with slow demand, ozone with the other oxidant, the other oxidant with fast and with slow demand."""
SMALL = np.array([1e-6, 1e-5, 1e-5, 1e-5, 1e-4, 1e-4])[:, np.newaxis]
"""Below this a row of a state needs no precision of its own."""
NOTHING = np.array([1e-9, 1e-7, 1e-7, 1e-7, 1e-6, 1e-6])[:, np.newaxis]
"""How far below nothing a row may come out of a step, and is then set to nothing."""
GAMMA = 0.5
SAFETY, SHRINK, GROW = 0.9, 0.1, 5.0


@dataclass(frozen=True, eq=False)
class Rates:
    """The coefficients of a stretch of time without switching; each has the shape of the cases, pairs (2, cases).

    feed_mgl_min: ozone brought into the water; loss_per_min: ozone lost by decay, stripping and through the surface;
    from_air_l: ozone that the air over the water gives back [mg/L/min for each mg/m3]; demand_mgl_min: what bathers
    bring, fast and slow; dilution_per_min: by fresh water; ozone_speed: of ozone with either demand [L/mg/min];
    oxidant_speed: of the other oxidant with either demand [L/mg/min]; meeting_speed: of ozone with the other oxidant
    [L/mg/min]; oxidant_each, oxidant_each_ozone: other oxidant used for each mg of demand and of ozone [mg/mg];
    oxidant_loss_per_min: its own decay; over_feed_mgm3_min, over_of_ozone [mg/m3/min for each mg/L],
    over_loss_per_min: of the air over the water; room_of_over_per_min, room_loss_per_min: of the room's air where a
    lid parts the two.
    """

    feed_mgl_min: Array
    loss_per_min: Array
    from_air_l: Array
    demand_mgl_min: Array
    dilution_per_min: Array
    ozone_speed: Array
    oxidant_speed: Array
    meeting_speed: Array
    oxidant_each: Array
    oxidant_each_ozone: Array
    oxidant_loss_per_min: Array
    over_feed_mgm3_min: Array
    over_of_ozone: Array
    over_loss_per_min: Array
    room_of_over_per_min: Array
    room_loss_per_min: Array

    def at(self, stretch: int) -> "Rates":
        """One stretch of rates whose first axis is the stretches."""
        return Rates(*(getattr(self, field.name)[stretch] for field in fields(self)))


def slopes(state: Array, rates: Rates) -> tuple[Array, Array]:
    """Change a minute of every row of a state (6, cases), and of every row of what is added up (8, cases)."""
    ozone, oxidant, demand = state[OZONE], state[OXIDANT], state[FAST : SLOW + 1]
    over, room = state[OVER], state[ROOM]
    by_ozone = rates.ozone_speed * demand * ozone
    by_oxidant = rates.oxidant_speed * demand * oxidant
    meeting = rates.meeting_speed * ozone * oxidant
    change, seen = np.empty_like(state), np.empty((SEEN, state.shape[1]))
    change[OZONE] = (
        rates.feed_mgl_min - rates.loss_per_min * ozone + rates.from_air_l * over - by_ozone[0] - by_ozone[1] - meeting
    )
    change[OXIDANT] = (
        -rates.oxidant_loss_per_min * oxidant
        - rates.oxidant_each_ozone * meeting
        - rates.oxidant_each * (by_oxidant[0] + by_oxidant[1])
    )
    change[FAST : SLOW + 1] = rates.demand_mgl_min - rates.dilution_per_min * demand - by_ozone - by_oxidant
    change[OVER] = rates.over_feed_mgm3_min + rates.over_of_ozone * ozone - rates.over_loss_per_min * over
    change[ROOM] = rates.room_of_over_per_min * over - rates.room_loss_per_min * room
    seen[0], seen[1], seen[2] = ozone, over, room
    seen[3:5], seen[5], seen[6:8] = by_ozone, meeting, by_oxidant
    return change, seen


class _Matrix:
    """g - J at one state, ready to be solved: ozone and the other oxidant are hubs, demands and air their leaves."""

    def __init__(self, state: Array, rates: Rates, g: float) -> None:
        ozone, oxidant, demand = state[OZONE], state[OXIDANT], state[FAST : SLOW + 1]
        self.rates, self.g = rates, g
        leaf = np.empty((3, state.shape[1]))
        leaf[:2] = g + rates.dilution_per_min + rates.ozone_speed * ozone + rates.oxidant_speed * oxidant
        leaf[2] = g + rates.over_loss_per_min
        self.inverse_leaf = 1.0 / leaf
        self.of_ozone, self.of_oxidant = np.empty_like(leaf), np.empty_like(leaf)
        to_ozone, to_oxidant = np.empty_like(leaf), np.empty_like(leaf)
        self.with_ozone, self.with_oxidant = rates.ozone_speed * demand, rates.oxidant_speed * demand
        self.of_ozone[:2], self.of_ozone[2] = self.with_ozone, -rates.over_of_ozone
        self.of_oxidant[:2], self.of_oxidant[2] = self.with_oxidant, 0.0
        self.of_ozone *= self.inverse_leaf
        self.of_oxidant *= self.inverse_leaf
        to_ozone[:2], to_ozone[2] = rates.ozone_speed * ozone, -rates.from_air_l
        to_oxidant[:2], to_oxidant[2] = rates.oxidant_each * (rates.oxidant_speed * oxidant), 0.0
        self.to_ozone, self.to_oxidant = to_ozone, to_oxidant
        self.by_ozone, self.by_oxidant = to_ozone[:2], rates.oxidant_speed * oxidant
        self.meet_ozone, self.meet_oxidant = rates.meeting_speed * oxidant, rates.meeting_speed * ozone
        a = g + rates.loss_per_min + self.with_ozone.sum(0) + self.meet_ozone - (to_ozone * self.of_ozone).sum(0)
        b = self.meet_oxidant - (to_ozone * self.of_oxidant).sum(0)
        c = rates.oxidant_each_ozone * self.meet_ozone - (to_oxidant * self.of_ozone).sum(0)
        d = (
            g
            + rates.oxidant_loss_per_min
            + rates.oxidant_each_ozone * self.meet_oxidant
            + rates.oxidant_each * self.with_oxidant.sum(0)
            - (to_oxidant * self.of_oxidant).sum(0)
        )
        determinant = a * d - b * c
        self.a, self.b, self.c, self.d = a / determinant, b / determinant, c / determinant, d / determinant

    def solve(self, state: Array, seen: Array) -> tuple[Array, Array]:
        """The vectors whose product with the matrix is (state, seen)."""
        found, added = np.empty_like(state), np.empty_like(seen)
        leaf = state[FAST : OVER + 1] * self.inverse_leaf
        right = state[OZONE] - (self.to_ozone * leaf).sum(0)
        other = state[OXIDANT] - (self.to_oxidant * leaf).sum(0)
        ozone = found[OZONE] = self.d * right - self.b * other
        oxidant = found[OXIDANT] = self.a * other - self.c * right
        leaves = found[FAST : OVER + 1] = leaf - self.of_ozone * ozone - self.of_oxidant * oxidant
        over, demand = leaves[2], leaves[:2]
        room = found[ROOM] = (state[ROOM] + self.rates.room_of_over_per_min * over) / (
            self.g + self.rates.room_loss_per_min
        )
        added[0], added[1], added[2] = ozone, over, room
        added[3:5] = self.with_ozone * ozone + self.by_ozone * demand
        added[5] = self.meet_ozone * ozone + self.meet_oxidant * oxidant
        added[6:8] = self.with_oxidant * oxidant + self.by_oxidant * demand
        return found, (seen + added) / self.g


class Advanced(NamedTuple):
    """State and sums at the end of a stretch; step_min: what to try next; steps_count: accepted steps."""

    state: Array
    seen: Array
    step_min: float
    steps_count: int


def advance(state: Array, rates: Rates, length_min: float, step_min: float, tolerance_ratio: float = 1e-4) -> Advanced:
    """The state after a stretch of time with fixed rates, and what was added up in it.

    state: (6, cases); rates: of the cases; step_min: first step to try; tolerance_ratio: error of one step.
    All cases take the same steps. The method is RODAS3, a Rosenbrock method of order 3 with an embedded one of
    order 2, with the exact Jacobian; it is stiffly accurate, and what the equations keep it keeps to rounding.
    A step that would leave a row below NOTHING is taken again shorter.
    """
    seen = np.zeros((SEEN, state.shape[1]))
    time, steps = 0.0, 0
    step = min(step_min, length_min)
    while length_min - time > 1e-9 * length_min:
        last = step >= length_min - time
        h = length_min - time if last else step
        matrix = _Matrix(state, rates, 1.0 / (GAMMA * h))
        slope, sight = slopes(state, rates)
        k1, q1 = matrix.solve(slope, sight)
        k2, q2 = matrix.solve(slope + 4.0 / h * k1, sight + 4.0 / h * q1)
        start = state + 2.0 * k1
        slope, sight = slopes(start, rates)
        k3, q3 = matrix.solve(slope + (k1 - k2) / h, sight + (q1 - q2) / h)
        start = start + k3
        slope, sight = slopes(start, rates)
        k4, q4 = matrix.solve(slope + (k1 - k2 - 8.0 / 3.0 * k3) / h, sight + (q1 - q2 - 8.0 / 3.0 * q3) / h)
        new = start + k4
        scale = SMALL + tolerance_ratio * np.maximum(np.abs(state), np.abs(new))
        error = max(float(np.max(np.abs(k4) / scale)), float(np.max(-new / NOTHING)), 1e-8)
        if error <= 1.0:
            time = length_min if last else time + h
            state = np.maximum(new, 0.0)
            seen = seen + 2.0 * q1 + q3 + q4
            steps += 1
        following = h * min(GROW, max(SHRINK, SAFETY * error ** (-1.0 / 3.0)))
        step = max(step, following) if error <= 1.0 and last else following
    return Advanced(state, seen, step, steps)
