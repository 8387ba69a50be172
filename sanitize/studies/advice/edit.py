"""Parts of a loop found, taken out, put in and put elsewhere; the loop itself stays as it is."""

from collections.abc import Callable
from typing import Any

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.plant.changed import with_part
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Chain, Junction, Plant, walk
from sanitize.plant.part import SIZES, Part
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.advice.change import NotPossibleError

Items = tuple[Any, ...]


def part_of(plant: Plant, name: str) -> Any:
    """The part of a name; raises NotPossibleError where there is none."""
    found = next((part for part in walk(plant.loop) if part.name == name), None)
    if found is None:
        raise NotPossibleError(name)
    return found


def the_injector(plant: Plant) -> Injector:
    """The loop's injector; raises NotPossibleError where there is none."""
    found = next((part for part in walk(plant.loop) if isinstance(part, Injector)), None)
    if found is None:
        raise NotPossibleError("no injector")
    return found


def changed(plant: Plant, name: str, **fields: Any) -> Plant:
    """The plant with fields of a part replaced; raises NotPossibleError where there is no such part."""
    part_of(plant, name)
    return with_part(plant, name, **fields)


def chain_of(plant: Plant, name: str) -> Chain:
    """The chain, the loop itself or a way, in which a part stands."""
    found = _chain(plant.loop, name)
    if found is None:
        raise NotPossibleError(name)
    return found


def _chain(chain: Chain, name: str) -> Chain | None:
    if any(item.name == name for item in chain.items):
        return chain
    ways = [way for item in chain.items if isinstance(item, Junction) for way in item.chains]
    return next((found for found in (_chain(way, name) for way in ways) if found is not None), None)


def rebuilt(plant: Plant, name: str, make: Callable[[Items], Items]) -> Plant:
    """The plant with the items of the chain in which a part stands made anew."""
    old = chain_of(plant, name)
    return plant.model_copy(update={"loop": _with(plant.loop, old, make(old.items))})


def _with(chain: Chain, old: Chain, items: Items) -> Chain:
    if chain is old:
        return chain.model_copy(update={"items": items})
    new = [
        item.model_copy(update={"chains": tuple(_with(way, old, items) for way in item.chains)})
        if isinstance(item, Junction)
        else item
        for item in chain.items
    ]
    return chain.model_copy(update={"items": tuple(new)})


def position_of(items: Items, name: str) -> int:
    """Where a part stands in its chain."""
    return next(number for number, item in enumerate(items) if item.name == name)


def free_name(plant: Plant, wanted: str) -> str:
    """A name that no part has."""
    taken = {part.name for part in walk(plant.loop)}
    name, number = wanted, 1
    while name in taken:
        number += 1
        name = f"{wanted} ({number})"
    return name


def shifted(band: Band, by: float) -> Band:
    """A band moved by a number, as wide as before."""
    return Band(band.low + by, band.nominal + by, band.high + by, band.scale)


def resized(band: Band, nominal: float) -> Band:
    """A band about another positive number, as wide in ratio as before."""
    return band.scaled(nominal / band.nominal)


def next_size(part: Part) -> str | None:
    """The next larger trade size in which a part exists, where there is one."""
    for size in SIZES[SIZES.index(part.size) + 1 :]:
        if exists(part, size):
            return size
    return None


def exists(part: Part, size: str) -> bool:
    """Whether the tables hold a part of this kind in a trade size."""
    if isinstance(part, Pipe):
        return (part.schedule, size) in model_table("pipe_bores").entries
    if isinstance(part, Hose):
        return (part.word, size) in model_table("hose_bores").entries
    word = {"male adapter": "thread", "female adapter": "thread", "threaded elbow 90": "elbow 90"}.get(part.word)
    return (word or part.word, size) in model_table("fitting_losses").entries
