"""The loop of a plant over the cases: flow through the filters, gas and water at the injector, facts for cautions."""

from dataclasses import dataclass, replace

import numpy as np

from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.flows import Flows, flows_of
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, injector_of, run
from sanitize.studies.ozone.model import Flows as OzoneFlows
from sanitize.studies.ozone.study import flows_of as ozone_flows
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.gas_flow import GasAnswer, gas_answer
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.states import all_states, filter_names, gas_side, levels, solve_states


@dataclass(frozen=True, eq=False)
class Hydraulics:
    """A plant's loop over the cases; ozone: what the gas does, None without an injector.

    Where a case does not settle with the gas line open, the nominal one stands in.
    """

    draws: Draws
    running: Run
    flows: Flows
    ozone: OzoneFlows | None
    facts: Facts
    notices: tuple[Notice, ...]


def hydraulics_of(plant: Plant, cases: int, seed: int) -> Hydraulics:
    """Solve the loop with its filters clean and loaded, and where it has an injector with the gas line open.

    Raises InputError for a reading that no case comes near, NoSolutionError when the nominal case has no operating
    point or no water passes the filter.
    """
    if injector_of(plant) is None:
        draws = Draws(cases, seed)
        level = levels(plant, draws)["normal"]
        clean = run(plant, draws, Condition(level))
        loaded = run(plant, draws, Condition(level, filter="loaded")) if filter_names(plant) else clean
        _, facts = facts_of(plant, clean, ())
        return Hydraulics(draws, clean, flows_of(plant, draws, clean, loaded), None, facts, ())
    draws, _, told = narrowed(plant, cases, seed)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    clean = answers["running", "normal"]
    flows = flows_of(plant, draws, clean, answers.get(("filter loaded", "normal"), clean))
    if clean.port is None:
        raise ValueError("the loop has no injector")
    side = gas_side(plant, draws, clean.port.height_m)
    gas, gas_notices = gas_answer(plant, draws, clean, side)
    _, facts = facts_of(plant, clean, all_states(plant, draws, answers, surfaces, side))
    settled = replace(
        gas,
        gas_flow_m3s=_settled(gas, gas.gas_flow_m3s),
        flow_m3s=_settled(gas, gas.flow_m3s),
        injector_flow_m3s=_settled(gas, gas.injector_flow_m3s),
        outlet_pa_gauge=_settled(gas, gas.outlet_pa_gauge),
    )
    return Hydraulics(draws, clean, flows, ozone_flows(clean, settled, draws), facts, (*told, *gas_notices))


def _settled(gas: GasAnswer, values: Array) -> Array:
    return np.where(gas.solved, values, values[0])
