"""The questions about parts and readings: what to buy, what the bench, the first filling and readings tell."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from sanitize.jobs.answers import FIT_CASES, Answer, Form
from sanitize.studies.draws import SEED

if TYPE_CHECKING:
    from sanitize.basis.units import Family
    from sanitize.loopfile.files import Reader


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
