"""Materials that ozone attacks: on the gas side, and in the water behind the injector."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Ozone:
    """What ozone attacks, what it wears or is not known, and the sources of both."""

    problems: tuple[Mismatch, ...] = ()
    notices: tuple[Notice, ...] = ()
    sources: tuple[str, ...] = ()


def ozone_findings(plant: Plant, made: Sequence[Made]) -> Ozone:
    """The materials of a loop against ozone; nothing where the loop has no ozone."""
    if plant.ozone is None:
        return Ozone()
    sides: tuple[tuple[Side, dict[str, list[str]]], ...] = (
        ("gas", _gas_side(plant)),
        ("water", _water_side(plant, made)),
    )
    problems, notices, sources = [], [], []
    for side, names in sides:
        for material, parts in names.items():
            found = _problem(side, material, parts) or _notice(side, material, parts)
            if isinstance(found, Mismatch):
                problems.append(found)
            elif found is not None:
                notices.append(found)
            if found is not None and material != UNKNOWN:
                sources.append(model_table("ozone_materials")[material, side].source)
    return Ozone(tuple(problems), tuple(notices), tuple(dict.fromkeys(sources)))


def _problem(side: Side, material: str, parts: Sequence[str]) -> Mismatch | None:
    if material == UNKNOWN:
        return None
    entry = model_table("ozone_materials")[material, side]
    if entry.value != ATTACKED:
        return None
    text = f"Ozone attacks {material}: {_where(side, parts)}: {entry.note}."
    return Mismatch(f"ozone-attacks-{side}", tuple(parts), text, withstanding(side), entry.standing, entry.source)


def _notice(side: Side, material: str, parts: Sequence[str]) -> Notice | None:
    where = _where(side, parts)
    if material == UNKNOWN:
        text = f"The file does not say what this is made of: {where}. {withstanding(side)}"
        return Notice(f"ozone-material-unknown-{side}", text)
    entry = model_table("ozone_materials")[material, side]
    if entry.value != FAIR:
        return None
    cited = f" [{entry.source}]" if entry.source else ""
    text = f"Ozone wears {material} ({entry.note}): look at it often: {where} ({entry.standing}{cited})."
    return Notice(f"ozone-wears-{side}", text)


def _where(side: Side, parts: Sequence[str]) -> str:
    return f"{', '.join(parts)}, {_PLACES[side]}"


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
