"""Flow through the filters, clean and at the end of the cleaning interval, and the power of the pumps."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.errors import NoSolutionError
from sanitize.basis.tables import model_table
from sanitize.laws.hydraulics.pump_curve import power_at_speed_w
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter, Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.operating_point.rows import Drive
from sanitize.studies.operating_point.run import Run, refuse_without_answer
from sanitize.studies.operating_point.solve import REST_FLOW_M3S
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.states import gas_side


@dataclass(frozen=True, eq=False)
class Flows:
    """A running loop over the cases, with its filters clean and loaded.

    clean_m3s, loaded_m3s: through the filters, or through a loop that has none, with gas drawn where a gas line is
    open, loaded_closed_m3s with it closed; where `solved` is false, they stand
    as in the nominal case and count nowhere. power_w: electric power of all running pumps.
    """

    clean_m3s: Array
    loaded_m3s: Array
    loaded_closed_m3s: Array
    power_w: Array
    solved: Mask
    has_filter: bool


def flows_of(plant: Plant, draws: Draws, clean: Run, loaded: Run) -> Flows:
    """Flow through the filters of a loop solved with these clean and loaded, and the power of its pumps.

    Raises NoSolutionError where the nominal case has no answer, or where its water stands still or passes no filter.
    """
    for answer in (clean, loaded):
        refuse_without_answer(answer, plant)
    solved = clean.solved & loaded.solved
    flows = [treated_m3s(answer) for answer in (clean, loaded)]
    if not flows[1][0] > REST_FLOW_M3S:
        raise NoSolutionError("No water passes the filter, so no run time filters the tub: its way is shut.")
    closed_m3s = np.where(solved, flows[1], flows[1][0])
    flows = [flow * _with_gas_ratio(plant, draws, answer) for flow, answer in zip(flows, (clean, loaded), strict=True)]
    clean_m3s, loaded_m3s = (np.where(solved, flow, flow[0]) for flow in flows)
    has_filter = any(isinstance(part, Filter) for part in walk(plant.loop))
    return Flows(clean_m3s, loaded_m3s, closed_m3s, pump_power_w(plant, draws, clean), solved, has_filter)


def _with_gas_ratio(plant: Plant, draws: Draws, answer: Run) -> Array:
    """Water that moves with the gas line open over that with it closed; 1 where no gas is drawn or none settles."""
    port = answer.port
    if port is None or (plant.gas_line is None and plant.ozone is None):
        return np.ones(draws.size)
    found, _ = gas_answer(plant, draws, answer, gas_side(plant, draws, port.height_m), bracketed=False)
    closed = answer.flow_m3s
    moves = found.solved & (closed > REST_FLOW_M3S) & (found.flow_m3s > REST_FLOW_M3S)
    return np.where(moves, np.minimum(found.flow_m3s / np.where(moves, closed, 1.0), 1.0), 1.0)


def treated_m3s(answer: Run) -> Array:
    """Flow back into the tub that has passed a filter; all of it in a loop without one."""
    topology = answer.assembly.topology
    flows = np.abs(answer.solution.flow_m3s)
    filtering = {item.link for item in answer.assembly.parts if isinstance(item.part, Filter)}
    raw = np.ones_like(flows)
    for index in topology.upstream_order():
        start = topology.links[index].start
        if start is not None:
            meeting = topology.meetings[start]
            if meeting.diverging:
                raw[index] = raw[meeting.combined]
            else:
                ways = flows[meeting.ways]
                total = ways.sum(axis=0)
                raw[index] = (raw[meeting.ways] * ways).sum(axis=0) / np.where(total > 0.0, total, 1.0)
        if index in filtering:
            raw[index] = 0.0
    returns = [link.index for link in topology.links if link.end is None]
    return np.asarray((flows[returns] * (1.0 - raw[returns] if filtering else 1.0)).sum(axis=0))


def pump_power_w(plant: Plant, draws: Draws, answer: Run) -> Array:
    """Electric power of the running pumps: stated at the speed of their curve, else from what they give the water."""
    band = model_table("hours_numbers")[("pump_wire_to_water_ratio",)].band
    power = np.zeros(draws.size)
    for item in answer.assembly.parts:
        part = item.part
        if not isinstance(part, Pump) or not part.running:
            continue
        if part.power_w is not None:
            power = power + power_at_speed_w(part.power_w, part.speed_ratio)
            continue
        flow = answer.solution.flow_m3s[item.link]
        rows = [row for row in item.rows if isinstance(row, Drive)]
        given = -sum((row.loss(flow, answer.assembly.water)[0] for row in rows), np.zeros(draws.size)) * flow
        ratio = draws.value(f"{part.name}.wire_to_water", band, f"efficiency of {part.name}", "with a plug-in meter")
        power = power + np.maximum(given, 0.0) / ratio
    return np.asarray(power)


def pumps_without_power(plant: Plant) -> list[str]:
    """Names of the running pumps whose electric power the file does not give."""
    return [part.name for part in walk(plant.loop) if isinstance(part, Pump) and part.running and part.power_w is None]
