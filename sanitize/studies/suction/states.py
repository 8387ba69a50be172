"""Water where it must not be: where it stands in the gas line, off and running, and whether air enters."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.figure import Figure
from sanitize.basis.tables import default
from sanitize.basis.units import Family, show
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter, Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.part_rows import high_shut_off_head_m
from sanitize.studies.operating_point.run import Port, Run, run
from sanitize.studies.suction.result import CheckValve, Level, State, StateName


@dataclass(frozen=True, eq=False)
class GasSide:
    """Heights and opening of the gas line over the cases."""

    opens_at_pa: Array
    highest_m: Array
    has_check_valve: bool


def levels(plant: Plant, draws: Draws) -> dict[Level, Array]:
    """Height of the water's surface at its normal level and with the tub full to the rim, over the cases [m]."""
    normal = draws.value("tub.water_level", plant.tub.water_level_m, "water level", "with a tape measure")
    if plant.tub.rim_m is not None:
        rim = draws.value("tub.rim", plant.tub.rim_m, "height of the rim", "with a tape measure")
    else:
        above = default("rim_above_water_m").band
        rim = normal + draws.value("tub.rim", above, "height of the rim above the water", "with a tape measure")
    return {"normal": normal, "rim": np.maximum(rim, normal)}


def gas_side(plant: Plant, draws: Draws, port_height_m: Array) -> GasSide:
    """The gas line as stated; what is not stated stands at its worst: no height that the file does not give."""
    line = plant.gas_line
    band = default("gas_check_opening_pressure_pa_diff").band if line is None else line.opens_at_pa
    has_valve = line is None or line.check_valve
    opens = draws.value(
        "gas_line.check_valve_opens_at",
        band if has_valve else Band.exact(0.0),
        "opening vacuum of the gas line's check valve",
        "with a water column: the depth at which it starts to bubble",
    )
    ends = [port_height_m]
    if plant.ozone is not None and plant.ozone.height_m is not None:
        ends.append(draws.value("ozone.height", plant.ozone.height_m, "height of the ozone unit"))
    if line is not None and line.highest_point_m is not None:
        ends.append(draws.value("gas_line.highest_point", line.highest_point_m, "highest point of the gas line"))
    return GasSide(opens, np.maximum.reduce(ends), has_valve)


def shut_off_pressure(answer: Run) -> Array:
    """Pressure that the pumps can put on the injector with nothing moving, at the high end of their curves [Pa].

    Pumps in a row add up; of pumps side by side the strongest counts.
    """
    assembly = answer.assembly
    weight = assembly.water.density_kgm3 * GRAVITY_MS2
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    heads: dict[int, float] = {}
    ends: dict[int, float] = {}
    for index in assembly.topology.upstream_order():
        link = assembly.topology.links[index]
        head = 0.0
        if link.start is not None:
            meeting = assembly.topology.meetings[link.start]
            feeders = [meeting.combined] if meeting.diverging else meeting.ways
            head = max(ends[feeder] for feeder in feeders)
        for item in assembly.of_link(index):
            if item.part.name == port.name:
                heads[index] = head
            if isinstance(item.part, Pump):
                head += high_shut_off_head_m(item.part)
        ends[index] = head
    return np.full(assembly.draws.size, weight * heads[port.link])


def all_states(
    plant: Plant, draws: Draws, answers: dict[tuple[StateName, Level], Run], surfaces: dict[Level, Array], gas: GasSide
) -> tuple[State, ...]:
    """Every state, at both levels, with the valve sound and leaking, or once where the gas line has none."""
    found: list[State] = []
    has_filter = any(name == "filter loaded" for name, _ in answers)
    names: tuple[StateName, ...] = ("off", "running", "returns shut", "filter loaded")
    for name in names:
        if name == "filter loaded" and not has_filter:
            continue
        for level, surface in surfaces.items():
            pressure, solved = port_pressure(name, level, answers, surface)
            for valve in _valves(gas):
                found.append(_state(plant, name, level, valve, pressure, solved, answers["running", level], gas))
    return tuple(found)


def _valves(gas: GasSide) -> tuple[CheckValve, ...]:
    return ("sound", "leaking") if gas.has_check_valve else ("none",)


def port_pressure(
    name: StateName, level: Level, answers: dict[tuple[StateName, Level], Run], surface: Array
) -> tuple[Array, Mask]:
    """Gauge pressure at the port with no gas moving, and in which cases there is one."""
    running = answers["running", level]
    if name in ("off", "returns shut"):
        still = still_pressure(running, surface)
        return (still if name == "off" else still + shut_off_pressure(running)), np.ones(surface.size, dtype=bool)
    answer = answers[name, level]
    return _port(answer).port_pa_gauge, answer.solved


