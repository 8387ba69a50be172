"""One function for each question that a user asks: loop file, study and report in a row; no files, no screen."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING, Literal, get_args

from sanitize.report.pictures import PictureFormat, View
from sanitize.studies.draws import CASES, SEED

if TYPE_CHECKING:
    from sanitize.basis.errors import Problem
    from sanitize.basis.units import Family
    from sanitize.loopfile.files import Reader
    from sanitize.report.cloudy_talk import CloudyTalk
    from sanitize.studies.procedures.result import Kind

DAY_CASES = 128
"""Cases of a simulated day, each of which takes many days of steps."""
Form = Literal["text", "json", "csv"]
HoursTable = Literal["needs", "plan"]
__all__ = [
    "CASES",
    "CLOUDY_CASES",
    "DAY_CASES",
    "FIT_CASES",
    "MAX_AGE_DAYS",
    "SEED",
    "VIEWS",
    "Answer",
    "HoursTable",
    "PictureFormat",
    "Source",
    "View",
    "advice",
    "bench",
    "bench_procedure",
    "cautions",
    "cloudy",
    "cloudy_signs",
    "comparison",
    "day",
    "dose",
    "faults",
    "first_wet",
    "fit",
    "hours",
    "lasts",
    "ozone",
    "parts",
    "procedure",
    "schema",
    "starter_file",
    "suction",
    "tables",
    "throats",
    "upkeep",
]
FIT_CASES = 512
CLOUDY_CASES = 256
VIEWS: tuple[View, ...] = get_args(View)
MAX_AGE_DAYS = 3.0
"""Oldest water test that is used unless asked, in days (common practice)."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a question about a tub gives.

    document: the answer in the wanted form; warnings: for people, where they do not read the document itself;
    danger: whether a caution of the answer is a danger; picture: where one was wanted.
    """

    document: str
    warnings: str
    danger: bool
    picture: bytes | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """One loop file of several: its text, its path, settings of its own, and what these are called in messages."""

    text: str
    path: str
    settings: tuple[str, ...] = ()

    @property
    def called(self) -> str:
        """The path, with the settings of its own."""
        return f"{self.path} with {', '.join(self.settings)}" if self.settings else self.path


def suction(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    view: View = "elevation",
    picture: PictureFormat | None = None,
) -> Answer:
    """Will the injector of a loop file draw.

    text, path, reader, settings: as `loopfile.read.read_plant` takes them; cases, seed: of the draw;
    form: of the document; view, picture: what is drawn and how, where a picture is wanted.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report import record
    from sanitize.report.text import suction_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.suction.study import study_suction

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
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
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger, drawn)


