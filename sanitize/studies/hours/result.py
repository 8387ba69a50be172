"""What the study of the run time answers."""

from dataclasses import dataclass
from typing import Literal, get_args

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import Standing
from sanitize.plant.day import PriceWindow, Window
from sanitize.studies.cautions.caution import Caution

NeedName = Literal[
    "turnovers",
    "treated water",
    "clarity",
    "idle gaps",
    "bathing times",
    "ozone",
    "cooling",
    "frost",
    "public rule",
]
NEEDS: tuple[NeedName, ...] = get_args(NeedName)
NeedStanding = Literal[Standing, "stated"]
"""How sure the number behind a need is; `stated` where the file gives it."""


@dataclass(frozen=True)
class Need:
    """One need and the time a day that the pump must run for it alone.

    run_s: None at an end stands for "at no run time"; source: key of the table of sources, or empty; decides: the
    numbers behind it; above_a_day: whether the nominal case asks for more than 24 h or cannot be met, and then helps:
    what would help; counts: whether it counts for the run time of an ordinary day: not where no run time meets it,
    nor for days of frost in a place where the mean air is above 0 degC.
    """

    name: NeedName
    run_s: Figure
    source: str
    standing: NeedStanding
    decides: str
    above_a_day: bool
    counts: bool
    helps: str


@dataclass(frozen=True)
class Wishes:
    """What a plan of the day must keep, from the file or, where it says nothing, from the tables.

    segment_s: step of the timer; least_run_s: shortest run of the pump; most_runs_count: None where it is free;
    longest_idle_s: longest time that the water may stand on an ordinary day; bathing: when people are in the tub,
    run_during: whether the pump must run then; ozone_run_s: 0 where no ozone unit is to run, ozone_rest_s: how long
    before bathing it is off, ozone_least_run_s: its shortest run; chiller_run_s: time a day that it must run while the
    pump does, all of the pump's where that does not suffice, None without a chiller; prices: None where the file
    gives none, one window for one price.
    """

    segment_s: float
    least_run_s: float
    most_runs_count: int | None
    longest_idle_s: float
    quiet: tuple[Window, ...]
    bathing: tuple[Window, ...]
    run_before_s: float
    run_during: bool
    run_after_s: float
    has_ozone: bool
    two_timers: bool
    clocks_apart_s: float
    ozone_run_s: float
    ozone_least_run_s: float
    ozone_rest_s: float
    chiller_run_s: Figure | None
    chiller_least_on_s: float
    chiller_least_off_s: float
    pump_power_w: Figure
    chiller_power_w: Figure | None
    prices: tuple[PriceWindow, ...] | None


@dataclass(frozen=True)
class HeatRow:
    """Heat into the water from one side, a mean over the day; negative where it leaves."""

    name: str
    heat_w: Figure


@dataclass(frozen=True)
class Heat:
    """Heat into the water at its set temperature, and what the chiller makes of it.

    gains: a mean over a day with the run time of the answer; warming_k_per_h: at first, with pump and chiller off;
    capacity_w: at this water and air; chiller_run_s: to hold the temperature while the pump runs as the answer says;
    reach_s: from start_c to the set temperature with both running, None at an end where it never gets there;
    warmest_air_c: up to which it holds with both running all day, None at an end where it holds beyond the range of
    the laws. The figures of the chiller are None where the file gives none.
    """

    water_c: float
    air_c: Figure
    gains: tuple[HeatRow, ...]
    gain_w: Figure
    warming_k_per_h: Figure
    capacity_w: Figure | None
    chiller_run_s: Figure | None
    start_c: float | None
    reach_s: Figure | None
    warmest_air_c: Figure | None


@dataclass(frozen=True)
class PublicRule:
    """A published rule for public tubs and how this tub stands to it.

    limit_s: longest turnover, or time a day; value_s: this tub's turnover with a clean filter, or the run time;
    meets_share_ratio: share of the cases that keep it.
    """

    profile: str
    rule: str
    limit_s: float
    value_s: Figure
    meets_share_ratio: float
    source: str


@dataclass(frozen=True)
class SpeedRow:
    """The same volume a day at another speed of the pump.

    run_s: to move what the answer's run time moves at its own speed; draws_share_ratio: share of the cases in which
    the injector draws, None without one; too_little_for: chillers that get less than their makers allow, nominal.
    """

    speed_per_s: float
    speed_ratio: float
    flow_m3s: Figure
    power_w: Figure
    run_s: Figure
    energy_j: Figure
    draws_share_ratio: float | None
    too_little_for: tuple[str, ...]


@dataclass(frozen=True)
class Speeds:
    """Other speeds of the pump; draws_from_per_s: speed below which the injector stops drawing, None without one."""

    pump: str
    rows: tuple[SpeedRow, ...]
    draws_from_per_s: Figure | None


@dataclass(frozen=True)
class Replacement:
    """When to drain: after so many days, or once the dissolved solids have risen so far over the fill water's.

    interval_d: by the formula, not rounded; whole_days_count: as the source rounds it, at least 1.
    """

    bathers_per_day: float
    interval_d: float
    whole_days_count: int
    dissolved_rise_mgl: float
    source: str
    standing: Standing


@dataclass(frozen=True)
class Apart:
    """Pump and chiller apart, and together; no chiller counts 0."""

    pump: Figure
    chiller: Figure
    both: Figure


@dataclass(frozen=True)
class Cost:
    """What the plain run time costs, in the file's money: spread evenly over the day where prices change."""

    price_per_kwh: float
    day: Apart
    year: Apart


@dataclass(frozen=True)
class Hours:
    """The answer for the water at its normal level, gas line closed.

    flow_m3s, turnover_s: through the filters with these clean; the `loaded` ones at the end of the cleaning interval,
    on which the needs stand. turnover_s is of all the water; effective_volume_m3 leaves the dead zones out.
    run_s: what the needs that count ask for together: in every case the largest that a run time meets, above 86400
    where a day does not suffice; binding_need: the one that asks for most in the nominal case.
    ozone_stays_off: whether the plan leaves an ozone unit off all day, as the room does not bear it.
    spread_energy_j and so on: of run_s spread over the day, whatever a timer makes of it.
    assumed_heat: rows of the table behind the heat that stood in for what the file does not give.
    """

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    flow_m3s: Figure
    loaded_flow_m3s: Figure
    volume_m3: float
    effective_volume_m3: Figure
    turnover_s: Figure
    loaded_turnover_s: Figure
    needs: tuple[Need, ...]
    binding_need: NeedName
    run_s: Figure
    wishes: Wishes
    ozone_stays_off: bool
    heat: Heat
    public_rule: PublicRule | None
    speeds: Speeds | None
    replacement: Replacement | None
    spread_energy_j: Apart
    spread_energy_year_j: Apart
    spread_cost: Cost | None
    assumed_heat: tuple[str, ...]
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
