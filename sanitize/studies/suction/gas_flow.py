"""How much gas the injector draws with the gas line open, coupled to the water, over all cases."""

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default
from sanitize.laws.air import AIR_VISCOSITY_PAS, air_density_kgm3
from sanitize.laws.injector import energy
from sanitize.laws.injector.diffuser_fit import diffuser_for_recovery
from sanitize.laws.injector.draw import gas_pressure_per_flow
from sanitize.laws.injector.gas_line import GasLine as LineLaw
from sanitize.laws.injector.gas_line import line_flow_m3s, port_supply
from sanitize.laws.injector.mixing import Mixer
from sanitize.laws.injector.port import small_draw_pa
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.operating_point.bores import area_m2
from sanitize.studies.operating_point.builder import PartRows
from sanitize.studies.operating_point.gas_network import GasNetwork
from sanitize.studies.operating_point.injector_model import InjectorModel
from sanitize.studies.operating_point.run import Port, Run
from sanitize.studies.operating_point.shut_ways import held_pa
from sanitize.studies.operating_point.solve import REST_FLOW_M3S, solve
from sanitize.studies.suction.gas_newton import BALANCE_RATIO, Found, newton
from sanitize.studies.suction.states import GasSide

STEPS = 60
HOLE_DISCHARGE_RATIO = 0.8
"""Discharge coefficient of the hole in the gas port (an estimate between a sharp and a rounded hole)."""
UNIT_EXPONENT = 2.0
"""How an ozone unit's own drop grows with the gas flow (an estimate: its openings are short)."""
ROOM_TEMPERATURE_C = 20.0
"""Temperature at which gas flows are stated."""
TRICKLE_RATIO = 0.1
"""Share of the gas flow that the unit wants, below which a draw is called a trickle (a choice of this project)."""


@dataclass(frozen=True, eq=False)
class GasAnswer:
    """The state with the gas line open, over the cases; gas flows at local atmosphere and 20 degC [m3/s]."""

    gas_flow_m3s: Array
    flow_m3s: Array
    injector_flow_m3s: Array
    port_pa_gauge: Array
    outlet_pa_gauge: Array
    efficiency_ratio: Array
    solved: Mask
    is_choked: Mask
    is_hole_choked: Mask
    imbalance_ratio: Array


def mixer_of(part: Injector, model: InjectorModel, draws: Draws) -> Mixer:
    """The injector's mixing side, with the diffuser set to the recovery that the dry model has.

    Where no diffuser within reason gives that recovery, the bore is taken as wide as the throat and its friction as
    what is left.
    """
    if part.mixing_bore_m is not None:
        bore_ratio = model.throat_m2 / area_m2(part.mixing_bore_m)
    else:
        bore_ratio = draws.value(
            "injector throat over mixing bore",
            default("injector_throat_area_ratio").band,
            "area of the injector's throat over that of its mixing bore",
        )
    friction = draws.value(
        "injector mixing loss", default("injector_mixing_loss_ratio").band, "loss in the injector's mixing bore"
    )
    gas = draws.value(
        "injector gas loss",
        default("injector_gas_loss_ratio").band,
        "extra loss in the injector while gas flows",
        "with a gas flow meter on the open line",
    )
    outlet_ratio = model.throat_m2 / model.outlet_m2
    fit = diffuser_for_recovery(model.recovery, bore_ratio, friction, outlet_ratio)
    left = np.maximum(0.98 - model.recovery - outlet_ratio**2, 0.0)
    feasible = np.asarray(fit.is_feasible)
    return Mixer(
        np.where(feasible, fit.throat_to_bore_ratio, 1.0),
        np.where(feasible, friction, left),
        np.where(feasible, fit.diffuser_loss, 0.02),
        gas,
        outlet_ratio,
    )


