"""Pipe, hose, tube and fittings."""

from typing import Annotated, ClassVar, Literal

from sanitize.basis.band import Band
from sanitize.plant.part import BORE, COUNT, LENGTH, Part
from sanitize.plant.spec import Spec


class Pipe(Part):
    """A length of rigid PVC pipe."""

    words: ClassVar[tuple[str, ...]] = ("pipe",)
    help: ClassVar[str] = "Rigid PVC pipe."
    length_m: Annotated[Band, LENGTH]
    bore_m: Annotated[Band | None, BORE] = None
    schedule: Annotated[
        Literal["40", "80"],
        Spec(key="schedule", kind="word", help="Wall schedule.", example='"40"', words=("40", "80")),
    ] = "40"


class Hose(Part):
    """A length of flexible hose or tube."""

    words: ClassVar[tuple[str, ...]] = ("flexible hose", "vinyl tube")
    help: ClassVar[str] = "Flexible PVC hose (outside as pipe) or vinyl tube (named by its inside diameter)."
    length_m: Annotated[Band, LENGTH]
    bore_m: Annotated[Band | None, BORE] = None
    wall: Annotated[
        Literal["smooth", "ribbed"],
        Spec(
            key="wall",
            kind="word",
            help="Whether the inside is smooth or ribbed to the touch.",
            example='"smooth"',
            words=("smooth", "ribbed"),
        ),
    ] = "smooth"
    bends_count: Annotated[
        float,
        Spec(
            key="bends",
            kind="number",
            help="Sum of its bends, in right angles (two of 45 degrees are one).",
            example="2",
            low=0.0,
            high=40.0,
        ),
    ] = 0.0
    bend_radius_m: Annotated[
        float | None,
        Spec(
            key="bend_radius",
            kind="length",
            help="Radius of its bends to the hose's middle; left out, wide bends.",
            example='"0.20 m"',
            above=0.0,
            high=10.0,
        ),
    ] = None
    coil_diameter_m: Annotated[
        float | None,
        Spec(
            key="coil_diameter",
            kind="length",
            help="If the hose lies in a coil: the coil's diameter to the hose's middle.",
            example='"0.5 m"',
            above=0.0,
            high=10.0,
        ),
    ] = None


class Fitting(Part):
    """A moulded fitting whose loss comes from the table of loss coefficients."""

    words: ClassVar[tuple[str, ...]] = (
        "elbow 90",
        "sweep elbow 90",
        "elbow 45",
        "mitre elbow 90",
        "street elbow 90",
        "street elbow 45",
        "threaded elbow 90",
        "coupling",
        "union",
        "male adapter",
        "female adapter",
    )
    help: ClassVar[str] = "Elbows, couplings, unions and threaded adapters."
    count: Annotated[int, COUNT] = 1
    bore_m: Annotated[Band | None, BORE] = None


class Tee(Part):
    """A tee with its third end capped; the tees of a split belong to the split."""

    words: ClassVar[tuple[str, ...]] = ("tee",)
    help: ClassVar[str] = "A tee whose third end is capped; a split owns its own tees."
    count: Annotated[int, COUNT] = 1
    bore_m: Annotated[Band | None, BORE] = None
    path: Annotated[
        Literal["straight", "turn"],
        Spec(
            key="path",
            kind="word",
            help="Whether the water goes straight through or turns at the tee.",
            example='"straight"',
            words=("straight", "turn"),
            required=True,
        ),
    ]


class Reducer(Part):
    """A reducer or reducing bushing to another trade size, in either direction."""

    words: ClassVar[tuple[str, ...]] = ("reducer", "bushing")
    help: ClassVar[str] = "A step to another trade size; the parts behind it take the new size."
    to_size: Annotated[
        str,
        Spec(
            key="to",
            kind="size",
            help="Trade size behind it.",
            example='"3/4 in"',
            required=True,
        ),
    ]


class Barb(Part):
    """A barbed fitting pushed into a hose."""

    words: ClassVar[tuple[str, ...]] = ("barb",)
    help: ClassVar[str] = "A barbed fitting; its bore is narrow, measure it."
    count: Annotated[int, COUNT] = 1
    bore_m: Annotated[
        Band | None,
        Spec(
            key="bore",
            kind="bore",
            help="Measured bore of the barb; left out, the table's with its wide range.",
            example='"15.5 mm"',
            low=0.001,
            high=0.2,
            tolerance="bore_tolerance_m",
            measure="with the shank of the largest drill that slides in",
        ),
    ] = None


class KnownLoss(Part):
    """Anything with a loss coefficient on a bore."""

    words: ClassVar[tuple[str, ...]] = ("known loss",)
    help: ClassVar[str] = "Anything whose loss coefficient K is known, on its bore."
    k_ratio: Annotated[
        Band,
        Spec(
            key="k",
            kind="number",
            help="Loss coefficient of total pressure on the velocity in the bore.",
            example="1.5",
            low=0.0,
            high=1e6,
            required=True,
            tolerance="stated_drop_tolerance_ratio",
            unknown=("unknown_loss_ratio",),
            measure="with a gauge before and behind it",
        ),
    ]
    bore_m: Annotated[Band | None, BORE] = None


class KnownDrop(Part):
    """Anything with a pressure drop at a flow, as on a data sheet."""

    words: ClassVar[tuple[str, ...]] = ("known drop",)
    help: ClassVar[str] = "Anything with a data sheet: a pressure drop at a flow."
    drop_pa: Annotated[
        Band,
        Spec(
            key="drop",
            kind="pressure",
            help="Pressure drop at the flow of `at_flow`, in water of 20 degC.",
            example='"6 kPa"',
            above=0.0,
            high=1e7,
            required=True,
            tolerance="stated_drop_tolerance_ratio",
            unknown=("2 kPa", "6 kPa", "20 kPa"),
            scale="log",
            measure="with a gauge before and behind it",
        ),
    ]
    at_flow_m3s: Annotated[
        float,
        Spec(
            key="at_flow",
            kind="flow",
            help="The flow at which the drop is stated.",
            example='"40 L/min"',
            above=0.0,
            high=0.1,
            required=True,
        ),
    ]
    exponent_ratio: Annotated[
        Band,
        Spec(
            key="exponent",
            kind="number",
            help="How the drop grows with flow: 2 for openings, 1 for cloth.",
            example="2",
            low=1.0,
            high=2.0,
        ),
    ] = Band(1.7, 2.0, 2.0)
