"""Readings against the model: which fault of the loop explains them, by their likelihood in its solved cases.

The likelihood of the readings under a fault is the mean over its cases of the product over the readings of
(1 - s) N(reading; predicted, error) + s / span: N is a normal density whose variance is that of the reading and that of
gauge and model together, s the share of readings that are slips, span the range of all predictions of that reading.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeVar

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.constants import ONE_SIDED_90_PERCENT
from sanitize.plant.loop import Plant
from sanitize.plant.measured import Measured
from sanitize.studies.cloudy.causes import ELSE, NAMED
from sanitize.studies.cloudy.knowledge import Knowledge, rule
from sanitize.studies.cloudy.plain_faults import plain_circuits
from sanitize.studies.cloudy.result import FaultOdds, ReadingGap
from sanitize.studies.cloudy.warmth import ACTIONS, WarmthFault, warmth_of
from sanitize.studies.draws import Array, Draws
from sanitize.studies.faults.circuits import Circuit, Sound, circuits, port_of
from sanitize.studies.faults.fixed_words import FIXED
from sanitize.studies.faults.result import FaultName
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import injector_of, refuse_without_answer, run
from sanitize.studies.suction.predicted import CONDITIONS, as_read, error_of, given, kind_of, predicted
from sanitize.studies.suction.states import GasSide, gas_side, levels, solve_states

Fault = TypeVar("Fault", bound=str)
AnyFault = FaultName | WarmthFault
SOUND: AnyFault = "nothing wrong"
WATER = "water_temperature_c"
POINTS_TO: dict[str, str] = {
    "return shut": "restricted_flow",
    "return partly blocked": "restricted_flow",
    "suction blocked": "restricted_flow",
    "suction partly blocked": "restricted_flow",
    "pump stopped": "restricted_flow",
    "pump worn": "restricted_flow",
    "filter loaded": "clogged_filter",
    "filter torn": "filter_bypassed",
    "air leak before the pump": "suction_air_leak",
    "gas check valve stuck shut": "injector_not_drawing",
    "gas line kinked": "injector_not_drawing",
    "gas line full of water": "injector_not_drawing",
    "chiller blocked": "chiller_low_flow",
    "chiller gives no cold": "chiller_not_cooling",
    "pump runs too few hours": "too_few_hours",
}
"""The cause of clouded water that a fault of the loop brings."""
NO_COLD: AnyFault = "chiller gives no cold"
_ACTIONS: dict[str, str] = dict([*((fault, item.action) for fault, item in FIXED.items()), *ACTIONS.items()])
COVERS: dict[str, tuple[str, ...]] = {
    "bucket_flow_m3s": ("low_flow",),
    "port_vacuum_pa": ("no_vacuum",),
    "filter_drop_pa": ("filter_drop_high", "filter_drop_low"),
    "gas_flow_m3s": ("no_gas_flow",),
    "chiller_drop_k": ("chiller_no_cold",),
    WATER: ("water_warm",),
}
"""Signs that a reading already tells, so that they count once."""
OUTDOES: dict[str, tuple[str, ...]] = {"gas_flow_m3s": ("no_vacuum",), "chiller_drop_k": ("chiller_flow_alarm",)}
"""Signs of which the model has no say any more beside a reading that shows what they come from."""
_ALIKE_ERRORS = 0.25
"""Mean distance in standard errors below which two faults count as one to these readings."""
_STANDS_ERRORS = 4.0
"""Standard errors of a flow that may be none."""
_FAR_ERRORS = 4.0
"""Standard errors by which the nearest case of a fault must miss a reading before the fault explains it no more."""
_MOVED_ERRORS = 0.5
"""Standard errors from which a fault is said to move a reading."""


@dataclass(frozen=True, eq=False)
class Explained:
    """How the readings fit: log likelihood by fault, the gaps, the faults by chance, readings that none explains."""

    log_likelihoods: Mapping[AnyFault, float]
    gaps: tuple[ReadingGap, ...]
    faults: tuple[FaultOdds, ...]
    unexplained: tuple[str, ...]


def weighed(plant: Plant) -> dict[str, Band]:
    """The readings that are weighed against faults: of the loop, and of the tub's water where a chiller cools it."""
    found = given(plant.measured)
    water = None if plant.measured is None else plant.measured.water_temperature_c
    return found if water is None or plant.chiller is None else {**found, WATER: water}


