"""The study of faults: the loop solved again with each fault alone."""

from dataclasses import replace

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Filter
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.rules import fire
from sanitize.studies.draws import CASES, SEED, Array, Mask
from sanitize.studies.faults.circuits import Circuit, Sound, circuits, lowest_inlet_pressure, port_of
from sanitize.studies.faults.hazards import gathered, hazards_of
from sanitize.studies.faults.notes import notices_of_faults
from sanitize.studies.faults.result import FaultRow, Faults
from sanitize.studies.faults.words import tell
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.run import Run, refuse_without_answer, refuse_without_injector
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.gas_report import gas_report
from sanitize.studies.suction.notes import notices_of
from sanitize.studies.suction.onset import draws_share
from sanitize.studies.suction.readings import Narrowed, narrowed
from sanitize.studies.suction.result import BlockedSuction
from sanitize.studies.suction.states import all_states, filters_loaded, gas_side, levels, solve_states

NOTHING = Figure(0.0, 0.0, 0.0)


def study_faults(
    plant: Plant,
    cases: int = CASES,
    seed: int = SEED,
    notices: tuple[Notice, ...] = (),
    known: Narrowed | None = None,
) -> Faults:
    """Where water, air and ozone go with each single fault, what a person sees, and what is dangerous about it.

    plant: the checked loop; cases: a power of two; seed: of the draw; notices: what reading the file left;
    known: draws to take instead of the loop's own, readings already done, as another loop shares them.
    Raises InputError when the loop has no injector or a reading fits no case, NoSolutionError when its nominal case
    has no operating point with nothing wrong.
    """
    refuse_without_injector(plant)
    draws, _, reading_notices = known or narrowed(plant, cases, seed)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    running = answers["running", "normal"]
    refuse_without_answer(running, plant)
    gas = gas_side(plant, draws, port_of(running).height_m)
    blocked, facts = facts_of(plant, running, all_states(plant, draws, answers, surfaces, gas), filters_loaded(answers))
    loop = Sound(plant, draws, surfaces, answers, gas)
    solved = circuits(loop)
    sound, gas_notices = _row(loop, next(solved), None, blocked)
    rows = sorted((_row(loop, circuit, sound, blocked)[0] for circuit in solved), key=_weight)
    return Faults(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        sound=sound,
        faults=tuple(rows),
        blocked_suctions=blocked,
        notices=(
            *notices,
            *notices_of(plant, running, answers, gas),
            *gas_notices,
            *reading_notices,
            *notices_of_faults(loop),
        ),
        cautions=_dangers_first((*gathered(sound, rows), *fire(facts))),
    )


def _weight(row: FaultRow) -> int:
    return {"danger": 0, "caution": 1, None: 2}[row.severity]


def _dangers_first(cautions: tuple[Caution, ...]) -> tuple[Caution, ...]:
    return tuple(sorted(cautions, key=lambda caution: caution.severity != "danger"))


def _row(
    loop: Sound, circuit: Circuit, sound: FaultRow | None, blocked: tuple[BlockedSuction, ...]
) -> tuple[FaultRow, list[Notice]]:
    """One fault: its figures first, then what they mean; and the notices of its gas flow."""
    running = circuit.running
    flow, injector_flow, gas_flow, notices = _flows(loop, circuit)
    highest = max(circuit.own, key=lambda item: item.water_height_m.ends[2])
    share = draws_share(running, circuit.gas.opens_at_pa) if running is not None and circuit.gas is not None else 0.0
    full = circuit.fault == "gas line full of water"
    row = FaultRow(
        fault=circuit.fault,
        assumed="",
        level=circuit.level,
        water_moves=running is not None,
        flow_m3s=flow,
        injector_flow_m3s=injector_flow,
        port_pressure_closed_pa_gauge=_shown(circuit.closed.pa_gauge, circuit.closed.solved),
        gas_flow_m3s=gas_flow,
        draws_share_ratio=share,
        steady_share_ratio=float(np.mean(circuit.closed.solved)),
        pump_inlet_pressure_pa_gauge=None
        if running is None
        else _shown(lowest_inlet_pressure(running), running.solved),
        filter_drop_pa_diff=None if running is None else _filter_drop(loop, running),
        water_height_m=figure(np.maximum(loop.gas.highest_m, loop.port.height_m)) if full else highest.water_height_m,
        passes_highest_point=any(item.passes_highest_point for item in circuit.own),
        reaches_ozone_unit=any(item.reaches_ozone_unit for item in circuit.own),
        air_enters=any(item.air_enters for item in circuit.own),
        air_enters_before_pump=circuit.takes_air,
        ozone_leaves_unit=gas_flow.low is None or gas_flow.low <= 0.0,
        standings=(*circuit.own, *circuit.besides),
        water="",
        air="",
        ozone="",
        seen="",
        action="",
        hazards=(),
        severity=None,
    )
    hazards = hazards_of(loop.plant, row, running, blocked)
    told = tell(loop.plant, row, sound)
    row = replace(
        row,
        assumed=told.assumed,
        water=told.water,
        air=told.air,
        ozone=told.ozone,
        seen=told.seen,
        action=told.action,
        hazards=hazards,
        severity=hazards[0].severity if hazards else None,
    )
    return row, notices


def _flows(loop: Sound, circuit: Circuit) -> tuple[Figure, Figure, Figure, list[Notice]]:
    """Water, water through the injector and gas, with the gas line open as far as the fault leaves it open."""
    if circuit.running is None:
        return NOTHING, NOTHING, NOTHING, []
    if circuit.gas is None:
        running = circuit.running
        injector_flow = _shown(port_of(running).flow_m3s, running.solved)
        return _shown(running.flow_m3s, running.solved), injector_flow, NOTHING, []
    found, notices = gas_report(loop.plant, loop.draws, circuit.running, circuit.gas)
    return found["flow_m3s"], found["injector_flow_m3s"], found["gas_flow_m3s"], notices


def _shown(values: Array, solved: Mask) -> Figure:
    return figure(np.where(solved, values, np.nan))


def _filter_drop(loop: Sound, running: Run) -> Figure | None:
    """The largest drop of the filters."""
    drops = [running.station(item.part.name).loss_pa for item in loop.parts(Filter)]
    return _shown(np.maximum.reduce(drops), running.solved) if drops else None
