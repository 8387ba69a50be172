"""What readings teach about a loop: the most likely values of its unknowns, their spread, and what stays open.

Every unknown is carried as its normal score, so that the ranges of the file are a standard normal prior. The most
likely scores come from least squares, their spread from cases that explain the readings.
"""

from collections.abc import Mapping

import numpy as np
from scipy.optimize import least_squares
from scipy.special import ndtr, ndtri

from sanitize.basis.band import Band
from sanitize.basis.constants import ONE_SIDED_90_PERCENT
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.units import show, show_range
from sanitize.laws.injector.onset import draws_dry
from sanitize.plant.fitted import Fitted
from sanitize.plant.loop import Plant
from sanitize.plant.measured import Measured
from sanitize.plant.spec import specs
from sanitize.studies.draws import SEED, Array, Draws
from sanitize.studies.figures import figure
from sanitize.studies.fit.opened import opened
from sanitize.studies.fit.result import RELATIVE, Fit, ReadingFit, TakenAt, Unknown
from sanitize.studies.fit.sampled import sampled
from sanitize.studies.fit.scores import Scored, ScoredLoop
from sanitize.studies.fit.together import told_together
from sanitize.studies.operating_point.run import refuse_without_answer
from sanitize.studies.operating_point.solve import REST_FLOW_M3S
from sanitize.studies.suction.chiller_reading import AIR_AS_READ, WATER_AS_READ
from sanitize.studies.suction.predicted import (
    CONDITIONS,
    as_read,
    error_of,
    given,
    kind_of,
    refuse_more_than_the_pumps_move,
)
from sanitize.studies.suction.readings import about_conditions

CASES = 512
STEP = 0.2
"""Half step of the slopes, in standard deviations of the prior: wide enough to level the bend at nominal."""
TOUCHES_ERRORS = 0.2
"""Standard errors by which an unknown moves a reading within one standard deviation, from which it is fitted."""
SHOWN_RATIO = 0.9
"""Spread after over before below which an unknown is told."""
SHOWN_MOVE = 0.5
"""Move from nominal, in standard deviations of the prior, from which it is told all the same."""
FAR_ERRORS = 4.0
"""Standard errors by which the best fit must miss a reading before the readings are refused."""
ODD_ERRORS = 2.0
"""Standard errors from which a reading is named as one that fits badly."""
LEAST_ACCEPTED_RATIO = 0.05
DIGITS = 3
"""Decimals of the scores that are kept."""
_LOST_ERRORS = 30.0


