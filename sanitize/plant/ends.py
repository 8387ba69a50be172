"""Where the water leaves the tub and where it comes back."""

from typing import Annotated, ClassVar, Literal

from sanitize.basis.band import Band
from sanitize.plant.part import BORE, Part
from sanitize.plant.spec import Spec

CLOGGED = Spec(
    key="clogged_share",
    kind="number",
    help="Share of the openings that is covered, 0 to 1.",
    example="0.2",
    low=0.0,
    high=0.99,
)


class Suction(Part):
    """The fitting through which the water leaves the tub."""

    words: ClassVar[tuple[str, ...]] = ("suction fitting",)
    needs_height: ClassVar[bool] = True
    help: ClassVar[str] = "The suction fitting in the tub's wall or floor, with its cover."
    bore_m: Annotated[Band | None, BORE] = None
    mounting: Annotated[
        Literal["flush", "projecting"],
        Spec(
            key="mounting",
            kind="word",
            help="Whether its mouth is flush with the wall or stands into the tub.",
            example='"flush"',
            words=("flush", "projecting"),
        ),
    ] = "flush"
    cover_rated_flow_m3s: Annotated[
        float | None,
        Spec(
            key="cover_rated_flow",
            kind="flow",
            help="The flow that is marked on the suction cover; left out, no cover is assumed, which is a danger.",
            example='"150 L/min"',
            above=0.0,
            high=1.0,
        ),
    ] = None
    cover_free_ratio: Annotated[
        float | None,
        Spec(
            key="cover_free_share",
            kind="number",
            help="Free share of the cover's face (holes over face), 0 to 1.",
            example="0.3",
            above=0.0,
            high=0.95,
        ),
    ] = None
    cover_face_m: Annotated[
        float | None,
        Spec(
            key="cover_diameter",
            kind="length",
            help="Diameter of the cover's face.",
            example='"150 mm"',
            above=0.0,
            high=1.0,
        ),
    ] = None
    clogged_ratio: Annotated[float, CLOGGED] = 0.0


class Strainer(Part):
    """A basket or screen in the line."""

    words: ClassVar[tuple[str, ...]] = ("strainer",)
    help: ClassVar[str] = "An in-line strainer or pump basket."
    bore_m: Annotated[Band | None, BORE] = None
    free_ratio: Annotated[
        float | None,
        Spec(
            key="free_share",
            kind="number",
            help="Free share of the basket's surface (holes over surface), 0 to 1.",
            example="0.3",
            above=0.0,
            high=0.95,
        ),
    ] = None
    basket_area_m2: Annotated[
        float | None,
        Spec(
            key="basket_area",
            kind="area",
            help="Surface of the basket.",
            example='"120 cm2"',
            above=0.0,
            high=2.0,
        ),
    ] = None
    clogged_ratio: Annotated[float, CLOGGED] = 0.0


class Return(Part):
    """Where the water comes back into the tub, below the surface or falling free."""

    words: ClassVar[tuple[str, ...]] = ("return",)
    needs_height: ClassVar[bool] = True
    help: ClassVar[str] = "The outlet into the tub; below the water line it is submerged, above it the water falls."
    bore_m: Annotated[Band | None, BORE] = None
    nozzle_bore_m: Annotated[
        Band | None,
        Spec(
            key="nozzle_bore",
            kind="bore",
            help="Bore of a nozzle or eyeball in the return, where there is one.",
            example='"14 mm"',
            low=0.001,
            high=0.2,
            tolerance="bore_tolerance_m",
            unknown=("10 mm", "15 mm", "20 mm"),
            measure="with the shank of the largest drill that slides in",
        ),
    ] = None
    nozzle_shape: Annotated[
        Literal["sharp", "straight", "tapered"],
        Spec(
            key="nozzle_shape",
            kind="word",
            help="Sharp-edged hole, straight bore at least twice as long as wide, or tapered and rounded.",
            example='"tapered"',
            words=("sharp", "straight", "tapered"),
        ),
    ] = "tapered"
    jets_count: Annotated[
        int,
        Spec(
            key="jets",
            kind="count",
            help="How many such nozzles share this return.",
            example="1",
            low=1,
            high=20,
        ),
    ] = 1