def still_pressure(answer: Run, surface_m: Array) -> Array:
    """Gauge pressure at the port with all water at rest, from the height of the surface alone [Pa]."""
    return answer.assembly.water.density_kgm3 * GRAVITY_MS2 * (surface_m - _port(answer).height_m)


def _port(answer: Run) -> Port:
    if answer.port is None:
        raise ValueError("the loop has no injector")
    return answer.port


def _state(
    plant: Plant, name: StateName, level: Level, valve: CheckValve, pressure: Array, solved: Mask, running: Run,
    gas: GasSide,
) -> State:  # fmt: skip
    leaking, still = valve == "leaking", name == "off"
    water = water_in_line(pressure, solved, running, gas, plant.units, leaking=leaking, still=still)
    return State(
        state=name,
        level=level,
        check_valve=valve,
        port_pressure_pa_gauge=water.port_pressure_pa_gauge,
        water_height_m=water.water_height_m,
        passes_highest_point=water.passes_highest_point,
        reaches_ozone_unit=water.passes_highest_point,
        air_enters=water.air_enters,
        text=water.text,
    )


@dataclass(frozen=True)
class WaterInLine:
    """Where the water stands in the gas line at one pressure of the port, as `State` tells it."""

    port_pressure_pa_gauge: Figure
    water_height_m: Figure
    passes_highest_point: bool
    air_enters: bool
    text: str


def water_in_line(
    pressure: Array, solved: Mask, running: Run, gas: GasSide, family: Family, *, leaking: bool, still: bool
) -> WaterInLine:
    """Where the water stands in the gas line, from the port's gauge pressure with no gas moving [Pa] over the cases.

    leaking: the line's check valve; still: all water is at rest, so that air that enters stays.
    """
    if not bool(solved.any()):
        nothing = Figure(None, None, None)
        return WaterInLine(
            nothing, nothing, False, False, "No answer: in this state a way would run backwards or let air in."
        )
    weight = running.assembly.water.density_kgm3 * GRAVITY_MS2
    height = _port(running).height_m
    open_back = leaking or not gas.has_check_valve
    risen = height + np.maximum(pressure, 0.0) / weight
    water = np.where(solved, risen if open_back else height, np.nan)
    above = figure(np.where(solved, risen - gas.highest_m, np.nan)).ends[2] if open_back else -1.0
    passes = open_back and above > 0.0
    opening = np.zeros_like(pressure) if open_back else gas.opens_at_pa
    drawing = solved & (pressure < -opening)
    enters = bool(np.any(drawing))
    always = bool(np.all(drawing | ~solved))
    stands = figure(water)
    return WaterInLine(
        port_pressure_pa_gauge=figure(np.where(solved, pressure, np.nan)),
        water_height_m=stands,
        passes_highest_point=passes,
        air_enters=enters,
        text=_text(still, passes, enters, always, stands.ends[2], open_back, family),
    )


def _text(still: bool, passes: bool, enters: bool, always: bool, height: float, open_back: bool, family: Family) -> str:
    if passes:
        return (
            f"Water can rise to {show(height, 'length', family)} in the gas line, over its highest point, "
            "and run into the ozone unit."
        )
    if enters and still:
        return (
            "Air enters at the port, the raised part of the loop drains back into the tub, and the pump must push "
            "that air out when it restarts: it restarts by itself only if its inlet stays under water."
        )
    if enters and always:
        return "Gas is drawn in at the port."
    if enters:
        return "Gas may be drawn in at the port, or not: the range holds both." + (
            f" Where it is not, water stands in the gas line, at the most up to {show(height, 'length', family)}."
            if open_back
            else ""
        )
    if open_back:
        return f"Water stands in the gas line up to {show(height, 'length', family)}, below its highest point."
    return "The check valve holds the water back; nothing moves in the gas line."


def filter_names(plant: Plant) -> list[str]:
    """Names of the filters of a loop."""
    return [part.name for part in walk(plant.loop) if isinstance(part, Filter)]


def solve_states(plant: Plant, draws: Draws, surfaces: dict[Level, Array]) -> dict[tuple[StateName, Level], Run]:
    """The runs that the states need: running at both levels, and with the filter loaded where there is one."""
    answers: dict[tuple[StateName, Level], Run] = {}
    for level, surface in surfaces.items():
        answers["running", level] = run(plant, draws, Condition(surface))
        if filter_names(plant):
            answers["filter loaded", level] = run(plant, draws, Condition(surface, filter="loaded"))
    return answers


def filters_loaded(answers: dict[tuple[StateName, Level], Run]) -> Run | None:
    """The loop at its normal level with its filters loaded, where it has any."""
    return answers.get(("filter loaded", "normal"))
