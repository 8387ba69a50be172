"""Materials that ozone attacks: on the gas side, and in the water behind the injector."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from sanitize.basis.notices import Notice
from sanitize.basis.tables import Entry, model_table
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Chain, Junction, Plant, walk
from sanitize.plant.part import Part
from sanitize.studies.mating.made import Made
from sanitize.studies.mating.result import Mismatch
from sanitize.studies.mating.rules import UNKNOWN

Side = Literal["gas", "water"]
ATTACKED, FAIR, GOOD = 0.0, 1.0, 2.0
_PLACES: Mapping[Side, str] = {"gas": "on the gas side", "water": "in the water behind the injector"}


def ozone_findings(plant: Plant, made: Sequence[Made]) -> tuple[list[Mismatch], list[Notice]]:
    """What ozone attacks, and what it wears or what is not known; nothing where the loop has no ozone."""
    if plant.ozone is None:
        return [], []
    problems, notices = [], []
    for side, names in (("gas", _gas_side(plant)), ("water", _water_side(plant, made))):
        for material, parts in names.items():
            problem, notice = _finding(side, material, parts)  # type: ignore[arg-type]
            problems += [problem] if problem else []
            notices += [notice] if notice else []
    return problems, notices


def _finding(side: Side, material: str, parts: Sequence[str]) -> tuple[Mismatch | None, Notice | None]:
    where = f"{', '.join(parts)}, {_PLACES[side]}"
    if material == UNKNOWN:
        text = f"The file does not say what this is made of: {where}. {withstanding(side)}"
        return None, Notice(f"ozone-material-unknown-{side}", text)
    entry = model_table("ozone_materials")[material, side]
    if entry.value == ATTACKED:
        text = f"Ozone attacks {material}: {where}: {entry.note}."
        return Mismatch(
            f"ozone-attacks-{side}", tuple(parts), text, withstanding(side), entry.standing, entry.source
        ), None
    if entry.value == FAIR:
        cited = f" [{entry.source}]" if entry.source else ""
        text = f"Ozone wears {material} ({entry.note}): look at it often: {where} ({entry.standing}{cited})."
        return None, Notice(f"ozone-wears-{side}", text)
    return None, None


def withstanding(side: Side) -> str:
    """Which materials withstand ozone on a side, as a sentence."""
    good = [key[0] for key, entry in model_table("ozone_materials").entries.items() if key[1] == side and _good(entry)]
    return f"Materials that withstand ozone {_PLACES[side]}: {', '.join(good)}."


def _good(entry: Entry) -> bool:
    return entry.value >= GOOD


def _gas_side(plant: Plant) -> dict[str, list[str]]:
    line = plant.gas_line
    if line is None:
        return {UNKNOWN: ["the gas line"]}
    found: dict[str, list[str]] = {}
    found.setdefault(line.material or UNKNOWN, []).append("the gas line")
    if line.check_valve:
        found.setdefault(line.check_valve_material or UNKNOWN, []).append("its check valve")
    return found


def _water_side(plant: Plant, made: Sequence[Made]) -> dict[str, list[str]]:
    """Names of the parts behind an injector by their material, the injector's own first."""
    behind = {id(part) for part in _behind(plant.loop)}
    found: dict[str, list[str]] = {}
    for one in made:
        for station, ends in zip(one.row, one.ends, strict=True):
            if id(station.part) in behind:
                names = found.setdefault(ends.material, [])
                if station.name not in names:
                    names.append(station.name)
    return found


def _behind(chain: Chain) -> Iterator[Part]:
    """Every injector of a chain, and what the water meets behind it."""
    met = False
    for item in chain.items:
        if met:
            yield from (item, *_inside(item))
        elif isinstance(item, Injector):
            met = True
            yield item
        elif isinstance(item, Junction):
            ways = [list(_behind(way)) for way in item.chains]
            if any(ways):
                met = True
                yield item
                for parts in ways:
                    yield from parts


def _inside(item: Part) -> Iterator[Part]:
    if isinstance(item, Junction):
        for way in item.chains:
            yield from walk(way)