def explained(plant: Plant, cases: int, seed: int, run_s: float | None = None) -> Explained | None:
    """Every fault weighed by the readings of the file; None without readings.

    run_s: how long the pump runs each day, where somebody told it. Raises NoSolutionError when the loop with nothing
    wrong has no operating point.
    """
    readings = weighed(plant)
    if not readings:
        return None
    names = tuple(readings)
    measured = np.array([band.nominal for band in readings.values()])
    own = np.array([error_of(name, band) for name, band in readings.items()])
    errors = np.hypot(own, [_bias(name) * abs(value) for name, value in zip(names, measured, strict=True)])
    told = told_by_faults(plant, cases, seed, names, may_stand=_may_stand(names, measured, errors), run_s=run_s)
    logs = likelihoods(told, measured, errors)
    gaps = tuple(
        ReadingGap(
            key=name,
            kind=kind_of(name),
            measured=float(measured[row]),
            standard_error=float(errors[row]),
            predicted=figure(told[SOUND][row]),
            miss_errors=_miss(float(measured[row]), told[SOUND][row], float(errors[row])),
        )
        for row, name in enumerate(names)
    )
    return Explained(logs, gaps, fault_odds(logs, told, errors), _unexplained(told, names, measured, errors))


def told_by_faults(
    plant: Plant, cases: int, seed: int, names: Sequence[str], *, may_stand: bool = True, run_s: float | None = None
) -> dict[AnyFault, Array]:
    """What each reading shows with nothing wrong and with every fault, shape (readings, cases), by its solved cases.

    Faults of the water's level are left out, as readings are taken at the normal one. may_stand: with the faults too by
    which no water moves; run_s: of the pump a day, where somebody told it. Raises NoSolutionError when the loop with
    nothing wrong has no operating point.
    """
    bare = as_read(without_readings(plant))
    draws = Draws.of_plant(bare, cases, seed)
    surfaces = levels(bare, draws)
    if injector_of(plant) is None:
        running = run(bare, draws, Condition(surfaces["normal"]))
        refuse_without_answer(running, bare)
        solved = plain_circuits(bare, draws, running, surfaces["normal"])
    else:
        answers = solve_states(bare, draws, surfaces)
        running = answers["running", "normal"]
        refuse_without_answer(running, bare)
        gas = gas_side(bare, draws, port_of(running).height_m)
        solved = circuits(Sound(bare, draws, surfaces, answers, gas))
    usual = without_readings(plant)
    warmth = warmth_of(usual, draws, running, run_s) if WATER in names else None
    of_loop = [name for name in names if name != WATER]
    found: dict[AnyFault, Array] = {}
    for circuit in solved:
        if circuit.level != "normal" or (circuit.running is None and not may_stand):
            continue
        shown = told_by(bare, draws, circuit, of_loop)
        found[circuit.fault] = _with_water(shown, names, None if warmth is None else warmth.with_loop(circuit.running))
    sound = found[SOUND]
    if warmth is not None:
        for fault, water in warmth.faults().items():
            found[fault] = np.where(np.array(names)[:, None] == WATER, water, sound)
    if "chiller_drop_k" in names:
        none = found.get(NO_COLD, sound).copy()
        none[list(names).index("chiller_drop_k")] = np.where(running.solved, 0.0, np.nan)
        found[NO_COLD] = none
    return found


def _with_water(shown: Array, names: Sequence[str], water: Array | None) -> Array:
    """The readings of the loop with that of the tub's water in its place."""
    return shown if water is None else np.insert(shown, list(names).index(WATER), water, axis=0)


