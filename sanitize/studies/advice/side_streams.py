"""The injector in a side stream, with a valve in the bypass that drives it."""

from sanitize.basis.band import Band
from sanitize.plant.ends import Return
from sanitize.plant.loop import Chain, Plant, Split
from sanitize.plant.pipework import Hose
from sanitize.plant.valves import Valve
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.edit import Items, chain_of, exists, free_name, position_of, rebuilt, the_injector
from sanitize.studies.advice.valves import handle_band

HANDLES_DEG = (20.0, 35.0, 50.0)
"""Turns of the bypass valve's handle that are tried (a choice of this project)."""
HOSE_M = 0.4
"""Hose on either side of the injector in its side stream (an estimate: a tee, a bend and a clamp)."""
LENGTH_TOLERANCE_RATIO = 0.03


def side_streams(plant: Plant) -> list[Change]:
    """An injector that stands in the loop itself, put into a side stream: back into the loop, and with its own return.

    The bypass keeps its size and gets a ball valve.
    """
    injector = the_injector(plant)
    chain = chain_of(plant, injector.name)
    if chain is not plant.loop or not exists(_valve("valve", injector.size, 0.0), injector.size):
        return []
    found = []
    for degrees in HANDLES_DEG:
        told = (
            f"Put {injector.name} into a side stream, with a ball valve in the bypass at {degrees:.0f} deg from "
            "fully open"
        )
        found.append(
            Change("side-stream", f"{told}.", lambda loop, degrees=degrees: _split(loop, degrees, own=False))  # type: ignore[misc]
        )
        if isinstance(chain.items[-1], Return) and chain.items[-1].height_m is not None:
            found.append(
                Change(
                    "side-stream",
                    f"{told}, and lead it back into the tub through a return of its own at the height of "
                    f"{chain.items[-1].name}.",
                    lambda loop, degrees=degrees: _split(loop, degrees, own=True),  # type: ignore[misc]
                )
            )
    return found


def _valve(name: str, size: str, degrees: float) -> Valve:
    return Valve(word="ball valve", name=name, size=size, handle_deg=None if degrees == 0.0 else handle_band(degrees))


def _hose(name: str, size: str, length_m: float) -> Hose:
    ends = (length_m * (1.0 - LENGTH_TOLERANCE_RATIO), length_m, length_m * (1.0 + LENGTH_TOLERANCE_RATIO))
    return Hose(word="flexible hose", name=name, size=size, length_m=Band(*ends, "log"))


def _split(plant: Plant, degrees: float, *, own: bool) -> Plant:
    injector = the_injector(plant)
    if chain_of(plant, injector.name) is not plant.loop:
        raise NotPossibleError("side stream")
    size = injector.size
    last = plant.loop.items[-1]
    before = _hose(free_name(plant, "hose to the side stream"), size, HOSE_M)
    behind = _hose(free_name(plant, "hose from the side stream"), size, _length_behind_m(plant, own))
    side: Items = (before, injector, behind)
    valve = _valve(free_name(plant, "bypass valve"), size, degrees)

    def make(items: Items) -> Items:
        at = position_of(items, injector.name)
        rest = items[at + 1 :]
        if own:
            end = last.model_copy(update={"name": free_name(plant, "return of the side stream"), "size": size})
            ways = (Chain(name=SIDE, items=(*side, end)), Chain(name=BYPASS, items=(valve, *rest)))
            return (*items[:at], _junction(plant, size, ways))
        ways = (Chain(name=SIDE, items=side), Chain(name=BYPASS, items=(valve,)))
        return (*items[:at], _junction(plant, size, ways), *rest)

    return rebuilt(plant, injector.name, make)


SIDE, BYPASS = "side stream", "bypass"


def _length_behind_m(plant: Plant, own: bool) -> float:
    last, height = plant.loop.items[-1], the_injector(plant).height_m
    if not own or last.height_m is None or height is None:
        return HOSE_M
    return HOSE_M + abs(height.nominal - last.height_m.nominal)


def _junction(plant: Plant, size: str, ways: tuple[Chain, ...]) -> Split:
    return Split(
        word="split",
        name=free_name(plant, "split"),
        size=size,
        ways=(SIDE, BYPASS),
        straight=BYPASS,
        chains=ways,
    )
