"""Swept hose or long elbows instead of tight ones."""

from math import pi

from sanitize.basis.band import Band
from sanitize.basis.tables import default, model_table
from sanitize.basis.units import show
from sanitize.plant.loop import Plant, walk
from sanitize.plant.pipework import Fitting, Hose
from sanitize.studies.advice.change import Change
from sanitize.studies.advice.edit import Items, exists, part_of, position_of, rebuilt

TIGHT = ("elbow 90", "mitre elbow 90", "street elbow 90", "threaded elbow 90")
LENGTH_TOLERANCE_RATIO = 0.03
"""How near a cut hose comes to its length (an estimate)."""


def swept(plant: Plant) -> list[Change]:
    """Each row of tight right angles: as sweep elbows, and as hose laid in as many bends."""
    found = []
    for part in walk(plant.loop):
        if not isinstance(part, Fitting) or part.word not in TIGHT:
            continue
        if exists(part.model_copy(update={"word": "sweep elbow 90"}), part.size):
            found.append(
                Change(
                    "sweep-elbows",
                    f"Take sweep elbows for {_told(part)}.",
                    lambda loop, name=part.name: _with_sweeps(loop, name),  # type: ignore[misc]
                )
            )
        if ("flexible hose", part.size) in model_table("hose_bores").entries:
            radius = bend_radius_m(plant, part.size)
            found.append(
                Change(
                    "sweep-elbows",
                    f"Lay flexible hose in bends of {show(radius, 'length', plant.units)} radius for {_told(part)}.",
                    lambda loop, name=part.name, radius=radius: _with_hose(loop, name, radius),  # type: ignore[misc]
                )
            )
    return found


def _told(part: Fitting) -> str:
    return part.name if part.count == 1 else f"the {part.count} of {part.name}"


def bend_radius_m(plant: Plant, size: str) -> float:
    """The smallest bend that flexible hose of a size bears in this water [m]."""
    radius = default("flexible_hose_bend_radius_ratio").value * model_table("pipe_outside")[(size,)].value
    if plant.tub.temperature_c < default("cold_bend_temperature_c").value:
        radius *= default("cold_bend_radius_multiplier_ratio").value
    return radius


def _with_sweeps(plant: Plant, name: str) -> Plant:
    part = part_of(plant, name)
    return _instead(plant, name, part.model_copy(update={"word": "sweep elbow 90"}))


def _with_hose(plant: Plant, name: str, radius_m: float) -> Plant:
    part = part_of(plant, name)
    length = part.count * pi / 2.0 * radius_m
    hose = Hose(
        word="flexible hose",
        name=name,
        where=part.where,
        size=part.size,
        height_m=part.height_m,
        length_m=Band(length * (1.0 - LENGTH_TOLERANCE_RATIO), length, length * (1.0 + LENGTH_TOLERANCE_RATIO), "log"),
        bends_count=float(part.count),
        bend_radius_m=radius_m,
    )
    return _instead(plant, name, hose)


def _instead(plant: Plant, name: str, new: Fitting | Hose) -> Plant:
    def make(items: Items) -> Items:
        at = position_of(items, name)
        return (*items[:at], new, *items[at + 1 :])

    return rebuilt(plant, name, make)
