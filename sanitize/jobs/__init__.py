"""One function for each question that a user asks: loop file, study and report in a row; no files, no screen."""

from sanitize.jobs.answers import (
    CLOUDY_CASES,
    DAY_CASES,
    FIT_CASES,
    MAX_AGE_DAYS,
    VIEWS,
    Form,
    HoursTable,
    Source,
    TextOrJson,
)
from sanitize.jobs.building import FitAnswer, bench, bench_procedure, first_wet, fit, parts
from sanitize.jobs.care import cloudy, cloudy_signs, dose, procedure, upkeep
from sanitize.jobs.draw import advice, comparison, faults, lasts, suction, throats
from sanitize.jobs.lookups import cautions, schema, starter_file, tables
from sanitize.jobs.running import day, hours, ozone
from sanitize.report.answer import Answer
from sanitize.report.pictures import PictureFormat, View
from sanitize.studies.draws import CASES, SEED

__all__ = [
    "CASES",
    "CLOUDY_CASES",
    "DAY_CASES",
    "FIT_CASES",
    "MAX_AGE_DAYS",
    "SEED",
    "VIEWS",
    "Answer",
    "FitAnswer",
    "Form",
    "HoursTable",
    "PictureFormat",
    "Source",
    "TextOrJson",
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
