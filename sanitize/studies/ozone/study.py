"""The ozone study: from a plant to what dissolves, what stays in the water and what people breathe."""

from dataclasses import replace
from math import pi

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default, model_table
from sanitize.laws.ozone.conversions import AIR_GMOL, OXYGEN_GMOL, ppmv_of_mgm3, weight_ratio_of_volume
from sanitize.laws.ozone.decay import half_life_min
from sanitize.laws.ozone.oxidant_balance import (
    chlorine_left_to_carry_g_per_day,
    oxidant_need_g_per_day,
    undersized_ratio,
)
from sanitize.laws.ozone.room_air import over_water_mgm3, time_to_fall_min
from sanitize.plant.day import DAY_S, together_s
from sanitize.plant.gas import OzoneUnit
from sanitize.plant.loop import Plant
from sanitize.plant.tub import Tub
from sanitize.studies.cautions.facts import OzoneFound
from sanitize.studies.cautions.rules import fire_about_ozone
from sanitize.studies.draws import CASES, SEED, Array, Draws, Mask
from sanitize.studies.figures import figure
from sanitize.studies.mating.materials import ozone_findings
from sanitize.studies.mating.study import rows_made
from sanitize.studies.operating_point.run import Run, refuse_without_answer, refuse_without_injector
from sanitize.studies.ozone.air import Air, air_of
from sanitize.studies.ozone.contact import SECONDS_PER_MIN, passage
from sanitize.studies.ozone.credits import credit_rows
from sanitize.studies.ozone.model import GAS_FLOW_C, Flows, Steady, TubSide, steady
from sanitize.studies.ozone.notes import notices_of
from sanitize.studies.ozone.numbers import Numbers, Worst, number
from sanitize.studies.ozone.remedies import emission_limit_mg_per_h, limit_mgm3, needle_valve, remedy
from sanitize.studies.ozone.result import LimitRow, Ozone, Room, RunFrom, Water
from sanitize.studies.ozone.water import KnownWater, WaterState, known_water, water_state
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.gas_flow import GasAnswer, gas_answer
from sanitize.studies.suction.gas_report import gas_words
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.states import all_states, gas_side, levels, solve_states
from sanitize.studies.suction.study import DRAWS_FROM_RATIO

G_PER_MG = 1e-3
SECONDS_PER_H = 3600.0
MINUTES_PER_H = 60.0


