"""A loop whose unknowns are given by their normal scores: 0 is nominal, and the file's ranges are standard normal."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws, Input
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.gas_flow import line_of, mixer_of
from sanitize.studies.suction.predicted import predicted
from sanitize.studies.suction.states import GasSide, gas_side, levels

NEVER_FITTED = ("down-leg stays full", "tub.rim")
"""Inputs that no reading of the running loop can teach: a matter of either-or, and a height that no water reaches."""


@dataclass(frozen=True, eq=False)
class Scored:
    """What a loop does at some scores of its unknowns, over the cases."""

    draws: Draws
    running: Run
    gas: GasSide | None
    readings: Array


class ScoredLoop:
    """A loop over normal scores.

    inputs: its unknowns by key, in the order of the scores; readings: which are predicted.
    """

    def __init__(self, plant: Plant, readings: Sequence[str]) -> None:
        self.plant = plant
        self.readings = tuple(readings)
        self.inputs: dict[str, Input] = {}
        nominal = self.at(np.zeros((0, 1)))
        self.inputs = {key: item for key, item in nominal.draws.inputs.items() if key not in NEVER_FITTED}

    def at(self, scores: Array) -> Scored:
        """What the loop does at scores of shape (unknowns, cases); readings have the shape (readings, cases).

        A reading is not a number where the loop has no operating point.
        """
        ranks = dict(zip(self.inputs, np.asarray(ndtr(scores)), strict=True))
        draws = Draws.of_ranks(ranks, scores.shape[1])
        running = run(self.plant, draws, Condition(levels(self.plant, draws)["normal"]))
        gas = None
        if running.port is not None:
            gas = gas_side(self.plant, draws, running.port.height_m)
            part = next(item.part for item in running.assembly.parts if isinstance(item.part, Injector))
            mixer_of(part, running.port.model, draws)
            line_of(self.plant, draws, gas, running.assembly.water.atmosphere_pa_abs)
        values = predicted(self.plant, draws, running, gas, self.readings)
        shape = (len(self.readings), scores.shape[1])
        stacked = np.stack([values[name] for name in self.readings]) if self.readings else np.zeros(shape)
        return Scored(draws, running, gas, stacked)

    def slopes(self, scores: Array, step: float) -> tuple[Array, Array]:
        """Readings at scores of shape (unknowns), and their slopes with each score, shape (readings, unknowns).

        By differences to both sides, as the ranges bend at nominal.
        """
        count = scores.size
        cases = np.repeat(scores[:, None], 2 * count + 1, axis=1)
        index = np.arange(count)
        cases[index, 1 + index] += step
        cases[index, 1 + count + index] -= step
        values = self.at(cases).readings
        return values[:, 0], (values[:, 1 : 1 + count] - values[:, 1 + count :]) / (2.0 * step)
