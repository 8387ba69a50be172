"""Where the parts stand along the loop in a picture, and which follows which."""

from dataclasses import dataclass, field

from sanitize.plant.loop import Chain, Junction, Plant
from sanitize.studies.suction.result import PartAlong, Suction

WAY_SHIFT = 0.5
"""How far each further way stands to the right, so that ways at one height stay apart."""


@dataclass(frozen=True)
class Node:
    """One row of the answer in a picture: place along the loop, and whether the file gave its height.

    number: in the order of the picture's key, 0 for a tee, which stands in no key; second: whether it stands in every
    other way of a junction, so that its number goes on the other side.
    """

    x: float
    row: PartAlong
    height_given: bool
    number: int
    second: bool


@dataclass
class Layout:
    """All rows, and the pieces between one row and the next."""

    nodes: list[Node] = field(default_factory=list)
    edges: list[tuple[Node, Node]] = field(default_factory=list)

    def node(self, name: str) -> Node:
        """The node of a part by its name."""
        return next(node for node in self.nodes if node.row.name == name)

    @property
    def numbered(self) -> list[Node]:
        """The rows that stand in the picture's key, in its order."""
        return [node for node in self.nodes if node.number]

    @property
    def last_x(self) -> float:
        """Place of the last row."""
        return max((node.x for node in self.nodes), default=0.0)


def lay_out(result: Suction, plant: Plant) -> Layout:
    """Parts one step apart in the order of the water; ways side by side, the shortest waiting for the longest."""
    return _Walk({row.name: row for row in result.parts}).whole(plant)


class _Walk:
    def __init__(self, rows: dict[str, PartAlong]) -> None:
        self.rows = rows
        self.made = Layout()
        self.count = 0
        self.second = False

    def whole(self, plant: Plant) -> Layout:
        self.chain(plant.loop, 0.0, [])
        return self.made

    def chain(self, chain: Chain, x: float, before: list[Node]) -> tuple[float, list[Node]]:
        """Lay a chain behind the nodes before it; returns how far it reaches and its open ends."""
        for item in chain.items:
            if isinstance(item, Junction):
                x, before = self.junction(item, x, before)
            else:
                x, before = self.one(item.name, x, before, given=item.height_m is not None)
        return x, before

    def junction(self, item: Junction, x: float, before: list[Node]) -> tuple[float, list[Node]]:
        reach, ends, second = x, list[Node](), self.second
        for index, way in enumerate(item.chains):
            self.second = second != bool(index % 2)
            here, open_ends = self.one(f"{item.name}: {way.name} leaves", x + WAY_SHIFT * index, before, tee=True)
            here, open_ends = self.chain(way, here, open_ends)
            if not way.ends_in_tub:
                here, open_ends = self.one(f"{item.name}: {way.name} rejoins", here, open_ends, tee=True)
                ends += open_ends
            reach = max(reach, here)
        self.second = second
        return reach, ends

    def one(
        self, name: str, x: float, before: list[Node], *, given: bool = False, tee: bool = False
    ) -> tuple[float, list[Node]]:
        row = self.rows.get(name)
        if row is None:
            return x, before
        if not tee:
            self.count += 1
        node = Node(x + 1.0, row, given, 0 if tee else self.count, self.second)
        self.made.nodes.append(node)
        self.made.edges += [(other, node) for other in before]
        return node.x, [node]
