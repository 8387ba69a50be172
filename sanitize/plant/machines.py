"""Pump, filter and chiller."""

from typing import Annotated, ClassVar

from sanitize.basis.band import Band
from sanitize.plant.part import BORE, Part
from sanitize.plant.spec import Spec

Points = tuple[tuple[float, float], ...]

RATED_DROP = Spec(
    key="drop",
    kind="pressure",
    help="Clean pressure drop at the flow of `at_flow`, in water of 20 degC.",
    example='"6 kPa"',
    above=0.0,
    high=1e6,
    tolerance="stated_drop_tolerance_ratio",
    unknown=("2 kPa", "6 kPa", "20 kPa"),
    scale="log",
    measure="with a gauge before and behind it",
)
RATED_FLOW = Spec(
    key="at_flow",
    kind="flow",
    help="The flow at which the drop is stated.",
    example='"40 L/min"',
    above=0.0,
    high=0.1,
)
DROP_POINTS = Spec(
    key="drops",
    kind="drop points",
    help="Instead of `drop` and `at_flow`: two or more pairs of flow and clean drop, in water of 20 degC.",
    example='[["20 L/min", "2 kPa"], ["40 L/min", "6 kPa"]]',
)


class Pump(Part):
    """A centrifugal pump by its curve of head against flow."""

    words: ClassVar[tuple[str, ...]] = ("pump",)
    needs_height: ClassVar[bool] = True
    help: ClassVar[str] = "A pump by its curve; several pumps are several parts."
    curve: Annotated[
        Points,
        Spec(
            key="curve",
            kind="pump points",
            help="Pairs of flow and head from the label or data sheet, one or more, flow rising and head falling.",
            example='[["0 L/min", "4.4 m"], ["25 L/min", "3.5 m"], ["52 L/min", "0 m"]]',
            required=True,
        ),
    ]
    power_w: Annotated[
        float | None,
        Spec(
            key="power",
            kind="power",
            help="Electrical power, at the speed of the curve.",
            example='"85 W"',
            above=0.0,
            high=5000.0,
        ),
    ] = None
    head_ratio: Annotated[
        Band | None,
        Spec(
            key="head_share",
            kind="number",
            help="Share of its curve's head that it really gives; left out, what labels usually keep of their promise.",
            example="0.9",
            low=0.2,
            high=1.1,
            tolerance="measured_tolerance_ratio",
            unknown=("worn_pump_head_ratio",),
            measure="with a hose on its outlet, raised until the flow stops: that height over the curve's first head",
        ),
    ] = None
    curve_speed_per_s: Annotated[
        float | None,
        Spec(
            key="curve_speed",
            kind="speed",
            help="Speed at which the curve holds, where the pump runs at another one.",
            example='"2900 rpm"',
            above=0.0,
            high=1000.0,
        ),
    ] = None
    speed_per_s: Annotated[
        float | None,
        Spec(
            key="speed",
            kind="speed",
            help="Speed at which it runs; needs `curve_speed`.",
            example='"2400 rpm"',
            above=0.0,
            high=1000.0,
        ),
    ] = None
    running: Annotated[
        bool,
        Spec(
            key="running",
            kind="flag",
            help="false for a pump that stands while the others run.",
            example="true",
        ),
    ] = True
    check_valve: Annotated[
        bool,
        Spec(
            key="has_check_valve",
            kind="flag",
            help="true where the pump has a check valve of its own behind it (pumps side by side).",
            example="true",
        ),
    ] = False

    @property
    def speed_ratio(self) -> float:
        """Running speed over the curve's speed."""
        if self.speed_per_s is None or self.curve_speed_per_s is None:
            return 1.0
        return self.speed_per_s / self.curve_speed_per_s


