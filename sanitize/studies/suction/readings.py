"""Readings on the running loop narrow the cases: those that fit the readings stay, by their weight."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.basis.units import show, show_range
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant
from sanitize.plant.measured import Measured
from sanitize.plant.spec import specs
from sanitize.studies.draws import Array, Draws
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.gas_flow import line_of, mixer_of
from sanitize.studies.suction.predicted import (
    CONDITIONS,
    as_read,
    error_of,
    given,
    kind_of,
    predicted,
    refuse_more_than_the_pumps_move,
)
from sanitize.studies.suction.result import Narrowing, ReadingUsed
from sanitize.studies.suction.states import GasSide, gas_side, levels

LEAST_EFFECTIVE_CASES = 400
"""Effective cases below which more are drawn."""
MORE_CASES = 8
"""How many times the cases are drawn when too few fit the readings."""
FAR_ERRORS = 4.0
"""Standard errors by which the nearest case must miss a reading before the reading is refused."""


@dataclass(frozen=True, eq=False)
class Prediction:
    """What the cases say of one reading."""

    key: str
    kind: str
    measured: Band
    values: Array
    error: float


@dataclass(frozen=True, eq=False)
class Prior:
    """The cases before any reading, and what they say."""

    draws: Draws
    running: Run
    gas: GasSide
    predictions: list[Prediction]


Narrowed = tuple[Draws, Narrowing | None, list[Notice]]
"""Draws, how much narrower readings made them, and what to know of it."""


def narrowed(plant: Plant, cases: int, seed: int) -> Narrowed:
    """Draws that fit the readings of the file, how much narrower they are, and what to know of it.

    Without readings these are the plain draws, and so they are where a fit has used the readings already. Raises
    InputError for a reading that no case comes near.
    """
    if plant.fitted is not None:
        return Draws.of_plant(plant, cases, seed), None, _about_fit(plant)
    notices = about_conditions(plant)
    if plant.measured is None or cases == 0 or not given(plant.measured):
        return Draws.of_plant(plant, cases, seed), None, notices
    refuse_more_than_the_pumps_move(plant)
    prior = _prior(plant, cases, seed)
    weights = _weights(prior)
    if _effective(weights) < LEAST_EFFECTIVE_CASES:
        prior = _prior(plant, cases * MORE_CASES, seed)
        _refuse_far(prior, plant)
        weights = _weights(prior)
    effective = _effective(weights)
    if effective < LEAST_EFFECTIVE_CASES:
        notices.append(
            Notice(
                "few-cases-fit-readings",
                f"Only about {effective:.0f} of {prior.draws.size} drawn cases fit the readings: "
                "the ranges behind them are rough.",
            )
        )
    chosen = _chosen(weights, cases, seed)
    return prior.draws.of_cases(chosen), _narrowing(prior, chosen, effective), notices


def about_unused_fit(plant: Plant, draws: Draws) -> list[Notice]:
    """Fitted unknowns that nothing in the loop asks for, after all of it was drawn; the chiller's count elsewhere."""
    kept = () if plant.chiller is None else [name for (name,) in model_table("heat_numbers").entries]
    fitted = () if plant.fitted is None else plant.fitted.unknowns
    unused = [key for key in fitted if key not in draws.inputs and key not in kept]
    if not unused:
        return []
    text = (
        f"[fitted] holds what this loop no longer has: {', '.join(unused)}. A part was renamed or taken out after the "
        "fit, and what was learnt of it counts no more: fit again."
    )
    return [Notice("fitted-but-not-there", text)]


def about_conditions(plant: Plant) -> list[Notice]:
    """Temperatures of [measured] that nothing here hangs on."""
    if plant.measured is None:
        return []
    readings = given(plant.measured)
    idle = [
        specs(Measured)[name].key
        for name, counts in zip(CONDITIONS, (bool(readings), "chiller_drop_k" in readings), strict=True)
        if getattr(plant.measured, name) is not None and not counts
    ]
    if not idle:
        return []
    return [
        Notice(
            "temperatures-narrow-nothing",
            f"[measured] {' and '.join(idle)}: it says how warm it was at the other readings, the air's at "
            "chiller_drop; without them it narrows nothing here.",
        )
    ]


def _about_fit(plant: Plant) -> list[Notice]:
    if not given(plant.measured):
        return []
    return [
        Notice(
            "readings-in-the-fit",
            "The readings of [measured] are taken as those that [fitted] was made from and do not count twice. After "
            "new readings fit the file as it was before.",
        )
    ]


