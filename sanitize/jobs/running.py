"""The questions about the day: run hours, ozone, and a simulated day."""

from sanitize.jobs.answers import DAY_CASES, Form, HoursTable, Source, told
from sanitize.report.answer import Answer
from sanitize.report.pictures import PictureFormat
from sanitize.studies.draws import CASES, SEED


def hours(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    table: HoursTable = "needs",
    picture: PictureFormat | None = None,
) -> Answer:
    """How many hours a day must the pump of a loop run, which need decides, and when does the timer run it.

    source, cases, seed: as `suction`; form: of the document; table: what CSV holds; picture: of
    the timer's day.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report.hours import hours_text
    from sanitize.report.hours_record import hours_csv, hours_json
    from sanitize.report.plan_record import plan_csv
    from sanitize.studies.hours.study import study_needs
    from sanitize.studies.timer.study import solve_plan

    loaded = source.load(cases=cases)
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
    return told(document, result, drawn)


def ozone(
    source: Source,
    *,
    cases: int = CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """How much ozone dissolves, stays in the water and ends in the air that people breathe.

    source, cases, seed: as `suction`; form: of the document; picture: the air over what goes
    into it, where it is wanted. Raises InputError and NoSolutionError.
    """
    from sanitize.report.ozone import ozone_text
    from sanitize.report.ozone_record import ozone_csv, ozone_json
    from sanitize.studies.ozone.study import study_ozone

    loaded = source.load(cases=cases)
    result = study_ozone(loaded.plant, cases, seed, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import ozone_picture

        drawn = ozone_picture(result, picture)
    forms = {"text": ozone_text, "json": ozone_json, "csv": ozone_csv}
    return told(forms[form](result), result, drawn)


def day(
    source: Source,
    *,
    days: int | None = None,
    cases: int = DAY_CASES,
    seed: int = SEED,
    form: Form = "text",
    picture: PictureFormat | None = None,
) -> Answer:
    """What a day's switch times bring in the water and the air of a loop file's tub.

    source, cases, seed: as `suction`; days: to simulate, None for as many as it takes until a
    day repeats itself; form: of the document; picture: the day drawn, where it is wanted.
    Raises InputError and NoSolutionError.
    """
    from sanitize.report.day import day_text
    from sanitize.report.day_record import day_csv, day_json
    from sanitize.studies.day.study import study_day

    loaded = source.load(cases=cases)
    result = study_day(loaded.plant, cases, seed, days, loaded.notices)
    drawn = None
    if picture is not None:
        from sanitize.report.pictures import day_picture

        drawn = day_picture(result, picture)
    forms = {"text": day_text, "json": day_json, "csv": day_csv}
    return told(forms[form](result), result, drawn)