def line_of(plant: Plant, draws: Draws, gas: GasSide, atmosphere_pa_abs: float) -> tuple[LineLaw, list[Notice]]:
    """The gas line as the law wants it, and what was assumed where the file is silent."""
    line, unit = plant.gas_line, plant.ozone
    notices: list[Notice] = []
    length = Band(0.5, 1.5, 4.0, "log") if line is None or line.length_m is None else line.length_m
    bore = Band(0.003, 0.004, 0.006, "log") if line is None or line.bore_m is None else line.bore_m
    if line is None or line.length_m is None or line.bore_m is None:
        notices.append(
            Notice(
                "gas-tube-assumed",
                "Length or bore of the gas tube is not given: 0.5 to 4 m and 3 to 6 mm stand in.",
            )
        )
    valve = 0.0 if line is None or line.needle_valve is None else (
        line.needle_valve.drop_pa / line.needle_valve.flow_m3s**2
    )  # fmt: skip
    hole = np.inf if line is None or line.port_hole_m is None else HOLE_DISCHARGE_RATIO * area_m2(line.port_hole_m)
    has_drop = unit is not None and unit.drop_pa is not None and unit.at_gas_flow_m3s is not None
    return (
        LineLaw(
            atmosphere_pa_abs=atmosphere_pa_abs,
            density_kgm3=float(air_density_kgm3(atmosphere_pa_abs, ROOM_TEMPERATURE_C)),
            viscosity_pas=AIR_VISCOSITY_PAS,
            tube_length_m=draws.value("gas_line.length", length, "length of the gas tube", "with a tape measure"),
            tube_bore_m=draws.value("gas_line.bore", bore, "bore of the gas tube", "with a drill shank"),
            tube_loss=0.0,
            valve_pa_s2m6=valve,
            unit_drop_pa_diff=unit.drop_pa if has_drop and unit is not None and unit.drop_pa is not None else 0.0,
            unit_flow_m3s=unit.at_gas_flow_m3s if unit is not None and unit.at_gas_flow_m3s is not None else 1.0,
            unit_exponent=UNIT_EXPONENT,
            cracking_pa_diff=gas.opens_at_pa,
            hole_m2=hole,
        ),
        notices,
    )


def gas_answer(
    plant: Plant, draws: Draws, running: Run, gas: GasSide, *, bracketed: bool = True
) -> tuple[GasAnswer, list[Notice]]:
    """Gas flow, water flow and port pressure with the gas line open.

    The pressure that the injector needs at its port rises with the gas flow, what the line leaves there falls: one
    root per case. Newton on water and gas flow together finds most; the others are sought again between brackets,
    which takes minutes where a way nearly stands still, or, without `bracketed`, left unsolved.
    Where the closed port does not draw, the gas flow is 0 exactly.
    """
    if running.opened is None or running.emptied is None:
        return _gas_answer(plant, draws, running, gas, np.ones(draws.size, dtype=bool), bracketed)
    full, notices = _gas_answer(plant, draws, running, gas, ~running.emptied, bracketed)
    emptied, _ = _gas_answer(plant, draws, running.opened, gas, running.emptied, bracketed)
    chosen = {
        item.name: np.where(running.emptied, getattr(emptied, item.name), getattr(full, item.name))
        for item in fields(GasAnswer)
    }
    return GasAnswer(**chosen), notices


def _gas_answer(
    plant: Plant, draws: Draws, running: Run, gas: GasSide, among: Mask, bracketed: bool
) -> tuple[GasAnswer, list[Notice]]:
    """The answer with the down-legs full or open as they are; elsewhere than among these cases nothing is drawn."""
    port, water = running.port, running.assembly.water
    item = _item(running)
    if port is None or item is None or not isinstance(item.part, Injector):
        raise ValueError("the loop has no injector")
    mixer = mixer_of(item.part, port.model, draws)
    line, notices = line_of(plant, draws, gas, water.atmosphere_pa_abs)
    drawing = among & running.solved & (port.flow_m3s > REST_FLOW_M3S) & (port.port_pa_gauge + gas.opens_at_pa < 0.0)
    network = GasNetwork(running.assembly, item, mixer, np.zeros(draws.size))
    network.close(running.network.shut)
    guess = _guess(network, line, port)
    found = newton(network, line, running.solution.flow_m3s, drawing, guess)
    flow, gas_flow = found.flow_m3s, found.gas_flow_m3s
    left = np.flatnonzero(drawing & ~found.solved)
    if left.size and bracketed:
        again = _bracketed(plant, draws, running, gas, left)
        flow[:, left], gas_flow[left] = again.flow_m3s, again.gas_flow_m3s
    hole = np.isfinite(line.hole_m2) & drawing
    over = np.zeros(0, dtype=np.intp)
    if hole.any():
        most = np.asarray(line_flow_m3s(np.where(hole, water.vapour_pa_abs, line.atmosphere_pa_abs), line))
        over = np.flatnonzero(hole & (gas_flow > most))
    if over.size:
        gas_flow[over] = most[over]
        flow[:, over] = _at_gas_flow(plant, draws, running, gas, over, most[over])
    flow[:, ~drawing] = running.solution.flow_m3s[:, ~drawing]
    at_most = np.zeros(draws.size, dtype=bool)
    at_most[over] = True
    gas_flow = np.where(drawing, gas_flow, 0.0)
    return _answer(network, running, port, mixer, line, drawing, at_most, flow, gas_flow), notices


