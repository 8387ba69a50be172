"""What was read on the running loop."""

from typing import Annotated

from sanitize.basis.band import Band
from sanitize.plant.spec import Record, Spec


class Measured(Record):
    """Readings on the running loop at its normal level, each with its reading error."""

    bucket_flow_m3s: Annotated[
        Band | None,
        Spec(
            key="bucket_flow",
            kind="flow",
            help="Water that comes back to the tub, by bucket and watch, with the gas line closed.",
            example='"34 L/min +- 1 L/min"',
            low=0.0,
            high=0.1,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    port_vacuum_pa: Annotated[
        Band | None,
        Spec(
            key="port_vacuum",
            kind="vacuum",
            help="Vacuum gauge on the injector's port, gas line closed by it; negative where it pushes.",
            example='"6 kPa +- 0.5 kPa"',
            low=-1e6,
            high=101325.0,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    inlet_pa_gauge: Annotated[
        Band | None,
        Spec(
            key="inlet_pressure",
            kind="pressure",
            help="Gauge right before the injector, gas line closed.",
            example='"12 kPa +- 1 kPa"',
            low=-1e5,
            high=1e6,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    outlet_pa_gauge: Annotated[
        Band | None,
        Spec(
            key="outlet_pressure",
            kind="pressure",
            help="Gauge right behind the injector, gas line closed.",
            example='"5 kPa +- 1 kPa"',
            low=-1e5,
            high=1e6,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    pump_pa_gauge: Annotated[
        Band | None,
        Spec(
            key="pump_pressure",
            kind="pressure",
            help="Gauge right behind the pump, gas line closed.",
            example='"22 kPa +- 1 kPa"',
            low=-1e5,
            high=1e6,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    pump_inlet_pa_gauge: Annotated[
        Band | None,
        Spec(
            key="pump_inlet_pressure",
            kind="pressure",
            help="Gauge right before the pump, gas line closed; negative where the pump pulls.",
            example='"-4 kPa +- 0.5 kPa"',
            low=-1e5,
            high=1e6,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    filter_drop_pa: Annotated[
        Band | None,
        Spec(
            key="filter_drop",
            kind="pressure",
            help="Gauge before the filter less the one behind it, gas line closed.",
            example='"6 kPa +- 0.5 kPa"',
            low=-1e5,
            high=1e6,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    port_vacuum_open_pa: Annotated[
        Band | None,
        Spec(
            key="port_vacuum_open",
            kind="vacuum",
            help="Vacuum gauge on a tee right at the injector's port, gas line open.",
            example='"1.5 kPa +- 0.3 kPa"',
            low=-1e6,
            high=101325.0,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
    chiller_drop_k: Annotated[
        Band | None,
        Spec(
            key="chiller_drop",
            kind="temperature difference",
            help="Water into the chiller less water out of it after ten minutes of cooling, by one thermometer at both "
            "hoses, gas line closed.",
            example='"0.6 degC +- 0.2 degC"',
            low=-5.0,
            high=40.0,
            tolerance="chiller_drop_tolerance_k",
        ),
    ] = None
    water_temperature_c: Annotated[
        Band | None,
        Spec(
            key="water_temperature",
            kind="temperature",
            help="Thermometer in the tub while the other readings were taken; left out, as [tub] states it.",
            example='"7.5 degC +- 0.5 degC"',
            low=0.0,
            high=45.0,
            tolerance="thermometer_tolerance_k",
        ),
    ] = None
    air_temperature_c: Annotated[
        Band | None,
        Spec(
            key="air_temperature",
            kind="temperature",
            help="Thermometer in the air that the chiller blows through, while its drop was read.",
            example='"22 degC +- 1 degC"',
            low=-40.0,
            high=50.0,
            tolerance="thermometer_tolerance_k",
        ),
    ] = None
    gas_flow_m3s: Annotated[
        Band | None,
        Spec(
            key="gas_flow",
            kind="gas flow",
            help="Gas flow meter before the gas line, line open.",
            example='"1.5 L/min +- 0.2 L/min"',
            low=0.0,
            high=0.01,
            tolerance="measured_tolerance_ratio",
        ),
    ] = None
