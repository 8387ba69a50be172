"""The questions about parts and readings: what to buy, what the bench, the first filling and readings tell."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sanitize.jobs.answers import FIT_CASES, Form, Source, TextOrJson, told
from sanitize.report.answer import Answer
from sanitize.studies.draws import SEED

if TYPE_CHECKING:
    from sanitize.basis.units import Family


def parts(
    source: Source,
    *,
    form: Form = "text",
) -> Answer:
    """Do the parts of a loop file mate, and what to buy and cut.

    source: of the tub; form: of the document. Raises InputError.
    """
    from sanitize.report.parts import parts_text
    from sanitize.report.parts_record import parts_csv, parts_json
    from sanitize.studies.shopping.study import study_parts

    loaded = source.load()
    result = study_parts(loaded.plant, loaded.notices)
    forms = {"text": parts_text, "json": parts_json, "csv": parts_csv}
    return told(forms[form](result), result)


@dataclass(frozen=True, slots=True)
class FitAnswer(Answer):
    """An answer of a fit, with the loop file that carries it."""

    loop_file: str = ""


def fit(
    source: Source,
    *,
    based_on: str = "",
    cases: int = FIT_CASES,
    seed: int = SEED,
    form: TextOrJson = "text",
) -> FitAnswer:
    """What readings teach about a loop.

    source, seed: as `suction`; based_on: what the new loop file names as its base; cases: that explain the readings;
    form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report.fit import fit_json, fit_text, fitted_loop_text
    from sanitize.studies.fit.study import study_fit

    loaded = source.load()
    result = study_fit(loaded.plant, cases, seed, loaded.notices)
    document = fit_json(result) if form == "json" else fit_text(result)
    answer = told(document, result)
    return FitAnswer(answer.document, answer.warnings, answer.danger, loop_file=fitted_loop_text(result, based_on))


def bench(
    text: str,
    *,
    path: str = "bench file",
    units: "Family | None" = None,
    seed: int = SEED,
    form: TextOrJson = "text",
) -> Answer:
    """What a pump and an injector on the bench give for a loop file.

    text, path: of the file with the readings; units: of the answer, else the file's; seed: of the draw; form: of the
    document. Raises InputError.
    """
    from sanitize.loopfile.bench_file import read_bench
    from sanitize.report.bench import bench_json, bench_text
    from sanitize.studies.bench.study import study_bench

    loaded = read_bench(text, path)
    result = study_bench(loaded.bench, units or loaded.units, seed=seed)
    document = bench_json(result) if form == "json" else bench_text(result)
    return told(document, result)


def bench_procedure() -> str:
    """How to measure a pump and an injector before gluing, and the file to fill in."""
    from sanitize.loopfile.bench_file import blank_bench
    from sanitize.report.bench import procedure_text

    return procedure_text(blank_bench())


def first_wet(
    source: Source,
    *,
    cases: int = FIT_CASES,
    seed: int = SEED,
    form: TextOrJson = "text",
) -> Answer:
    """What a loop should show when it is filled for the first time.

    source, seed: as `suction`; cases: drawn from the ranges; form: of the document.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report.first_wet import first_wet_json, first_wet_text
    from sanitize.studies.first_wet.study import study_first_wet

    loaded = source.load()
    result = study_first_wet(loaded.plant, cases, seed, loaded.notices)
    document = first_wet_json(result) if form == "json" else first_wet_text(result)
    return told(document, result)
