"""The faults of a loop without an injector, as far as they move a reading of its water."""

from collections.abc import Iterator

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller
from sanitize.studies.draws import Array, Draws
from sanitize.studies.faults.circuits import Circuit, Closed, lowest_inlet_pressure
from sanitize.studies.faults.result import FaultName
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.states import filter_names

STILL: tuple[FaultName, ...] = ("return shut", "suction blocked", "pump stopped")
"""Faults by which no water moves."""


def plain_circuits(plant: Plant, draws: Draws, running: Run, level_m: Array) -> Iterator[Circuit]:
    """Nothing wrong first, then every fault that this loop can have, at its normal level.

    running: with nothing wrong. There is no gas line and no port, so `gas` is None and `closed` zero.
    """
    nothing = Closed(np.zeros(draws.size), np.ones(draws.size, dtype=bool))

    def circuit(fault: FaultName, answer: Run | None) -> Circuit:
        return Circuit(fault, "normal", answer, None, nothing, ())

    yield circuit("nothing wrong", running)
    for fault, condition in _conditions(plant, draws, running, level_m):
        yield circuit(fault, run(plant, draws, condition))
    for fault in STILL:
        yield circuit(fault, None)


def _conditions(plant: Plant, draws: Draws, running: Run, level_m: Array) -> Iterator[tuple[FaultName, Condition]]:
    """Sizes as for a loop with an injector."""

    def size(name: str) -> Array:
        return draws.value(f"fault {name}", model_table("fault_sizes")[(name,)].band)

    yield "return partly blocked", Condition(level_m, return_blocked_ratio=size("return_blocked_ratio"))
    if filter_names(plant):
        yield "filter loaded", Condition(level_m, filter="loaded")
        yield "filter torn", Condition(level_m, filter="torn")
    yield "suction partly blocked", Condition(level_m, suction_blocked_ratio=size("suction_blocked_ratio"))
    below = lowest_inlet_pressure(running) < 0.0
    left = np.where(below, size("air_leak_head_ratio"), 1.0)
    yield "air leak before the pump", Condition(level_m, pump_head_ratio=left)
    yield "pump worn", Condition(level_m, pump_head_ratio=size("worn_pump_head_ratio"))
    if any(isinstance(part, Chiller) for part in walk(plant.loop)):
        yield "chiller blocked", Condition(level_m, chiller_blocked_ratio=size("chiller_blocked_ratio"))
