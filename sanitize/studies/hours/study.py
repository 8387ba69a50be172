"""The study of the run time: how many hours a day the pump must run, and which need decides."""

from math import isfinite

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.laws.clarity.dilution import turnover_s
from sanitize.plant.day import DAY_S
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.rules import fire
from sanitize.studies.draws import CASES, SEED, Array, Draws
from sanitize.studies.figures import figure
from sanitize.studies.hours.asked import wishes_of
from sanitize.studies.hours.balance import cooling, heat_of
from sanitize.studies.hours.cooling import chiller_run_s, chilling_of
from sanitize.studies.hours.flows import flows_of
from sanitize.studies.hours.gains import gains_of
from sanitize.studies.hours.money import DAYS_A_YEAR, Shown, apart, cost_of, energy_of
from sanitize.studies.hours.needs import Moved, NeedCases, frost, water_needs
from sanitize.studies.hours.notes import notices_of_hours
from sanitize.studies.hours.numbers import number
from sanitize.studies.hours.ozone_asked import ozone_asked
from sanitize.studies.hours.public import public_need, public_rule_of
from sanitize.studies.hours.replacement import replacement_of
from sanitize.studies.hours.result import Hours, Need
from sanitize.studies.hours.speeds import speeds_of
from sanitize.studies.hours.wishes import prices_of
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, injector_of, run
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.notes import about_speed
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.result import State
from sanitize.studies.suction.states import all_states, filter_names, gas_side, levels, solve_states


def study_needs(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Hours:
    """How long the pump must run each day, which need decides, what that costs, and what is dangerous about the loop.

    plant: the checked loop; cases: a power of two; seed: of the draw; notices: what reading the file left.
    Raises InputError for a reading that no case comes near, NoSolutionError when the nominal case has no operating
    point or no water passes the filter.
    """
    asked = ozone_asked(plant, seed)
    plant = asked.plant
    draws, reading_notices = _draws(plant, cases, seed)
    surfaces = levels(plant, draws)
    clean, loaded, states = _solved(plant, draws, surfaces["normal"])
    flows = flows_of(plant, draws, clean, loaded)
    _, facts = facts_of(plant, clean, states, loaded)

    def shown(values: Array) -> Figure:
        return figure(np.where(flows.solved, values, np.nan))

    dead = number(draws, None, "dead_zone_ratio", "share of the water that the return hardly reaches")
    effective_m3 = plant.tub.volume_m3 * (1.0 - dead.values)
    moved = Moved(plant, draws, flows.loaded_m3s, flows.clean_m3s, effective_m3, flows.has_filter, asked.is_ours)
    gains = gains_of(plant, draws, flows.power_w)
    chiller = None if plant.chiller is None else chilling_of(plant.chiller, draws)
    found = water_needs(moved)
    if moved.timer.public_profile is not None:
        found.append(public_need(moved, moved.timer.public_profile))
    if chiller is not None:
        found.append(cooling(moved, gains, chiller))
    in_frost = frost(moved, float(gains.air_c[0]))
    if in_frost is not None:
        found.append(in_frost)
    needs = tuple(_need(item, shown) for item in found)
    counted = [item for item, need in zip(found, needs, strict=True) if need.counts]
    run_s = np.maximum.reduce([np.where(np.isinf(item.run_s), 0.0, item.run_s) for item in counted])
    binding = max(counted, key=lambda item: float(item.run_s[0])).name
    pump_run_s = np.minimum(run_s, DAY_S)
    chilled_s = np.zeros(draws.size) if chiller is None else chiller_run_s(plant, gains, chiller, pump_run_s)
    electric_w = np.zeros(draws.size) if chiller is None else chiller.electric_w
    possible_s = np.minimum(chilled_s, pump_run_s)
    pump_j, chiller_j = energy_of(flows.power_w, run_s, electric_w, possible_s)
    prices = prices_of(moved.timer)
    has_ozone = plant.ozone is not None and not asked.stays_off
    return Hours(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        flow_m3s=shown(flows.clean_m3s),
        loaded_flow_m3s=shown(flows.loaded_m3s),
        volume_m3=plant.tub.volume_m3,
        effective_volume_m3=shown(effective_m3),
        turnover_s=shown(turnover_s(plant.tub.volume_m3, flows.clean_m3s)),
        loaded_turnover_s=shown(turnover_s(plant.tub.volume_m3, flows.loaded_m3s)),
        needs=needs,
        binding_need=binding,
        run_s=shown(run_s),
        wishes=wishes_of(moved, in_frost, flows, chiller, possible_s, shown, has_ozone=has_ozone),
        ozone_stays_off=asked.stays_off,
        heat=heat_of(plant, gains, chiller, pump_run_s, chilled_s, shown),
        public_rule=public_rule_of(moved, flows, run_s, shown),
        speeds=speeds_of(plant, draws, surfaces["normal"], pump_run_s * flows.loaded_closed_m3s),
        replacement=replacement_of(plant),
        spread_energy_j=apart(pump_j, chiller_j, shown),
        spread_energy_year_j=apart(DAYS_A_YEAR * pump_j, DAYS_A_YEAR * chiller_j, shown),
        spread_cost=cost_of(pump_j, chiller_j, prices, shown),
        assumed_heat=tuple(name for (name,) in model_table("heat_numbers").entries if name in draws.inputs),
        notices=(
            *notices,
            *clean.assembly.notices,
            *reading_notices,
            *about_speed(facts),
            *notices_of_hours(plant, flows, gains),
            *asked.notices,
        ),
        cautions=fire(facts),
    )


def _draws(plant: Plant, cases: int, seed: int) -> tuple[Draws, list[Notice]]:
    """Draws that fit the file's readings where it has an injector, which they are read at."""
    if injector_of(plant) is None:
        told = []
        if plant.measured is not None:
            told.append(Notice("readings-not-used", "Without an injector in the loop the readings narrow nothing."))
        return Draws.of_plant(plant, cases, seed), told
    draws, _, told = narrowed(plant, cases, seed)
    return draws.opened(), told


def _solved(plant: Plant, draws: Draws, level_m: Array) -> tuple[Run, Run, tuple[State, ...]]:
    """The loop with filters clean and loaded, and with an injector the states of tub and gas line for the cautions."""
    if injector_of(plant) is None:
        clean = run(plant, draws, Condition(level_m))
        loaded = run(plant, draws, Condition(level_m, filter="loaded")) if filter_names(plant) else clean
        return clean, loaded, ()
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    clean = answers["running", "normal"]
    loaded = answers.get(("filter loaded", "normal"), clean)
    if clean.port is None:
        raise ValueError("the loop has no injector")
    gas = gas_side(plant, draws, clean.port.height_m)
    return clean, loaded, all_states(plant, draws, answers, surfaces, gas)


def _need(item: NeedCases, shown: Shown) -> Need:
    run_s = shown(item.run_s)
    nominal = float(item.run_s[0])
    above = nominal > DAY_S
    return Need(
        name=item.name,
        run_s=run_s,
        source=item.source,
        standing=item.standing,
        decides=item.decides,
        above_a_day=above,
        counts=item.is_every_day and isfinite(nominal),
        helps=item.helps if above else "",
    )
