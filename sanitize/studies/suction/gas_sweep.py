"""Gas flow and vacuum against the most telling free quantity of a loop: the injector's height or a length behind it."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.figure import Figure
from sanitize.plant.changed import with_part
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.draws import SEED, Draws
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, injector_of, run
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.gas_report import widened
from sanitize.studies.suction.notes import parts_behind_injector
from sanitize.studies.suction.onset import draws_share
from sanitize.studies.suction.states import gas_side, levels

POINTS = 11
CASES = 256
BELOW_M, ABOVE_M = 0.3, 1.2
"""How far below and above the water line the injector's height is tried."""
SHORTEST_RATIO, LONGEST_RATIO = 0.4, 2.5
"""Lengths that are tried, over the one in the file."""


@dataclass(frozen=True)
class GasSweep:
    """What the loop does at other values of one free quantity; everything else stays as in the file.

    label: what is varied; here_m: its value in the file; values_m: those tried; gas_flow_m3s with the line open, at
    local atmosphere and 20 degC; port_pressure_closed_pa_gauge; draws_share_ratio: share of the cases that draw.
    """

    title: str
    units: str
    label: str
    here_m: float
    values_m: tuple[float, ...]
    gas_flow_m3s: tuple[Figure, ...]
    port_pressure_closed_pa_gauge: tuple[Figure, ...]
    draws_share_ratio: tuple[float, ...]


@dataclass(frozen=True)
class _Quantity:
    label: str
    part: str
    field: str
    band: Band
    low: float
    high: float

    def at(self, plant: Plant, value: float) -> Plant:
        """The plant with this quantity at a value, its range as wide as in the file."""
        shift = value / self.band.nominal if self.field == "length_m" else value - self.band.nominal
        if self.field == "length_m":
            band = Band(self.band.low * shift, value, self.band.high * shift, self.band.scale)
        else:
            band = Band(self.band.low + shift, value, self.band.high + shift, self.band.scale)
        return with_part(plant, self.part, **{self.field: band})


def study_gas_sweep(plant: Plant, cases: int = CASES, seed: int = SEED) -> GasSweep:
    """Vary the most telling quantity: the one that moves the nominal closed-port pressure most over its span."""
    nominal = _solved(plant, 0, seed)[1]
    found = max(_quantities(plant, nominal), key=lambda quantity: _effect_pa(plant, quantity, seed))
    values = np.linspace(found.low, found.high, POINTS)
    gas, port, share = [], [], []
    for value in values:
        changed = found.at(plant, float(value))
        draws, running = _solved(changed, cases, seed)
        if running.port is None:
            raise ValueError("the loop has no injector")
        side = gas_side(changed, draws, running.port.height_m)
        answer, _ = gas_answer(changed, draws, running, side)
        gas.append(widened(figure(np.where(answer.solved, answer.gas_flow_m3s, np.nan))))
        port.append(figure(np.where(running.solved, running.port.port_pa_gauge, np.nan)))
        share.append(draws_share(running, side.opens_at_pa))
    return GasSweep(
        title=plant.title,
        units=plant.units,
        label=found.label,
        here_m=found.band.nominal,
        values_m=tuple(float(value) for value in values),
        gas_flow_m3s=tuple(gas),
        port_pressure_closed_pa_gauge=tuple(port),
        draws_share_ratio=tuple(share),
    )


def _solved(plant: Plant, cases: int, seed: int) -> tuple[Draws, Run]:
    draws = Draws.of_plant(plant, cases, seed)
    return draws, run(plant, draws, Condition(levels(plant, draws)["normal"]))


def _quantities(plant: Plant, running: Run) -> list[_Quantity]:
    """The injector's height and every length that its water passes later."""
    injector = injector_of(plant)
    if injector is None or injector.height_m is None:
        raise ValueError("the loop has no injector with a height")
    level = plant.tub.water_level_m.nominal
    low, high = min(level - BELOW_M, injector.height_m.nominal), max(level + ABOVE_M, injector.height_m.nominal)
    found = [_Quantity(f"height of {injector.name}", injector.name, "height_m", injector.height_m, low, high)]
    for name, part in parts_behind_injector(running):
        if isinstance(part, Pipe | Hose) and not isinstance(part, Injector):
            band = part.length_m
            found.append(
                _Quantity(
                    f"length of {name}", name, "length_m", band,
                    SHORTEST_RATIO * band.nominal, LONGEST_RATIO * band.nominal,
                )
            )  # fmt: skip
    return found


def _effect_pa(plant: Plant, quantity: _Quantity, seed: int) -> float:
    ends = []
    for value in (quantity.low, quantity.high):
        port = _solved(quantity.at(plant, value), 0, seed)[1].port
        if port is None:
            raise ValueError("the loop has no injector")
        ends.append(float(port.port_pa_gauge[0]))
    return abs(ends[1] - ends[0])