def _prior(plant: Plant, cases: int, seed: int) -> Prior:
    """Every input of the study drawn, and every reading predicted."""
    draws = Draws.of_plant(plant, cases, seed)
    surfaces = levels(plant, draws)
    running = run(plant, draws, Condition(surfaces["normal"]))
    port = running.port
    if port is None:
        raise ValueError("the loop has no injector")
    gas = gas_side(plant, draws, port.height_m)
    part = next(item.part for item in running.assembly.parts if isinstance(item.part, Injector))
    mixer_of(part, port.model, draws)
    line_of(plant, draws, gas, running.assembly.water.atmosphere_pa_abs)
    readings, then = given(plant.measured), as_read(plant)
    at_reading = running if then is plant else run(then, draws, Condition(surfaces["normal"]))
    values = predicted(then, draws, at_reading, gas, readings)
    predictions = [
        Prediction(name, kind_of(name), band, values[name], error_of(name, band)) for name, band in readings.items()
    ]
    return Prior(draws, running, gas, predictions)


def _weights(prior: Prior) -> Array:
    """Weight of every case by how well it fits all readings together, the nominal one left out; they add up to 1."""
    distance = np.zeros(prior.draws.size)
    for item in prior.predictions:
        distance += ((item.values - item.measured.nominal) / item.error) ** 2
    distance[0] = np.nan
    distance = np.where(np.isnan(distance), np.inf, distance)
    nearest = float(distance.min())
    if not np.isfinite(nearest):
        raise InputError([Problem("[measured]", "no drawn case has an operating point to compare the readings with")])
    weights = np.exp(-0.5 * (distance - nearest))
    return np.asarray(weights / weights.sum())


def _effective(weights: Array) -> float:
    return float(1.0 / np.sum(weights**2))


def _refuse_far(prior: Prior, plant: Plant) -> None:
    """Raise for readings that even the nearest case misses by far, each alone."""
    problems = []
    for item in prior.predictions:
        miss = np.abs(item.values - item.measured.nominal)
        nearest = int(np.nanargmin(miss))
        if miss[nearest] > FAR_ERRORS * item.error:
            ends = figure(item.values).ends
            key = specs(Measured)[item.key].key
            problems.append(
                Problem(
                    f"[measured] {key}",
                    f"no case that the file allows comes near {show(item.measured.nominal, item.kind, plant.units)}; "
                    f"the nearest misses it by {show(float(miss[nearest]), item.kind, plant.units)}, and the cases run "
                    f"{show_range(ends[0], ends[1], ends[2], item.kind, plant.units)}",
                    "a reading of this loop as the file describes it: read again, or mend the part that is wrong",
                )
            )
    if problems:
        raise InputError(problems)


def _chosen(weights: Array, cases: int, seed: int) -> NDArray[np.intp]:
    """The likeliest case first, then as many cases as asked, each as often as its weight says (systematic)."""
    start = np.random.default_rng(seed).random()
    places = (start + np.arange(cases)) / cases
    picked = np.searchsorted(np.cumsum(weights), places).clip(0, weights.size - 1)
    return np.concatenate([[int(np.argmax(weights))], picked]).astype(np.intp)


def _narrowing(prior: Prior, chosen: NDArray[np.intp], effective: float) -> Narrowing:
    """Widths of the ranges behind the readings over those before."""
    port, solved = prior.running.port, prior.running.solved
    if port is None:
        raise ValueError("the loop has no injector")
    drawing = solved & (port.port_pa_gauge + prior.gas.opens_at_pa < 0.0)

    def ratio(values: Array) -> float:
        before = figure(np.where(solved, values, np.nan))
        after = figure(np.where(solved, values, np.nan)[chosen])
        return _width(after) / _width(before) if _width(before) > 0.0 else 1.0

    used = tuple(
        ReadingUsed(item.key, item.measured.nominal, item.error, figure(item.values), figure(item.values[chosen]))
        for item in prior.predictions
    )
    return Narrowing(
        effective_cases_count=int(effective),
        draws_share_before_ratio=float(np.mean(drawing[1:])),
        flow_width_ratio=ratio(prior.running.flow_m3s),
        port_pressure_width_ratio=ratio(port.port_pa_gauge),
        readings=used,
    )


def _width(value: Figure) -> float:
    if value.low is None or value.high is None:
        return 0.0
    return value.high - value.low
