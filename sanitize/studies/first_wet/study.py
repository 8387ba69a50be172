"""The readings of a healthy loop at its first filling, their bands, and the fault that each miss names.

Every fault is solved as `studies.faults` solves it; a reading carries its error, and the bands are as wide as it takes
for the stated share of healthy loops to pass every line.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.figure import Figure
from sanitize.basis.figure_words import figure as told
from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.plant.measured import Measured
from sanitize.plant.part import Part
from sanitize.studies.cautions.rules import fire
from sanitize.studies.draws import SEED, Array, Mask
from sanitize.studies.faults.circuits import Circuit, Sound, circuits, port_of
from sanitize.studies.faults.result import FaultName
from sanitize.studies.figures import figure
from sanitize.studies.first_wet.result import AnyFault, FirstWet, Line, Suspect
from sanitize.studies.hours.numbers import heat_entry
from sanitize.studies.operating_point.run import refuse_without_answer, refuse_without_injector
from sanitize.studies.suction.circumstances import facts_of
from sanitize.studies.suction.predicted import LINE_OPEN, kind_of, predicted, reading_error
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.states import (
    all_states,
    filters_loaded,
    gas_side,
    levels,
    port_pressure,
    shut_off_pressure,
    solve_states,
    water_in_line,
)

CASES = 512
ORDER = (
    "bucket_flow_m3s", "pump_inlet_pa_gauge", "pump_pa_gauge", "filter_drop_pa", "chiller_drop_k", "port_vacuum_pa",
    "port_vacuum_open_pa", "gas_flow_m3s",
)  # fmt: skip
"""In the order in which a person can take them: water first, its cooling, then the port closed, the gas line last."""
PASS_RATIO = 0.9
"""Share of healthy loops that passes every line."""
NAMES_FROM_RATIO = 0.5
"""Share of a fault's cases that a line must show for it to name the fault."""
DOUBTFUL_FROM_RATIO = 0.1
"""Share from which a fault is told where none reaches the one above."""
MOST_DOUBTFUL = 2
BY_EYE: tuple[FaultName, ...] = ("tub over-full", "tub low", "suction uncovered", "gas line full of water")
"""Faults that are seen before any reading, and are no lines of the sheet."""
STILL: tuple[FaultName, ...] = ("pump stopped", "suction blocked", "return shut")
"""Faults with which no water comes back."""
AS_BUBBLES: AnyFault = "air leak before the pump"
"""The fault that the stream itself shows when the pump is started."""
AS_RISING_WATER: AnyFault = "gas check valve leaking"
"""The fault that shows in the gas line with the pump off, where the water presses on the port."""


