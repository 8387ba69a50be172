"""The tub and the room that it stands in."""

from typing import Annotated, Literal, get_args

from sanitize.basis.band import Band
from sanitize.plant.part import HEIGHT
from sanitize.plant.spec import Record, Spec

Lining = Literal["acrylic", "fibreglass", "polyethylene", "vinyl", "stainless steel", "concrete", "tile", "wood"]
Metal = Literal["stainless steel", "copper", "brass", "bronze", "galvanized steel", "aluminium", "titanium"]


def _inside(key: str, help_text: str, example: str) -> Spec:
    return Spec(key=key, kind="length", help=help_text, example=example, above=0.0, high=20.0)


class Tub(Record):
    """The tub: how much water, how high, how cold."""

    volume_m3: Annotated[
        float,
        Spec(
            key="volume",
            kind="volume",
            help="Volume of the water; or give `shape` with its inside dimensions.",
            example='"430 L"',
            above=0.0,
            high=100.0,
        ),
    ]
    shape: Annotated[
        Literal["cylinder", "box"] | None,
        Spec(
            key="shape",
            kind="word",
            help="Instead of volume: cylinder (inside_diameter), box (inside_length, inside_width); with water_depth.",
            example='"cylinder"',
            words=("cylinder", "box"),
        ),
    ] = None
    inside_diameter_m: Annotated[
        float | None, _inside("inside_diameter", "Inside diameter of a cylinder.", '"0.85 m"')
    ] = None
    inside_length_m: Annotated[float | None, _inside("inside_length", "Inside length of a box.", '"1.4 m"')] = None
    inside_width_m: Annotated[float | None, _inside("inside_width", "Inside width of a box.", '"0.6 m"')] = None
    water_depth_m: Annotated[float | None, _inside("water_depth", "Depth of the water inside.", '"0.75 m"')] = None
    water_level_m: Annotated[
        Band,
        Spec(
            key="water_level",
            kind="length",
            help="Height of the water's surface from the mark of all heights.",
            example='"0.80 m"',
            low=-20.0,
            high=20.0,
            required=True,
            tolerance="tape_tolerance_m",
            measure=HEIGHT.measure,
        ),
    ]
    rim_m: Annotated[
        Band | None,
        Spec(
            key="rim",
            kind="length",
            help="Height of the tub's rim, where it would overflow.",
            example='"0.90 m"',
            low=-20.0,
            high=20.0,
            tolerance="tape_tolerance_m",
            measure=HEIGHT.measure,
        ),
    ] = None
    temperature_c: Annotated[
        float,
        Spec(
            key="water_temperature",
            kind="temperature",
            help="Temperature of the water.",
            example='"6 degC"',
            low=0.0,
            high=45.0,
            required=True,
        ),
    ]
    altitude_m: Annotated[
        float,
        Spec(
            key="altitude",
            kind="length",
            help="Height of the place above the sea; left out, sea level.",
            example='"120 m"',
            low=-400.0,
            high=5000.0,
        ),
    ] = 0.0
    place: Annotated[
        Literal["indoors", "outdoors"] | None,
        Spec(
            key="place",
            kind="word",
            help="Where the tub stands; required with [ozone].",
            example='"indoors"',
            words=("indoors", "outdoors"),
        ),
    ] = None
    lining: Annotated[
        Lining | None,
        Spec(
            key="lining",
            kind="word",
            help="What the water touches inside the tub: it decides what calcium and acid may do to it.",
            example='"acrylic"',
            words=get_args(Lining),
        ),
    ] = None
    wetted_metals: Annotated[
        tuple[Metal, ...],
        Spec(
            key="wetted_metals",
            kind="words",
            help="Metals that the water touches, as in a chiller, a heater or fittings.",
            example='["stainless steel"]',
            words=get_args(Metal),
        ),
    ] = ()


class Room(Record):
    """The room that the tub stands in."""

    volume_m3: Annotated[
        float,
        Spec(
            key="volume",
            kind="volume",
            help="Volume of the room's air.",
            example='"38 m3"',
            above=0.0,
            high=1e5,
            required=True,
        ),
    ]
    changes_per_h: Annotated[
        float | None,
        Spec(
            key="air_changes_per_hour",
            kind="number",
            help="How often an hour its air is replaced.",
            example="0.7",
            low=0.0,
            high=100.0,
        ),
    ] = None
    surfaces: Annotated[
        Literal["bare", "furnished"] | None,
        Spec(
            key="surfaces",
            kind="word",
            help="bare for tiles, metal or wet walls; furnished for cloth, carpet and paint, which take ozone up.",
            example='"bare"',
            words=("bare", "furnished"),
        ),
    ] = None