def day(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    days: int | None = None,
    cases: int = DAY_CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """What a day's switch times bring in the water and the air of a loop file's tub.

    text, path, reader, settings, cases, seed: as `suction`; days: to simulate, None for as many as it takes until a
    day repeats itself; form: of the document; picture: the day drawn, where it is wanted.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.day import day_text
    from sanitize.report.day_record import day_csv, day_json
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.day.study import study_day

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_day(loaded.plant, cases, seed, days, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import day_picture

        drawn = day_picture(result, picture)
    forms = {"text": day_text, "json": day_json, "csv": day_csv}
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger, drawn)


def faults(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
) -> Answer:
    """What happens in a loop when one thing fails, fault by fault.

    text, path, reader, settings, cases, seed: as `suction`; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.faults import faults_csv, faults_json, faults_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.faults.study import study_faults

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_faults(loaded.plant, cases, seed, loaded.notices)
    forms = {"text": faults_text, "json": faults_json, "csv": faults_csv}
    return Answer(forms[form](result), warnings_text(result), result.is_dangerous)


def advice(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
) -> Answer:
    """What to change so that the injector of a loop draws, the best first.

    text, path, reader, settings, cases, seed: as `suction`; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.advice import advice_csv, advice_json, advice_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.advice.study import study_advice

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_advice(loaded.plant, cases, seed, loaded.notices)
    forms = {"text": advice_text, "json": advice_json, "csv": advice_csv}
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger)


def throats(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """Which throat the injector of a loop should have, and what it costs in water flow.

    text, path, reader, settings, seed: as `suction`; cases: at most as many as a throat needs; form: of the document;
    picture: the trade-off drawn, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.advice_throat import throats_csv, throats_json, throats_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.advice.throat_sizes import CASES as THROAT_CASES
    from sanitize.studies.advice.throat_sizes import study_throats

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_throats(loaded.plant, min(cases, THROAT_CASES), seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import throat_picture

        drawn = throat_picture(result, picture)
    forms = {"text": throats_text, "json": throats_json, "csv": throats_csv}
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger, drawn)


def lasts(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """How long a loop lasts between cleanings of its filter.

    text, path, reader, settings, seed: as `suction`; cases: at most as many as the study needs; form: of the document;
    picture: the days drawn, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.loading import lasts_csv, lasts_json, lasts_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.loading.study import CASES as LASTS_CASES
    from sanitize.studies.loading.study import study_lasts

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_lasts(loaded.plant, min(cases, LASTS_CASES), seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import lasts_picture

        drawn = lasts_picture(result, picture)
    forms = {"text": lasts_text, "json": lasts_json, "csv": lasts_csv}
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger, drawn)


def parts(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    form: Form = "text",
) -> Answer:
    """Do the parts of a loop file mate, and what to buy and cut.

    text, path, reader, settings: as `suction`; form: of the document. Raises InputError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.parts import parts_text
    from sanitize.report.parts_record import parts_csv, parts_json
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.shopping.study import study_parts

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_parts(loaded.plant, loaded.notices)
    forms = {"text": parts_text, "json": parts_json, "csv": parts_csv}
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger)


@dataclass(frozen=True, slots=True)
class FitAnswer(Answer):
    """An answer of a fit, with the loop file that carries it."""

    loop_file: str = ""


def fit(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    measured: tuple[str, str] | None = None,
    based_on: str = "",
    cases: int = FIT_CASES,
    seed: int = SEED,
    form: Literal["text", "json"] = "text",
) -> FitAnswer:
    """What readings teach about a loop.

    text, path, reader, settings, seed: as `suction`; measured: path and text of a file of readings; based_on: what the
    new loop file names as its base; cases: that explain the readings; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.fit import fit_json, fit_text, fitted_loop_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.fit.study import study_fit

    loaded = read_plant(text, path=path, overrides=settings, reader=reader, measured=measured)
    result = study_fit(loaded.plant, cases, seed, loaded.notices)
    document = fit_json(result) if form == "json" else fit_text(result)
    return FitAnswer(document, warnings_text(result), False, loop_file=fitted_loop_text(result, based_on))


def bench(
    text: str,
    *,
    path: str = "bench file",
    units: "Family | None" = None,
    seed: int = SEED,
    form: Literal["text", "json"] = "text",
) -> Answer:
    """What a pump and an injector on the bench give for a loop file.

    text, path: of the file with the readings; units: of the answer, else the file's; seed: of the draw; form: of the
    document. Raises InputError.
    """
    from sanitize.loopfile.bench_file import read_bench
    from sanitize.report.bench import bench_json, bench_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.bench.study import study_bench

    loaded = read_bench(text, path)
    result = study_bench(loaded.bench, units or loaded.units, seed=seed)
    document = bench_json(result) if form == "json" else bench_text(result)
    return Answer(document, warnings_text(result), False)


def bench_procedure() -> str:
    """How to measure a pump and an injector before gluing, and the file to fill in."""
    from sanitize.loopfile.bench_file import blank_bench
    from sanitize.report.bench import procedure_text

    return procedure_text(blank_bench())


def cloudy(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    measured: tuple[str, str] | None = None,
    saw: Sequence[str] = (),
    not_seen: Sequence[str] = (),
    unsure: Sequence[str] = (),
    answers: tuple[str, str] | None = None,
    judgement: tuple[str, str] | None = None,
    runs: str | None = None,
    water_age: str | None = None,
    filter_age: str | None = None,
    cases: int = CLOUDY_CASES,
    seed: int = SEED,
) -> "CloudyTalk":
    """What clouds the water of a loop: made ready for its answer, or for more questions.

    text, path, reader, settings, seed: as `suction`; measured, answers, judgement: path and text of a file of each;
    saw, not_seen, unsure: codes; runs: how long the pump runs each day, water_age: since the last fill, filter_age:
    since its cleaning, as texts; cases: of the judgement and, at least, of the loop.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.cloudy_files import read_answers, read_duration_s, read_judgement, together
    from sanitize.loopfile.read import read_plant
    from sanitize.plant.answers import Answers
    from sanitize.report.cloudy_talk import CloudyTalk, sign_words
    from sanitize.studies.cloudy.causes import NAMED
    from sanitize.studies.cloudy.signs import EXCLUDE, NEEDS, SIGNS
    from sanitize.studies.cloudy.study import prepare
    from sanitize.studies.cloudy.witness import Ages

    longest_s = 3650.0 * 86400.0
    given = Answers(tuple(saw), tuple(not_seen), tuple(unsure))
    found, own, runs_s, water_s, filter_s, loaded = together(
        lambda: read_answers(given, answers, sign_words(), EXCLUDE, NEEDS),
        lambda: None if judgement is None else read_judgement(*judgement, NAMED, list(SIGNS)),
        lambda: None if runs is None else read_duration_s("--runs", runs, "6 h", 86400.0),
        lambda: None if water_age is None else read_duration_s("--water-age", water_age, "20 days", longest_s),
        lambda: None if filter_age is None else read_duration_s("--filter-age", filter_age, "30 days", longest_s),
        lambda: read_plant(text, path=path, overrides=settings, reader=reader, measured=measured),
    )
    return CloudyTalk(prepare(loaded.plant, cases, seed, own, Ages(runs_s, water_s, filter_s), loaded.notices), found)


def cloudy_signs() -> str:
    """Every observation that can be answered."""
    from sanitize.report.cloudy import signs_text

    return signs_text()


def first_wet(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = FIT_CASES,
    seed: int = SEED,
    form: Literal["text", "json"] = "text",
) -> Answer:
    """What a loop should show when it is filled for the first time.

    text, path, reader, settings, seed: as `suction`; cases: drawn from the ranges; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.first_wet import first_wet_json, first_wet_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.first_wet.study import study_first_wet

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_first_wet(loaded.plant, cases, seed, loaded.notices)
    document = first_wet_json(result) if form == "json" else first_wet_text(result)
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(document, warnings_text(result), danger)


def hours(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    table: HoursTable = "needs",
    picture: PictureFormat | None = None,
) -> Answer:
    """How many hours a day must the pump of a loop run, which need decides, and when does the timer run it.

    text, path, reader, settings, cases, seed: as `suction`; form: of the document; table: what CSV holds; picture: of
    the timer's day.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.hours import hours_text
    from sanitize.report.hours_record import hours_csv, hours_json
    from sanitize.report.plan_record import plan_csv
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.hours.study import study_needs
    from sanitize.studies.timer.study import solve_plan

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_needs(loaded.plant, cases, seed, loaded.notices)
    plan = solve_plan(result.wishes, result.run_s.ends[1])
    if form == "csv":
        document = plan_csv(plan) if table == "plan" else hours_csv(result)
    else:
        document = hours_json(result, plan) if form == "json" else hours_text(result, plan)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import timer_picture

        drawn = timer_picture(result, plan, picture)
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(document, warnings_text(result), danger, drawn)


def dose(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    today: date | None = None,
    max_age_days: float = MAX_AGE_DAYS,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """What to add to the water of a tub, how much, in which order.

    text, path, reader, settings: as `suction`; today: day of the question, None where the age of the test does not
    matter; max_age_days: oldest test that is used; form: of the document; picture: the water against its
    targets, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.dosing import dosing_text
    from sanitize.report.dosing_record import dosing_csv, dosing_json
    from sanitize.report.dosing_warnings import dosing_warnings
    from sanitize.studies.dosing.study import study_dosing

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_dosing(loaded.plant, today, max_age_days, loaded.notices)
    forms = {"text": dosing_text, "json": dosing_json, "csv": dosing_csv}
    severities = [*(one.severity for one in result.cautions), *(one.severity for one in result.conflicts)]
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import dosing_picture

        drawn = dosing_picture(result, picture)
    return Answer(forms[form](result), dosing_warnings(result), "danger" in severities, drawn)


def comparison(
    sources: Sequence[Source],
    *,
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
) -> Answer:
    """What differs between loop files, and what it does.

    sources: two or more, the first is the one that the others are held against; settings: for all of them; reader,
    cases, seed, form: as `suction`. The answer is in the units of the first.
    Raises InputError, with the problems of all files, and NoSolutionError.
    """
    from sanitize.basis.errors import InputError, Problem
    from sanitize.loopfile.read import read_plant
    from sanitize.report.comparison import comparison_text, comparison_warnings
    from sanitize.report.comparison_record import comparison_csv, comparison_json
    from sanitize.studies.comparison.described import Described
    from sanitize.studies.comparison.study import study_comparison

    files: list[Described] = []
    problems: list[Problem] = []
    units: tuple[str, ...] = ()
    for number, source in enumerate(sources):
        try:
            overrides = (*settings, *source.settings, *units)
            loaded = read_plant(source.text, path=source.path, overrides=overrides, reader=reader)
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


def ozone(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """How much ozone dissolves, stays in the water and ends in the air that people breathe.

    text, path, reader, settings, cases, seed: as `suction`; form: of the document; picture: the air over what goes
    into it, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.ozone import ozone_text
    from sanitize.report.ozone_record import ozone_csv, ozone_json
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.ozone.study import study_ozone

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_ozone(loaded.plant, cases, seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import ozone_picture

        drawn = ozone_picture(result, picture)
    forms = {"text": ozone_text, "json": ozone_json, "csv": ozone_csv}
    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(forms[form](result), warnings_text(result), danger, drawn)


def upkeep(
    text: str,
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    form: Literal["text", "json"] = "text",
) -> Answer:
    """How much of the sanitizer a tub uses up in a day, how often to add it, and when to drain.

    text, path, reader, settings: as `suction`; form: of the document. Raises InputError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.upkeep import upkeep_json, upkeep_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.upkeep.study import study_upkeep

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_upkeep(loaded.plant, notices=loaded.notices)
    document = upkeep_json(result) if form == "json" else upkeep_text(result)
    return Answer(document, warnings_text(result), False)


def procedure(
    text: str,
    kind: "Kind",
    *,
    path: str = "loop file",
    reader: "Reader | None" = None,
    settings: Sequence[str] = (),
    form: Literal["text", "json"] = "text",
) -> Answer:
    """The steps of a procedure of water care, with a tub's own figures.

    text, path, reader, settings: as `suction`; kind: which procedure; form: of the document. Raises InputError.
    """
    from sanitize.loopfile.read import read_plant
    from sanitize.report.procedure import procedure_json, procedure_text
    from sanitize.report.warnings import warnings_text
    from sanitize.studies.procedures.study import study_procedure

    loaded = read_plant(text, path=path, overrides=settings, reader=reader)
    result = study_procedure(loaded.plant, kind, loaded.notices)
    document = procedure_json(result) if form == "json" else procedure_text(result)
    return Answer(document, warnings_text(result), False)


def starter_file() -> str:
    """A commented loop file to start from."""
    from sanitize.loopfile.starter import starter_file

    return starter_file()


def tables(name: str | None = None) -> str:
    """The list of the tables, or the rows of one; raises TableError where there is none of that name."""
    from sanitize.report.tables import tables_text

    return tables_text(name)


def cautions(units: "Family" = "metric") -> str:
    """Every caution that there is, in general words."""
    from sanitize.report.cautions import cautions_text

    return cautions_text(family=units)


def schema() -> str:
    """The JSON Schema of a loop file."""
    from sanitize.loopfile.schema import json_schema

    return json.dumps(json_schema(), indent=2, ensure_ascii=False) + "\n"