def without_readings(plant: Plant) -> Plant:
    """The plant with what was read of its loop left out, and the temperatures of that time kept."""
    if plant.measured is None:
        return plant
    kept = {name: getattr(plant.measured, name) for name in CONDITIONS}
    return plant.model_copy(update={"measured": Measured(**kept) if any(kept.values()) else None})


def _bias(name: str) -> float:
    """Error of gauge and model over the reading; none for temperatures, whose zero means nothing."""
    return 0.0 if kind_of(name) == "temperature" else rule("reading_bias_ratio")


def _miss(measured: float, predicted_values: Array, error: float) -> float:
    """Measured less the middle of the prediction, in standard errors of both together."""
    kept = predicted_values[~np.isnan(predicted_values)]
    low, middle, high = np.percentile(kept, [5.0, 50.0, 95.0])
    return float((measured - middle) / np.hypot(error, (high - low) / (2.0 * ONE_SIDED_90_PERCENT)))


def _unexplained(
    told: Mapping[AnyFault, Array], names: Sequence[str], measured: Array, errors: Array
) -> tuple[str, ...]:
    """Readings that no case of any fault comes near."""
    together = np.concatenate(list(told.values()), axis=1)
    distance = np.abs(together - measured[:, None]) / errors[:, None]
    nearest = np.min(np.where(np.isnan(distance), np.inf, distance), axis=1)
    return tuple(name for name, miss in zip(names, nearest, strict=True) if miss > _FAR_ERRORS)


def _may_stand(names: Sequence[str], measured: Array, errors: Array) -> bool:
    """Whether the water may stand: its flow was read, as none within the reading's error."""
    if "bucket_flow_m3s" not in names:
        return False
    row = names.index("bucket_flow_m3s")
    return bool(measured[row] < _STANDS_ERRORS * errors[row])


def told_by(plant: Plant, draws: Draws, circuit: Circuit, names: Sequence[str]) -> Array:
    """What each reading shows with a fault, shape (readings, cases); not a number where the model says nothing."""
    if not names:
        return np.zeros((0, draws.size))
    if circuit.running is None:
        stopped = {
            "bucket_flow_m3s": np.zeros(draws.size),
            "gas_flow_m3s": np.zeros(draws.size),
            "port_vacuum_pa": -circuit.closed.pa_gauge,
            "filter_drop_pa": np.zeros(draws.size),
        }
        nothing = np.full(draws.size, np.nan)
        return np.stack([stopped.get(name, nothing) for name in names])
    shut = circuit.gas is None and circuit.running.port is not None
    line = _no_valve(draws) if circuit.gas is None else circuit.gas
    plain = [name for name in names if not (shut and name in ("gas_flow_m3s", "port_vacuum_open_pa"))]
    if shut and "port_vacuum_pa" not in plain:
        plain.append("port_vacuum_pa")
    values = predicted(plant, draws, circuit.running, line, plain)
    if shut:
        values["gas_flow_m3s"] = np.where(circuit.running.solved, 0.0, np.nan)
        values["port_vacuum_open_pa"] = values["port_vacuum_pa"]
    return np.stack([values[name] for name in names])


def _no_valve(draws: Draws) -> GasSide:
    """A line that is not asked for its gas, as nothing passes it."""
    return GasSide(np.zeros(draws.size), np.zeros(draws.size), False)


def likelihoods(told: Mapping[Fault, Array], measured: Array, errors: Array) -> dict[Fault, float]:
    """Logarithm of the mean likelihood of the readings under each fault; cases without a flow count as misses."""
    together = np.concatenate(list(told.values()), axis=1)
    with np.errstate(all="ignore"):
        low = np.minimum(np.nanmin(together, axis=1), measured)
        span = np.maximum(np.maximum(np.nanmax(together, axis=1), measured) - low, 4.0 * errors)
    slip = rule("reading_slip_ratio")
    found: dict[Fault, float] = {}
    for fault, values in told.items():
        distance = (values - measured[:, None]) / errors[:, None]
        density = np.exp(-0.5 * distance**2) / (errors[:, None] * np.sqrt(2.0 * np.pi))
        silent = np.all(np.isnan(values), axis=1)[:, None]
        density = np.where(silent, 1.0 / span[:, None], np.where(np.isnan(density), 0.0, density))
        each = (1.0 - slip) * density + slip / span[:, None]
        found[fault] = float(np.log(np.mean(np.prod(each * errors[:, None], axis=0))))
    return found


