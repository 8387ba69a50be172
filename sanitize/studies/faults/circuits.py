"""The loop with each fault in it, solved over the cases: what moves, and what presses on the gas port."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.tables import model_table
from sanitize.plant.ends import Suction as SuctionFitting
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller, Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.faults.result import FaultLevel, FaultName, Standing
from sanitize.studies.operating_point.bores import nominal_bore
from sanitize.studies.operating_point.builder import Condition, PartRows
from sanitize.studies.operating_point.part_rows import high_shut_off_head_m
from sanitize.studies.operating_point.run import Port, Run, run
from sanitize.studies.suction.circumstances import pump_inlet_pressure
from sanitize.studies.suction.result import Level, StateName
from sanitize.studies.suction.states import GasSide, filter_names, port_pressure, still_pressure, water_in_line


@dataclass(frozen=True, eq=False)
class Sound:
    """The loop with nothing wrong: its runs by state and level, heights of the water's surface, its gas line."""

    plant: Plant
    draws: Draws
    surfaces: dict[Level, Array]
    answers: dict[tuple[StateName, Level], Run]
    gas: GasSide

    @property
    def running(self) -> Run:
        """Running at the normal level."""
        return self.answers["running", "normal"]

    @property
    def port(self) -> Port:
        """The injector with nothing wrong."""
        return port_of(self.running)

    @property
    def weight_nm3(self) -> float:
        """Weight of the water by volume [N/m3]."""
        return self.running.assembly.water.density_kgm3 * GRAVITY_MS2

    def parts(self, kind: type) -> list[PartRows]:
        """The parts of a kind."""
        return [item for item in self.running.assembly.parts if isinstance(item.part, kind)]


class Closed(NamedTuple):
    """Gauge pressure at the port with no gas moving [Pa], and in which cases there is one."""

    pa_gauge: Array
    solved: Mask


@dataclass(frozen=True, eq=False)
class Circuit:
    """The loop with one fault.

    running: None where no water moves; gas: the gas line as it then is, None where it lets nothing through;
    own: where the water stands with this fault alone; besides: at the rim, or with a check valve that leaks too;
    takes_air: elsewhere than at the port.
    """

    fault: FaultName
    level: FaultLevel
    running: Run | None
    gas: GasSide | None
    closed: Closed
    own: tuple[Standing, ...]
    besides: tuple[Standing, ...] = ()
    takes_air: bool = False


def circuits(loop: Sound) -> Iterator[Circuit]:
    """Nothing wrong first, then every fault that this loop can have."""
    yield _state(loop, "nothing wrong", "running")
    yield _state(loop, "return shut", "returns shut")
    covered = _size(loop, "return_blocked_ratio", "share of the return that is blocked")
    yield _again(loop, "return partly blocked", lambda level: Condition(level, return_blocked_ratio=covered))
    if loop.gas.has_check_valve:
        yield _leaking(loop)
        yield _stopped_gas(loop, "gas check valve stuck shut")
    if filter_names(loop.plant):
        yield _state(loop, "filter loaded", "filter loaded")
        yield _again(loop, "filter torn", lambda level: Condition(level, filter="torn"))
    yield _blocked_suction(loop)
    hidden = _size(loop, "suction_blocked_ratio", "share of the suction that is blocked")
    yield _again(loop, "suction partly blocked", lambda level: Condition(level, suction_blocked_ratio=hidden))
    yield _air_leak(loop)
    yield _state(loop, "pump stopped", "off")
    worn = _size(loop, "worn_pump_head_ratio", "head of the worn pump over that of a new one")
    yield _again(loop, "pump worn", lambda level: Condition(level, pump_head_ratio=worn))
    yield _over_full(loop)
    yield _low(loop)
    yield _uncovered(loop)
    yield _stopped_gas(loop, "gas line kinked")
    yield _full_line(loop)
    if loop.parts(Chiller):
        filled = _size(loop, "chiller_blocked_ratio", "share of the chiller's passages that is blocked")
        yield _again(loop, "chiller blocked", lambda level: Condition(level, chiller_blocked_ratio=filled))


def port_of(answer: Run) -> Port:
    """The injector of a run; raises ValueError where the loop has none."""
    if answer.port is None:
        raise ValueError("the loop has no injector")
    return answer.port


