"""What the cautions look at, each figure at its own worst end."""

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.laws.hydraulics.suction_force import blocked_suction_force_n
from sanitize.plant.ends import Suction as SuctionFitting
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller, Pump
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.facts_layout import (
    gas_meets,
    injector_on_suction_side,
    pump_above_water,
    valve_missing,
)
from sanitize.studies.draws import Array
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.bores import area_m2, nominal_bore
from sanitize.studies.operating_point.builder import PartRows
from sanitize.studies.operating_point.part_rows import high_shut_off_head_m, pump_curve
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.result import BlockedSuction, State


def facts_of(
    plant: Plant, running: Run, states: tuple[State, ...], loaded: Run | None = None
) -> tuple[tuple[BlockedSuction, ...], Facts]:
    """What a covered suction can do, and the facts for the rules.

    loaded: the loop with its filters loaded, in which a chiller gets least water.
    """
    blocked = _blocked(plant, running)
    suction_part, suction_ms = _fastest(running, before_pump=True)
    return_part, return_ms = _fastest(running, before_pump=False)
    flows = {item.part.name: running.solution.flow_m3s[item.link] for item in running.assembly.parts}

    def ends(name: str) -> tuple[float, float, float]:
        return figure(np.where(running.solved, flows[name], np.nan)).ends

    facts = Facts(
        plant=plant,
        family=plant.units,
        flow_high_m3s=figure(np.where(running.solved, running.flow_m3s, np.nan)).ends[2],
        suction_flows_high_m3s={item.part.name: ends(item.part.name)[2] for item in _of(running, SuctionFitting)},
        blocked={item.name: (item.vacuum_pa_diff, item.force_n) for item in blocked},
        suction_velocity_high_ms=suction_ms,
        suction_velocity_part=suction_part,
        return_velocity_high_ms=return_ms,
        return_velocity_part=return_part,
        pump_inlet_pressure_low_pa_gauge={
            item.part.name: figure(np.where(running.solved, pump_inlet_pressure(running, item), np.nan)).ends[0]
            for item in _of(running, Pump)
        },
        pump_above_water=pump_above_water(plant),
        pump_past_curve_ratio={
            item.part.name: _past_curve(item.part, running.solution.flow_m3s[item.link])
            for item in _of(running, Pump)
            if isinstance(item.part, Pump)
        },
        chiller_flows_m3s={
            item.part.name: (min(ends(item.part.name)[0], _least_flow(loaded, item.link)), ends(item.part.name)[2])
            for item in _of(running, Chiller)
        },
        injector_on_suction_side=injector_on_suction_side(plant),
        injector_before=gas_meets(plant),
        floods=tuple((state.state, state.level, state.check_valve) for state in states if state.reaches_ozone_unit),
        valve_missing=valve_missing(plant),
        air_enters_when_off=any(
            state.air_enters for state in states if state.state == "off" and state.check_valve != "leaking"
        ),
    )
    return blocked, facts


def _of(running: Run, kind: type) -> list[PartRows]:
    return [item for item in running.assembly.parts if isinstance(item.part, kind)]


def _least_flow(loaded: Run | None, link: int) -> float:
    """Low end of the flow in a link with the filters loaded."""
    if loaded is None or not loaded.solved.any():
        return np.inf
    return figure(np.where(loaded.solved, loaded.solution.flow_m3s[link], np.nan)).ends[0]


def _past_curve(part: Pump, flow: Array) -> float:
    return float(np.mean(flow > pump_curve(part).last_point_flow_m3s * part.speed_ratio))


def _fastest(running: Run, *, before_pump: bool) -> tuple[str, float]:
    """Name and high velocity of the fastest pipe or hose on the pumps' suction side, or on the other."""
    topology = running.assembly.topology
    ahead: set[str] = set()
    for item in _of(running, Pump):
        items = running.assembly.of_link(item.link)
        ahead |= {other.part.name for other in items[: items.index(item)]}
        for link in topology.feeds(item.link):
            ahead |= {other.part.name for other in running.assembly.of_link(link)}
    pipes = {item.part.name for item in running.assembly.parts if isinstance(item.part, Pipe | Hose)}
    fastest = ("", 0.0)
    for station in running.stations:
        if station.name not in pipes or (station.name in ahead) != before_pump:
            continue
        high = figure(np.where(running.solved, np.abs(station.velocity_ms), np.nan)).ends[2]
        if high > fastest[1]:
            fastest = (station.name, high)
    return fastest


def pump_inlet_pressure(running: Run, item: PartRows) -> Array:
    """Static gauge pressure at a pump's inlet, in its own bore [Pa]."""
    station = running.station(item.part.name)
    before = station.pressure_pa_gauge + station.loss_pa
    if item.made.step is not None:
        before = before - item.made.step.loss(station.flow_m3s, running.assembly.water)[0]
    return np.asarray(before)


def _pull(running: Run, heads: dict[int, float], link: int) -> float:
    """Head with which the pumps from a link on pull at its start: in a row they add up, side by side the strongest."""
    topology = running.assembly.topology
    end = topology.links[link].end
    own = heads.get(link, 0.0)
    if end is None:
        return own
    meeting = topology.meetings[end]
    following = meeting.ways if meeting.diverging else [meeting.combined]
    return own + max(_pull(running, heads, other) for other in following)


def _blocked(plant: Plant, running: Run) -> tuple[BlockedSuction, ...]:
    """Vacuum behind each suction when all of them are covered, and the force on its opening: the high ends.

    The pumps at the upper end of their curves pull against still water; no vacuum is deeper than the water's boiling.
    """
    water = running.assembly.water
    weight = water.density_kgm3 * GRAVITY_MS2
    heads: dict[int, float] = {}
    for item in _of(running, Pump):
        if isinstance(item.part, Pump):
            heads[item.link] = heads.get(item.link, 0.0) + high_shut_off_head_m(item.part)
    found: list[BlockedSuction] = []
    for item in _of(running, SuctionFitting):
        part = item.part
        if not isinstance(part, SuctionFitting):
            continue
        pulling = _pull(running, heads, item.link)
        depth = figure(running.assembly.condition.level_m - item.height_m).ends[2]
        deepest = water.atmosphere_pa_abs + weight * max(depth, 0.0) - water.vapour_pa_abs
        vacuum = min(weight * pulling, deepest)
        opening = area_m2(part.cover_face_m if part.cover_face_m is not None else nominal_bore(part).outlet_m)
        found.append(BlockedSuction(part.name, vacuum, float(blocked_suction_force_n(vacuum, opening))))
    return tuple(found)
