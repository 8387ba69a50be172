"""A loop with a change, solved: at a glance, and with everything that its cautions look at."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.figure import Figure
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.rules import fire
from sanitize.studies.draws import Draws
from sanitize.studies.faults.circuits import Sound, circuits
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.rows import Drive
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.solve import REST_FLOW_M3S
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.gas_report import widened
from sanitize.studies.suction.onset import draws_share
from sanitize.studies.suction.result import Level, StateName
from sanitize.studies.suction.states import (
    GasSide,
    all_states,
    filter_names,
    filters_loaded,
    gas_side,
    levels,
    solve_states,
)


@dataclass(frozen=True, eq=False)
class Glance:
    """The loop running at its normal level, gas line closed."""

    plant: Plant
    draws: Draws
    running: Run
    gas: GasSide

    @property
    def share(self) -> float:
        """Share of the cases that draw."""
        return draws_share(self.running, self.gas.opens_at_pa)

    @property
    def moves(self) -> bool:
        """Whether the nominal case has an answer, with moving water."""
        return bool(self.running.solved[0] and self.running.flow_m3s[0] > REST_FLOW_M3S)

    @property
    def flow(self) -> Figure:
        """Water out of the tub."""
        return figure(np.where(self.running.solved, self.running.flow_m3s, np.nan))

    @property
    def loaded_share(self) -> float | None:
        """Share of the cases that draw with the filter loaded; None without a filter."""
        if not filter_names(self.plant):
            return None
        level = levels(self.plant, self.draws)["normal"]
        loaded = run(self.plant, self.draws, Condition(level, filter="loaded"))
        return draws_share(loaded, self.gas.opens_at_pa)

    def gas_flow(self) -> tuple[Figure, Figure]:
        """Gas and water flow with the gas line open; a case that only brackets would settle is left out.

        The nominal case is settled, by brackets if need be.
        """
        answer, _ = gas_answer(self.plant, self.draws, self.running, self.gas, bracketed=False)
        if not answer.solved[0]:
            answer, _ = gas_answer(self.plant, self.draws, self.running, self.gas)

        def shown(values: np.ndarray) -> Figure:
            return figure(np.where(answer.solved, values, np.nan))

        return widened(shown(answer.gas_flow_m3s)), shown(answer.flow_m3s)

    def pump_head_m(self, name: str) -> tuple[float, float]:
        """Nominal head [m] and flow [m3/s] of one pump."""
        item = next(item for item in self.running.assembly.parts if item.part.name == name)
        flow = self.running.solution.flow_m3s[item.link]
        water = self.running.assembly.water
        head = sum(-float(row.loss(flow, water)[0][0]) for row in item.rows if isinstance(row, Drive))
        return head / (water.density_kgm3 * GRAVITY_MS2), float(flow[0])


def glance(plant: Plant, known: Draws) -> Glance:
    """The loop over the cases of known draws: what both loops share has the same numbers, case by case."""
    draws = known.continued()
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    if running.port is None:
        raise ValueError("the loop has no injector")
    return Glance(plant, draws, running, gas_side(plant, draws, running.port.height_m))


Flood = tuple[str, str, str, str]


@dataclass(frozen=True, eq=False)
class Examined:
    """What makes a loop dangerous: its cautions, where water reaches the ozone unit, where a chiller lacks water."""

    facts: Facts
    cautions: tuple[Caution, ...]
    floods: frozenset[Flood]
    freezes: frozenset[tuple[str, str]]


def cautioned(seen: Glance) -> Examined:
    """Every caution, without the faults."""
    return _examined(seen)[0]


def examine(seen: Glance) -> Examined:
    """Every caution, and every fault alone."""
    found, loop = _examined(seen)
    floods, freezes = set(found.floods), set(found.freezes)
    for circuit in circuits(loop):
        for item in (*circuit.own, *circuit.besides):
            if item.reaches_ozone_unit:
                floods.add((circuit.fault, item.level, item.pump, item.check_valve))
        if circuit.running is None:
            continue
        for chiller in found.facts.chillers:
            flow = circuit.running.station(chiller.name).flow_m3s[circuit.running.solved]
            if chiller.min_flow_m3s is not None and flow.size and figure(flow).ends[0] < chiller.min_flow_m3s:
                freezes.add((circuit.fault, chiller.name))
    return Examined(found.facts, found.cautions, frozenset(floods), frozenset(freezes))


def _examined(seen: Glance) -> tuple[Examined, Sound]:
    plant, draws = seen.plant, seen.draws
    surfaces = levels(plant, draws)
    answers: dict[tuple[StateName, Level], Run] = solve_states(plant, draws, surfaces)
    states = all_states(plant, draws, answers, surfaces, seen.gas)
    _, facts = facts_of(plant, answers["running", "normal"], states, filters_loaded(answers))
    floods = frozenset(
        (state, level, "off" if state == "off" else "running", either)
        for state, level, valve in facts.floods
        for either in (("sound", "leaking") if valve == "none" else (valve,))
    )
    return Examined(facts, fire(facts), floods, frozenset()), Sound(plant, draws, surfaces, answers, seen.gas)
