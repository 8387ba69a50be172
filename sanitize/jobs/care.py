"""The questions about the water: what to add, how often, what after an event, and why it is cloudy."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from sanitize.jobs.answers import CLOUDY_CASES, MAX_AGE_DAYS, Form, Source, TextOrJson, told
from sanitize.report.answer import Answer
from sanitize.report.pictures import PictureFormat
from sanitize.studies.draws import SEED

if TYPE_CHECKING:
    from sanitize.report.cloudy_talk import CloudyTalk
    from sanitize.studies.procedures.result import Kind


def dose(
    source: Source,
    *,
    today: date | None = None,
    max_age_days: float = MAX_AGE_DAYS,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """What to add to the water of a tub, how much, in which order.

    source: of the tub; today: day of the question, None where the age of the test does not
    matter; max_age_days: oldest test that is used; form: of the document; picture: the water against its
    targets, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.report.dosing import dosing_text
    from sanitize.report.dosing_record import dosing_csv, dosing_json
    from sanitize.report.dosing_warnings import dosing_warnings
    from sanitize.studies.dosing.study import study_dosing

    loaded = source.load()
    result = study_dosing(loaded.plant, today, max_age_days, loaded.notices)
    forms = {"text": dosing_text, "json": dosing_json, "csv": dosing_csv}
    severities = [*(one.severity for one in result.cautions), *(one.severity for one in result.conflicts)]
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import dosing_picture

        drawn = dosing_picture(result, picture)
    return Answer(forms[form](result), dosing_warnings(result), "danger" in severities, drawn)


def upkeep(
    source: Source,
    *,
    form: TextOrJson = "text",
) -> Answer:
    """How much of the sanitizer a tub uses up in a day, how often to add it, and when to drain.

    source: of the tub; form: of the document. Raises InputError.
    """
    from sanitize.report.upkeep import upkeep_json, upkeep_text
    from sanitize.studies.upkeep.study import study_upkeep

    loaded = source.load()
    result = study_upkeep(loaded.plant, notices=loaded.notices)
    document = upkeep_json(result) if form == "json" else upkeep_text(result)
    return told(document, result)


def procedure(
    source: Source,
    kind: "Kind",
    *,
    form: TextOrJson = "text",
) -> Answer:
    """The steps of a procedure of water care, with a tub's own figures.

    source: of the tub; kind: which procedure; form: of the document. Raises InputError.
    """
    from sanitize.report.procedure import procedure_json, procedure_text
    from sanitize.studies.procedures.study import study_procedure

    loaded = source.load()
    result = study_procedure(loaded.plant, kind, loaded.notices)
    document = procedure_json(result) if form == "json" else procedure_text(result)
    return told(document, result)


def cloudy(
    source: Source,
    *,
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

    source, seed: as `suction`; answers, judgement: path and text of a file of each;
    saw, not_seen, unsure: codes; runs: how long the pump runs each day, water_age: since the last fill, filter_age:
    since its cleaning, as texts; cases: of the judgement and, at least, of the loop.
    Raises InputError and NoSolutionError.
    """
    from sanitize.loopfile.cloudy_files import read_answers, read_duration_s, read_judgement, together
    from sanitize.plant.answers import Answers
    from sanitize.report.cloudy_talk import CloudyTalk, sign_words
    from sanitize.studies.cloudy.causes import NAMED
    from sanitize.studies.cloudy.prepared import prepare
    from sanitize.studies.cloudy.signs import EXCLUDE, NEEDS, SIGNS
    from sanitize.studies.cloudy.witness import Ages

    longest_s = 3650.0 * 86400.0
    given = Answers(tuple(saw), tuple(not_seen), tuple(unsure))
    found, own, runs_s, water_s, filter_s, loaded = together(
        lambda: read_answers(given, answers, sign_words(), EXCLUDE, NEEDS),
        lambda: None if judgement is None else read_judgement(*judgement, NAMED, list(SIGNS)),
        lambda: None if runs is None else read_duration_s("--runs", runs, "6 h", 86400.0),
        lambda: None if water_age is None else read_duration_s("--water-age", water_age, "20 days", longest_s),
        lambda: None if filter_age is None else read_duration_s("--filter-age", filter_age, "30 days", longest_s),
        source.load,
    )
    ages = Ages(runs_s, water_s, filter_s)
    ready = prepare(loaded.plant, cases, seed, own, ages, loaded.notices, readings_are_old=not loaded.has_new_readings)
    return CloudyTalk(ready, found)


def cloudy_signs() -> str:
    """Every observation that can be answered."""
    from sanitize.report.cloudy import signs_text

    return signs_text()
