"""The raw parts in their order: each with its word, its position and, at splits and joins, its ways."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import islice
from typing import Any

from sanitize.loopfile.reading import Place, Reading
from sanitize.loopfile.wording import alike, listed, nearest, quoted, shown
from sanitize.plant.loop import PART_OF_WORD, Join, Split
from sanitize.plant.part import Part

MOST_PARTS = 1000
MOST_WAYS = 100
DEEPEST_WAYS = 12
_WITH_WAYS = (*Split.words, *Join.words)
_BARE = re.compile(r"^[A-Za-z0-9_-]+$")


@dataclass(slots=True)
class Node:
    """One raw part.

    where: its position, counted from 1; file: how messages begin where it stands in another file; item: its table in
    the file; raw: the same with the fields of an own part filled in; called: its word in the file; word, record: the
    part's word, nothing where it is none.
    """

    where: str
    file: str
    item: dict[str, Any]
    raw: dict[str, Any]
    called: str
    word: str
    record: type[Part] | None
    name: str = ""
    ways: list["RawChain"] = field(default_factory=list)

    @property
    def label(self) -> str:
        """How messages call it."""
        given = self.raw.get("name")
        if isinstance(given, str) and given.strip():
            return f"{self.file}{self.where} {quoted(given.strip())}"
        return f"{self.file}{self.where} {quoted(self.called)[1:-1]}"

    @property
    def named(self) -> int:
        """How many ways it names."""
        names = self.raw.get("ways")
        return len(names) if isinstance(names, list) and self.word in _WITH_WAYS else 0

    def place(self, reading: Reading) -> Place:
        """Its place in messages."""
        return Place(self.label, ", ", reading.origins, self.where)


@dataclass(slots=True)
class RawChain:
    """The raw parts of the loop or of one way; whole is false where one of its parts could not be made out."""

    name: str
    nodes: list[Node] = field(default_factory=list)
    whole: bool = True


@dataclass(slots=True)
class Tree:
    """The loop with its ways, and the ways that nothing uses."""

    loop: RawChain
    unused: list[RawChain] = field(default_factory=list)

    @property
    def whole(self) -> bool:
        """Whether every part and every way that the loop names could be made out."""
        return not self.unused and _whole(self.loop)

    def nodes(self) -> Iterator[Node]:
        """Every part in the order of the walk, those of unused ways last."""
        for chain in (self.loop, *self.unused):
            yield from walk(chain)


def walk(chain: RawChain) -> Iterator[Node]:
    """Every part of a chain and its ways, in order."""
    for node in chain.nodes:
        yield node
        for way in node.ways:
            yield from walk(way)


def _whole(chain: RawChain) -> bool:
    if not chain.whole or not chain.nodes:
        return False
    return all(len(node.ways) == node.named and all(_whole(way) for way in node.ways) for node in chain.nodes)


def way_key(name: str) -> str:
    """A way as it is written in the file."""
    return f"way.{name}" if _BARE.match(name) else f"way.{quoted(name)}"


def build_tree(doc: Mapping[str, Any], own: Mapping[str, dict[str, Any]], reading: Reading, parts_path: str) -> Tree:
    """The tree of the raw parts; notes every item that is no part and every way that is not used once."""
    return _Builder(doc, own, reading, parts_path).tree()


class _Builder:
    def __init__(
        self, doc: Mapping[str, Any], own: Mapping[str, dict[str, Any]], reading: Reading, parts_path: str
    ) -> None:
        self.doc, self.own, self.reading, self.parts_path = doc, own, reading, parts_path
        self.used_by: dict[str, str] = {}
        self.count = 0
        self.lost_ways = False
        way = doc.get("way", {})
        if not isinstance(way, dict):
            reading.problem("way", f"{shown(way)} is no table of ways", write="way.bypass = [ ... ] or [[way.bypass]]")
            way = {}
        if len(way) > MOST_WAYS:
            reading.problem("way", f"there are {len(way)} ways", f"at most {MOST_WAYS} ways")
        self.ways: dict[str, Any] = dict(islice(way.items(), MOST_WAYS))

    def tree(self) -> Tree:
        loop = RawChain("loop")
        if "loop" in self.doc:
            loop = self.chain("loop", "loop", self.doc["loop"], ())
        tree = Tree(loop)
        for name in self.ways:
            if name not in self.used_by:
                self.used_by[name] = ""
                if not self.lost_ways:
                    self.reading.problem(way_key(name), "no split or join names this way", "a way that is used once")
                tree.unused.append(self.chain(name, way_key(name), self.ways[name], (name,)))
        return tree

    def chain(self, name: str, where: str, raw: Any, inside: tuple[str, ...]) -> RawChain:
        file = self.reading.files.get(where, "")
        chain = RawChain(name)
        items = self.items(file, where, raw)
        chain.whole = bool(items) and isinstance(raw, list)
        for number, item in enumerate(items, start=1):
            self.count += 1
            if self.count > MOST_PARTS:
                self.reading.problem("loop", f"there are more than {MOST_PARTS} parts", "a loop of fewer parts")
                chain.whole = False
                break
            node = self.node(file, f"{where}[{number}]", item)
            if node is None:
                chain.whole = False
                continue
            chain.nodes.append(node)
            chain.whole = chain.whole and node.record is not None
            if node.record is not None and issubclass(node.record, Split | Join):
                self.add_ways(node, inside)
        return chain

    def items(self, file: str, where: str, raw: Any) -> list[Any]:
        at = f"{file}{where}"
        if isinstance(raw, dict):
            write = f"[[{where}]], or {where} = [ ... ]"
            self.reading.problem(at, "it is one table instead of a list of parts", write=write)
            return [raw] if "part" in raw else []
        if not isinstance(raw, list):
            self.reading.problem(at, f"{shown(raw)} is no list of parts", write=f'{where} = [ {{part = "..."}} ]')
            return []
        if not raw:
            self.reading.problem(at, "it is empty", "at least one part")
        return raw

    def node(self, file: str, where: str, item: Any) -> Node | None:
        at = f"{file}{where}"
        if not isinstance(item, dict):
            self.reading.problem(at, f"{shown(item)} is no part", write='{part = "pipe", length = "1 m"}')
            return None
        called = item.get("part")
        if not isinstance(called, str):
            near = nearest("part", [key for key in item if isinstance(item[key], str)]) if called is None else ""
            found = "is missing" if called is None else f"{shown(called)} is no word of a part"
            write = f"part = {shown(item[near])}" if near else 'part = "pipe"'
            self.reading.problem(f"{at}, part", found, "the word of a part", write)
            return None
        raw, word = dict(item), called
        if called in self.own and called not in PART_OF_WORD:
            fields = self.own[called]
            word = str(fields["part"])
            raw = {**fields, **item, "part": word}
            for key in fields:
                if key not in item:
                    origin = f"{at} {quoted(called)}, {key} (from {self.parts_path})"
                    self.reading.origins.setdefault((where, key), origin)
        record = PART_OF_WORD.get(word)
        if record is None:
            words = [*PART_OF_WORD, *self.own]
            near = nearest(called, words)
            write = f"part = {quoted(near)}" if near else ""
            self.reading.problem(at, f"{quoted(called)} is no part", listed(alike(called, words) or words), write)
        return Node(where, file, item, raw, called, word if record else "", record)

    def add_ways(self, node: Node, inside: tuple[str, ...]) -> None:
        names = node.raw.get("ways")
        if not isinstance(names, list):
            self.lost_ways = True
            return
        place = node.place(self.reading).at("ways")
        for said in dict.fromkeys(name for name in names[:MOST_WAYS] if isinstance(name, str)):
            problem = self.way_problem(said, inside)
            name = said
            if problem:
                self.reading.problem(place, *problem)
                name = self.meant(said) if len(inside) < DEEPEST_WAYS else ""
            if not name:
                continue
            self.used_by[name] = node.where
            node.ways.append(self.chain(name, way_key(name), self.ways[name], (*inside, name)))

    def meant(self, name: str) -> str:
        """The way that a misspelt one most likely means, if nothing uses it so far."""
        return nearest(name, [way for way in self.ways if way not in self.used_by]) if name not in self.ways else ""

    def way_problem(self, name: str, inside: tuple[str, ...]) -> tuple[str, str, str] | None:
        if name not in self.ways:
            near = self.meant(name)
            free = listed(quoted(way) for way in self.ways) or "a way of its own"
            return f"there is no way {quoted(name)}", free, quoted(near) if near else f"{way_key(name)} = [ ... ]"
        if name in inside:
            return f"the way {quoted(name)} leads into itself", "ways that are not inside each other", ""
        if name in self.used_by:
            return (
                f"the way {quoted(name)} is already used by {self.used_by[name]}",
                "each way once",
                "a second way with a name of its own, even if it holds the same parts",
            )
        if len(inside) >= DEEPEST_WAYS:
            return f"the ways are nested deeper than {DEEPEST_WAYS}", f"at most {DEEPEST_WAYS} deep", ""
        return None
