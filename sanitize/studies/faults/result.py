"""What the study of faults answers."""

from dataclasses import dataclass
from typing import Literal, get_args

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution, Severity
from sanitize.studies.suction.result import BlockedSuction

FaultName = Literal[
    "nothing wrong",
    "return shut",
    "return partly blocked",
    "gas check valve leaking",
    "gas check valve stuck shut",
    "filter loaded",
    "filter torn",
    "suction blocked",
    "suction partly blocked",
    "air leak before the pump",
    "pump stopped",
    "pump worn",
    "tub over-full",
    "tub low",
    "suction uncovered",
    "gas line kinked",
    "gas line full of water",
    "chiller blocked",
]
FAULTS: tuple[FaultName, ...] = get_args(FaultName)
FaultLevel = Literal["normal", "rim", "low", "suction"]
HazardCode = Literal[
    "water-in-ozone-unit",
    "suction-holds",
    "ozone-from-unit",
    "pump-overheats",
    "chiller-freezes",
    "water-overflows",
    "gas-line-wet",
    "water-untreated",
]


@dataclass(frozen=True)
class Standing:
    """Where the water stands in the gas line, with the pump running or off, the valve sound or leaking.

    As `State` of the suction study, whose figures these are where a fault is one of its states: the pressure is at
    the gas port with no gas moving, the three answers hold at the worst end of the range.
    """

    level: FaultLevel
    pump: Literal["running", "off"]
    check_valve: Literal["sound", "leaking"]
    port_pressure_pa_gauge: Figure
    water_height_m: Figure
    passes_highest_point: bool
    reaches_ozone_unit: bool
    air_enters: bool
    text: str


@dataclass(frozen=True)
class Hazard:
    """Why a fault is dangerous, in this loop."""

    code: HazardCode
    severity: Severity
    text: str


@dataclass(frozen=True)
class FaultRow:
    """One fault alone, the loop solved again with it.

    The flows and the gas hold with the gas line open, `port_pressure_closed_pa_gauge`, `pump_inlet_pressure_pa_gauge`
    (the lowest of the pumps) and `filter_drop_pa_diff` (the largest of the filters) with it closed at the port; those
    two are None where no water moves. draws_share_ratio: share of the cases in which gas is drawn with moving water;
    steady_share_ratio: share of the cases that have a steady flow, the figures leave out the others.
    water_height_m and the answers behind it hold for the fault alone at the worst end of the range, `standings` also
    for a tub full to the rim and for a check valve that leaks besides; air_enters: at the port, as gas should while
    water moves; air_enters_before_pump: at a leak or at the suction; ozone_leaves_unit: ozone that the unit makes finds
    no gas to take it into the water. severity: of the gravest hazard, None where there is none.
    """

    fault: FaultName
    assumed: str
    level: FaultLevel
    water_moves: bool
    flow_m3s: Figure
    injector_flow_m3s: Figure
    port_pressure_closed_pa_gauge: Figure
    gas_flow_m3s: Figure
    draws_share_ratio: float
    steady_share_ratio: float
    pump_inlet_pressure_pa_gauge: Figure | None
    filter_drop_pa_diff: Figure | None
    water_height_m: Figure
    passes_highest_point: bool
    reaches_ozone_unit: bool
    air_enters: bool
    air_enters_before_pump: bool
    ozone_leaves_unit: bool
    standings: tuple[Standing, ...]
    water: str
    air: str
    ozone: str
    seen: str
    action: str
    hazards: tuple[Hazard, ...]
    severity: Severity | None


@dataclass(frozen=True)
class Faults:
    """The loop with nothing wrong, and with one fault at a time, the most dangerous first.

    cautions: what makes these faults dangerous, each with the faults that do it, then what is dangerous about the
    loop with nothing wrong.
    """

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    sound: FaultRow
    faults: tuple[FaultRow, ...]
    blocked_suctions: tuple[BlockedSuction, ...]
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