def study_fit(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Fit:
    """Fit the unknowns of a loop to the readings of its file.

    plant: the checked loop with readings; cases: a power of two; seed: of the draw; notices: what reading the file
    left. Raises InputError without readings, for a file that holds a fit already, and for readings that nothing within
    the ranges explains; NoSolutionError when the nominal case has no operating point.
    """
    readings = given(plant.measured)
    _refuse(plant, bool(readings))
    refuse_more_than_the_pumps_move(plant)
    wide, changes = opened(plant)
    then = as_read(wide)
    loop = ScoredLoop(then, list(readings))
    measured = np.array([band.nominal for band in readings.values()])
    errors = np.array([error_of(name, band) for name, band in readings.items()])
    start = _from_ranges(len(loop.inputs), cases, seed)
    before = loop.at(start)
    refuse_without_answer(before.running, wide)
    best, slopes = _most_likely(loop, measured, errors)
    here = loop.at(best[:, None]).readings[:, 0]
    _refuse_far(wide, readings, here, errors, before)
    found = sampled(loop, measured, errors, start[:, 1:], seed)
    touches = np.max(np.abs(slopes), axis=0)
    lasts = np.array([key not in (WATER_AS_READ, AIR_AS_READ) for key in loop.inputs])
    touched = np.flatnonzero(lasts & (touches >= min(TOUCHES_ERRORS, float(touches[lasts].max()))))
    keys = [list(loop.inputs)[index] for index in touched]
    scores = np.concatenate([best[:, None], found.scores], axis=1)
    after = loop.at(scores)
    usual = loop if then is wide else ScoredLoop(wide, list(readings))
    return Fit(
        title=plant.title,
        units=plant.units,
        unknowns=_unknowns(loop, keys, scores[touched]),
        untouched_count=len(loop.inputs) - len(keys),
        readings=tuple(
            ReadingFit(
                name, kind_of(name), band.nominal, float(errors[index]),
                figure(before.readings[index]), figure(after.readings[index]),
                float((band.nominal - here[index]) / errors[index]),
            )
            for index, (name, band) in enumerate(readings.items())
        ),
        taken_at=_taken_at(plant),
        together=told_together(loop, keys, np.atleast_2d(np.cov(found.scores[touched])), best, list(readings)),
        fitted=Fitted(unknowns=tuple(keys), cases=tuple(map(tuple, np.round(scores[touched].T, DIGITS).tolist()))),
        changes=changes,
        draws_share_before_ratio=_draws_share(before if usual is loop else usual.at(start)),
        draws_share_after_ratio=_draws_share(after if usual is loop else usual.at(scores)),
        cases_count=cases,
        seed=seed,
        notices=(*notices, *about_conditions(plant), *_notices(readings, here, errors, found.accepted_ratio)),
        cautions=(),
    )  # fmt: skip


def _taken_at(plant: Plant) -> tuple[TakenAt, ...]:
    """How warm water and air were at the readings, as far as the file says."""
    bands = {name: None if plant.measured is None else getattr(plant.measured, name) for name in CONDITIONS}
    return tuple(
        TakenAt(name, kind_of(name), band.nominal, error_of(name, band))
        for name, band in bands.items()
        if band is not None
    )


def _refuse(plant: Plant, has_readings: bool) -> None:
    if plant.fitted is not None:
        found = "this file holds a fit already, and its readings would count twice"
        raise InputError([Problem("[fitted]", found, "the file from before the fit, with all readings")])
    if not has_readings:
        raise InputError(
            [
                Problem(
                    "[measured]",
                    "there are no readings to fit to",
                    "readings in the loop file or in the file of --measured",
                    '[measured] with bucket_flow = "34 L/min +- 1 L/min"',
                )
            ]
        )


def _from_ranges(count: int, cases: int, seed: int) -> Array:
    """Scores of nominal and of cases drawn evenly from the file's ranges, shape (unknowns, 1 + cases)."""
    draws = Draws(cases, seed)
    return np.asarray(ndtri(np.stack([draws.rank(str(index)) for index in range(count)])))


def _most_likely(loop: ScoredLoop, measured: Array, errors: Array) -> tuple[Array, Array]:
    """The most likely scores, and the slopes of the readings there, in standard errors, (readings, unknowns)."""
    count = len(loop.inputs)

    def misses(scores: Array) -> Array:
        values = loop.at(scores[:, None]).readings[:, 0]
        return np.concatenate([np.nan_to_num((values - measured) / errors, nan=_LOST_ERRORS), scores])

    def in_errors(scores: Array) -> Array:
        return np.asarray(np.nan_to_num(loop.slopes(scores, STEP)[1] / errors[:, None]))

    def slopes(scores: Array) -> Array:
        return np.concatenate([in_errors(scores), np.eye(count)])

    found = least_squares(misses, np.zeros(count), jac=slopes, xtol=1e-8, ftol=1e-8, max_nfev=60)
    return np.asarray(found.x), in_errors(found.x)


def _unknowns(loop: ScoredLoop, keys: list[str], scores: Array) -> tuple[Unknown, ...]:
    """The unknowns that the readings have narrowed or moved enough to be told, the most narrowed first."""
    found = []
    for key, row in zip(keys, scores, strict=True):
        item, spread = loop.inputs[key], float(np.std(row[1:]))
        if spread > SHOWN_RATIO and abs(float(np.mean(row[1:]))) < SHOWN_MOVE:
            continue
        prior, now = Figure(None, None, None), Figure(None, None, None)
        if item.band is not None:
            ends = np.array([-1.0, 0.0, 1.0]) * ONE_SIDED_90_PERCENT
            prior = Figure(*(float(end) for end in item.band.at(np.asarray(ndtr(ends)))))
            now = figure(item.band.at(np.asarray(ndtr(row))))
        found.append(Unknown(key, item.label, _kind_of_input(key), prior, now, spread))
    return tuple(sorted(found, key=lambda unknown: unknown.width_ratio))


def _kind_of_input(key: str) -> str:
    """The kind of quantity of an input, by its key; a bench figure tells people only how it moved."""
    last = key.rpartition(".")[2]
    if last in ("height", "length", "water_level", "rim", "highest_point"):
        return "length"
    if key.startswith("bore of ") or last in ("bore", "barb_bore", "nozzle_bore", "throat"):
        return "bore"
    if last.endswith("_c"):
        return "temperature"
    if last.startswith("bench "):
        return RELATIVE
    if last in ("drop", "opens_at", "check_valve_opens_at"):
        return "pressure"
    return "angle" if last == "handle" else "number"


def _draws_share(scored: Scored) -> float | None:
    port, gas = scored.running.port, scored.gas
    if port is None or gas is None:
        return None
    atmosphere = scored.running.assembly.water.atmosphere_pa_abs
    moving = scored.running.solved & (port.flow_m3s > REST_FLOW_M3S)
    drawing = moving & np.asarray(draws_dry(port.port_pa_gauge + atmosphere, atmosphere, gas.opens_at_pa))
    return float(np.mean(drawing[1:]))


def _refuse_far(plant: Plant, readings: Mapping[str, Band], best: Array, errors: Array, before: Scored) -> None:
    """Raise for readings that even the best fit misses by far."""
    problems = []
    for index, (name, band) in enumerate(readings.items()):
        miss = abs(float(best[index]) - band.nominal)
        if np.isnan(miss) or miss > FAR_ERRORS * errors[index]:
            kind = kind_of(name)
            low, nominal, high = figure(before.readings[index]).ends
            missed = "" if np.isnan(miss) else f": the best fit misses it by {show(miss, kind, plant.units)}"
            problems.append(
                Problem(
                    f"[measured] {specs(Measured)[name].key}",
                    f"nothing that the file allows explains {show(band.nominal, kind, plant.units)}{missed}, and the "
                    f"file expects {show_range(low, nominal, high, kind, plant.units)}",
                    "a reading of this loop as the file describes it: read again, or mend the part that is wrong",
                )
            )
    if problems:
        raise InputError(problems)


def _notices(readings: Mapping[str, Band], best: Array, errors: Array, accepted_ratio: float) -> list[Notice]:
    found = []
    odd = [
        specs(Measured)[name].key
        for index, (name, band) in enumerate(readings.items())
        if abs(float(best[index]) - band.nominal) > ODD_ERRORS * errors[index]
    ]
    if odd:
        found.append(
            Notice(
                "reading-fits-badly",
                f"{', '.join(odd)}: the best fit misses the reading by more than its error allows. Read again, or look "
                "for a part that is not as the file says.",
            )
        )
    if accepted_ratio < LEAST_ACCEPTED_RATIO:
        found.append(Notice("fit-is-rough", "Few cases fit all readings together: the spreads of the fit are rough."))
    return found
