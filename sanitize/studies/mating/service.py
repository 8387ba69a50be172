"""Which serviced parts come out without draining the tub, and without sawing."""

from collections.abc import Iterator, Sequence
from typing import Literal

from sanitize.basis.tables import model_table
from sanitize.plant.ends import Return
from sanitize.plant.loop import Chain, Junction, Plant
from sanitize.plant.part import Part
from sanitize.plant.valves import Valve
from sanitize.studies.mating.made import Made
from sanitize.studies.mating.result import Mismatch
from sanitize.studies.mating.rules import comes_undone

Side = Literal["inlet", "outlet"]
SIDES: tuple[Side, ...] = ("inlet", "outlet")
_UNION = "union"
_NEEDS = {
    "valve": ("no-valve-to-shut", "Fit a hand valve there"),
    "union": ("no-union", "Fit a union there"),
}


def service_problems(plant: Plant, made: Sequence[Made]) -> list[Mismatch]:
    """Every valve and union that is missing beside a serviced part."""
    table = model_table("service_rules")
    serviced = table.words("part")
    found = []
    for part, path in _with_paths(plant.loop, ()):
        if part.word not in serviced:
            continue
        for need in table.words("needs"):
            entry = table[part.word, need]
            bare = [side for side in SIDES if not _met(need, side, part, path, made, plant)]
            if entry.value != 1.0 or not bare:
                continue
            code, action = _NEEDS[need]
            sides = " and ".join(f"{side} side" for side in bare)
            text = f"{part.name} has no {need} on its {sides}: {entry.note}."
            found.append(Mismatch(code, (part.name,), text, f"{action}.", entry.standing, entry.source))
    return found


_Path = tuple[tuple[Chain, int], ...]


def _with_paths(chain: Chain, above: _Path) -> Iterator[tuple[Part, _Path]]:
    """Every part with the chains that it stands in and its place in each, the innermost last."""
    for number, item in enumerate(chain.items):
        path = (*above, (chain, number))
        yield item, path
        if isinstance(item, Junction):
            for way in item.chains:
                yield from _with_paths(way, path)


def _met(need: str, side: Side, part: Part, path: _Path, made: Sequence[Made], plant: Plant) -> bool:
    if need == "valve":
        return _shut(side, path, plant)
    return _undone(side, part, made)


def _outward(side: Side, path: _Path) -> Iterator[Part]:
    """The parts outward from one, through the chains around it, to the tub."""
    for chain, number in reversed(path):
        yield from chain.items[number + 1 :] if side == "outlet" else chain.items[:number][::-1]


def _shut(side: Side, path: _Path, plant: Plant) -> bool:
    """Whether a hand valve, or a return that falls free, keeps the tub's water from running to the part."""
    return any(_holds(part, plant) for part in _outward(side, path))


def _holds(part: Part, plant: Plant) -> bool:
    if isinstance(part, Valve):
        return True
    if isinstance(part, Return):
        level = plant.tub.water_level_m
        return part.height_m is not None and part.height_m.low > level.high
    if isinstance(part, Junction):
        return all(any(_holds(item, plant) for item in way.items) for way in part.chains)
    return False


def _undone(side: Side, part: Part, made: Sequence[Made]) -> bool:
    """Whether the line comes apart by hand between a part and the next serviced part, tee or tub."""
    serviced = model_table("service_rules").words("part")
    for one in made:
        places = [number for number, station in enumerate(one.row) if station.part is part]
        if not places:
            continue
        step = 1 if side == "outlet" else -1
        at = places[0]
        while 0 <= at + step < len(one.row):
            joint = one.joints[at if side == "outlet" else at - 1]
            ends = {joint.first_end, joint.second_end}
            at += step
            station = one.row[at]
            if _UNION in ends or station.word == _UNION or any(comes_undone(seal.kind) for seal in joint.seals):
                return True
            if station.word in serviced:
                return False
    return False
