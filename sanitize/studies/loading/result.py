"""What the study of the filter's loading answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution

LoadingLaw = Literal["exponential", "cake"]
LimitName = Literal["injector stops drawing", "chiller below its least flow", "flow down by a fifth", "gauge rule"]


@dataclass(frozen=True)
class FilterLoading:
    """How one filter loads: `loaded_time_s` is when its drop at the rated flow is `loaded_drop_ratio` times the clean.

    solids_g_per_day and cake_resistance_m_per_kg belong to the cake; time_stated: whether the file gives the time.
    """

    name: str
    law: LoadingLaw
    loaded_drop_ratio: float
    loaded_time_s: Figure
    time_stated: bool
    solids_g_per_day: Figure | None
    cake_resistance_m_per_kg: Figure | None


@dataclass(frozen=True)
class Limit:
    """One thing that ends the time between cleanings.

    time_s: since the cleaning, over the cases in which it is not so with a clean filter, None for not before the drop
    has grown fifty times; met_when_clean_ratio: share of the cases in which it is so from the start;
    comes_first_ratio: share of the cases that end, in which it ends first; gauge and rise: behind the pump at that
    time, over the cases that come to it, and flow_m3s then; none where the nominal case does not come to it.
    """

    limit: LimitName
    part: str
    ends_the_time: bool
    time_s: Figure
    met_when_clean_ratio: float
    nominal_met_when_clean: bool
    comes_first_ratio: float
    gauge_pa_gauge: Figure
    gauge_rise_pa_diff: Figure
    flow_m3s: Figure


@dataclass(frozen=True)
class ChillerFlow:
    """The flow through one chiller at some time."""

    name: str
    flow_m3s: Figure


@dataclass(frozen=True)
class Moment:
    """The loop some time after the cleaning; the gas line closed for all but the gas flow.

    answered_share_ratio, gas_answered_share_ratio: share of the cases that have an answer, with the gas line closed and
    open; the figures are over these, and none where the nominal case is not among them.
    """

    time_s: float
    answered_share_ratio: float
    gas_answered_share_ratio: float
    filter_drop_pa_diff: Figure
    flow_m3s: Figure
    injector_flow_m3s: Figure
    chiller_flows: tuple[ChillerFlow, ...]
    port_pressure_closed_pa_gauge: Figure
    draws_share_ratio: float
    gas_flow_m3s: Figure
    gauge_pa_gauge: Figure


@dataclass(frozen=True)
class Lasts:
    """How long the loop lasts between cleanings, gas line closed.

    lasts_s: until the first of the limits that end the time; comes_to_an_end_ratio: share of the cases that come to
    one; gauge: the pump behind which the pressure is read, clean, at the end, and the rise between;
    gauge_rule_pa_diff, gauge_rule_high_pa_diff: the usual rise; gauge_largest_rise_pa_diff: to the reading with
    nothing moving and the pumps at the high end of their curves, which no dirt can exceed.
    """

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    filters: tuple[FilterLoading, ...]
    lasts_s: Figure
    comes_to_an_end_ratio: float
    limits: tuple[Limit, ...]
    gauge: str
    gauge_clean_pa_gauge: Figure
    gauge_at_end_pa_gauge: Figure
    gauge_rise_at_end_pa_diff: Figure
    gauge_rule_pa_diff: float
    gauge_rule_high_pa_diff: float
    gauge_largest_rise_pa_diff: Figure
    gauge_rule_can_trigger: bool
    flow_clean_m3s: Figure
    moments: tuple[Moment, ...]
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
