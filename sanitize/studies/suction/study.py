"""The suction study: from a plant to the answer whether its injector draws."""

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.laws.injector import onset as onset_laws
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.rules import fire
from sanitize.studies.draws import CASES, SEED, Array
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.along import Station
from sanitize.studies.operating_point.rows import Drive
from sanitize.studies.operating_point.run import Port, Run, refuse_without_answer, refuse_without_injector
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.drivers import drivers
from sanitize.studies.suction.gas_report import gas_report
from sanitize.studies.suction.measure_next import measure_next
from sanitize.studies.suction.notes import about_speed, notices_of
from sanitize.studies.suction.onset import draws_share, extra_return_pressure, flow_window
from sanitize.studies.suction.pump_line import pump_line
from sanitize.studies.suction.readings import Narrowed, about_unused_fit, narrowed
from sanitize.studies.suction.result import PartAlong, Suction, Verdict
from sanitize.studies.suction.states import all_states, filters_loaded, gas_side, levels, solve_states
from sanitize.studies.suction.why import why

DRAWS_FROM_RATIO = 0.95
"""Share of the cases from which the verdict is `draws`."""
DOES_NOT_DRAW_TO_RATIO = 0.05
"""Share of the cases up to which the verdict is `does_not_draw`."""


def verdict_of(share: float) -> Verdict:
    """The verdict for a share of the cases that draw."""
    if share >= DRAWS_FROM_RATIO:
        return "draws"
    return "does_not_draw" if share <= DOES_NOT_DRAW_TO_RATIO else "marginal"


def study_suction(
    plant: Plant,
    cases: int = CASES,
    seed: int = SEED,
    notices: tuple[Notice, ...] = (),
    known: Narrowed | None = None,
) -> Suction:
    """Whether the injector draws, how surely, why, and what is dangerous about it.

    plant: the checked loop; cases: a power of two; seed: of the draw; notices: what reading the file left;
    known: draws to take instead of the loop's own, readings already done, as another loop shares them.
    Raises InputError when the loop has no injector, NoSolutionError when its nominal case has no operating point.
    """
    refuse_without_injector(plant)
    draws, narrowing, reading_notices = known or narrowed(plant, cases, seed)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    running = answers["running", "normal"]
    refuse_without_answer(running, plant)
    port = _port(running)
    gas = gas_side(plant, draws, port.height_m)
    solved = running.solved
    margin = port.port_pa_gauge + gas.opens_at_pa
    share = draws_share(running, gas.opens_at_pa)
    window = flow_window(running, gas.opens_at_pa)
    extra = extra_return_pressure(plant, draws, running.assembly.condition, running, gas.opens_at_pa)

    def shown(values: Array) -> Figure:
        return figure(np.where(solved, values, np.nan))

    ratio = port.model.loss_ratio
    with np.errstate(divide="ignore", invalid="ignore"):
        differential = np.where(
            port.inlet_pa_gauge > 0.0, (port.inlet_pa_gauge - port.outlet_pa_gauge) / port.inlet_pa_gauge, np.nan
        )
    head, power = pump_head(running)
    gas_figures, gas_notices = gas_report(plant, draws, running, gas)
    states = all_states(plant, draws, answers, surfaces, gas)
    blocked, facts = facts_of(plant, running, states, filters_loaded(answers))
    return Suction(
        title=plant.title,
        units=plant.units,
        verdict=verdict_of(share),
        draws_share_ratio=share,
        cases_count=cases,
        seed=seed,
        why=why(running, gas.opens_at_pa, plant.units),
        flow_port_closed_m3s=shown(running.flow_m3s),
        injector_flow_port_closed_m3s=shown(port.flow_m3s),
        port_pressure_closed_pa_gauge=shown(port.port_pa_gauge),
        onset_flow_m3s=figure(window.onset_m3s),
        draws_below_flow_m3s=figure(window.below_m3s),
        loss_ratio=figure(ratio),
        injector_inlet_pressure_pa_gauge=shown(port.inlet_pa_gauge),
        injector_outlet_pressure_pa_gauge=shown(port.outlet_pa_gauge),
        outlet_pressure_limit_pa_gauge=shown(
            np.asarray(onset_laws.outlet_pressure_limit_pa_gauge(ratio, port.inlet_pa_gauge, gas.opens_at_pa))
        ),
        extra_return_pressure_pa_diff=figure(extra),
        rule_of_thumb_ratio=onset_laws.RULE_OF_THUMB_RATIO,
        differential_share_ratio=shown(differential),
        check_valve_opens_at_pa=figure(gas.opens_at_pa),
        pump_head_m=shown(head),
        pump_power_to_water_w=shown(power),
        **gas_figures,
        turnover_s=shown(plant.tub.volume_m3 / np.where(running.flow_m3s > 0.0, running.flow_m3s, np.nan)),
        atmosphere_pa_abs=running.assembly.water.atmosphere_pa_abs,
        vapour_pressure_pa_abs=running.assembly.water.vapour_pa_abs,
        water_level_m=figure(surfaces["normal"]),
        injector=port.name,
        parts=_parts(running),
        states=states,
        blocked_suctions=blocked,
        drivers=drivers(draws, margin, solved),
        measure_next=measure_next(draws, running, gas.opens_at_pa),
        narrowing=narrowing,
        pump_line=pump_line(running),
        notices=(
            *notices,
            *notices_of(plant, running, answers, gas),
            *gas_notices,
            *reading_notices,
            *about_unused_fit(plant, draws),
            *about_speed(facts),
        ),
        cautions=fire(facts),
    )


def _port(answer: Run) -> Port:
    if answer.port is None:
        raise ValueError("the loop has no injector")
    return answer.port


def pump_head(answer: Run) -> tuple[Array, Array]:
    """Head of the pumps [m] and the power that they give to the water [W]: heads of pumps in a row add up."""
    power = np.zeros(answer.assembly.draws.size)
    for index, rows in enumerate(answer.network.rows):
        flow = answer.solution.flow_m3s[index]
        for row in rows:
            if isinstance(row, Drive):
                power = power - row.loss(flow, answer.assembly.water)[0] * flow
    flow = answer.flow_m3s
    weight = answer.assembly.water.density_kgm3 * GRAVITY_MS2
    return np.where(flow > 0.0, power / (weight * np.where(flow > 0.0, flow, 1.0)), np.nan), power


def _parts(answer: Run) -> tuple[PartAlong, ...]:
    """The parts in the order of the water, with their share of all the power that the water loses."""
    weight = answer.assembly.water.density_kgm3 * GRAVITY_MS2
    lost = np.zeros(answer.assembly.draws.size)
    for station in answer.stations:
        lost = lost + np.maximum(station.loss_pa, 0.0) * np.abs(station.flow_m3s)

    def one(station: Station) -> PartAlong:
        def shown(values: Array) -> Figure:
            return figure(np.where(answer.solved, values, np.nan))

        power = np.maximum(station.loss_pa, 0.0) * np.abs(station.flow_m3s)
        return PartAlong(
            name=station.name,
            part=station.word,
            way=answer.assembly.topology.links[station.link].way,
            bore_m=station.bore_m,
            height_m=figure(station.height_m),
            flow_m3s=shown(station.flow_m3s),
            velocity_ms=shown(station.velocity_ms),
            head_loss_m=shown(station.loss_pa / weight),
            power_share_ratio=shown(power / np.where(lost > 0.0, lost, 1.0)),
            pressure_behind_pa_gauge=shown(station.pressure_pa_gauge),
        )

    return tuple(one(station) for station in answer.stations)
