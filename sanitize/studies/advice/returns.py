"""Less resistance behind the injector: a shorter or wider return, a bigger nozzle."""

from sanitize.basis.tables import model_table
from sanitize.basis.units import show
from sanitize.plant.changed import with_part
from sanitize.plant.ends import Return
from sanitize.plant.loop import Plant
from sanitize.plant.pipework import Fitting, Hose, Pipe, Tee
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.edit import changed, exists, next_size, part_of, resized
from sanitize.studies.cautions.facts_layout import behind_injector
from sanitize.studies.operating_point.bores import fitting_bore_m

SHORTER_RATIOS = (0.75, 0.5)
"""Lengths of return that are tried, over the one in the file (a choice of this project)."""
LEAST_LENGTH_M = 0.5
"""Length from which a pipe or hose is worth cutting (a choice of this project)."""
NOZZLE_RATIOS = (1.25, 1.5)
"""Bores of the nozzle that are tried, over the one in the file (a choice of this project)."""


def shorter_returns(plant: Plant) -> list[Change]:
    """Each longer pipe or hose behind the injector, cut."""
    found = []
    for part in behind_injector(plant):
        if isinstance(part, Pipe | Hose) and part.length_m.nominal >= LEAST_LENGTH_M:
            found += [_shorter(plant, part, ratio) for ratio in SHORTER_RATIOS]
    return found


def _shorter(plant: Plant, part: Pipe | Hose, ratio: float) -> Change:
    length, family = part.length_m.nominal, plant.units

    def apply(loop: Plant) -> Plant:
        now = part_of(loop, part.name)
        return with_part(loop, part.name, length_m=now.length_m.scaled(ratio))

    return Change(
        "shorten-return",
        f"Shorten {part.name} from {show(length, 'length', family)} to {show(ratio * length, 'length', family)}.",
        apply,
    )


def wider_returns(plant: Plant) -> list[Change]:
    """Every pipe, hose and fitting behind the injector one trade size up, without and with the return fitting."""
    parts = [part for part in behind_injector(plant) if isinstance(part, Pipe | Hose | Fitting | Tee)]
    pipes = [part for part in parts if isinstance(part, Pipe | Hose)]
    names = [part.name for part in parts if next_size(part) is not None]
    returns = [part for part in behind_injector(plant) if isinstance(part, Return)]
    ends = [part.name for part in returns if _next_return_size(part) is not None]
    if not any(part.name in names for part in pipes):
        return []
    told = f"Take pipe, hose and fittings behind the injector one size wider ({_sizes(pipes)})"
    found = [Change("widen-return", f"{told}.", lambda loop: _widened(loop, names))]
    if ends:
        found.append(
            Change("widen-return", f"{told}, with the return fitting.", lambda loop: _widened(loop, [*names, *ends]))
        )
    return found


def _sizes(pipes: list[Pipe | Hose]) -> str:
    sizes = {part.size: next_size(part) for part in pipes}
    return ", ".join(f"{size} in to {wider} in" for size, wider in sizes.items() if wider is not None)


def _widened(plant: Plant, names: list[str]) -> Plant:
    for name in names:
        part = part_of(plant, name)
        size = _next_return_size(part) if isinstance(part, Return) else next_size(part)
        if size is None or not (isinstance(part, Return) or exists(part, size)):
            raise NotPossibleError(name)
        plant = changed(plant, name, size=size, bore_m=None)
    return plant


def _next_return_size(part: Return) -> str | None:
    sizes = [key[1] for key in model_table("fitting_losses").entries if key[0] == "exit"]
    wider = [size for size in sizes if fitting_bore_m(size) > fitting_bore_m(part.size)]
    return min(wider, key=fitting_bore_m) if wider else None


def bigger_nozzles(plant: Plant) -> list[Change]:
    """Each return nozzle bigger, as far as the fitting allows, and taken out."""
    found = []
    for part in behind_injector(plant):
        if not isinstance(part, Return) or part.nozzle_bore_m is None:
            continue
        bore = part.bore_m.nominal if part.bore_m is not None else fitting_bore_m(part.size)
        for ratio in NOZZLE_RATIOS:
            if ratio * part.nozzle_bore_m.nominal < bore:
                found.append(_bigger(plant, part, ratio * part.nozzle_bore_m.nominal))
        found.append(
            Change(
                "bigger-nozzle",
                f"Take the nozzle out of {part.name}.",
                lambda loop, name=part.name: changed(loop, name, nozzle_bore_m=None),  # type: ignore[misc]
            )
        )
    return found


def _bigger(plant: Plant, part: Return, bore_m: float) -> Change:
    now = part.nozzle_bore_m
    if now is None:
        raise NotPossibleError(part.name)
    return Change(
        "bigger-nozzle",
        f"Give {part.name} a nozzle of {show(bore_m, 'bore', plant.units)} instead of "
        f"{show(now.nominal, 'bore', plant.units)}.",
        lambda loop: changed(loop, part.name, nozzle_bore_m=resized(now, bore_m)),
    )
