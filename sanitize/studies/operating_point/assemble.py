"""From parts to rows: every part of every link as losses and drives over the cases."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.bores import Bore, area_m2, fitting_bore, makes_step, nominal_bore
from sanitize.studies.operating_point.builder import Builder, Condition, PartRows
from sanitize.studies.operating_point.heights import place
from sanitize.studies.operating_point.part_rows import Place, make, open_leg_end, step_row
from sanitize.studies.operating_point.rows import Row, Water
from sanitize.studies.operating_point.topology import Topology, build


@dataclass
class Assembly:
    """A loop as arrays: topology, rows per part in the order of the links, and what was assumed."""

    plant: Plant
    topology: Topology
    parts: list[PartRows]
    water: Water
    condition: Condition
    draws: Draws
    tee_bores_m: list[float]
    tee_shift_rank: Array
    notices: list[Notice]
    builder: Builder
    junction_heights_m: dict[int, Array] = field(default_factory=dict)
    opened: dict[int, int] = field(default_factory=dict)

    def open_leg(self, link: int, position: int) -> None:
        """Let the leg behind a part run open to the air: what stands behind it no longer resists."""
        self.opened[link] = position
        items = self.of_link(link)
        end = open_leg_end(items[position], self.builder)
        items[position].made.rows += end
        items[position].made.behind += end
        for item in items[position + 1 :]:
            item.made.rows = []

    def in_open_leg(self, item: PartRows) -> bool:
        """Whether a part stands in a leg that runs open to the air."""
        position = self.opened.get(item.link)
        return position is not None and self.of_link(item.link).index(item) > position

    def junction_height_m(self, meeting: int) -> Array:
        """Height at which a meeting stands [m]."""
        return self.junction_heights_m[meeting]

    def of_link(self, link: int) -> list[PartRows]:
        """The parts of a link in order."""
        return [item for item in self.parts if item.link == link]

    def of_cases(self, draws: Draws, cases: NDArray[np.intp]) -> "Assembly":
        """The same for some of the cases, whose draws these are, with the legs open that are open here."""
        some = assemble(self.plant, draws, self.condition.of_cases(cases))
        for link, position in self.opened.items():
            some.open_leg(link, position)
        return some


def assemble(plant: Plant, draws: Draws, condition: Condition) -> Assembly:
    """Every part of a plant as rows, for a condition of tub and filter."""
    topology = build(plant.loop)
    heights = place(plant.loop, draws)
    builder = Builder(plant, draws, condition)
    parts: list[PartRows] = []
    tees = [fitting_bore(meeting.junction.size) for meeting in topology.meetings]
    for index in topology.upstream_order():
        link = topology.links[index]
        before = None if link.start is None else tees[link.start]
        bores = [nominal_bore(part) for part in link.parts]
        end = None if link.end is None else tees[link.end]
        for position, (part, bore) in enumerate(zip(link.parts, bores, strict=True)):
            behind = bores[position + 1] if position + 1 < len(bores) else end
            made = make(part, builder, Place(before, behind, heights.outlet_m[id(part)]))
            if before is not None and makes_step(before, bore):
                made.step = _counted_step(builder, before, bore, f"in front of {part.name}")
                made.rows.insert(0, made.step)
            parts.append(PartRows(part, index, made, bore, heights.outlet_m[id(part)]))
            before = bore
        if link.parts and end is not None and before is not None and makes_step(before, end):
            row = _counted_step(builder, before, end, f"behind {link.parts[-1].name}")
            made.rows.append(row)
            made.behind.append(row)
    parts.sort(key=lambda item: item.link)
    return Assembly(
        plant=plant,
        topology=topology,
        parts=parts,
        water=builder.water,
        condition=condition,
        draws=draws,
        tee_bores_m=[tee.inlet_m for tee in tees],
        tee_shift_rank=draws.rank("tee shift", "loss coefficient of the split's tees")
        if topology.meetings
        else np.full(draws.size, 0.5),
        notices=builder.notices,
        builder=builder,
        junction_heights_m={
            meeting.index: (heights.entry_m if meeting.diverging else heights.behind_m)[id(meeting.junction)]
            for meeting in topology.meetings
        },
    )


def _counted_step(builder: Builder, before: Bore, after: Bore, where: str) -> Row:
    units = builder.plant.units
    builder.note(
        "step-counted",
        f"A step from {show(before.outlet_m, 'bore', units, 3)} to {show(after.inlet_m, 'bore', units, 3)} "
        f"is counted {where}; no reducer is named there.",
    )
    return step_row(builder, before.outlet_m, after.inlet_m)


def static_pressure(height_m: Array | float, level_m: Array, density_kgm3: float) -> Array:
    """Weight of the water between a height and the tub's surface [Pa], positive above the surface."""
    return np.asarray(density_kgm3 * GRAVITY_MS2 * (height_m - level_m))


def velocity_ms(flow_m3s: Array, bore_m: float) -> Array:
    """Mean velocity in a bore [m/s]."""
    return flow_m3s / area_m2(bore_m)