def study_ozone(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Ozone:
    """How much ozone is made, dissolves, stays and goes to the air, with pump and unit running on and on.

    plant: the checked loop; cases: a power of two or 0; seed: of the draw; notices: what reading the file left.
    Raises InputError when the loop has no injector or no ozone unit, NoSolutionError without an operating point.
    """
    refuse_without_injector(plant)
    unit = plant.ozone
    if unit is None:
        raise InputError(
            [Problem("[ozone]", "is missing", "a table [ozone] with the unit's output", '[ozone]\noutput = "90 mg/h"')]
        )
    draws, _, reading_notices = narrowed(plant, cases, seed)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    running = answers["running", "normal"]
    refuse_without_answer(running, plant)
    if running.port is None:
        raise ValueError("the loop has no injector")
    gas = gas_side(plant, draws, running.port.height_m)
    answer, line_notices = gas_answer(plant, draws, running, gas)
    gas_figures, gas_notices = gas_words(plant, running, answer)
    flows = flows_of(running, answer, draws)
    tested = known_water(plant)
    need = _need_g_per_day(plant, Numbers(draws))
    run_s, run_from = _ozone_run(plant)

    def balanced(worst: Worst | None) -> tuple[Steady, WaterState, Numbers]:
        numbers = Numbers(draws, worst)
        state = water_state(tested, plant.tub.temperature_c, numbers)
        air = air_of(plant, running.assembly.water.atmosphere_pa_abs, numbers)
        found = steady(unit, tub_side(plant.tub, numbers), flows, state, air, need / max(run_s, 1.0), numbers)
        return found, state, numbers

    found, state, numbers = balanced(None)
    (in_air, air_state, _), (at_entry, entry_state, _) = balanced("air"), balanced("entry")

    def shown(values: Array) -> Figure:
        return figure(np.where(flows.solved, values, np.nan))

    def high(values: Array) -> float:
        return shown(values).ends[2]

    is_open = found.air.is_open
    draws_gas = flows.solved & (flows.gas_m3s > 0.0)
    is_drawn = gas_figures["gas_flow_m3s"].ends[2] > 0.0
    is_room_found = is_drawn and not is_open

    def in_air_shown(values: Array, is_found: bool = is_drawn) -> Figure | None:
        return figure(np.where(draws_gas, values, np.nan)) if is_found else None

    def air_high(values: Array) -> float:
        return figure(np.where(draws_gas, values, np.nan)).ends[2] if is_drawn else 0.0

    limit, ceiling = number("ozone_target_ppmv"), number("ozone_ceiling_ppmv")
    feed_ppmv = shown(ppmv_of_mgm3(1e3 * found.feed_gm3, GAS_FLOW_C, found.air.pressure_pa_abs))
    dissolved = found.dissolved_mg_per_h
    supply = np.maximum(dissolved, 0.0) * G_PER_MG * run_s / SECONDS_PER_H
    room_high = None if is_open else air_high(in_air.ppmv(in_air.room_mgm3))
    over_water_high = air_high(in_air.ppmv(in_air.over_water_mgm3))
    _, facts = facts_of(plant, running, all_states(plant, draws, answers, surfaces, gas))
    facts = replace(
        facts,
        ozone_found=OzoneFound(
            is_drawn=float(np.mean(draws_gas)) >= DRAWS_FROM_RATIO,
            residual_high_mgl=high(at_entry.residual_mgl),
            room_high_ppmv=room_high,
            room_is_assumed=found.air.is_assumed,
            over_water_high_ppmv=over_water_high,
            under_cover_high_ppmv=air_high(in_air.ppmv(in_air.under_cover_mgm3)),
            has_bromide=tested.has_bromide,
            attacked=tuple(one.text for one in ozone_findings(plant, rows_made(plant)).problems),
        ),
    )
    return Ozone(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        place="outdoors" if is_open else "indoors",
        feed_kind=unit.feed,
        rated_mg_per_h=unit.output_mg_per_h,
        rated_gas_flow_m3s=unit.at_gas_flow_m3s,
        destruct_ratio=unit.destruct_ratio,
        gas_flow_m3s=gas_figures["gas_flow_m3s"],
        gas_to_water_ratio=gas_figures["gas_to_water_ratio"],
        drawn_share_ratio=float(np.mean(draws_gas)),
        feed_mg_per_h=shown(found.feed_mg_per_h),
        feed_gm3=shown(found.feed_gm3),
        feed_ppmv=feed_ppmv,
        feed_weight_ratio=_by_weight(feed_ppmv, unit),
        solubility_ratio=shown(found.solubility),
        equilibrium_ratio=shown(found.equilibrium),
        contact_length_m=shown(sum((piece.length_m for piece in flows.way.pieces), np.zeros(draws.size))),
        contact_s=shown(found.stay_s),
        pipe_transfer_ratio=shown(_share(found.pipe_mg_per_h, found)),
        plume_transfer_ratio=shown(_share(found.plume_mg_per_h, found)),
        transfer_ratio=shown(_share(dissolved, found)),
        dissolved_mg_per_h=shown(dissolved),
        decayed_mg_per_h=shown(dissolved - found.surface_mg_per_h),
        vented_mg_per_h=shown(found.vented_mg_per_h),
        surface_mg_per_h=shown(found.surface_mg_per_h),
        emission_mg_per_h=in_air_shown(found.emission_mg_per_h),
        strips_mg_per_h=shown(found.strips_mg_per_h),
        needle_valve=needle_valve(
            unit, tub_side(plant.tub, numbers), flows, state, found.air, need / max(run_s, 1.0), numbers
        ),
        water=_water(state, tested),
        residual_mgl=shown(found.residual_mgl),
        residual_in_use_mgl=shown(found.residual_in_use_mgl),
        residual_entry_high_mgl=high(at_entry.residual_mgl),
        pass_ct_mg_min_l=shown(found.pass_ct_mg_min_l),
        tub_ct_mg_min_l=shown(found.tub_ct_mg_min_l),
        credits=credit_rows(found.pass_ct_mg_min_l, found.tub_ct_mg_min_l, plant.tub.temperature_c, flows.solved),
        room=None if is_open else _room(found.air),
        room_ppmv=in_air_shown(found.ppmv(found.room_mgm3), is_room_found),
        over_water_ppmv=in_air_shown(found.ppmv(found.over_water_mgm3)),
        over_water_per_emission_ppmv=figure(
            found.ppmv(over_water_mgm3(1.0, number("near_radius_m"), found.air.speed_m_per_min))
        ),
        under_cover_ppmv=in_air_shown(found.ppmv(found.under_cover_mgm3)),
        room_limit_ppmv=limit,
        room_ceiling_ppmv=ceiling,
        room_emission_limit_mg_per_h=None if is_open else figure(emission_limit_mg_per_h(limit, found.air)),
        room_worst_ppmv=room_high if is_drawn else None,
        over_water_worst_ppmv=over_water_high if is_drawn else None,
        limits=_limits(found, draws_gas if is_drawn else None),
        remedy=None if not is_room_found else remedy(found, unit, limit, flows.solved),
        air_wait_s=in_air_shown(_air_wait_s(found, state, unit.destruct_ratio, limit), is_room_found),
        air_wait_worst_s=(
            air_high(_air_wait_s(in_air, air_state, unit.destruct_ratio, limit)) if is_room_found else None
        ),
        water_wait_s=shown(_water_wait_s(found, state)),
        water_wait_worst_s=high(_water_wait_s(at_entry, entry_state)),
        bathers_per_day=_bathers_per_day(plant),
        ozone_run_s=run_s,
        ozone_run_from=run_from,
        oxidant_need_g_per_day=figure(need),
        oxidant_supply_g_per_day=shown(supply),
        undersized_ratio=shown(undersized_ratio(need, supply)),
        other_chlorine_g_per_day=shown(chlorine_left_to_carry_g_per_day(need, supply)),
        notices=(
            *notices,
            *running.assembly.notices,
            *line_notices,
            *gas_notices,
            *reading_notices,
            *notices_of(plant, unit, flows, found, tested, feed_ppmv, run_from),
        ),
        cautions=fire_about_ozone(facts),
    )


def tub_side(tub: Tub, numbers: Numbers) -> TubSide:
    """Volume and surface of the water: the surface from the shape, else from a usual depth."""
    if tub.shape == "cylinder" and tub.inside_diameter_m is not None:
        surface = np.full(numbers.draws.size, pi / 4.0 * tub.inside_diameter_m**2)
    elif tub.shape == "box" and tub.inside_length_m is not None and tub.inside_width_m is not None:
        surface = np.full(numbers.draws.size, tub.inside_length_m * tub.inside_width_m)
    else:
        surface = tub.volume_m3 / numbers("water_depth_m")
    return TubSide(tub.volume_m3, surface)


def flows_of(running: Run, answer: GasAnswer, draws: Draws) -> Flows:
    """The flows with the gas line open, the gas with the range that an unmeasured device must carry."""
    factor = default("gas_draw_factor_ratio").value
    spread = draws.value(
        "ozone.gas_draw", Band(1.0 / factor, 1.0, factor, "log"), "gas flow of the injector", "with a gas flow meter"
    )
    return Flows(
        running=running,
        way=passage(running, answer.injector_flow_m3s, answer.flow_m3s),
        gas_m3s=spread * answer.gas_flow_m3s,
        injector_m3s=answer.injector_flow_m3s,
        total_m3s=answer.flow_m3s,
        outlet_pa_gauge=answer.outlet_pa_gauge,
        solved=answer.solved,
    )


def _share(part_mg_per_h: Array, found: Steady) -> Array:
    fed = found.feed_mg_per_h > 0.0
    return np.where(fed, part_mg_per_h / np.where(fed, found.feed_mg_per_h, 1.0), np.nan)


def _by_weight(ppmv: Figure, unit: OzoneUnit) -> Figure:
    carrier = OXYGEN_GMOL if unit.feed == "oxygen" else AIR_GMOL
    ends = [None if end is None else float(weight_ratio_of_volume(min(1e-6 * end, 1.0), carrier))
            for end in (ppmv.low, ppmv.nominal, ppmv.high)]  # fmt: skip
    return Figure(ends[0], ends[1], ends[2])


def _water(state: WaterState, tested: KnownWater) -> Water:
    return Water(
        ph=figure(state.ph),
        ph_from="assumed" if tested.ph is None else "tested",
        free_chlorine_mgl=figure(state.free_chlorine_mgl),
        bromine_mgl=figure(state.bromine_mgl),
        bromide_mgl=figure(state.bromide_mgl),
        peroxide_mgl=figure(state.peroxide_mgl),
        decay_per_min=figure(state.decay_per_min),
        half_life_s=figure(SECONDS_PER_MIN * half_life_min(state.decay_per_min)),
    )


def _room(air: Air) -> Room:
    return Room(air.is_assumed, figure(air.volume_m3), figure(air.changes_per_h), figure(air.removal_per_h))


def _limits(found: Steady, draws_gas: Mask | None) -> tuple[LimitRow, ...]:
    """The published limits, and the air over the cases that draw gas against them; None: it is not worked out."""
    over_water, room = found.ppmv(found.over_water_mgm3), found.ppmv(found.room_mgm3)
    breathed = over_water if found.air.is_open else room
    rows = []
    for (body, averaged), entry in model_table("ozone_air_limits").entries.items():
        rows.append(
            LimitRow(
                body=body,
                averaged=averaged,
                limit_ppmv=entry.value,
                room_ppmv=None if draws_gas is None or found.air.is_open else figure(np.where(draws_gas, room, np.nan)),
                over_water_ppmv=None if draws_gas is None else figure(np.where(draws_gas, over_water, np.nan)),
                over_share_ratio=None if draws_gas is None else float(np.mean(breathed[draws_gas] > entry.value)),
                source=entry.source,
            )
        )
    return tuple(rows)


def _air_wait_s(found: Steady, state: WaterState, destruct_ratio: float, limit_ppmv: float) -> Array:
    """From the unit's stop until the room and the air over the water are below the limit [s], the room left as it is.

    The injector draws on and strips the water, which is counted as losing its ozone by decay alone.
    """
    air = found.air
    given_off = (1.0 - destruct_ratio) * found.strips_mg_per_h + np.maximum(found.surface_mg_per_h, 0.0)
    minutes = time_to_fall_min(
        np.maximum(found.room_mgm3, 0.0),
        limit_mgm3(limit_ppmv, air),
        air.changes_per_h,
        air.removal_per_h,
        given_off / air.volume_m3,
        over_water_mgm3(given_off, number("near_radius_m"), air.speed_m_per_min),
        MINUTES_PER_H * state.decay_per_min,
    )
    return SECONDS_PER_MIN * minutes


def _water_wait_s(found: Steady, state: WaterState) -> Array:
    """From the unit's stop until its residual has decayed to what drinking water may hold [s]."""
    times_over = np.maximum(found.residual_mgl / number("entry_limit_mgl"), 1.0)
    return np.asarray(SECONDS_PER_MIN * np.log(times_over) / state.decay_per_min)


def _bathers_per_day(plant: Plant) -> float:
    return number("bathers_a_day_count") if plant.bathers is None else plant.bathers.per_day


def _need_g_per_day(plant: Plant, numbers: Numbers) -> Array:
    return oxidant_need_g_per_day(_bathers_per_day(plant), numbers("bather_demand_g"))


def _ozone_run(plant: Plant) -> tuple[float, RunFrom]:
    """How long a day the unit runs [s] and where the file says it: its own times come first, all day last."""
    timer = plant.timer
    if timer is not None and timer.ozone_times:
        return together_s(timer.ozone_times, timer.pump_times), "ozone_times"
    if timer is not None and timer.ozone_run_s is not None:
        return timer.ozone_run_s, "ozone_hours"
    if timer is not None and timer.pump_times:
        return sum(window.length_s for window in timer.pump_times), "pump_times"
    return DAY_S, "assumed"
