"""A loop running with the gas line closed: flows, pressures along it, and what the injector's port sees."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.errors import InputError, NoSolutionError, Problem
from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.laws.hydraulics.heads import outlet_froude
from sanitize.plant.ends import Return
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.operating_point.along import Station, along
from sanitize.studies.operating_point.assemble import Assembly, assemble, static_pressure
from sanitize.studies.operating_point.builder import Condition, PartRows
from sanitize.studies.operating_point.cavitation import Cavitation
from sanitize.studies.operating_point.injector_model import InjectorModel
from sanitize.studies.operating_point.rows import Lift, Row
from sanitize.studies.operating_point.shut_ways import held_by_part
from sanitize.studies.operating_point.solve import REST_FLOW_M3S, Network, Solution, solve


@dataclass
class Port:
    """The injector over the cases, gas line closed: static gauge pressures in its own bores [Pa], its flow [m3/s]."""

    name: str
    link: int
    height_m: Array
    model: InjectorModel
    flow_m3s: Array
    inlet_pa_gauge: Array
    outlet_pa_gauge: Array
    port_pa_gauge: Array
    cavitates: NDArray[np.bool_]


@dataclass
class Run:
    """An answer for one condition of tub and filter."""

    assembly: Assembly
    network: Network
    solution: Solution
    stations: list[Station]
    solved: NDArray[np.bool_]
    port: Port | None
    open_legs: dict[str, NDArray[np.bool_]]
    opened: "Run | None" = None
    emptied: Mask | None = None
    sucks_air: dict[int, Mask] = field(default_factory=dict)
    """Ways through whose high return air would come in, by link: such cases have no answer."""

    def losses_pa(self, flow_m3s: Array) -> Array:
        """Loss of every link at any flows, shape (links, cases); where a leg has emptied, as it is then."""
        loss, _, _, _ = self.network.losses(flow_m3s)
        if self.opened is None or self.emptied is None:
            return loss
        return np.where(self.emptied, self.opened.losses_pa(flow_m3s), loss)

    def port_pa_gauge_at(self, flow_m3s: Array) -> Array:
        """Static pressure at the closed port at any flows, shape (links, cases) [Pa]; not below the vapour pressure.

        Flows that do not balance give a split's ways different pressures; the mean by flow is taken.
        """
        if self.port is None:
            raise ValueError("the loop has no injector")
        water, cavitation = self.assembly.water, self.network.cavitation
        if cavitation is None:
            return self.port.port_pa_gauge
        loss, _, legs, _ = self.network.losses(flow_m3s)
        shares = self.assembly.topology.shares(cavitation.link, flow_m3s)
        free = cavitation.port_without_floor_pa_abs(flow_m3s, loss, legs, water, shares)
        port = np.maximum(free, water.vapour_pa_abs) - water.atmosphere_pa_abs
        if self.opened is None or self.emptied is None:
            return np.asarray(port)
        return np.where(self.emptied, self.opened.port_pa_gauge_at(flow_m3s), port)

    @property
    def flow_m3s(self) -> Array:
        """Water out of the tub and back, over the cases."""
        links = [link.index for link in self.assembly.topology.links if link.start is None]
        return np.asarray(self.solution.flow_m3s[links].sum(axis=0))

    def station(self, name: str) -> Station:
        """The station of a part by its name."""
        for station in self.stations:
            if station.name == name:
                return station
        raise KeyError(name)


def injector_of(plant: Plant) -> Injector | None:
    """The injector of a loop, where it has one."""
    return next((part for part in walk(plant.loop) if isinstance(part, Injector)), None)


def refuse_without_injector(plant: Plant) -> None:
    """Raise InputError when a loop has no injector."""
    if injector_of(plant) is None:
        raise InputError(
            [
                Problem(
                    "loop",
                    "no injector",
                    'one part = "injector"',
                    '{part = "injector", throat = "8 mm", height = "0.7 m"}',
                )
            ]
        )


def run(plant: Plant, draws: Draws, condition: Condition, back_pa: Array | None = None) -> Run:
    """Solve a loop for every case; `back_pa` is a pressure put behind the injector on top of what is there.

    Where the leg behind a hump runs too slowly to stay full, the case is solved again with that leg open to the air,
    for the half of such cases that the draw says.
    """
    assembly = assemble(plant, draws, condition)
    full = _run(assembly, back_pa)
    legs = _slow_legs(assembly, full)
    if not any(mask.any() for _, mask in legs.values()):
        return full
    emptied = {link: mask & (draws.rank("down-leg stays full", "filling of the leg behind the hump") < 0.5)
               for link, (_, mask) in legs.items()}  # fmt: skip
    names = {assembly.topology.links[link].parts[-1].name: mask for link, (_, mask) in legs.items()}
    opened = assemble(plant, draws, condition)
    for link, (position, _) in legs.items():
        opened.open_leg(link, position)
    other = _run(opened, back_pa)
    mask = np.zeros(draws.size, dtype=bool)
    for one in emptied.values():
        mask |= one
    return _mixed(full, other, mask, names)


def _run(assembly: Assembly, back_pa: Array | None) -> Run:
    item = next((item for item in assembly.parts if isinstance(item.part, Injector)), None)
    if item is None or item.made.model is None:
        network = Network(assembly)
        solution = solve(network)
        return _whole(Run(assembly, network, solution, along(assembly, solution), solution.solved, None, {}))
    model = item.made.model
    if assembly.in_open_leg(item):
        network = Network(assembly)
        solution = solve(network)
        port = _port_in_air(item, model, solution)
        return _whole(Run(assembly, network, solution, along(assembly, solution), solution.solved, port, {}))
    extra: dict[int, list[Row]] = {} if back_pa is None else {item.link: [Lift(back_pa)]}
    rows = assembly.of_link(item.link)
    behind: list[Row] = [row for other in rows[rows.index(item) + 1 :] for row in other.rows]
    end = assembly.topology.links[item.link].end
    end_leg = None
    if end is not None and not assembly.topology.meetings[end].diverging:
        end_leg = (end, assembly.topology.meetings[end].ways.index(item.link))
    cavitation = Cavitation(
        link=item.link,
        behind=[*behind, *item.made.behind, *extra.get(item.link, [])],
        end_leg=end_leg,
        downstream=[],
        static_pa=static_pressure(item.height_m, assembly.condition.level_m, assembly.water.density_kgm3),
        outlet_pa_s2m6=np.full(assembly.draws.size, model.outlet_pa_s2m6),
        recovery_pa_s2m6=model.recovery_pa_s2m6,
    )
    network = Network(assembly, cavitation, extra)
    solution = solve(network)
    stations = along(assembly, solution, item.part.name)
    port = _port(network, solution, item, model)
    return _whole(Run(assembly, network, solution, stations, solution.solved, port, {}))


def _whole(run: Run) -> Run:
    """The run without the cases in which a way that no water reaches lets air in at its branch, or no way is left."""
    topology = run.assembly.topology
    nothing = run.solution.stranded.any(axis=0) & (run.flow_m3s <= REST_FLOW_M3S)
    run.solution.solved = run.solution.solved & ~nothing
    sucks: dict[int, Mask] = {}
    for index, mask in enumerate(run.solution.stranded):
        start = topology.links[index].start
        if start is None or not topology.meetings[start].diverging or not mask.any():
            continue
        tee = next(station for station in run.stations if station.link == index)
        below = mask & (tee.pressure_pa_gauge < 0.0)
        if below.any():
            sucks[index] = below
            run.solution.solved = run.solution.solved & ~below
    return replace(run, solved=run.solution.solved, sucks_air=sucks)


def _port_in_air(item: PartRows, model: InjectorModel, solution: Solution) -> Port:
    """An injector in a leg that runs open to the air: atmosphere all around it, and no pull."""
    nothing = np.zeros(item.height_m.size)
    return Port(
        name=item.part.name,
        link=item.link,
        height_m=item.height_m,
        model=model,
        flow_m3s=solution.flow_m3s[item.link],
        inlet_pa_gauge=nothing,
        outlet_pa_gauge=nothing,
        port_pa_gauge=nothing,
        cavitates=np.zeros(item.height_m.size, dtype=bool),
    )


def _port(network: Network, solution: Solution, item: PartRows, model: InjectorModel) -> Port:
    water, cavitation = network.assembly.water, network.cavitation
    if cavitation is None:
        raise ValueError("the network does not know its injector")
    flow = solution.flow_m3s[cavitation.link]
    loss, _, legs, _ = network.losses(solution.flow_m3s)
    parts = network.assembly.of_link(item.link)
    held = sum(held_by_part(parts, solution.held_pa[item.link])[parts.index(item) + 1 :], np.zeros(network.size))
    free = cavitation.port_without_floor_pa_abs(solution.flow_m3s, loss, legs, water) + held
    port = np.maximum(free, water.vapour_pa_abs) - water.atmosphere_pa_abs
    square = flow * np.abs(flow)
    ahead, _ = cavitation.outlet_total_pa(solution.flow_m3s, loss, legs, water)
    outlet = ahead + held - cavitation.static_pa - model.outlet_pa_s2m6 * square
    pumped = any(isinstance(part.part, Pump) for part in parts[parts.index(item) :])
    in_air = solution.stranded[item.link] & (not pumped)
    port, outlet = (np.where(in_air, np.maximum(pressure, 0.0), pressure) for pressure in (port, outlet))
    return Port(
        name=item.part.name,
        link=cavitation.link,
        height_m=item.height_m,
        model=model,
        flow_m3s=flow,
        inlet_pa_gauge=np.asarray(port + model.nozzle_drop * model.dynamic_pa_s2m6 * square),
        outlet_pa_gauge=np.asarray(outlet),
        port_pa_gauge=np.asarray(port),
        cavitates=np.asarray(free < water.vapour_pa_abs),
    )


def _slow_legs(assembly: Assembly, run: Run) -> dict[int, tuple[int, NDArray[np.bool_]]]:
    """Links that rise above the water and come down again too slowly to stay full: position of the hump, cases.

    Where the full leg does not pull on its hump, as behind a narrow nozzle, no air takes its place.
    """
    found: dict[int, tuple[int, NDArray[np.bool_]]] = {}
    least = default("down_leg_velocity_ms").value
    for link in assembly.topology.links:
        items = assembly.of_link(link.index)
        if not items or not isinstance(items[-1].part, Return):
            continue
        first = max((n for n, item in enumerate(items) if isinstance(item.part, Pump)), default=-1) + 1
        leg = items[first:-1]
        if not leg:
            continue
        position = first + max(range(len(leg)), key=lambda n: (float(leg[n].height_m[0]), n))
        hump = items[position].height_m
        outlet = items[-1].height_m
        is_hump = hump > np.maximum(outlet, assembly.condition.level_m) + 0.02
        flow = run.solution.flow_m3s[link.index]
        bore = max(item.bore.outlet_m for item in items[position:-1])
        velocity = np.abs(flow) / (np.pi * bore**2 / 4.0)
        slow = velocity < least
        falls_free = outlet > assembly.condition.level_m
        slow |= falls_free & (outlet_froude(np.abs(flow), bore) < default("full_pipe_froude_ratio").value)
        at_hump = run.station(items[position].part.name).pressure_pa_gauge + assembly.water.atmosphere_pa_abs
        slow |= at_hump < assembly.water.vapour_pa_abs + default("hump_margin_pa_diff").value
        pulls = at_hump < assembly.water.atmosphere_pa_abs
        mask = is_hump & slow & pulls & run.solved
        if mask.any():
            found[link.index] = (position, mask)
    return found


def _mixed(full: Run, other: Run, mask: NDArray[np.bool_], names: dict[str, NDArray[np.bool_]]) -> Run:
    """The run with an open down-leg where the mask holds, the full one elsewhere."""
    solution = Solution(
        np.where(mask, other.solution.flow_m3s, full.solution.flow_m3s),
        {key: np.where(mask, other.solution.leg_pa[key], leg) for key, leg in full.solution.leg_pa.items()},
        np.where(mask, other.solution.extra_pa, full.solution.extra_pa),
        np.where(mask, other.solved, full.solved),
        _chosen(mask, other.solution.backwards, full.solution.backwards),
        np.where(mask, other.solution.imbalance_ratio, full.solution.imbalance_ratio),
        np.where(mask, other.solution.held_pa, full.solution.held_pa),
        _chosen(mask, other.solution.still, full.solution.still),
        np.where(mask, other.solution.stranded, full.solution.stranded),
    )
    stations = [b.chosen(mask, a) for a, b in zip(full.stations, other.stations, strict=True)]
    port = full.port
    if full.port is not None and other.port is not None:
        a, b = full.port, other.port
        port = Port(
            a.name, a.link, a.height_m, a.model,
            np.where(mask, b.flow_m3s, a.flow_m3s),
            np.where(mask, b.inlet_pa_gauge, a.inlet_pa_gauge),
            np.where(mask, b.outlet_pa_gauge, a.outlet_pa_gauge),
            np.where(mask, b.port_pa_gauge, a.port_pa_gauge),
            np.where(mask, b.cavitates, a.cavitates),
        )  # fmt: skip
    air = _chosen(mask, other.sucks_air, full.sucks_air)
    return Run(full.assembly, full.network, solution, stations, solution.solved, port, names, other, mask, air)


def _chosen(mask: Mask, ours: dict[int, Mask], theirs: dict[int, Mask]) -> dict[int, Mask]:
    """Masks by link: ours where the mask holds, theirs elsewhere."""
    nowhere = np.zeros(mask.size, dtype=bool)
    return {
        link: np.where(mask, ours.get(link, nowhere), theirs.get(link, nowhere)) for link in sorted({*ours, *theirs})
    }


def _holding(run: Run) -> list[str]:
    """Names of the parts whose valves hold a pressure in the nominal case."""
    found: list[str] = []
    for link in run.assembly.topology.links:
        items = run.assembly.of_link(link.index)
        held = held_by_part(items, run.solution.held_pa[link.index])
        found += [item.part.name for item, pressure in zip(items, held, strict=True) if pressure[0] != 0.0]
    return found


def refuse_without_answer(run: Run, plant: Plant) -> None:
    """Raise NoSolutionError when the nominal case has no answer or its water stands still, with the reason."""
    moves = bool(run.flow_m3s[0] > REST_FLOW_M3S)
    if run.solved[0] and moves:
        return
    parts = run.assembly.parts
    pumps = [item.part for item in parts if isinstance(item.part, Pump)]
    if not any(pump.running for pump in pumps):
        raise NoSolutionError("No pump of this loop runs, so its water stands still.")
    level = float(run.assembly.condition.level_m[0])
    lift = min((float(item.height_m[0]) - level for item in parts if isinstance(item.part, Return)), default=0.0)
    head = float(run.network.scale_pa[0]) / (run.assembly.water.density_kgm3 * GRAVITY_MS2)
    backward = next((link for link, mask in run.solution.backwards.items() if mask[0]), None)
    if lift >= head and (backward is not None or not moves):
        raise NoSolutionError(
            f"The pump cannot lift the water to the return: it gives {show(head, 'head', plant.units)} at most, "
            f"and the return is {show(lift, 'head', plant.units)} above the water."
        )
    airy = next((link for link, mask in run.sucks_air.items() if mask[0]), None)
    if airy is not None:
        way = run.assembly.topology.links[airy]
        raise NoSolutionError(
            f"Air would come in through {way.parts[-1].name}, which hangs above the water: the other ways pull where "
            f"{way.way} begins. Hang it below the water, or shut that way."
        )
    if backward is not None:
        way = run.assembly.topology.links[backward]
        last = way.parts[-1].name if way.parts else way.way
        raise NoSolutionError(
            f"The water in {way.way or 'the loop'} would run backwards, from {last} on. "
            "Give that way a check valve, a pump of its own, or the other ways less resistance."
        )
    if run.solved[0]:
        raise NoSolutionError(f"No water moves in this loop; what holds it: {', '.join(_holding(run))}.")
    raise NoSolutionError("The flows of this loop do not settle; a way may stand still between two flow patterns.")
