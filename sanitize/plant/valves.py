"""Valves that a hand sets, and check valves."""

from typing import Annotated, ClassVar, Literal

from sanitize.basis.band import Band
from sanitize.plant.part import BORE, Part
from sanitize.plant.spec import Spec

VALVE_DROP = Spec(
    key="drop",
    kind="pressure",
    help="Measured pressure drop at the flow of `at_flow`, as the valve stands now.",
    example='"4 kPa"',
    above=0.0,
    high=1e7,
    tolerance="stated_drop_tolerance_ratio",
    scale="log",
    measure="with a gauge before and behind it",
)
AT_FLOW = Spec(
    key="at_flow",
    kind="flow",
    help="The flow at which the drop is stated.",
    example='"20 L/min"',
    above=0.0,
    high=0.1,
)


class Valve(Part):
    """A valve that is opened and closed by hand."""

    words: ClassVar[tuple[str, ...]] = (
        "ball valve",
        "throttle valve",
        "butterfly valve",
        "gate valve",
        "globe valve",
    )
    help: ClassVar[str] = "A hand valve; fully open unless `handle`, `open_share` or a measured drop says otherwise."
    bore_m: Annotated[Band | None, BORE] = None
    handle_deg: Annotated[
        Band | None,
        Spec(
            key="handle",
            kind="angle",
            help="Turn of the handle from fully open: 0 deg lies along the pipe, 90 deg across it and shut.",
            example='"35 deg"',
            low=0.0,
            high=90.0,
            tolerance="valve_angle_tolerance_deg",
            unknown=("0 deg", "20 deg", "50 deg"),
            measure="with a protractor or a folded sheet of paper",
        ),
    ] = None
    open_ratio: Annotated[
        Band | None,
        Spec(
            key="open_share",
            kind="number",
            help="Gate and globe valves: share of the full lift that is open, 0 to 1.",
            example="0.5",
            low=0.0,
            high=1.0,
            measure="by counting the turns of the wheel",
        ),
    ] = None
    drop_pa: Annotated[Band | None, VALVE_DROP] = None
    at_flow_m3s: Annotated[float | None, AT_FLOW] = None


class CheckValve(Part):
    """A valve in the water that lets it pass one way only."""

    words: ClassVar[tuple[str, ...]] = ("check valve",)
    help: ClassVar[str] = "A check valve in the water line (the gas line's check valve stands in [gas_line])."
    bore_m: Annotated[Band | None, BORE] = None
    style: Annotated[
        Literal["spring", "swing"],
        Spec(
            key="style",
            kind="word",
            help="Spring-loaded or swinging flap.",
            example='"swing"',
            words=("spring", "swing"),
            required=True,
        ),
    ]
    opens_at_pa: Annotated[
        Band | None,
        Spec(
            key="opens_at",
            kind="pressure",
            help="Pressure that a spring check valve needs to open.",
            example='"1.5 kPa"',
            low=0.0,
            high=1e5,
            tolerance="stated_drop_tolerance_ratio",
            measure="with a water column",
        ),
    ] = None
    drop_pa: Annotated[Band | None, VALVE_DROP] = None
    at_flow_m3s: Annotated[float | None, AT_FLOW] = None
