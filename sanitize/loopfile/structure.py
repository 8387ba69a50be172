"""Whether the parts make a loop: from the tub through a pump back to the tub, with splits and joins that close."""

from typing import Literal

from sanitize.loopfile.reading import Reading
from sanitize.loopfile.tree import Node, RawChain, Tree
from sanitize.loopfile.wording import nearest, quoted
from sanitize.plant.ends import Return, Suction
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Join, Split
from sanitize.plant.machines import Pump

Role = Literal["loop", "split", "join"]
_START = "a suction fitting, or a join of ways that start with one"
_END = "a return, or a split whose ways all end with one"


def check_structure(tree: Tree, reading: Reading) -> None:
    """Note everything that keeps the parts from being a loop; says nothing about parts that could not be made out."""
    _check_chain(tree.loop, "loop", reading)
    nodes = list(tree.nodes())
    pumps = [node for node in nodes if _is(node, Pump)]
    if tree.whole and not pumps:
        reading.problem(
            "loop", "there is no pump in it", "at least one pump", '{part = "pump", height = ..., curve = ...}'
        )
    injectors = [node for node in nodes if _is(node, Injector)]
    for node in injectors[1:]:
        reading.problem(
            node.label, f"a second injector, the first is {injectors[0].where}", "at most one injector in a loop"
        )


def ends_in_tub(chain: RawChain) -> bool | None:
    """Whether a chain gives its water back to the tub; None where that cannot be made out."""
    if not chain.nodes:
        return None
    last = chain.nodes[-1]
    if last.record is None:
        return None
    if not issubclass(last.record, Split):
        return last.record is Return
    ends = [ends_in_tub(way) for way in last.ways]
    if False in ends:
        return False
    return True if ends and None not in ends and len(ends) == last.named else None


def _is(node: Node, record: type) -> bool:
    return node.record is not None and issubclass(node.record, record)


def _check_chain(chain: RawChain, role: Role, reading: Reading) -> None:
    for number, node in enumerate(chain.nodes):
        _check_place(node, number, chain, role, reading)
        for way in node.ways:
            _check_chain(way, "join" if _is(node, Join) else "split", reading)
        _check_straight(node, reading)
    if not chain.nodes:
        return
    first, last = chain.nodes[0], chain.nodes[-1]
    if role in ("loop", "join") and first.record is not None and not _is(first, Suction) and not _is(first, Join):
        what = "the loop" if role == "loop" else f"the way {quoted(chain.name)} of a join"
        reading.problem(
            first.label, f"{what} does not start in the tub", _START, '{part = "suction fitting", height = ...}'
        )
    if role == "loop" and ends_in_tub(chain) is False:
        open_way = next((way for way in last.ways if ends_in_tub(way) is False), None)
        found = "the loop does not end in the tub"
        if open_way is not None:
            found += f": nothing stands behind this split, and its way {quoted(open_way.name)} has no return"
        reading.problem(last.label, found, _END, '{part = "return", height = ...}')
    if role == "join" and ends_in_tub(chain):
        reading.problem(last.label, f"the way {quoted(chain.name)} ends in the tub and never reaches its join",
                        "a way of a join without a return at its end")  # fmt: skip


def _check_place(node: Node, number: int, chain: RawChain, role: Role, reading: Reading) -> None:
    if _is(node, Suction) or _is(node, Join):
        what = "a suction fitting" if _is(node, Suction) else "a join"
        if number > 0:
            reading.problem(node.label, f"{what} stands behind another part", f"{what} as the first part only")
        elif role == "split":
            reading.problem(
                node.label,
                f"the way {quoted(chain.name)} of a split starts in the tub",
                "a way of a split gets its water from the split; ways that start in the tub meet at a join",
            )
    behind = chain.nodes[number + 1] if number + 1 < len(chain.nodes) else None
    if behind is None:
        return
    if _is(node, Return):
        reading.problem(
            node.label, f"a return stands before another part ({behind.label})", "a return as the last part only"
        )
    if _is(node, Split) and ends_in_tub(RawChain("", [node])):
        reading.problem(
            behind.label,
            f"no water comes here: every way of the split {node.where} ends in the tub",
            "a way without a return, or nothing behind the split",
        )


def _check_straight(node: Node, reading: Reading) -> None:
    straight, names = node.raw.get("straight"), node.raw.get("ways")
    if isinstance(straight, str) and isinstance(names, list) and straight not in names:
        ways = ", ".join(quoted(name) for name in names if isinstance(name, str))
        near = nearest(straight, [name for name in names if isinstance(name, str)])
        write = f"straight = {quoted(near)}" if near else ""
        reading.problem(node.place(reading).at("straight"), f"{quoted(straight)} is none of its ways", ways, write)