def fault_odds(logs: Mapping[AnyFault, float], told: Mapping[AnyFault, Array], errors: Array) -> tuple[FaultOdds, ...]:
    """Faults by chance, those that the readings cannot part told together."""
    groups: list[list[AnyFault]] = []
    for fault in told:
        for group in groups:
            if _alike(told[group[0]], told[fault], errors):
                group.append(fault)
                break
        else:
            groups.append([fault])
    best = max(logs.values())
    weights = {fault: float(np.exp(value - best)) for fault, value in logs.items()}
    total = sum(np.mean([weights[fault] for fault in group]) for group in groups)
    found = [
        FaultOdds(
            faults=tuple(group),
            chance_ratio=float(np.mean([weights[fault] for fault in group]) / total),
            signs=tuple(_sign(told[group[0]][row], told[SOUND][row], error) for row, error in enumerate(errors)),
            points_to=POINTS_TO.get(group[0], ""),
            actions=tuple(_ACTIONS[fault] for fault in group),
        )
        for group in groups
    ]
    return tuple(sorted(found, key=lambda item: -item.chance_ratio))


def _alike(one: Array, other: Array, errors: Array) -> bool:
    if np.any(np.isnan(one).all(axis=1) != np.isnan(other).all(axis=1)):
        return False
    with np.errstate(all="ignore"):
        apart = np.abs(one - other) / errors[:, None]
    kept = apart[~np.isnan(apart)]
    return bool(kept.size == 0 or float(np.mean(kept)) < _ALIKE_ERRORS)


def _sign(values: Array, sound: Array, error: float) -> Literal["+", "-", "0"]:
    kept = ~np.isnan(values) & ~np.isnan(sound)
    moved = float(np.median((values - sound)[kept])) / error if np.any(kept) else 0.0
    if abs(moved) < _MOVED_ERRORS:
        return "0"
    return "+" if moved > 0.0 else "-"


def of_hypotheses(known: Knowledge, logs: Mapping[AnyFault, float]) -> Array:
    """Log likelihood of the readings under every hypothesis, shape (hypotheses).

    A cause that a fault brings has the mean likelihood of its faults, any other that of the loop with nothing wrong;
    something else the mean of the named causes by their weight, as with signs; two causes that both bring faults the
    mean of the two, as several faults at once are not solved.
    """
    chance = {fault: np.exp(value - max(logs.values())) for fault, value in logs.items()}
    sound = float(chance[SOUND])
    faults_of = {cause: [fault for fault in chance if POINTS_TO.get(fault) == cause] for cause in NAMED}
    own = {cause: float(np.mean([chance[fault] for fault in faults])) for cause, faults in faults_of.items() if faults}
    weight = known.weight[0, : len(NAMED)]
    alone = np.array([own.get(cause, sound) for cause in NAMED])
    found = []
    for row in known.member:
        codes = [known.causes[number] for number in np.flatnonzero(row)]
        if codes == [ELSE]:
            found.append(float(np.sum(weight * alone) / np.sum(weight)))
            continue
        faulty = [own[code] for code in codes if code in own]
        found.append(float(np.mean(faulty)) if faulty else sound)
    return np.asarray(np.log(np.maximum(np.array(found), np.finfo(float).tiny)))


def without_covered(plant: Plant, signs: Sequence[str]) -> tuple[str, ...]:
    """Those of the signs that a reading of the file already tells."""
    covered = {sign for name in weighed(plant) for sign in COVERS.get(name, ())}
    return tuple(sign for sign in signs if sign in covered)
