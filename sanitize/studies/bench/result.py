"""What the bench gives for a loop file."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution


@dataclass(frozen=True)
class PumpPoint:
    """A point of the pump's curve: the flow that was read, the head that goes with it."""

    flow_m3s: float
    head_m: Figure


@dataclass(frozen=True)
class BenchInjector:
    """The injector's two constants and its loss ratio, from rows of flow, inlet and port.

    rows: (flow [m3/s], inlet [Pa gauge], vacuum at the port [Pa]); the outlet pours freely, at the pressure of the air.
    """

    rows: tuple[tuple[float, float, float], ...]
    inlet_to_port_pa_s2m6: Figure
    outlet_to_port_pa_s2m6: Figure
    loss_ratio: Figure


@dataclass(frozen=True)
class BenchResult:
    """The pump's curve with its spread, and the injector's constants where it was on the bench.

    head_share_ratio: how far the whole curve may lie from its nominal heads.
    """

    units: Literal["metric", "us"]
    curve: tuple[PumpPoint, ...]
    head_share_ratio: Figure
    injector: BenchInjector | None
    cases_count: int
    seed: int
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
