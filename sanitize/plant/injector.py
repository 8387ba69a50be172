"""The venturi injector."""

from typing import Annotated, ClassVar, Literal

from sanitize.basis.band import Band
from sanitize.plant.part import Part
from sanitize.plant.spec import Record, Spec


class DropAtFlow(Record):
    """A pressure difference at a flow, as read on the bench."""

    drop_pa: float
    flow_m3s: float


class BenchRow(Record):
    """One row of a bench test with the gas port closed by a gauge: gauge pressures, the port's vacuum positive."""

    flow_m3s: float
    inlet_pa_gauge: float
    outlet_pa_gauge: float
    port_vacuum_pa: float


_BORE_MEASURE = "with the shank of the largest drill that slides in"


class Injector(Part):
    """An aspirating venturi with a gas port at its throat."""

    words: ClassVar[tuple[str, ...]] = ("injector",)
    needs_height: ClassVar[bool] = True
    help: ClassVar[str] = "The venturi injector: by its throat, or by what a bench test gave."
    throat_m: Annotated[
        Band | None,
        Spec(
            key="throat",
            kind="bore",
            help="Smallest bore inside; not needed where the bench gave both differences.",
            example='"8 mm"',
            low=0.0005,
            high=0.1,
            tolerance="injector_throat_tolerance_ratio",
            unknown=("5 mm", "8 mm", "11 mm"),
            scale="log",
            measure=_BORE_MEASURE,
        ),
    ] = None
    inlet_bore_m: Annotated[
        float | None,
        Spec(
            key="inlet_bore",
            kind="bore",
            help="Bore of its inlet end; left out, the bore of its trade size or of its barb.",
            example='"20 mm"',
            low=0.001,
            high=0.2,
        ),
    ] = None
    outlet_bore_m: Annotated[
        float | None,
        Spec(
            key="outlet_bore",
            kind="bore",
            help="Bore of its outlet end; left out, as the inlet.",
            example='"20 mm"',
            low=0.001,
            high=0.2,
        ),
    ] = None
    mixing_bore_m: Annotated[
        float | None,
        Spec(
            key="mixing_bore",
            kind="bore",
            help="Bore right behind the throat, where it is stepped.",
            example='"9 mm"',
            low=0.0005,
            high=0.1,
        ),
    ] = None
    diffuser_deg: Annotated[
        float | None,
        Spec(
            key="diffuser_angle",
            kind="angle",
            help="Full angle of the widening cone behind the throat.",
            example='"10 deg"',
            above=0.0,
            high=90.0,
        ),
    ] = None
    discharge_ratio: Annotated[
        Band | None,
        Spec(
            key="discharge_coefficient",
            kind="number",
            help="Discharge coefficient of the throat, where it is known.",
            example="0.96",
            low=0.5,
            high=1.0,
            tolerance="stated_discharge_tolerance_ratio",
        ),
    ] = None
    loss_ratio: Annotated[
        Band | None,
        Spec(
            key="loss_ratio",
            kind="number",
            help="Share of the pressure fall from inlet to port that is not won back at the outlet, where it is known.",
            example="0.25",
            above=0.0,
            high=3.0,
            tolerance="measured_tolerance_ratio",
            measure="on the bench, from inlet, outlet and port pressure with the port closed",
        ),
    ] = None
    inlet_to_port: Annotated[
        DropAtFlow | None,
        Spec(
            key="inlet_to_port",
            kind="drop at flow",
            help="Bench: inlet pressure minus port pressure at a flow, port closed.",
            example='["30 kPa", "25 L/min"]',
            above=0.0,
        ),
    ] = None
    outlet_to_port: Annotated[
        DropAtFlow | None,
        Spec(
            key="outlet_to_port",
            kind="drop at flow",
            help="Bench: outlet pressure minus port pressure at a flow, port closed.",
            example='["23 kPa", "25 L/min"]',
        ),
    ] = None
    bench: Annotated[
        tuple[BenchRow, ...],
        Spec(
            key="bench",
            kind="bench rows",
            help="Bench: rows of flow, inlet gauge, outlet gauge and vacuum at the closed port.",
            example='[["25 L/min", "30 kPa", "8 kPa", "12 kPa"]]',
        ),
    ] = ()
    ends: Annotated[
        Literal["plain", "barbed", "threaded"],
        Spec(
            key="ends",
            kind="word",
            help="How its ends join: plain (its own losses only), barbed or threaded.",
            example='"barbed"',
            words=("plain", "barbed", "threaded"),
        ),
    ] = "plain"
    barb_bore_m: Annotated[
        Band | None,
        Spec(
            key="barb_bore",
            kind="bore",
            help="Measured bore of its barbed ends.",
            example='"15.5 mm"',
            low=0.001,
            high=0.2,
            tolerance="bore_tolerance_m",
            measure=_BORE_MEASURE,
        ),
    ] = None
