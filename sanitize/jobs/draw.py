"""The questions about the injector: whether it draws, what fails, what to change, how long it lasts."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from sanitize.jobs.answers import Form, Source, told
from sanitize.report.answer import Answer
from sanitize.report.pictures import PictureFormat, View
from sanitize.studies.draws import CASES, SEED

if TYPE_CHECKING:
    from sanitize.basis.errors import Problem


def suction(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    view: View = "elevation",
    picture: PictureFormat | None = None,
) -> Answer:
    """Will the injector of a loop file draw.

    source: the loop file; cases, seed: of the draw; form: of the document; view, picture: what is drawn and how, where
    a picture is wanted.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report import record
    from sanitize.report.text import suction_text
    from sanitize.studies.suction.study import study_suction

    loaded = source.load(cases=cases)
    result = study_suction(loaded.plant, cases, seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import gas_picture, suction_picture

        if view == "gas":
            from sanitize.studies.suction.gas_sweep import CASES as SWEEP_CASES
            from sanitize.studies.suction.gas_sweep import study_gas_sweep

            drawn = gas_picture(study_gas_sweep(loaded.plant, min(cases, SWEEP_CASES), seed), picture)
        else:
            drawn = suction_picture(result, loaded.plant, view, picture)
    forms = {"text": suction_text, "json": record.suction_json, "csv": record.suction_csv}
    return told(forms[form](result), result, drawn)


def faults(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
) -> Answer:
    """What happens in a loop when one thing fails, fault by fault.

    source, cases, seed: as `suction`; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report.faults import faults_csv, faults_json, faults_text
    from sanitize.studies.faults.study import study_faults

    loaded = source.load(cases=cases)
    result = study_faults(loaded.plant, cases, seed, loaded.notices)
    forms = {"text": faults_text, "json": faults_json, "csv": faults_csv}
    return told(forms[form](result), result)


def advice(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
) -> Answer:
    """What to change so that the injector of a loop draws, the best first.

    source, cases, seed: as `suction`; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report.advice import advice_csv, advice_json, advice_text
    from sanitize.studies.advice.study import study_advice

    loaded = source.load(cases=cases)
    result = study_advice(loaded.plant, cases, seed, loaded.notices)
    forms = {"text": advice_text, "json": advice_json, "csv": advice_csv}
    return told(forms[form](result), result)


def throats(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """Which throat the injector of a loop should have, and what it costs in water flow.

    source, seed: as `suction`; cases: at most as many as a throat needs; form: of the document;
    picture: the trade-off drawn, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.report.advice_throat import throats_csv, throats_json, throats_text
    from sanitize.studies.advice.throat_sizes import CASES as THROAT_CASES
    from sanitize.studies.advice.throat_sizes import study_throats

    loaded = source.load(cases=cases)
    result = study_throats(loaded.plant, min(cases, THROAT_CASES), seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import throat_picture

        drawn = throat_picture(result, picture)
    forms = {"text": throats_text, "json": throats_json, "csv": throats_csv}
    return told(forms[form](result), result, drawn)


def lasts(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """How long a loop lasts between cleanings of its filter.

    source, seed: as `suction`; cases: at most as many as the study needs; form: of the document;
    picture: the days drawn, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.report.loading import lasts_csv, lasts_json, lasts_text
    from sanitize.studies.loading.study import CASES as LASTS_CASES
    from sanitize.studies.loading.study import study_lasts

    loaded = source.load(cases=cases)
    result = study_lasts(loaded.plant, min(cases, LASTS_CASES), seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import lasts_picture

        drawn = lasts_picture(result, picture)
    forms = {"text": lasts_text, "json": lasts_json, "csv": lasts_csv}
    return told(forms[form](result), result, drawn)


def _label(number: int) -> str:
    """A to Z, then AA and on.

    >>> _label(0), _label(25), _label(26)
    ('A', 'Z', 'AA')
    """
    return (_label(number // 26 - 1) if number >= 26 else "") + chr(ord("A") + number % 26)


def _of_source(problem: "Problem", source: Source) -> "Problem":
    """A problem that says which of several files it is about."""
    from sanitize.loopfile.wording import quoted

    where, write = problem.where, problem.write
    if where in {f"--set {quoted(setting)}" for setting in source.settings}:
        where, write = (text.replace("--set ", "--with ", 1) for text in (where, write))
    where = where if where.startswith(source.path) else f"{source.path}: {where}"
    return replace(problem, where=where, write=write)


def comparison(
    sources: Sequence[Source],
    *,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
) -> Answer:
    """What differs between loop files, and what it does.

    sources: two or more, the first is the one that the others are held against; settings: for all of them; cases,
    seed, form: as `suction`. The answer is in the units of the first.
    Raises InputError, with the problems of all files, and NoSolutionError.
    """
    from sanitize.basis.errors import InputError, Problem
    from sanitize.report.comparison import comparison_text, comparison_warnings
    from sanitize.report.comparison_record import comparison_csv, comparison_json
    from sanitize.studies.comparison.described import Described
    from sanitize.studies.comparison.study import study_comparison

    files: list[Described] = []
    problems: list[Problem] = []
    units: tuple[str, ...] = ()
    for number, source in enumerate(sources):
        try:
            loaded = source.load(*settings, *units, cases=cases)
        except InputError as error:
            problems += [_of_source(problem, source) for problem in error.problems]
            continue
        units = units or (f"units={loaded.plant.units}",)
        files.append(Described(_label(number), source.called, loaded.plant, loaded.written, loaded.notices))
    if problems:
        raise InputError(list(dict.fromkeys(problems)))
    result = study_comparison(files, cases, seed)
    forms = {"text": comparison_text, "json": comparison_json, "csv": comparison_csv}
    danger = any(item.caution.severity == "danger" for item in result.cautions)
    return Answer(forms[form](result), comparison_warnings(result), danger)
