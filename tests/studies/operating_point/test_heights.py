"""Heights between the given ones run linearly along the loop; ways run between the heights of their junction."""

from collections.abc import Callable

import pytest

from sanitize.plant.loop import Plant, walk
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.heights import place

PlantOf = Callable[..., Plant]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'


def _heights(plant: Plant, kind: str = "outlet_m") -> dict[str, float]:
    heights = getattr(place(plant.loop, Draws(0)), kind)
    return {part.name: float(heights[id(part)][0]) for part in walk(plant.loop) if id(part) in heights}


def test_heights_between_given_ones_are_linear_in_length(plant_of: PlantOf) -> None:
    """From 0.3 m at the pump over 1 m, 3 m of pipe and 0.05 m of return up to 1.11 m: 0.2 m per metre."""
    loop = f'loop=[{SUCTION},{PUMP},{{part="pipe",length="1 m",name="a"}},{{part="pipe",length="3 m",name="b"}},'
    heights = _heights(plant_of(loop + '{part="return",height="1.11 m"}]'))
    assert [0.2, 0.3, 0.5, 1.1, 1.11] == pytest.approx(
        [heights[name] for name in ("suction fitting", "pump", "a", "b", "return")]
    )


def test_heights_of_ways_run_from_their_split_to_where_they_meet_again(plant_of: PlantOf) -> None:
    """The way of 2 m and that of 4 m count as 3 m in the row: pump 0.3 m, 3 m, 1.95 m and 0.05 m up to 1.3 m."""
    plant = plant_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["x","y"]}},{{part="pipe",length="1.95 m",name="last"}},'
        '{part="return",height="1.3 m"}]\n'
        'way.x=[{part="pipe",length="1 m",name="x1"},{part="pipe",length="1 m",name="x2"}]\n'
        'way.y=[{part="pipe",length="1 m",name="y1"},{part="pipe",length="3 m",name="y2"}]'
    )
    heights = _heights(plant)
    assert [0.6, 0.9] == pytest.approx([heights["x1"], heights["x2"]])
    assert [0.45, 0.9, 1.29] == pytest.approx([heights["y1"], heights["y2"], heights["last"]])
    assert 0.3 == pytest.approx(_heights(plant, "entry_m")["split"])
    assert 0.9 == pytest.approx(_heights(plant, "behind_m")["split"])


def test_given_height_in_a_way_bends_that_way_alone(plant_of: PlantOf) -> None:
    plant = plant_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["x","y"]}},{RETURN}]\n'
        'way.x=[{part="pipe",length="1 m",name="up"},{part="injector",throat="8 mm",height="1.4 m"},'
        '{part="pipe",length="1 m",name="down"}]\nway.y=[{part="elbow 90"}]'
    )
    heights = _heights(plant)
    behind = _heights(plant, "behind_m")["split"]
    assert 0.3 + 1.1 / 1.05 == pytest.approx(heights["up"])
    assert behind == pytest.approx(heights["down"])
    assert behind == pytest.approx(heights["elbow 90"])
    assert 0.3 < behind < 0.5


def test_way_that_ends_in_the_tub_falls_to_its_own_return(plant_of: PlantOf) -> None:
    plant = plant_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["x","y"]}}]\n'
        'way.x=[{part="pipe",length="0.95 m",name="px"},{part="return",name="rx",height="1.3 m"}]\n'
        f"way.y=[{RETURN}]"
    )
    heights = _heights(plant)
    assert 0.3 + 0.95 == pytest.approx(heights["px"])
    assert [1.3, 0.5] == pytest.approx([heights["rx"], heights["return"]])


def test_way_that_starts_in_the_tub_rises_from_its_own_suction(plant_of: PlantOf) -> None:
    plant = plant_of(
        f'loop=[{{part="join",ways=["x","y"]}},{{part="pipe",length="1 m"}},{PUMP},{RETURN}]\n'
        'way.x=[{part="suction fitting",name="sx",height="0.1 m"},{part="pipe",length="1 m",name="px"}]\n'
        'way.y=[{part="suction fitting",name="sy",height="0.2 m"}]'
    )
    heights = _heights(plant)
    assert [0.1, 0.2, 0.3] == pytest.approx([heights["sx"], heights["sy"], heights["px"]])


def test_stated_height_carries_the_tape_and_is_drawn_once(plant_of: PlantOf) -> None:
    """10 mm either way; everything between two parts moves with them."""
    plant = plant_of(f'loop=[{SUCTION},{PUMP},{{part="pipe",length="0.95 m"}},{{part="return",height="0.5 m"}}]')
    draws = Draws(64)
    heights = place(plant.loop, draws).outlet_m
    by_name = {part.name: heights[id(part)] for part in walk(plant.loop)}
    assert 0.29 <= by_name["pump"].min() < 0.295
    assert 0.305 < by_name["pump"].max() <= 0.31
    mean = by_name["pump"] + 0.95 * (by_name["return"] - by_name["pump"])
    assert mean == pytest.approx(by_name["pipe"])
