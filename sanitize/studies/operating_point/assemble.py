"""From parts to rows: every part of every link as losses and drives over the cases."""

from dataclasses import dataclass, field

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.bores import Bore, area_m2, fitting_bore_m, makes_step, nominal_bore
from sanitize.studies.operating_point.builder import Builder, Condition, PartRows
from sanitize.studies.operating_point.heights import place
from sanitize.studies.operating_point.part_rows import Place, make, open_leg_end, step_row
from sanitize.studies.operating_point.rows import Water
from sanitize.studies.operating_point.topology import Link, Meeting, Topology, build


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
        items[position].made.rows += open_leg_end(items[position], self.builder)
        items[position].made.behind += open_leg_end(items[position], self.builder)
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


def assemble(plant: Plant, draws: Draws, condition: Condition) -> Assembly:
    """Every part of a plant as rows, for a condition of tub and filter."""
    topology = build(plant.loop)
    heights = place(plant.loop, draws)
    builder = Builder(plant, draws, condition)
    parts: list[PartRows] = []
    last_bore: dict[int, Bore | None] = {}
    tee_bores = [0.0] * len(topology.meetings)
    for index in topology.upstream_order():
        link = topology.links[index]
        before = _bore_before(link, topology, last_bore, tee_bores)
        for position, part in enumerate(link.parts):
            bore = nominal_bore(part)
            behind = nominal_bore(link.parts[position + 1]) if position + 1 < len(link.parts) else None
            made = make(part, builder, Place(before, behind, heights[id(part)]))
            if before is not None and makes_step(before, bore):
                made.rows.insert(0, step_row(builder, before.outlet_m, bore.inlet_m))
                builder.note(
                    "step-counted",
                    f"A step from {show(before.outlet_m, 'bore', plant.units, 3)} to "
                    f"{show(bore.inlet_m, 'bore', plant.units, 3)} is counted in front of {part.name}; "
                    "no reducer is named there.",
                )
            parts.append(PartRows(part, index, made, bore, heights[id(part)]))
            before = bore
        last_bore[index] = before
    parts.sort(key=lambda item: item.link)
    return Assembly(
        plant=plant,
        topology=topology,
        parts=parts,
        water=builder.water,
        condition=condition,
        draws=draws,
        tee_bores_m=tee_bores,
        tee_shift_rank=draws.rank("tee shift", "loss coefficient of the split's tees")
        if topology.meetings
        else np.full(draws.size, 0.5),
        notices=builder.notices,
        builder=builder,
        junction_heights_m={meeting.index: _junction_height(meeting, heights, parts) for meeting in topology.meetings},
    )


def _junction_height(meeting: Meeting, heights: dict[int, Array], parts: list[PartRows]) -> Array:
    """Where a split begins, or where the first way with parts ends at a merge [m]."""
    if not meeting.diverging:
        for way in meeting.ways:
            last = [item for item in parts if item.link == way]
            if last:
                return last[-1].height_m
    return heights[id(meeting.junction)]


def _bore_before(
    link: Link, topology: Topology, last_bore: dict[int, Bore | None], tee_bores: list[float]
) -> Bore | None:
    """Bore in front of a link's first part; sets the tee's bore when the link begins or ends a meeting."""
    if link.start is None:
        return None
    meeting = topology.meetings[link.start]
    size = meeting.junction.size
    bore = fitting_bore_m(size)
    tee_bores[meeting.index] = bore
    return Bore(size, bore, bore)


def static_pressure(height_m: Array | float, level_m: Array, density_kgm3: float) -> Array:
    """Weight of the water between a height and the tub's surface [Pa], positive above the surface."""
    return np.asarray(density_kgm3 * GRAVITY_MS2 * (height_m - level_m))


def velocity_ms(flow_m3s: Array, bore_m: float) -> Array:
    """Mean velocity in a bore [m/s]."""
    return flow_m3s / area_m2(bore_m)
