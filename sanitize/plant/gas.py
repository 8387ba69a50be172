"""The gas side: the line to the injector's port, and the ozone unit."""

from typing import Annotated, Literal

from sanitize.basis.band import Band
from sanitize.plant.injector import DropAtFlow
from sanitize.plant.joints import CHECK_VALVE_MATERIAL, MATERIAL, Material
from sanitize.plant.part import HEIGHT
from sanitize.plant.spec import Record, Spec

_HEIGHT_MEASURE = HEIGHT.measure


class GasLine(Record):
    """The tube from the ozone unit to the injector's port."""

    length_m: Annotated[
        Band | None,
        Spec(
            key="length",
            kind="length",
            help="Length of the tube.",
            example='"1.8 m"',
            above=0.0,
            high=100.0,
            tolerance="length_tolerance_ratio",
            scale="log",
            measure="with a tape measure along it",
        ),
    ] = None
    bore_m: Annotated[
        Band | None,
        Spec(
            key="bore",
            kind="bore",
            help="Inside diameter of the tube.",
            example='"4 mm"',
            low=0.0005,
            high=0.05,
            tolerance="bore_tolerance_m",
            measure="with the shank of the largest drill that slides in",
        ),
    ] = None
    needle_valve: Annotated[
        DropAtFlow | None,
        Spec(
            key="needle_valve",
            kind="drop at flow",
            help="A needle valve in the line, as it stands: its pressure drop at a gas flow.",
            example='["0.5 kPa", "2 L/min"]',
            above=0.0,
        ),
    ] = None
    port_hole_m: Annotated[
        float | None,
        Spec(
            key="port_hole",
            kind="bore",
            help="Bore of the hole in the injector's gas port, where it is narrower than the tube.",
            example='"3 mm"',
            low=0.0002,
            high=0.05,
        ),
    ] = None
    check_valve: Annotated[
        bool,
        Spec(
            key="check_valve",
            kind="flag",
            help="Whether a check valve stands at the port; false for none.",
            example="true",
        ),
    ] = True
    opens_at_pa: Annotated[
        Band,
        Spec(
            key="check_valve_opens_at",
            kind="pressure",
            help="Vacuum that the check valve needs to open.",
            example='"1.5 kPa"',
            low=0.0,
            high=1e5,
            tolerance="stated_drop_tolerance_ratio",
            unknown=("gas_check_opening_pressure_pa_diff",),
            scale="log",
            measure="with a water column: the depth at which it starts to bubble",
        ),
    ]
    highest_point_m: Annotated[
        Band | None,
        Spec(
            key="highest_point",
            kind="length",
            help="Height of the highest point of the line; left out, the higher of its two ends.",
            example='"1.75 m"',
            low=-20.0,
            high=20.0,
            tolerance="tape_tolerance_m",
            unknown=("-0.3 m", "0.1 m", "0.6 m"),
            from_water=True,
            measure=_HEIGHT_MEASURE,
        ),
    ] = None
    material: Annotated[Material | None, MATERIAL] = None
    check_valve_material: Annotated[Material | None, CHECK_VALVE_MATERIAL] = None


class OzoneUnit(Record):
    """The ozone generator."""

    output_mg_per_h: Annotated[
        float,
        Spec(
            key="output",
            kind="ozone rate",
            help="Rated output; or give `outputs`.",
            example='"90 mg/h"',
            above=0.0,
            high=1e6,
        ),
    ]
    outputs: Annotated[
        tuple[tuple[float, float], ...],
        Spec(
            key="outputs",
            kind="ozone points",
            help="Instead of `output`: the output at two or more gas flows, as on a data sheet.",
            example='[["1 L/min", "60 mg/h"], ["2 L/min", "90 mg/h"]]',
        ),
    ] = ()
    at_gas_flow_m3s: Annotated[
        float | None,
        Spec(
            key="at_gas_flow",
            kind="gas flow",
            help="Gas flow at which the output is rated.",
            example='"2 L/min"',
            above=0.0,
            high=0.01,
        ),
    ] = None
    drop_pa: Annotated[
        float | None,
        Spec(
            key="drop",
            kind="pressure",
            help="Pressure that the unit itself takes from the gas at `at_gas_flow`.",
            example='"0.3 kPa"',
            above=0.0,
            high=1e5,
        ),
    ] = None
    least_gas_flow_m3s: Annotated[
        float | None,
        Spec(
            key="least_gas_flow",
            kind="gas flow",
            help="Least gas flow that the unit needs to work as rated.",
            example='"0.5 L/min"',
            above=0.0,
            high=0.01,
        ),
    ] = None
    feed: Annotated[
        Literal["room air", "dried air", "oxygen"],
        Spec(
            key="feed",
            kind="word",
            help="What it is fed with.",
            example='"room air"',
            words=("room air", "dried air", "oxygen"),
        ),
    ] = "room air"
    destruct_ratio: Annotated[
        float,
        Spec(
            key="destruct",
            kind="number",
            help="Share of the undissolved ozone that a destruct unit takes out; 0 for none.",
            example="0.9",
            low=0.0,
            high=0.999,
        ),
    ] = 0.0
    interlock: Annotated[
        bool,
        Spec(
            key="interlock",
            kind="flag",
            help="true where a flow or vacuum switch stops the unit when the water or the vacuum stops.",
            example="true",
        ),
    ] = False
    height_m: Annotated[
        Band | None,
        Spec(
            key="height",
            kind="length",
            help="Height of its gas outlet from the mark of all heights; left out, no height is credited.",
            example='"1.60 m"',
            low=-20.0,
            high=20.0,
            tolerance="tape_tolerance_m",
            unknown=("-0.3 m", "0.1 m", "0.6 m"),
            from_water=True,
            measure=_HEIGHT_MEASURE,
        ),
    ] = None
