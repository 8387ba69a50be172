"""A pump and an injector on the bench, before anything is glued: a barrel, a hose, a bucket and a clear tube."""

from typing import Annotated

from sanitize.basis.band import Band
from sanitize.plant.spec import Record, Spec

Rows = tuple[tuple[float, ...], ...]


class Bench(Record):
    """What was read on the bench: the pump lifts water through a hose, then pushes it through the injector.

    flows: (height of the hose's end over the barrel's water [m], flow [m3/s]); injector: (flow [m3/s], height of the
    water in a clear tube at the inlet [m], height to which the port lifts water [m]), the injector pouring freely.
    """

    water_temperature_c: Annotated[
        float,
        Spec(
            key="water_temperature",
            kind="temperature",
            help="Temperature of the barrel's water.",
            example='"18 degC"',
            low=0.0,
            high=45.0,
        ),
    ] = 20.0
    hose_bore_m: Annotated[
        Band,
        Spec(
            key="hose_bore",
            kind="bore",
            help="Inside of the hose on the pump's outlet.",
            example='"20.6 mm"',
            low=0.001,
            high=0.2,
            required=True,
            tolerance="bore_tolerance_m",
        ),
    ]
    hose_length_m: Annotated[
        Band,
        Spec(
            key="hose_length",
            kind="length",
            help="Length of that hose.",
            example='"5 m"',
            above=0.0,
            high=100.0,
            required=True,
            tolerance="length_tolerance_ratio",
        ),
    ]
    no_flow_height_m: Annotated[
        Band,
        Spec(
            key="no_flow_height",
            kind="length",
            help="Height of the hose's end over the barrel's water at which the flow just stops.",
            example='"4.2 m"',
            above=0.0,
            high=50.0,
            required=True,
            tolerance="bench_stop_tolerance_m",
        ),
    ]
    flows: Annotated[
        Rows,
        Spec(
            key="flows",
            kind="lift rows",
            help="Pairs of height of the hose's end over the barrel's water and flow by the bucket, three or more.",
            example='[["0.4 m", "44 L/min"], ["1.6 m", "33 L/min"], ["2.8 m", "22 L/min"]]',
            required=True,
        ),
    ]
    injector: Annotated[
        Rows,
        Spec(
            key="injector",
            kind="column rows",
            help="Rows of flow, height of the water in the clear tube at the inlet over the injector, and height to "
            "which the port lifts water from a jar.",
            example='[["15 L/min", "0.5 m", "1.2 m"], ["20 L/min", "0.9 m", "2.1 m"]]',
        ),
    ] = ()
