"""Move the injector along the return."""

from sanitize.basis.units import show
from sanitize.plant.ends import Return
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Junction, Plant
from sanitize.plant.machines import Pump
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.edit import (
    Items,
    chain_of,
    free_name,
    part_of,
    position_of,
    rebuilt,
    resized,
    the_injector,
)
from sanitize.studies.operating_point.bores import nominal_bore

LEFT_BEHIND_M = 0.3
"""Hose that stays behind an injector moved along it (a choice of this project: room for a clamp and a bend)."""


def moves(plant: Plant) -> list[Change]:
    """The injector behind each later part of its way, at its height; and along the last hose or pipe before the tub."""
    injector = the_injector(plant)
    items = chain_of(plant, injector.name).items
    position = position_of(items, injector.name)
    pumps = [number for number, item in enumerate(items) if isinstance(item, Pump)]
    first = max([position + 1, *pumps])
    found = [
        Change(
            "move-injector",
            f"Move {injector.name} behind {items[number].name}, at the same height.",
            lambda loop, behind=items[number].name: _behind(loop, behind),  # type: ignore[misc]
        )
        for number in range(first, len(items) - 1)
        if _joins(injector, items, number)
    ]
    pipes = [item for item in items[max(position, first - 1) + 1 :] if isinstance(item, Pipe | Hose)]
    if pipes and pipes[-1].size == injector.size and pipes[-1].length_m.nominal > 2.0 * LEFT_BEHIND_M:
        last = pipes[-1].name
        left = _left_behind_m(plant)
        if left < pipes[-1].length_m.nominal - LEFT_BEHIND_M:
            found.append(
                Change(
                    "move-injector",
                    f"Move {injector.name} along {last}, at the same height, so that "
                    f"{show(left, 'length', plant.units)} of it are left behind it.",
                    lambda loop: _along(loop, last, left),
                )
            )
    return found


def _joins(injector: Injector, items: Items, number: int) -> bool:
    """Whether the parts on both sides of a place are pipe, hose or machines of the injector's trade size."""
    before, behind = items[number], items[number + 1]
    if any(isinstance(item, Junction) for item in (before, behind)) or isinstance(before, Return):
        return False
    return nominal_bore(before).outlet_size == injector.size and nominal_bore(behind).inlet_size == injector.size


def _behind(plant: Plant, name: str) -> Plant:
    injector = the_injector(plant)

    def make(items: Items) -> Items:
        others = tuple(item for item in items if item.name != injector.name)
        if all(item.name != name for item in others):
            raise NotPossibleError(name)
        at = position_of(others, name) + 1
        return (*others[:at], injector, *others[at:])

    return rebuilt(plant, injector.name, make)


def _left_behind_m(plant: Plant) -> float:
    """Hose that reaches from the injector's height down or up to the next given height."""
    injector = the_injector(plant)
    items = chain_of(plant, injector.name).items
    given = [item.height_m.nominal for item in items[position_of(items, injector.name) + 1 :] if item.height_m]
    if injector.height_m is None or not given:
        return LEFT_BEHIND_M
    return max(LEFT_BEHIND_M, abs(injector.height_m.nominal - given[-1]))


def _along(plant: Plant, name: str, left_m: float) -> Plant:
    pipe, injector = part_of(plant, name), the_injector(plant)
    length = pipe.length_m.nominal
    if length <= left_m:
        raise NotPossibleError(name)
    rest = free_name(plant, f"rest of {name}")
    share = left_m / length
    bends = {} if isinstance(pipe, Pipe) else {"bends_count": pipe.bends_count}
    front = pipe.model_copy(
        update={"length_m": resized(pipe.length_m, length - left_m)}
        | {key: value * (1.0 - share) for key, value in bends.items()}
    )
    behind = pipe.model_copy(
        update={"length_m": resized(pipe.length_m, left_m), "name": rest}
        | {key: value * share for key, value in bends.items()}
    )

    def make(items: Items) -> Items:
        others = tuple(item for item in items if item.name != injector.name)
        at = position_of(others, name)
        return (*others[:at], front, injector, behind, *others[at + 1 :])

    if all(item.name != name for item in chain_of(plant, injector.name).items):
        raise NotPossibleError(name)
    return rebuilt(plant, injector.name, make)
