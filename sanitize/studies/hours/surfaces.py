"""Areas of a tub through which heat passes, and how much each square metre passes."""

from dataclasses import dataclass
from math import pi

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.laws.heat.walls import pipe_transmittance_wmk, transmittance_wm2k
from sanitize.plant.heat import Surroundings
from sanitize.plant.loop import Plant, walk
from sanitize.plant.part import LENGTH
from sanitize.plant.pipework import Hose, Pipe
from sanitize.plant.tub import Tub
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.numbers import heat_number
from sanitize.studies.operating_point.bores import nominal_bore


@dataclass(frozen=True)
class Areas:
    """Wetted area of the walls, and surface of the water, which is also the floor's area [m2].

    is_assumed: whether a round tub as deep as wide stood in for a shape that the file does not give.
    """

    wall_m2: float
    surface_m2: float
    is_assumed: bool


def areas_of(tub: Tub, around: Surroundings) -> Areas:
    """The areas as stated, else from the shape, else of a round tub as deep as it is wide."""
    wall, surface = _of_shape(tub)
    assumed = wall is None and (around.wall_area_m2 is None or around.surface_area_m2 is None)
    if wall is None or surface is None:
        diameter = (4.0 * tub.volume_m3 / pi) ** (1.0 / 3.0)
        wall, surface = pi * diameter**2, pi * diameter**2 / 4.0
    return Areas(around.wall_area_m2 or wall, around.surface_area_m2 or surface, assumed)


def _of_shape(tub: Tub) -> tuple[float | None, float | None]:
    depth = tub.water_depth_m
    if depth is not None and tub.inside_diameter_m is not None:
        return pi * tub.inside_diameter_m * depth, pi * tub.inside_diameter_m**2 / 4.0
    if depth is not None and tub.inside_length_m is not None and tub.inside_width_m is not None:
        length, width = tub.inside_length_m, tub.inside_width_m
        return 2.0 * (length + width) * depth, length * width
    return None, None


@dataclass(frozen=True, eq=False)
class Conductances:
    """Heat for each kelvin between air and water, over the cases [W/K].

    pipes: of pipes, hoses and housings with moving water; standing_ratio: what stays of it while the water stands;
    outside_ratio: share of the difference between air and water that lies between the air and the wall's outside.
    """

    walls_wk: Array
    outside_ratio: Array
    floor_wk: Array
    lid_wk: Array
    pipes_wk: Array
    standing_ratio: Array


def conductances_of(plant: Plant, draws: Draws, areas: Areas, around: Surroundings) -> Conductances:
    """Walls, floor, lid, and everything that the water runs through."""
    open_air = plant.tub.place == "outdoors"
    inside = _drawn(draws, "water_side_m2kw")
    outside = _drawn(draws, "wall_outside_open_m2kw" if open_air else "wall_outside_still_m2kw")
    layer = _layer(draws, around.wall, around.wall_thickness_m)
    if layer is None:
        walls = _drawn(draws, "wall_unknown_wm2k", "heat through the wall")
        floor = transmittance_wm2k(0.0, 1.0, inside, _drawn(draws, "ground_m2kw"))
    else:
        walls = transmittance_wm2k(*layer, inside, outside)
        floor = transmittance_wm2k(*layer, inside, _drawn(draws, "ground_m2kw"))
    cover = _layer(draws, around.lid, around.lid_thickness_m)
    if cover is None:
        lid = _drawn(draws, "lid_unknown_wm2k", "heat through the lid")
    else:
        over = outside if open_air else _drawn(draws, "lid_outside_still_m2kw")
        lid = transmittance_wm2k(*cover, _drawn(draws, "lid_gap_m2kw"), over)
    return Conductances(
        walls_wk=walls * areas.wall_m2,
        outside_ratio=np.minimum(walls * outside, 1.0),
        floor_wk=floor * areas.surface_m2,
        lid_wk=lid * areas.surface_m2,
        pipes_wk=_pipes(plant, draws, open_air),
        standing_ratio=_drawn(draws, "standing_pipe_ratio"),
    )


def _drawn(draws: Draws, name: str, label: str = "") -> Array:
    return heat_number(draws, None, name, label).values


def _layer(draws: Draws, material: str | None, thickness_m: float | None) -> tuple[float, Array] | None:
    """Thickness and conductivity of an insulating layer, where the file describes it."""
    if material is None or thickness_m is None:
        return None
    band = model_table("heat_materials")[(material,)].band
    return thickness_m, draws.value(f"conductivity of {material}", band, f"conductivity of {material}")


def _pipes(plant: Plant, draws: Draws, open_air: bool) -> Array:
    """Bare pipes and hoses by their lengths, and the housings."""
    film = _drawn(draws, "pipe_film_open_wm2k" if open_air else "pipe_film_wm2k")
    wall, conductivity = _drawn(draws, "pipe_wall_m"), _drawn(draws, "pipe_conductivity_wmk")
    total = _drawn(draws, "housing_wk").copy()
    for part in walk(plant.loop):
        if isinstance(part, Pipe | Hose):
            bore = nominal_bore(part).outlet_m
            length = draws.value(f"{part.name}.length", part.length_m, f"length of {part.name}", LENGTH.measure)
            total += length * pipe_transmittance_wmk(bore, bore + 2.0 * wall, conductivity, film)
    return total
