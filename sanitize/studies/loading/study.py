"""The study of the filter's loading: the loop solved again and again as its filters fill."""

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller
from sanitize.studies.cautions.rules import fire
from sanitize.studies.draws import SEED, Array, Draws, Mask
from sanitize.studies.figures import figure
from sanitize.studies.loading.ageing import Ageing, Sought, gauge_of, limits_of
from sanitize.studies.loading.filters import growths, refuse_without_loading
from sanitize.studies.loading.result import ChillerFlow, FilterLoading, Lasts, Limit, Moment
from sanitize.studies.operating_point.assemble import static_pressure
from sanitize.studies.operating_point.run import Run, refuse_without_answer, refuse_without_injector
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.gas_flow import GasAnswer, gas_answer
from sanitize.studies.suction.gas_report import widened
from sanitize.studies.suction.notes import notices_of
from sanitize.studies.suction.onset import draws_share
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.states import GasSide, all_states, filters_loaded, gas_side, levels, solve_states

CASES = 512
"""Cases that are enough for days whose inputs are known to a third."""
MOMENTS = 13
BEYOND_RATIO = 1.25
"""How far beyond the last limit the moments go."""


def study_lasts(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Lasts:
    """How long the loop lasts between cleanings of its filter, and which reading of the gauge tells it.

    plant: the checked loop; cases: a power of two; seed: of the draw; notices: what reading the file left.
    Raises InputError when the loop has no injector or no filter or a reading fits no case, NoSolutionError when its
    nominal case has no operating point.
    """
    refuse_without_injector(plant)
    refuse_without_loading(plant)
    draws, _, reading_notices = narrowed(plant, cases, seed)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    now = answers["running", "normal"]
    refuse_without_answer(now, plant)
    if now.port is None:
        raise ValueError("the loop has no injector")
    gas = gas_side(plant, draws, now.port.height_m)
    _, facts = facts_of(plant, now, all_states(plant, draws, answers, surfaces, gas), filters_loaded(answers))
    found, filters, loading_notices = growths(now, Draws(cases, seed + 1))
    ageing = Ageing(plant, draws, surfaces["normal"], found)
    clean = ageing.at(np.zeros(draws.size))
    refuse_without_answer(clean, plant)
    gauge = gauge_of(clean)
    sought = limits_of(plant, clean, gas, gauge)
    times = ageing.crossings(clean, sought)
    end = _first([time for time, item in zip(times, sought, strict=True) if item.ends_the_time], clean.solved)
    at_end = ageing.at(np.where(np.isfinite(end), end, 0.0))
    ends = np.isfinite(end) & at_end.solved
    reading = clean.station(gauge).pressure_pa_gauge
    rule = default("filter_clean_rise_pa_diff")
    largest_rise = np.where(clean.solved, _largest_rise_pa(clean, gauge, surfaces["normal"]), np.nan)
    moments, gas_notices = _moments(plant, draws, ageing, gas, gauge, _horizon_s(times, sought, filters, ageing))
    return Lasts(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        filters=filters,
        lasts_s=figure(end),
        comes_to_an_end_ratio=float(np.mean(np.isfinite(end))),
        limits=tuple(_limit(item, time, end, ageing, clean, gauge) for item, time in zip(sought, times, strict=True)),
        gauge=gauge,
        gauge_clean_pa_gauge=_shown(reading, clean.solved),
        gauge_at_end_pa_gauge=_shown(at_end.station(gauge).pressure_pa_gauge, ends),
        gauge_rise_at_end_pa_diff=_shown(at_end.station(gauge).pressure_pa_gauge - reading, ends),
        gauge_rule_pa_diff=rule.low,
        gauge_rule_high_pa_diff=rule.high,
        gauge_largest_rise_pa_diff=figure(largest_rise),
        gauge_rule_can_trigger=bool(np.nanmax(largest_rise) > rule.low),
        flow_clean_m3s=_shown(clean.flow_m3s, clean.solved),
        moments=moments,
        notices=(
            *notices,
            *loading_notices,
            *notices_of(plant, clean, answers, gas),
            *gas_notices,
            *reading_notices,
        ),
        cautions=fire(facts),
    )


def _shown(values: Array, where: Mask) -> Figure:
    """The figure of some cases; none where the nominal case is not among them."""
    return figure(np.where(where, values, np.nan)) if where[0] else Figure(None, None, None)


def _largest_rise_pa(clean: Run, gauge: str, level_m: Array) -> Array:
    """How far the gauge is from its reading with nothing moving, with the pumps at the high end of their curves."""
    item = next(item for item in clean.assembly.parts if item.part.name == gauge)
    still = -static_pressure(item.height_m, level_m, clean.assembly.water.density_kgm3)
    shut_off = clean.network.scale_pa * default("pump_high_curve_ratio").value
    return np.asarray(still + shut_off - clean.station(gauge).pressure_pa_gauge)


def _first(times: list[Array], solved: Mask) -> Array:
    """The first of several times; NaN where every limit was crossed from the start or the case has no answer."""
    stacked = np.stack(times)
    crossed = np.isnan(stacked)
    first = np.min(np.where(crossed, np.inf, stacked), axis=0)
    return np.where(crossed.all(axis=0) | ~solved, np.nan, first)


def _limit(item: Sought, time: Array, end: Array, ageing: Ageing, clean: Run, gauge: str) -> Limit:
    comes = np.isfinite(time)
    state = ageing.at(np.where(comes, time, 0.0))
    reading = state.station(gauge).pressure_pa_gauge
    kept = comes & state.solved
    ending = np.isfinite(end)
    first = item.ends_the_time and bool(ending.any())
    return Limit(
        limit=item.limit,
        part=item.part,
        ends_the_time=item.ends_the_time,
        time_s=figure(time),
        met_when_clean_ratio=float(np.mean(np.isnan(time))),
        nominal_met_when_clean=bool(np.isnan(time[0])),
        comes_first_ratio=float(np.mean(time[ending] == end[ending])) if first else 0.0,
        gauge_pa_gauge=_shown(reading, kept),
        gauge_rise_pa_diff=_shown(reading - clean.station(gauge).pressure_pa_gauge, kept),
        flow_m3s=_shown(state.flow_m3s, kept),
    )


def _horizon_s(times: list[Array], sought: list[Sought], filters: tuple[FilterLoading, ...], ageing: Ageing) -> float:
    """How far the moments go: beyond the last limit that the nominal case comes to, at least until it is loaded."""
    nominal = [float(time[0]) for time, item in zip(times, sought, strict=True) if item.ends_the_time]
    nominal += [loading.loaded_time_s.ends[1] for loading in filters]
    latest = max(time for time in nominal if np.isfinite(time))
    return float(min(BEYOND_RATIO * latest, ageing.longest_s[0]))


def _moments(
    plant: Plant, draws: Draws, ageing: Ageing, gas: GasSide, gauge: str, horizon_s: float
) -> tuple[tuple[Moment, ...], list[Notice]]:
    found: list[Moment] = []
    notices: list[Notice] = []
    for time in np.linspace(0.0, horizon_s, MOMENTS):
        state = ageing.at(np.full(draws.size, time))
        answer, notices = gas_answer(plant, draws, state, gas, bracketed=False)
        found.append(_moment(float(time), state, answer, gas, gauge, ageing))
    return tuple(found), notices + _about_moments(found, plant)


def _about_moments(moments: list[Moment], plant: Plant) -> list[Notice]:
    """Say from when on cases have no answer, of the water or of the gas."""
    found = []
    late = next((moment for moment in moments if moment.answered_share_ratio < 1.0), None)
    if late is not None:
        dead = next((moment for moment in moments if moment.flow_m3s.nominal is None), None)
        likeliest = "" if dead is None else f", in the likeliest case from {show(dead.time_s, 'time', plant.units)} on"
        found.append(
            Notice(
                "loaded-without-answer",
                f"From about {show(late.time_s, 'time', plant.units)} on a way would run backwards or the flows do not "
                f"settle in some cases{likeliest}. They count as not drawing and as flow that is down; the day's other "
                "figures leave them out.",
            )
        )
    least = min(moments, key=lambda moment: moment.gas_answered_share_ratio / max(moment.answered_share_ratio, 1e-9))
    if least.gas_answered_share_ratio < least.answered_share_ratio:
        found.append(
            Notice(
                "loaded-gas-without-answer",
                "With the gas line open the flows do not settle in some cases of some days (in "
                f"{least.answered_share_ratio - least.gas_answered_share_ratio:.0%} of them after "
                f"{show(least.time_s, 'time', plant.units)}): the gas flows leave them out.",
            )
        )
    return found


def _moment(time_s: float, state: Run, answer: GasAnswer, gas: GasSide, gauge: str, ageing: Ageing) -> Moment:
    if state.port is None:
        raise ValueError("the loop has no injector")
    drops = [state.station(name).loss_pa for name in ageing.growths]
    return Moment(
        time_s=time_s,
        answered_share_ratio=float(np.mean(state.solved)),
        gas_answered_share_ratio=float(np.mean(answer.solved)),
        filter_drop_pa_diff=_shown(np.maximum.reduce(drops), state.solved),
        flow_m3s=_shown(state.flow_m3s, state.solved),
        injector_flow_m3s=_shown(state.port.flow_m3s, state.solved),
        chiller_flows=tuple(
            ChillerFlow(item.part.name, _shown(state.solution.flow_m3s[item.link], state.solved))
            for item in state.assembly.parts
            if isinstance(item.part, Chiller)
        ),
        port_pressure_closed_pa_gauge=_shown(state.port.port_pa_gauge, state.solved),
        draws_share_ratio=draws_share(state, gas.opens_at_pa),
        gas_flow_m3s=widened(_shown(answer.gas_flow_m3s, answer.solved)),
        gauge_pa_gauge=_shown(state.station(gauge).pressure_pa_gauge, state.solved),
    )
