"""What the suction study answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution

Verdict = Literal["draws", "marginal", "does_not_draw"]
GasDraw = Literal["none", "trickle", "draws"]
StateName = Literal["off", "running", "returns shut", "filter loaded"]
Level = Literal["normal", "rim"]
CheckValve = Literal["sound", "leaking", "none"]


@dataclass(frozen=True)
class PartAlong:
    """One part of the loop in the order of the water, gas line closed.

    pressure_behind_pa_gauge is static, in the part's own bore at its outlet; power_share_ratio is its share of all
    the power that the water loses (0 for a pump).
    """

    name: str
    part: str
    way: str
    bore_m: float
    height_m: Figure
    flow_m3s: Figure
    velocity_ms: Figure
    head_loss_m: Figure
    power_share_ratio: Figure
    pressure_behind_pa_gauge: Figure


@dataclass(frozen=True)
class State:
    """Where the water stands in one state of the tub, with the gas line's check valve sound, leaking or not there.

    port_pressure_pa_gauge: at the gas port with no gas moving; water_height_m: of the water in the gas line, from the
    mark of all heights; the three answers hold at the worst end of the range: water passes the line's highest point,
    water reaches the ozone unit, air enters at the port.
    """

    state: StateName
    level: Level
    check_valve: CheckValve
    port_pressure_pa_gauge: Figure
    water_height_m: Figure
    passes_highest_point: bool
    reaches_ozone_unit: bool
    air_enters: bool
    text: str


@dataclass(frozen=True)
class Driver:
    """An uncertain input and how strongly it moves the verdict: rank correlation over the cases."""

    key: str
    label: str
    correlation_ratio: float
    measure: str


@dataclass(frozen=True)
class ReadingUsed:
    """One reading and what the cases said of it before and after; all in the unit of its key."""

    key: str
    measured: float
    standard_error: float
    before: Figure
    after: Figure


@dataclass(frozen=True)
class Narrowing:
    """What the readings did: widths of the ranges with them over those without, and the share that drew before."""

    effective_cases_count: int
    draws_share_before_ratio: float
    flow_width_ratio: float
    port_pressure_width_ratio: float
    readings: tuple[ReadingUsed, ...]


@dataclass(frozen=True)
class MeasureNext:
    """A cheap reading and how sure the verdict would be after it, on average over what it may turn out to be.

    certainty_ratio: expected distance of the share of drawing cases from one half, doubled: 0 undecided, 1 certain;
    now_ratio: the same today.
    """

    reading: str
    how: str
    certainty_ratio: float
    now_ratio: float


@dataclass(frozen=True)
class BlockedSuction:
    """What one suction can pull when it is covered: vacuum [Pa] and force on the covered opening [N], high ends."""

    name: str
    vacuum_pa_diff: float
    force_n: float


@dataclass(frozen=True)
class PumpLine:
    """Pump and system over the flow, for the picture: low, nominal and high head at each flow."""

    flow_m3s: tuple[float, ...]
    pump_head_m: tuple[tuple[float, ...], ...]
    system_head_m: tuple[tuple[float, ...], ...]


@dataclass(frozen=True)
class Suction:
    """The answer for the water running at its normal level.

    The gas line is closed at the port for every pressure and flow but `flow_m3s`, `injector_flow_m3s`,
    `port_pressure_open_pa_gauge` and the gas figures, which hold with the line open: gas flows at local atmosphere and
    20 degC, `gas_to_water_ratio` over the injector's water; `gas_draw` tells a trickle, below what the ozone unit
    needs or a tenth of `gas_flow_wanted_m3s`, from a draw.
    draws_share_ratio: share of the allowed cases in which the injector draws; extra_return_pressure_pa_diff: pressure
    that the return could gain before it stops drawing (0 where it does not draw).
    """

    title: str
    units: Literal["metric", "us"]
    verdict: Verdict
    draws_share_ratio: float
    cases_count: int
    seed: int
    why: str
    flow_port_closed_m3s: Figure
    injector_flow_port_closed_m3s: Figure
    port_pressure_closed_pa_gauge: Figure
    onset_flow_m3s: Figure
    draws_below_flow_m3s: Figure
    loss_ratio: Figure
    injector_inlet_pressure_pa_gauge: Figure
    injector_outlet_pressure_pa_gauge: Figure
    outlet_pressure_limit_pa_gauge: Figure
    extra_return_pressure_pa_diff: Figure
    rule_of_thumb_ratio: float
    differential_share_ratio: Figure
    check_valve_opens_at_pa: Figure
    pump_head_m: Figure
    pump_power_to_water_w: Figure
    gas_draw: GasDraw
    flow_m3s: Figure
    injector_flow_m3s: Figure
    port_pressure_open_pa_gauge: Figure
    gas_flow_m3s: Figure
    gas_to_water_ratio: Figure
    gas_efficiency_ratio: Figure
    gas_flow_wanted_m3s: float | None
    turnover_s: Figure
    atmosphere_pa_abs: float
    vapour_pressure_pa_abs: float
    water_level_m: Figure
    injector: str
    parts: tuple[PartAlong, ...]
    states: tuple[State, ...]
    blocked_suctions: tuple[BlockedSuction, ...]
    drivers: tuple[Driver, ...]
    measure_next: tuple[MeasureNext, ...]
    narrowing: Narrowing | None
    pump_line: PumpLine
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
