"""Lift the injector."""

from sanitize.basis.band import Band
from sanitize.basis.units import show
from sanitize.plant.changed import with_part
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Junction, Plant
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.edit import (
    chain_of,
    exists,
    free_name,
    position_of,
    rebuilt,
    resized,
    shifted,
    the_injector,
)

LIFTS_M = (0.1, 0.2, 0.3, 0.5, 0.8)
"""How much higher it is tried (a choice of this project: what a bracket and some spare hose allow)."""


def lifts(plant: Plant) -> list[Change]:
    """The injector higher, with as much more pipe or hose before and behind it."""
    name = the_injector(plant).name

    def lifted(by_m: float) -> Change:
        return Change(
            "lift-injector",
            f"Set {name} {show(by_m, 'length', plant.units)} higher, with that much more pipe or hose before and "
            "behind it.",
            lambda loop: _lifted(loop, by_m),
        )

    return [lifted(by_m) for by_m in LIFTS_M]


def _lifted(plant: Plant, by_m: float) -> Plant:
    injector = the_injector(plant)
    if injector.height_m is None:
        raise NotPossibleError("no height")
    plant = with_part(plant, injector.name, height_m=shifted(injector.height_m, by_m))
    for behind in (False, True):
        plant = _longer(plant, injector, by_m, behind=behind)
    return plant


def _longer(plant: Plant, injector: Injector, by_m: float, *, behind: bool) -> Plant:
    """As much more of the nearest pipe or hose up to the next given height; where there is none, a pipe."""
    items = chain_of(plant, injector.name).items
    position = position_of(items, injector.name)
    for item in items[position + 1 :] if behind else reversed(items[:position]):
        if isinstance(item, Pipe | Hose):
            return with_part(plant, item.name, length_m=resized(item.length_m, item.length_m.nominal + by_m))
        if item.height_m is not None or isinstance(item, Junction):
            break
    name = free_name(plant, f"riser {'behind' if behind else 'to'} {injector.name}")
    riser = Pipe(word="pipe", name=name, size=injector.size, length_m=Band.exact(by_m))
    if not exists(riser, riser.size):
        raise NotPossibleError("riser")
    at = position + 1 if behind else position
    return rebuilt(plant, injector.name, lambda old: (*old[:at], riser, *old[at:]))
