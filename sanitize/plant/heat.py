"""What warms the tub, and the chiller that cools it."""

from typing import Annotated, Literal

from sanitize.plant.day import Window
from sanitize.plant.spec import Record, Spec

MATERIALS = (
    "steel", "polyethylene", "acrylic", "glass fibre", "softwood", "hardwood", "concrete", "polyurethane foam",
    "polystyrene foam",
)  # fmt: skip
Material = Literal[
    "steel", "polyethylene", "acrylic", "glass fibre", "softwood", "hardwood", "concrete", "polyurethane foam",
    "polystyrene foam",
]  # fmt: skip


def _temperature(key: str, help_text: str, example: str) -> Spec:
    """Of the air, as far as the law of its vapour holds."""
    return Spec(key=key, kind="temperature", help=help_text, example=example, low=-40.0, high=50.0)


def _water_temperature(key: str, help_text: str, example: str) -> Spec:
    return Spec(key=key, kind="temperature", help=help_text, example=example, low=0.0, high=45.0)


def _power(key: str, help_text: str, example: str) -> Spec:
    return Spec(key=key, kind="power", help=help_text, example=example, above=0.0, high=50000.0)


class ChillerUnit(Record):
    """The chiller itself; its water side is the part in the loop."""

    capacity_w: Annotated[
        float | None, _power("capacity", "Rated cooling capacity: heat out of the water.", '"900 W"')
    ] = None
    electric_w: Annotated[
        float | None, _power("power", "Electrical power while it cools; left out, from its capacity.", '"400 W"')
    ] = None
    rated_water_c: Annotated[
        float | None, _water_temperature("rated_water", "Water temperature at which it is rated.", '"20 degC"')
    ] = None
    rated_air_c: Annotated[
        float | None, _temperature("rated_air", "Air temperature at which it is rated.", '"25 degC"')
    ] = None
    start_c: Annotated[
        float | None,
        _water_temperature("start_temperature", "Water temperature from which it cools the tub down.", '"18 degC"'),
    ] = None
    least_on_s: Annotated[
        float | None,
        Spec(key="least_on", kind="time", help="Shortest run that it is given.", example='"15 min"', low=0.0,
             high=21600.0),
    ] = None  # fmt: skip
    least_off_s: Annotated[
        float | None,
        Spec(key="least_off", kind="time", help="Shortest rest that it is given.", example='"15 min"', low=0.0,
             high=21600.0),
    ] = None  # fmt: skip


class Surroundings(Record):
    """The air around the tub, its walls, its lid and its fresh water."""

    air_c: Annotated[
        float | None, _temperature("air_temperature", "Mean temperature of the air around it.", '"18 degC"')
    ] = None
    coldest_air_c: Annotated[
        float | None, _temperature("coldest_air", "Coldest air that pipes and pump meet.", '"-6 degC"')
    ] = None
    humidity_ratio: Annotated[
        float | None,
        Spec(key="humidity", kind="number", help="Relative humidity of the air, 0 to 1.", example="0.5", low=0.0,
             high=1.0),
    ] = None  # fmt: skip
    wind_ms: Annotated[
        float | None,
        Spec(key="wind", kind="velocity", help="Mean wind at the rim, outdoors.", example='"1 m/s"', low=0.0,
             high=40.0),
    ] = None  # fmt: skip
    wall: Annotated[
        Material | None,
        Spec(key="wall", kind="word", help="What keeps the warmth out at the wall, its best insulating layer.",
             example='"softwood"', words=MATERIALS),
    ] = None  # fmt: skip
    wall_thickness_m: Annotated[
        float | None,
        Spec(key="wall_thickness", kind="length", help="Thickness of that layer; needs `wall`.", example='"40 mm"',
             above=0.0, high=1.0),
    ] = None  # fmt: skip
    wall_area_m2: Annotated[
        float | None,
        Spec(key="wall_area", kind="area", help="Wetted area of the walls without the floor; left out, from the shape.",
             example='"2.1 m2"', above=0.0, high=200.0),
    ] = None  # fmt: skip
    surface_area_m2: Annotated[
        float | None,
        Spec(key="surface_area", kind="area", help="Surface of the water; left out, from the shape.",
             example='"0.55 m2"', above=0.0, high=100.0),
    ] = None  # fmt: skip
    lid: Annotated[
        Material | None,
        Spec(key="lid", kind="word", help="What keeps the warmth out at the lid, its best insulating layer.",
             example='"polystyrene foam"', words=MATERIALS),
    ] = None  # fmt: skip
    lid_thickness_m: Annotated[
        float | None,
        Spec(key="lid_thickness", kind="length", help="Thickness of that layer; needs `lid`.", example='"50 mm"',
             above=0.0, high=1.0),
    ] = None  # fmt: skip
    covered_s: Annotated[
        float | None,
        Spec(key="covered", kind="time", help="Time a day under the lid; 0 h without one.", example='"23 h"', low=0.0,
             high=86400.0),
    ] = None  # fmt: skip
    lid_off: Annotated[
        tuple[Window, ...],
        Spec(key="lid_off", kind="day windows", help="When the lid is off; left out, while people bathe.",
             example='[["17:45", "19:15"]]'),
    ] = ()  # fmt: skip
    fresh_water_m3: Annotated[
        float,
        Spec(key="fresh_water", kind="volume", help="Fresh water that is put in on an ordinary day.", example='"5 L"',
             low=0.0, high=100.0),
    ] = 0.0  # fmt: skip
    fresh_water_c: Annotated[
        float | None, _water_temperature("fresh_water_temperature", "Temperature of the fresh water.", '"12 degC"')
    ] = None
