"""What every part of a loop has."""

from typing import Annotated, ClassVar

from sanitize.basis.band import Band
from sanitize.plant.joints import INLET_END, MATERIAL, OUTLET_END, SEALANT, End, Material, Sealant
from sanitize.plant.spec import Record, Spec

SIZES = ("3/8", "1/2", "5/8", "3/4", "1", "1-1/4", "1-1/2", "2")
"""Trade sizes, in inches; 3/8 and 5/8 exist as hose and tube only."""

HEIGHT = Spec(
    key="height",
    kind="length",
    help="Height of the part's centreline at its outlet, upward from the one mark of all heights.",
    example='"0.55 m"',
    low=-20.0,
    high=20.0,
    tolerance="tape_tolerance_m",
    unknown=("-0.3 m", "0.1 m", "0.6 m"),
    from_water=True,
    measure="with a tape measure, from the mark to the middle of the part",
)
LENGTH = Spec(
    key="length",
    kind="length",
    help="Length along the pipe or hose, its bends included.",
    example='"2.2 m"',
    low=0.0,
    high=100.0,
    above=0.0,
    required=True,
    tolerance="length_tolerance_ratio",
    unknown=("0.5 m", "1.5 m", "4 m"),
    scale="log",
    measure="with a tape measure along its middle",
)
BORE = Spec(
    key="bore",
    kind="bore",
    help="Measured inside diameter; left out, the table's bore of the trade size.",
    example='"20.6 mm"',
    low=0.001,
    high=0.2,
    tolerance="bore_tolerance_m",
    measure="with the shank of the largest drill that slides in, or a calliper",
)
COUNT = Spec(key="count", kind="count", help="How many of them stand in a row.", example="3", low=1, high=50)


class Part(Record):
    """One part of the loop, in the order in which the water meets it."""

    words: ClassVar[tuple[str, ...]] = ()
    needs_height: ClassVar[bool] = False
    help: ClassVar[str] = ""

    word: str
    name: Annotated[
        str,
        Spec(
            key="name",
            kind="text",
            help="A name of your own; every answer uses it.",
            example='"return hose"',
        ),
    ]
    where: str = ""
    size: Annotated[
        str,
        Spec(
            key="size",
            kind="size",
            help="Trade size; left out, the size of the loop or of the part before.",
            example='"3/4 in"',
        ),
    ]
    height_m: Annotated[Band | None, HEIGHT] = None
    inlet_end: Annotated[End | None, INLET_END] = None
    outlet_end: Annotated[End | None, OUTLET_END] = None
    material: Annotated[Material | None, MATERIAL] = None
    sealant: Annotated[Sealant | None, SEALANT] = None