def _item(running: Run) -> PartRows | None:
    return next((item for item in running.assembly.parts if isinstance(item.part, Injector)), None)


def _answer(
    network: GasNetwork, running: Run, port: Port, mixer: Mixer, line: LineLaw, drawing: Mask, at_most: Mask,
    flow: Array, gas_flow: Array,
) -> GasAnswer:  # fmt: skip
    """Everything that follows from the flows, and how well they balance.

    at_most: cases whose gas flow is the most that the port's hole passes; there any lower pressure at the port will do.
    """
    water, model = running.assembly.water, port.model
    network.gas_flow_m3s = gas_flow
    loss, _, _, _ = network.losses(flow)
    outlet = network.outlet
    if outlet is None:
        raise ValueError("the network was not evaluated")
    offered = np.asarray(port_supply(gas_flow, line).pa_abs)
    lack = np.asarray(outlet.port.pa_abs) - offered
    mismatch = np.where(drawing, np.where(at_most, np.maximum(lack, 0.0), np.abs(lack)) / water.atmosphere_pa_abs, 0.0)
    paths = running.assembly.topology.paths
    loss = loss + held_pa(paths, network.shut, loss)
    heads = np.max(np.abs(paths.T @ loss), axis=0) / network.scale_pa
    imbalance = np.where(drawing, np.maximum(mismatch, heads), running.solution.imbalance_ratio)
    z = model.dynamic_pa_s2m6 * flow[port.link] ** 2
    available = energy.available_pa_diff(
        np.asarray(outlet.port.pa_abs) + model.nozzle_drop * z,
        outlet.outlet_pa_abs,
        z,
        outlet.gas_pa,
        model.throat_m2 / model.inlet_m2,
        mixer.throat_to_outlet_ratio,
    )
    links = [link.index for link in running.assembly.topology.links if link.start is None]
    return GasAnswer(
        gas_flow_m3s=gas_flow,
        flow_m3s=np.asarray(flow[links].sum(axis=0)),
        injector_flow_m3s=flow[port.link],
        port_pa_gauge=np.asarray(outlet.port.pa_abs) - water.atmosphere_pa_abs,
        outlet_pa_gauge=outlet.outlet_pa_abs - water.atmosphere_pa_abs,
        efficiency_ratio=np.asarray(
            energy.efficiency_ratio(outlet.gas_pa, outlet.port.pa_abs, outlet.outlet_pa_abs, available)
        ),
        solved=np.asarray(running.solved & (imbalance <= 1e-9)),
        is_choked=np.asarray(outlet.port.is_choked),
        is_hole_choked=at_most,
        imbalance_ratio=np.asarray(imbalance),
    )


def _guess(network: GasNetwork, line: LineLaw, port: Port) -> Array:
    """A first gas flow [m3/s]: half of what the slope at no gas says, within what line and water can carry."""
    water = network.assembly.water
    z = port.model.dynamic_pa_s2m6 * port.flow_m3s**2
    supply = water.atmosphere_pa_abs - line.cracking_pa_diff
    outlet = port.outlet_pa_gauge + water.atmosphere_pa_abs
    small = np.asarray(small_draw_pa(supply, outlet, z, network.mixer, water.vapour_pa_abs))
    flow = np.maximum(port.flow_m3s, 1e-7)
    per_flow = gas_pressure_per_flow(flow, water.temperature_c, water.atmosphere_pa_abs)
    most = np.asarray(line_flow_m3s(water.vapour_pa_abs + 0.1 * (supply - water.vapour_pa_abs), line))
    return np.asarray(0.5 * np.minimum.reduce([np.asarray(small / per_flow), 0.3 * flow, 0.9 * most]))