def study_first_wet(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> FirstWet:
    """The sheet of a loop for its first filling.

    plant: the checked loop; cases: a power of two, not 0; seed: of the draw; notices: what reading the file left.
    Raises InputError when the loop has no injector, NoSolutionError when its nominal case has no operating point.
    """
    loop, reading_notices = _sound(plant, cases, seed)
    running, gas, answers, surfaces = loop.running, loop.gas, loop.answers, loop.surfaces
    readings = [name for name in ORDER if _can_be_read(plant, name)]
    faulty = read_by_fault(loop, readings, seed)
    healthy = faulty.pop("nothing wrong")
    limits = _limits(healthy)
    lines = tuple(_line(name, healthy[name], limits[name], _of_reading(faulty, name)) for name in readings)
    pressure = port_pressure("off", "normal", answers, surfaces["normal"])
    by_eye = (AS_BUBBLES, *((AS_RISING_WATER,) if pressure[0][0] > 0.0 else ()))
    water = water_in_line(*pressure, running, gas, plant.units, leaking=False, still=True)
    _, facts = facts_of(plant, running, all_states(plant, loop.draws, answers, surfaces, gas), filters_loaded(answers))
    return FirstWet(
        title=plant.title,
        units=plant.units,
        lines=lines,
        passes_ratio=_passing(healthy, limits),
        unseen=tuple(fault for fault in faulty if fault not in by_eye and not _is_named(lines, fault)),
        has_check_valve=gas.has_check_valve,
        off_water_height_m=water.water_height_m,
        highest_point_m=figure(gas.highest_m),
        shut_off_pressure_pa_gauge=_shut_off_pressure(loop),
        cases_count=cases,
        seed=seed,
        notices=(*notices, *reading_notices, *_about_chiller(plant)),
        cautions=fire(facts),
    )


def read_by_fault(loop: Sound, readings: Sequence[str], seed: int) -> dict[AnyFault, dict[str, Array]]:
    """The readings with their errors with nothing wrong and with every fault that no eye sees, over the cases."""
    noise = np.random.default_rng(seed)
    found: dict[AnyFault, dict[str, Array]] = {}
    for circuit in circuits(loop):
        if circuit.fault not in BY_EYE:
            found[circuit.fault] = _shown(loop, circuit, readings)
    if "chiller_drop_k" in readings:
        none = np.where(loop.running.solved, 0.0, np.nan)
        found["chiller gives no cold"] = {**found["nothing wrong"], "chiller_drop_k": none}
    return {fault: _with_error(shown, noise) for fault, shown in found.items()}


def sound_loop(plant: Plant, cases: int, seed: int) -> Sound:
    """The loop with nothing wrong, over the cases that its file and its readings allow."""
    return _sound(plant, cases, seed)[0]


def _sound(plant: Plant, cases: int, seed: int) -> tuple[Sound, list[Notice]]:
    refuse_without_injector(plant)
    draws, _, notices = narrowed(plant, cases, seed)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    running = answers["running", "normal"]
    refuse_without_answer(running, plant)
    gas = gas_side(plant, draws, port_of(running).height_m)
    return Sound(plant, draws, surfaces, answers, gas), notices


def _about_chiller(plant: Plant) -> list[Notice]:
    """How warm the water is taken where the chiller is read, or why it has no line."""
    if not any(isinstance(part, Chiller) for part in walk(plant.loop)):
        return []
    if plant.chiller is None:
        return [
            Notice(
                "chiller-without-line",
                "Without [chiller] and its capacity in the file the temperatures over the chiller have no line.",
            )
        ]
    band = _filling(plant).water_temperature_c or Band.exact(plant.tub.temperature_c)
    water = told(Figure(band.low, band.nominal, band.high), "temperature", plant.units)
    return [
        Notice(
            "chiller-at-first-filling",
            f"The line of the chiller takes the water as warm as it is filled, {water}: `start_temperature` of "
            "[chiller], else `fresh_water_temperature` of [surroundings], else an estimate.",
        )
    ]


def _filling(plant: Plant) -> Measured:
    """The water as warm as it is when the tub has just been filled."""
    around = plant.surroundings
    stated = None if plant.chiller is None else plant.chiller.start_c
    if stated is None and around is not None:
        stated = around.fresh_water_c
    return Measured(water_temperature_c=heat_entry("fresh_water_c").band if stated is None else Band.exact(stated))


def _can_be_read(plant: Plant, reading: str) -> bool:
    kinds: dict[str, type[Part]] = {
        "filter_drop_pa": Filter,
        "pump_pa_gauge": Pump,
        "pump_inlet_pa_gauge": Pump,
        "chiller_drop_k": Chiller,
    }
    if reading == "chiller_drop_k" and plant.chiller is None:
        return False
    return reading not in kinds or any(isinstance(part, kinds[reading]) for part in walk(plant.loop))


def _shown(loop: Sound, circuit: Circuit, readings: Sequence[str]) -> dict[str, Array]:
    """The readings of a fault over the cases, not a number where there is none."""
    running = circuit.running
    nothing = np.full(loop.draws.size, np.nan)
    if running is None or circuit.fault in STILL:
        return {name: np.zeros(loop.draws.size) if name == "bucket_flow_m3s" else nothing for name in readings}
    plant = loop.plant.model_copy(update={"measured": _filling(loop.plant)})
    if circuit.gas is not None:
        return predicted(plant, loop.draws, running, circuit.gas, readings)
    closed = predicted(plant, loop.draws, running, None, [name for name in readings if name not in LINE_OPEN])
    shut = {"gas_flow_m3s": np.zeros(loop.draws.size), "port_vacuum_open_pa": -port_of(running).port_pa_gauge}
    return {name: closed[name] if name in closed else np.where(running.solved, shut[name], np.nan) for name in readings}


def _with_error(shown: Mapping[str, Array], noise: np.random.Generator) -> dict[str, Array]:
    """The readings with the error of an ordinary instrument, the nominal case without; no flow below none."""
    found = {}
    for name, values in shown.items():
        read = values + reading_error(name, values) * np.concatenate([[0.0], noise.standard_normal(values.size - 1)])
        found[name] = np.maximum(read, 0.0) if kind_of(name) in ("flow", "gas flow") else read
    return found


def _limits(healthy: Mapping[str, Array]) -> dict[str, tuple[float, float]]:
    """Bands as narrow as lets the wanted share of the healthy loops pass them all.

    All ends leave out the same share; with few cases a step of it takes one case from every end at once, so the last
    step is taken end by end.
    """
    low, high = 0.0, 1.0 - PASS_RATIO
    for _ in range(30):
        tail = 0.5 * (low + high)
        enough = _passing(healthy, _bands(healthy, tail)) >= PASS_RATIO
        low, high = (tail, high) if enough else (low, tail)
    wide, tight = _bands(healthy, low), _bands(healthy, high)
    for name in healthy:
        for end in ((tight[name][0], wide[name][1]), (wide[name][0], tight[name][1]), tight[name]):
            if _passing(healthy, {**wide, name: end}) >= PASS_RATIO:
                wide = {**wide, name: end}
    return wide


def _bands(healthy: Mapping[str, Array], tail: float) -> dict[str, tuple[float, float]]:
    """Of each reading the band that leaves out as much as stated, half of it on either side."""
    found = {}
    for name, values in healthy.items():
        kept = values[1:][~np.isnan(values[1:])]
        low, high = np.quantile(kept, [0.5 * tail, 1.0 - 0.5 * tail]) if kept.size else (np.nan, np.nan)
        found[name] = (float(low), float(high))
    return found


def _passing(healthy: Mapping[str, Array], limits: Mapping[str, tuple[float, float]]) -> float:
    """Share of the healthy loops of which every reading lies in its band; without an answer none does."""
    inside = [(values[1:] >= limits[name][0]) & (values[1:] <= limits[name][1]) for name, values in healthy.items()]
    return float(np.mean(np.all(inside, axis=0)))


def _line(name: str, healthy: Array, limits: tuple[float, float], faulty: Mapping[AnyFault, Array]) -> Line:
    low, high = limits

    def suspects(outside: Mapping[AnyFault, Mask]) -> tuple[Suspect, ...]:
        found = [Suspect(fault, float(np.mean(mask))) for fault, mask in outside.items() if mask.size]
        ranked = sorted(found, key=lambda item: -item.share_ratio)
        named = [item for item in ranked if item.share_ratio >= NAMES_FROM_RATIO]
        return tuple(named or [item for item in ranked[:MOST_DOUBTFUL] if item.share_ratio >= DOUBTFUL_FROM_RATIO])

    read = {fault: values[1:][~np.isnan(values[1:])] for fault, values in faulty.items()}
    return Line(
        reading=name,
        kind=kind_of(name),
        expected=figure(healthy),
        low_limit=low,
        high_limit=high,
        too_low=suspects({fault: values < low for fault, values in read.items()}),
        too_high=suspects({fault: values > high for fault, values in read.items()}),
    )


def _of_reading(faulty: Mapping[AnyFault, Mapping[str, Array]], reading: str) -> dict[AnyFault, Array]:
    """One reading of every fault."""
    return {fault: readings[reading] for fault, readings in faulty.items()}


def _is_named(lines: Sequence[Line], fault: AnyFault) -> bool:
    suspects = [item for line in lines for item in (*line.too_low, *line.too_high) if item.fault == fault]
    return any(item.share_ratio >= NAMES_FROM_RATIO for item in suspects)


def _shut_off_pressure(loop: Sound) -> float:
    """The most that a gauge right behind the last pump can reach, with every return shut [Pa]."""
    pump = loop.parts(Pump)[-1]
    depth_m = loop.surfaces["normal"] - pump.height_m
    return float(np.max(shut_off_pressure(loop.running) + loop.weight_nm3 * depth_m))
