"""What the study of advice answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.advice.change import Code
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.suction.result import Verdict


@dataclass(frozen=True)
class Advised:
    """One change or two together that make the loop draw more, solved again with all cases.

    codes, words: of each change; draws_share_ratio: share of the cases that draw; loaded_share_ratio: the same with
    the filter loaded, None without a filter; flow_m3s: water out of the tub with the gas line closed;
    flow_ratio: its nominal over that of today (below 1: what the change costs); gas_flow_m3s: at local atmosphere and
    20 degC; pump_head_m, pump_flow_m3s: nominal head and flow of the pump that it changes, else None;
    brings: what to know of it besides, where it takes an injector from before a pump or only brings back the loop as it
    was built.
    """

    codes: tuple[Code, ...]
    words: tuple[str, ...]
    verdict: Verdict
    draws_share_ratio: float
    loaded_share_ratio: float | None
    flow_m3s: Figure
    flow_ratio: float
    gas_flow_m3s: Figure
    pump_head_m: float | None
    pump_flow_m3s: float | None
    brings: tuple[str, ...]


@dataclass(frozen=True)
class Refused:
    """A change or two that would make the loop draw more, and why it is not advised."""

    codes: tuple[Code, ...]
    words: tuple[str, ...]
    draws_share_ratio: float
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class Advice:
    """What to change so that the injector draws.

    now_share_ratio, now_loaded_share_ratio, now_flow_m3s, now_gas_flow_m3s: the loop as it is; changes: single ones,
    the best first (by share in whole percent, then by flow, then as listed); pairs: where no single change is enough;
    refused: what would help the injector and harm elsewhere; tried_count: single changes that were solved;
    never: what this loop cannot do and why, where nothing that was tried makes it draw; cautions: of the loop as it is.
    """

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    verdict: Verdict
    now_share_ratio: float
    now_loaded_share_ratio: float | None
    now_flow_m3s: Figure
    now_gas_flow_m3s: Figure
    why: str
    tried_count: int
    changes: tuple[Advised, ...]
    pairs: tuple[Advised, ...]
    refused: tuple[Refused, ...]
    never: str | None
    cautions: tuple[Caution, ...]
    notices: tuple[Notice, ...]


@dataclass(frozen=True)
class ThroatRow:
    """One throat: share of the cases that draw, water and gas flow, and what speaks against it (nothing: acceptable).

    flow_m3s: out of the tub with the gas line open; flow_ratio: its nominal over that at the present throat.
    """

    throat_m: float
    draws_share_ratio: float
    flow_m3s: Figure
    flow_ratio: float
    gas_flow_m3s: Figure
    objections: tuple[str, ...]


@dataclass(frozen=True)
class Throats:
    """Which throat to take: here_m is the present one, take_m the one with most gas among those acceptable, or None."""

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    here_m: float
    least_flow_ratio: float
    rows: tuple[ThroatRow, ...]
    take_m: float | None
    why: str
    cautions: tuple[Caution, ...]
    notices: tuple[Notice, ...]