class Filter(Part):
    """A cartridge filter by its clean drop."""

    words: ClassVar[tuple[str, ...]] = ("filter",)
    help: ClassVar[str] = "A cartridge filter by its clean pressure drop at a flow."
    drop_pa: Annotated[Band | None, RATED_DROP] = None
    at_flow_m3s: Annotated[float | None, RATED_FLOW] = None
    drops: Annotated[Points, DROP_POINTS] = ()
    medium_ratio: Annotated[
        Band | None,
        Spec(
            key="medium_share",
            kind="number",
            help="Share of the stated drop that the cartridge itself takes, the rest is the housing.",
            example="0.3",
            low=0.0,
            high=1.0,
            tolerance="stated_drop_tolerance_ratio",
            measure="with the drop at two flows, or with the cartridge taken out",
        ),
    ] = None
    fouling_ratio: Annotated[
        Band | None,
        Spec(
            key="fouling",
            kind="number",
            help="How many times its clean drop it takes as it stands now; left out, it is clean.",
            example="1.5",
            low=1.0,
            high=20.0,
            tolerance="stated_drop_tolerance_ratio",
            unknown=("filter_fouling_ratio",),
            scale="log",
            measure="with a gauge before and behind it, now and when it was clean",
        ),
    ] = None
    media_area_m2: Annotated[
        float | None,
        Spec(
            key="media_area",
            kind="area",
            help="Area of the filter cloth.",
            example='"0.9 m2"',
            above=0.0,
            high=50.0,
        ),
    ] = None
    loaded_ratio: Annotated[
        float | None,
        Spec(
            key="loaded_drop_ratio",
            kind="number",
            help="How many times its clean drop the filter reaches before you clean it.",
            example="2.5",
            low=1.0,
            high=50.0,
        ),
    ] = None
    loaded_time_s: Annotated[
        Band | None,
        Spec(
            key="days_to_loaded",
            kind="time",
            help="Time from a cleaning until the filter has loaded as far as `loaded_drop_ratio` says.",
            example='"30 days"',
            above=0.0,
            high=3.2e8,
            tolerance="filter_loading_tolerance_ratio",
            unknown=("filter_loading_time_s",),
            scale="log",
            measure="by writing down the days and the gauge's readings from one cleaning to the next",
        ),
    ] = None
    solids_g_per_day: Annotated[
        Band | None,
        Spec(
            key="solids_load",
            kind="dirt rate",
            help="Dry dirt that comes into the water in a day and ends on the cloth of `media_area`.",
            example='"2 g/day"',
            above=0.0,
            high=1e5,
            tolerance="filter_loading_tolerance_ratio",
            scale="log",
            measure="by drying and weighing what a cleaning washes out, over the days since the one before",
        ),
    ] = None


class Chiller(Part):
    """The water side of a chiller or heat exchanger."""

    words: ClassVar[tuple[str, ...]] = ("chiller",)
    help: ClassVar[str] = "The water side of a chiller: its pressure drop at a flow, and the flow it wants."
    drop_pa: Annotated[Band | None, RATED_DROP] = None
    at_flow_m3s: Annotated[float | None, RATED_FLOW] = None
    drops: Annotated[Points, DROP_POINTS] = ()
    exponent_ratio: Annotated[
        Band | None,
        Spec(
            key="exponent",
            kind="number",
            help="How the drop grows with flow; left out, the table's for exchangers.",
            example="1.85",
            low=1.0,
            high=2.0,
        ),
    ] = None
    min_flow_m3s: Annotated[
        float | None,
        Spec(
            key="min_flow",
            kind="flow",
            help="Least flow that its maker allows.",
            example='"15 L/min"',
            above=0.0,
            high=0.1,
        ),
    ] = None
    max_flow_m3s: Annotated[
        float | None,
        Spec(
            key="max_flow",
            kind="flow",
            help="Largest flow that its maker allows.",
            example='"45 L/min"',
            above=0.0,
            high=0.1,
        ),
    ] = None
    bore_m: Annotated[Band | None, BORE] = None