def lowest_inlet_pressure(answer: Run) -> Array:
    """The lowest gauge pressure at the inlet of any pump, gas line closed [Pa]."""
    pumps = [item for item in answer.assembly.parts if isinstance(item.part, Pump) and item.part.running]
    return np.asarray(np.minimum.reduce([pump_inlet_pressure(answer, item) for item in pumps]))


def low_level_m(loop: Sound) -> Array:
    """Water lost as the table says, but never below the top of the highest suction [m]."""
    normal = loop.surfaces["normal"]
    tops = [item.height_m + _opening_m(item.part) / 2.0 for item in loop.parts(SuctionFitting)]
    lost = _size(loop, "low_level_drop_m", "how far the tub has lost its water")
    return np.maximum(normal - lost, np.minimum(normal, np.maximum.reduce(tops)))


def _opening_m(part: object) -> float:
    if not isinstance(part, SuctionFitting):
        raise TypeError("not a suction fitting")
    return part.cover_face_m if part.cover_face_m is not None else nominal_bore(part).outlet_m


def _size(loop: Sound, name: str, label: str) -> Array:
    """How large a fault is in every case, from the table of fault sizes."""
    return loop.draws.value(f"fault {name}", model_table("fault_sizes")[(name,)].band, label)


def _closed(answer: Run) -> Closed:
    return Closed(port_of(answer).port_pa_gauge, answer.solved)


def _standing(
    loop: Sound, level: FaultLevel, closed: Closed, leaking: bool, *, off: bool = False, still: bool = False,
    gas: GasSide | None = None,
) -> Standing:  # fmt: skip
    """Where the water stands at one pressure; `gas`: the gas line where it is not the sound one."""
    line = loop.gas if gas is None else gas
    water = water_in_line(*closed, loop.running, line, loop.plant.units, leaking=leaking, still=still or off)
    return Standing(
        level=level,
        pump="off" if off else "running",
        check_valve="leaking" if leaking else "sound",
        port_pressure_pa_gauge=water.port_pressure_pa_gauge,
        water_height_m=water.water_height_m,
        passes_highest_point=water.passes_highest_point,
        reaches_ozone_unit=water.passes_highest_point,
        air_enters=water.air_enters,
        text=water.text,
    )


def _circuit(
    loop: Sound, fault: FaultName, running: Run | None, closed: dict[Level, Closed], *, off: bool = False,
    still: bool = False,
) -> Circuit:  # fmt: skip
    """A fault at the normal level with a sound gas line; besides, at the rim and with a leaking valve."""
    found = [
        _standing(loop, level, pressure, leaking, off=off, still=still)
        for level, pressure in closed.items()
        for leaking in (False, True)
    ]
    return Circuit(fault, "normal", running, loop.gas, closed["normal"], (found[0],), tuple(found[1:]))


def _state(loop: Sound, fault: FaultName, state: StateName) -> Circuit:
    """A fault that is a state of the suction study, by that study's own pressures."""
    closed = {
        level: Closed(*port_pressure(state, level, loop.answers, surface)) for level, surface in loop.surfaces.items()
    }
    return _circuit(loop, fault, loop.answers.get((state, "normal")), closed, off=state == "off")


def _again(loop: Sound, fault: FaultName, condition: Callable[[Array], Condition]) -> Circuit:
    """A fault that changes how the water runs: solved again at both levels."""
    answers: dict[Level, Run] = {
        level: run(loop.plant, loop.draws, condition(surface)) for level, surface in loop.surfaces.items()
    }
    return _circuit(loop, fault, answers["normal"], {level: _closed(answer) for level, answer in answers.items()})


def _leaking(loop: Sound) -> Circuit:
    """The check valve lets water back: every day brings a running and a stopped pump."""
    found = {
        (state, level): _standing(
            loop, level, Closed(*port_pressure(state, level, loop.answers, surface)), True, off=state == "off"
        )
        for state in _DAILY
        for level, surface in loop.surfaces.items()
    }
    own = tuple(item for (_, level), item in found.items() if level == "normal")
    besides = tuple(item for (_, level), item in found.items() if level != "normal")
    open_back = replace(loop.gas, opens_at_pa=np.zeros(loop.draws.size))
    return Circuit("gas check valve leaking", "normal", loop.running, open_back, _closed(loop.running), own, besides)


_DAILY: tuple[StateName, ...] = ("running", "off")