def _few(
    plant: Plant, draws: Draws, running: Run, gas: GasSide, cases: NDArray[np.intp]
) -> tuple[GasNetwork, LineLaw, GasSide]:
    """Network, gas line and gas side of a few of the cases."""
    few = draws.of_cases(cases)
    assembly = running.assembly.of_cases(few, cases)
    item = next(item for item in assembly.parts if isinstance(item.part, Injector))
    if item.made.model is None or not isinstance(item.part, Injector) or running.port is None:
        raise ValueError("the loop has no injector")
    side = GasSide(gas.opens_at_pa[cases], gas.highest_m[cases], gas.has_check_valve)
    line, _ = line_of(plant, few, side, assembly.water.atmosphere_pa_abs)
    return GasNetwork(assembly, item, mixer_of(item.part, item.made.model, few), np.zeros(cases.size)), line, side


def _at_gas_flow(
    plant: Plant, draws: Draws, running: Run, gas: GasSide, cases: NDArray[np.intp], gas_flow: Array
) -> Array:
    """Water flows of these cases with a gas flow that is known."""
    network, _, _ = _few(plant, draws, running, gas, cases)
    network.gas_flow_m3s = gas_flow
    return np.asarray(solve(network, running.solution.flow_m3s[:, cases]).flow_m3s)


def _bracketed(plant: Plant, draws: Draws, running: Run, gas: GasSide, cases: NDArray[np.intp]) -> Found:
    """The same root between no gas and more than there can be; slower, and never lost."""
    if running.port is None:
        raise ValueError("the loop has no injector")
    network, line, side = _few(plant, draws, running, gas, cases)
    dry = running.solution.flow_m3s[:, cases]
    atmosphere = network.assembly.water.atmosphere_pa_abs
    start, flow = dry, dry

    def mismatch(q: Array) -> Array:
        """Needed less offered port pressure [Pa]; as much as the atmosphere where the water cannot carry that gas."""
        nonlocal start, flow
        network.gas_flow_m3s = q
        answer = solve(network, start)
        network.losses(answer.flow_m3s)
        if network.outlet is None:
            raise ValueError("the network was not evaluated")
        offered = np.asarray(port_supply(q, line).pa_abs)
        flow = answer.flow_m3s
        start = np.where(answer.solved, flow, dry)
        return np.where(answer.solved, np.asarray(network.outlet.port.pa_abs) - offered, atmosphere)

    low, f_low = np.zeros(cases.size), running.port.port_pa_gauge[cases] + side.opens_at_pa
    high = 0.02 * running.port.flow_m3s[cases]
    f_high = mismatch(high)
    for _ in range(STEPS):
        short = f_high < 0.0
        if not short.any():
            break
        low, f_low = np.where(short, high, low), np.where(short, f_high, f_low)
        high = np.where(short, 3.0 * high, high)
        f_high = np.where(short, mismatch(high), f_high)
    best, size_of = high, np.abs(f_high) / atmosphere
    for step in range(STEPS):
        active = size_of > BALANCE_RATIO
        if not active.any():
            break
        share = np.where(step % 4 == 3, 0.5, -f_low / np.maximum(f_high - f_low, 1e-12))
        trial = np.where(active, low + np.clip(share, 1e-3, 1.0 - 1e-3) * (high - low), best)
        value = mismatch(trial)
        best, size_of = trial, np.where(active, np.abs(value) / atmosphere, size_of)
        below, above = active & (value < 0.0), active & (value >= 0.0)
        f_high, f_low = (
            np.where(above, value, np.where(below, 0.5 * f_high, f_high)),
            np.where(below, value, np.where(above, 0.5 * f_low, f_low)),
        )
        low, high = np.where(below, trial, low), np.where(above, trial, high)
    mismatch(best)
    return Found(flow, best, size_of <= BALANCE_RATIO)
