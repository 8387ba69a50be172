"""Loops side by side: what differs in their files, and what it does."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.errors import InputError, NoSolutionError
from sanitize.basis.notices import Notice
from sanitize.studies.advice.tried import Glance, glance
from sanitize.studies.comparison.described import Described
from sanitize.studies.comparison.differences import Matched, differences, matched
from sanitize.studies.comparison.measures import MEASURES, changes, draws_change, measured_over_cases
from sanitize.studies.comparison.result import Comparison, FileAnswer, Measure, NoticeOf
from sanitize.studies.comparison.told import cautions_of, hazards_of, notices_of, states_of
from sanitize.studies.draws import CASES, SEED, Array
from sanitize.studies.faults.result import Faults
from sanitize.studies.faults.study import study_faults
from sanitize.studies.operating_point.run import refuse_without_injector
from sanitize.studies.suction.readings import Narrowed, narrowed
from sanitize.studies.suction.result import Suction
from sanitize.studies.suction.study import study_suction

FAULT_CASES = 256
"""Cases at most with which every fault is solved."""


@dataclass(frozen=True, eq=False)
class _Seen:
    """One loop solved; shared: over the cases of the first file."""

    answer: Suction
    glance: Glance
    measures: dict[str, Array]
    shared: bool


def study_comparison(files: Sequence[Described], cases: int = CASES, seed: int = SEED) -> Comparison:
    """What differs between two or more loops, and what it does.

    files: the first is the one that the others are held against; cases: a power of two or 0; seed: of the draw.
    All are solved over the same cases, so that what they share cancels in the differences. Readings of the first file
    narrow the cases of the others too, unless these have readings of their own.
    Raises InputError and NoSolutionError, with the path of the file.
    """
    if len(files) < 2:
        raise ValueError("a comparison takes two loops or more")
    found = matched(files)
    told = differences(found)
    seen = _solved(found, cases, seed)
    faults = _faults(found, min(cases, FAULT_CASES), seed)
    first = seen[0]
    apart = [_order(one, cases, seed) for one in seen]
    against = [
        changes(
            first.measures, {name: values if order is None else values[order] for name, values in one.measures.items()}
        )
        for one, order in zip(seen[1:], apart[1:], strict=True)
    ]
    labels = [file.label for file in files]
    answers = [one.answer for one in seen]
    return Comparison(
        units=files[0].plant.units,
        cases_count=cases,
        seed=seed,
        files=tuple(
            FileAnswer(
                label=file.label,
                path=file.path,
                title=file.plant.title,
                verdict=one.answer.verdict,
                draws_share_ratio=one.answer.draws_share_ratio,
                draws_change=None if one is first else draws_change(first.glance, one.glance, order),
                why=one.answer.why,
                same_cases=one.shared,
            )
            for file, one, order in zip(files, seen, apart, strict=True)
        ),
        differences=told,
        measures=tuple(
            Measure(
                name,
                tuple(getattr(answer, name) for answer in answers),
                tuple(one[name] for one in against),
            )
            for name in MEASURES
        ),
        states=states_of(answers),
        hazards=hazards_of(faults),
        fault_cases_count=min(cases, FAULT_CASES),
        cautions=cautions_of(labels, answers),
        notices=(*notices_of(labels, answers), *_about_readings(files, seen, bool(told))),
    )


def _solved(found: Matched, cases: int, seed: int) -> list[_Seen]:
    seen: list[_Seen] = []
    base: Narrowed | None = None
    for number, file in enumerate(found.files):
        with _naming(file):
            refuse_without_injector(file.plant)
            shared = number == 0 or not _has_own_readings(file, found.files[0])
            known = narrowed(file.plant, cases, seed) if base is None or not shared else _continued(base, found, number)
            base = base or known
            answer = study_suction(file.plant, cases, seed, file.notices, known)
            view = glance(file.plant, known[0])
            seen.append(_Seen(answer, view, measured_over_cases(view), shared))
    return seen


def _faults(found: Matched, cases: int, seed: int) -> list[Faults]:
    answers = []
    base: Narrowed | None = None
    for number, file in enumerate(found.files):
        with _naming(file):
            shared = number == 0 or not _has_own_readings(file, found.files[0])
            known = narrowed(file.plant, cases, seed) if base is None or not shared else _continued(base, found, number)
            base = base or known
            answers.append(study_faults(file.plant, cases, seed, known=known))
    return answers


def _continued(base: Narrowed, found: Matched, number: int) -> Narrowed:
    """The cases of the first file for another one."""
    return base[0].continued(found.renamed(number)).opened(), None, []


def _has_own_readings(file: Described, first: Described) -> bool:
    own, of_first = ((one.plant.measured, one.plant.fitted) for one in (file, first))
    return own not in ((None, None), of_first)


def _order(one: _Seen, cases: int, seed: int) -> NDArray[np.intp] | None:
    """For cases that are not those of the first file: any order, so that nothing seems to belong together."""
    if one.shared:
        return None
    return np.concatenate([[0], 1 + np.random.default_rng(seed).permutation(cases)]).astype(np.intp)


@contextmanager
def _naming(file: Described) -> Iterator[None]:
    """Errors that say which file they are about."""
    try:
        yield
    except InputError as error:
        problems = [replace(problem, where=f"{file.path}: {problem.where}") for problem in error.problems]
        raise InputError(problems) from error
    except NoSolutionError as error:
        raise NoSolutionError(f"{file.path}: {error}") from error


def _about_readings(files: Sequence[Described], seen: Sequence[_Seen], differ: bool) -> Iterator[NoticeOf]:
    if (files[0].plant.measured is not None or files[0].plant.fitted is not None) and differ:
        others = tuple(file.label for file, one in zip(files[1:], seen[1:], strict=True) if one.shared)
        if others:
            text = (
                f"The readings in [measured] or [fitted] are taken as readings of {files[0].label}; they narrow the "
                f"cases of {', '.join(others)} too."
            )
            yield NoticeOf(others, Notice("readings-of-the-first-file", text))
    apart = tuple(file.label for file, one in zip(files, seen, strict=True) if not one.shared)
    if apart:
        text = (
            f"{', '.join(apart)}: with readings of its own it has cases of its own, so that nothing cancels in the "
            f"differences against {files[0].label}: their ranges are wide."
        )
        yield NoticeOf(apart, Notice("cases-not-shared", text))
