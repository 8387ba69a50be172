"""Total and static pressure behind every part, and what each part takes from the flow, over the cases."""

from dataclasses import dataclass

import numpy as np

from sanitize.plant.ends import Return
from sanitize.plant.machines import Pump
from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.assemble import Assembly, static_pressure, velocity_ms
from sanitize.studies.operating_point.bores import area_m2
from sanitize.studies.operating_point.rows import total
from sanitize.studies.operating_point.shut_ways import held_by_part
from sanitize.studies.operating_point.solve import Solution


@dataclass
class Station:
    """One part, or one way's tee, in the order of the water; arrays over cases.

    loss_pa: loss of total pressure, negative for a pump; total_pa: total pressure behind it above the tub's surface;
    pressure_pa_gauge: static, in the part's own bore at its outlet.
    """

    name: str
    word: str
    link: int
    bore_m: float
    height_m: Array
    flow_m3s: Array
    velocity_ms: Array
    loss_pa: Array
    total_pa: Array
    pressure_pa_gauge: Array

    def chosen(self, mask: Mask, other: "Station") -> "Station":
        """This station where the mask holds, the other elsewhere."""
        return Station(
            self.name,
            self.word,
            self.link,
            self.bore_m,
            *(
                np.where(mask, getattr(self, key), getattr(other, key))
                for key in ("height_m", "flow_m3s", "velocity_ms", "loss_pa", "total_pa", "pressure_pa_gauge")
            ),
        )


def along(assembly: Assembly, solution: Solution, injector_name: str | None = None) -> list[Station]:
    """Every part behind its predecessor: total pressure falls by its loss, static pressure follows from its height.

    In a way whose water does not reach its return, air stands above the water.
    """
    topology = assembly.topology
    stations: dict[int, list[Station]] = {}
    ends: dict[int, Array] = {}
    for index in topology.upstream_order():
        link = topology.links[index]
        flow = solution.flow_m3s[index]
        stations[index] = []
        energy = np.zeros(assembly.draws.size)
        if link.start is not None:
            meeting = topology.meetings[link.start]
            if meeting.diverging:
                position = meeting.ways.index(index)
                leg = solution.leg_pa[meeting.index, position]
                energy = ends[meeting.combined] - leg
                stations[index].append(_tee(assembly, meeting.index, position, flow, leg, energy))
            else:
                energy = ends[meeting.ways[0]] - solution.leg_pa[meeting.index, 0]
        items = assembly.of_link(index)
        pumped = max((position for position, item in enumerate(items) if isinstance(item.part, Pump)), default=-1)
        for position, (item, held) in enumerate(zip(items, held_by_part(items, solution.held_pa[index]), strict=True)):
            loss, _ = total(item.rows, flow, assembly.water)
            loss = loss + held
            if item.part.name == injector_name:
                loss = loss + solution.extra_pa
            energy = energy - loss
            bore = item.bore.outlet_m
            stations[index].append(
                _station(assembly, item.part.name, item.part.word, index, bore, item.height_m, flow, loss, energy)
            )
            if isinstance(item.part, Return) or assembly.in_open_leg(item):
                stations[index][-1].pressure_pa_gauge = static_pressure(
                    np.minimum(item.height_m, assembly.condition.level_m),
                    assembly.condition.level_m,
                    -assembly.water.density_kgm3,
                )
            if position > pumped:
                last = stations[index][-1]
                last.pressure_pa_gauge = np.where(
                    solution.stranded[index], np.maximum(last.pressure_pa_gauge, 0.0), last.pressure_pa_gauge
                )
        if link.end is not None and not topology.meetings[link.end].diverging:
            meeting = topology.meetings[link.end]
            position = meeting.ways.index(index)
            leg = solution.leg_pa[meeting.index, position]
            stations[index].append(_tee(assembly, meeting.index, position, flow, leg, energy - leg))
        ends[index] = energy
    return [station for link in topology.links for station in stations[link.index]]


def _tee(assembly: Assembly, meeting: int, way: int, flow: Array, leg: Array, energy: Array) -> Station:
    joint = assembly.topology.meetings[meeting]
    link = joint.ways[way]
    side = "leaves" if joint.diverging else "rejoins"
    name = f"{joint.name}: {assembly.topology.links[link].way} {side}"
    height = assembly.junction_height_m(meeting)
    return _station(assembly, name, "tee", link, assembly.tee_bores_m[meeting], height, flow, leg, energy)


def _station(
    assembly: Assembly, name: str, word: str, link: int, bore: float, height: Array, flow: Array, loss: Array,
    energy: Array,
) -> Station:  # fmt: skip
    density = assembly.water.density_kgm3
    pressure = (
        energy
        - static_pressure(height, assembly.condition.level_m, density)
        - 0.5 * density * (flow / area_m2(bore)) ** 2
    )
    return Station(name, word, link, bore, height, flow, velocity_ms(flow, bore), loss, energy, np.asarray(pressure))
