"""The trade size of every part: its own, the file's, the last reducer's, or that of the part before."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from sanitize.loopfile.fields import Fields
from sanitize.loopfile.reading import Reading
from sanitize.loopfile.sizes import TUBE_SIZES, TUBE_WORDS, accepted_sizes
from sanitize.loopfile.tree import Node, RawChain, Tree
from sanitize.plant.loop import Join
from sanitize.plant.pipework import Reducer

ANY_SIZE = "3/4"
"""What a size that could not be read is taken for, so that its parts can be checked all the same."""


@dataclass(slots=True)
class Sizes:
    """The size of every part by its position.

    A file with a `size` of its own: it runs through the loop until a reducer changes it, and a part's own size is that
    part's alone. A file without one: every size that a part states runs on.
    A reducer, and the tees of a split, have the size of the part before them.
    """

    file_size: str | None
    fields: Mapping[str, Fields]
    reading: Reading
    of: dict[str, str] = field(default_factory=dict)

    def run(self, tree: Tree) -> None:
        """Fill in the size of every part, those of unused ways as far as they state one."""
        self.chain(tree.loop, self.file_size, self.file_size)
        for way in tree.unused:
            self.chain(way, self.file_size or ANY_SIZE, self.file_size or ANY_SIZE)

    def chain(self, chain: RawChain, running: str | None, before: str | None) -> tuple[str | None, str | None]:
        """The running size and the size of the last part behind a chain that starts with these two."""
        for node in chain.nodes:
            if node.record is None:
                continue
            running, before = self.node(node, running, before)
        return running, before

    def node(self, node: Node, running: str | None, before: str | None) -> tuple[str | None, str | None]:
        """The running size and the size before behind one part."""
        fields = self.fields[node.where]
        own = fields.values.get("size")
        if own is None and "size" in fields.given:
            own = running or ANY_SIZE
        elif own is not None and self.file_size is None:
            running = own
        if node.record is Join:
            return self.join(node, own, running)
        takes_before = node.record is Reducer or bool(node.ways)
        size = own or (before if takes_before else running) or running
        if size is None:
            self.reading.problem(
                fields.place.at("size"),
                "neither this part, nor one before it, nor the file states a trade size",
                accepted_sizes(node.word),
                'size = "3/4 in", here or above the loop',
            )
            size = running = ANY_SIZE
        self.keep(node, size)
        for way in node.ways:
            self.chain(way, running, size)
        if node.record is Reducer:
            to = fields.values.get("to_size", size)
            if to in TUBE_SIZES:
                self.wrong_tube(node, "to", to)
                to = size
            elif to == size and "to_size" in fields.values:
                self.reading.problem(
                    fields.place.at("to"),
                    f"{to} in is the size that it has already",
                    "another trade size; a fitting between equal sizes is a coupling",
                    'part = "coupling", or no part here',
                )
            return to, to
        return running, size

    def join(self, node: Node, own: str | None, running: str | None) -> tuple[str | None, str | None]:
        """A join: its ways start from the file's size; its tees take the size of the way that goes straight."""
        behind: dict[str, tuple[str | None, str | None]] = {}
        for way in node.ways:
            behind[way.name] = self.chain(way, self.file_size, self.file_size)
        straight = node.raw.get("straight")
        last = behind.get(straight) if isinstance(straight, str) else None
        _, before = last or next(iter(behind.values()), (None, None))
        size = own or before or running or ANY_SIZE
        self.keep(node, size)
        return self.file_size or size, size

    def keep(self, node: Node, size: str) -> None:
        """Note the size of a part, and whether it exists for it."""
        self.of[node.where] = size
        if size in TUBE_SIZES and node.word not in TUBE_WORDS:
            self.wrong_tube(node, "size", size)

    def wrong_tube(self, node: Node, key: str, size: str) -> None:
        """Note that a part cannot have a tube's size."""
        self.reading.problem(
            self.fields[node.where].place.at(key),
            f"{size} in exists as {' and '.join(TUBE_WORDS)} only",
            accepted_sizes(node.word),
            f'{key} = "1/2 in"',
        )
