"""The name of every part: the user's own, or its word, numbered where several share it."""

from collections import Counter

from sanitize.loopfile.reading import Reading
from sanitize.loopfile.tree import Node, Tree
from sanitize.loopfile.wording import quoted


def give_names(tree: Tree, reading: Reading) -> None:
    """Fill in the name of every part; notes names that stand twice."""
    nodes = list(tree.nodes())
    owner: dict[str, Node] = {}
    for node in nodes:
        name = _own_name(node)
        if not name:
            continue
        node.name = name
        if name in owner:
            reading.problem(
                node.place(reading).at("name"),
                f"the name {quoted(name)} already stands at {owner[name].where}",
                "a different name for every part",
            )
        owner.setdefault(name, node)
    nameless = [node for node in nodes if not node.name]
    how_many = Counter(node.called for node in nameless)
    taken = set(owner)
    number: Counter[str] = Counter()
    for node in nameless:
        name = node.called
        if how_many[name] > 1 or name in taken:
            while True:
                number[node.called] += 1
                name = f"{node.called} ({number[node.called]})"
                if name not in taken:
                    break
        taken.add(name)
        node.name = name


def _own_name(node: Node) -> str:
    name = node.raw.get("name")
    return name.strip() if isinstance(name, str) else ""