def _stopped_gas(loop: Sound, fault: FaultName) -> Circuit:
    """Nothing passes the gas line in either direction: no vacuum opens it."""
    shut = replace(loop.gas, opens_at_pa=np.full(loop.draws.size, np.inf), has_check_valve=True)
    found = [
        _standing(loop, level, _closed(loop.answers["running", level]), False, gas=shut) for level in loop.surfaces
    ]
    closed = _closed(loop.running)
    return Circuit(fault, "normal", loop.running, None, closed, (found[0],), tuple(found[1:]))


def _blocked_suction(loop: Sound) -> Circuit:
    """Every suction covered: the water is still, and pumps behind the injector pull on it with all they have."""
    water = loop.running.assembly.water
    deepest = water.vapour_pa_abs - water.atmosphere_pa_abs
    pull = loop.weight_nm3 * _head_behind_injector_m(loop)
    everywhere = np.ones(loop.draws.size, dtype=bool)
    closed = {
        level: Closed(np.maximum(still_pressure(loop.running, surface) - pull, deepest), everywhere)
        for level, surface in loop.surfaces.items()
    }
    return _circuit(loop, "suction blocked", None, closed, still=True)


def _head_behind_injector_m(loop: Sound) -> float:
    link = loop.port.link
    own = loop.running.assembly.of_link(link)
    position = next(number for number, item in enumerate(own) if item.part.name == loop.port.name)
    behind = own[position + 1 :]
    for other in loop.running.assembly.topology.reached(link):
        behind = behind + loop.running.assembly.of_link(other)
    return sum(high_shut_off_head_m(item.part) for item in behind if isinstance(item.part, Pump))


def _air_leak(loop: Sound) -> Circuit:
    """Air comes in only where the pump's inlet stands below the pressure of the air, and only there costs head."""
    below = lowest_inlet_pressure(loop.running) < 0.0
    left = np.where(below, _size(loop, "air_leak_head_ratio", "head that a pump keeps with air in its water"), 1.0)
    found = _again(loop, "air leak before the pump", lambda level: Condition(level, pump_head_ratio=left))
    return replace(found, takes_air=bool(np.any(below & loop.running.solved)))


def _over_full(loop: Sound) -> Circuit:
    answer = loop.answers["running", "rim"]
    off = Closed(*port_pressure("off", "rim", loop.answers, loop.surfaces["rim"]))
    sound, leaking = (_standing(loop, "rim", _closed(answer), valve) for valve in (False, True))
    besides = (leaking, *(_standing(loop, "rim", off, valve, off=True) for valve in (False, True)))
    return Circuit("tub over-full", "rim", answer, loop.gas, _closed(answer), (sound,), besides)


def _low(loop: Sound) -> Circuit:
    answer = run(loop.plant, loop.draws, Condition(low_level_m(loop)))
    sound, leaking = (_standing(loop, "low", _closed(answer), valve) for valve in (False, True))
    return Circuit("tub low", "low", answer, loop.gas, _closed(answer), (sound,), (leaking,))


def _uncovered(loop: Sound) -> Circuit:
    """The water has sunk to the highest suction: the pump takes in air and stops moving water."""
    highest = np.maximum.reduce([item.height_m for item in loop.parts(SuctionFitting)])
    surface = np.minimum(loop.surfaces["normal"], highest)
    closed = Closed(still_pressure(loop.running, surface), np.ones(loop.draws.size, dtype=bool))
    sound, leaking = (_standing(loop, "suction", closed, valve, still=True) for valve in (False, True))
    return Circuit("suction uncovered", "suction", None, loop.gas, closed, (sound,), (leaking,), takes_air=True)


def _full_line(loop: Sound) -> Circuit:
    """Water stands in the line from the port up to its highest point, and its weight adds to the valve's opening."""
    rise = np.maximum(loop.gas.highest_m - loop.port.height_m, 0.0)
    wet = replace(loop.gas, opens_at_pa=loop.gas.opens_at_pa + loop.weight_nm3 * rise, has_check_valve=True)
    found = [_standing(loop, level, _closed(loop.answers["running", level]), False, gas=wet) for level in loop.surfaces]
    closed = _closed(loop.running)
    return Circuit("gas line full of water", "normal", loop.running, wet, closed, (found[0],), tuple(found[1:]))
