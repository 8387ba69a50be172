"""A file of bench readings: text to the record, with every problem at once."""

from dataclasses import dataclass

from sanitize.basis.errors import InputError
from sanitize.basis.units import Family
from sanitize.loopfile.ask import Ask
from sanitize.loopfile.fields import read_field, read_fields
from sanitize.loopfile.files import check_format
from sanitize.loopfile.kinds_of_file import refuse_other_kind
from sanitize.loopfile.reading import Reading, in_order, table_place
from sanitize.loopfile.toml_text import load
from sanitize.loopfile.top_level import UNITS
from sanitize.loopfile.wording import listed, nearest, shown
from sanitize.plant.bench import Bench
from sanitize.plant.spec import specs

_KEYS = ("format", "units", "bench")


@dataclass(frozen=True, slots=True)
class LoadedBench:
    """The bench readings, and the units of the answers."""

    bench: Bench
    units: Family


def read_bench(text: str, path: str) -> LoadedBench:
    """The readings of a bench file; raises InputError with every problem of it."""
    raw = load(text, path)
    refuse_other_kind(raw, path, "a file of bench readings")
    reading = Reading()
    check_format(raw, "", reading, required=False)
    units: Family = "metric"
    if UNITS.key in raw:
        units = read_field(raw[UNITS.key], Ask(UNITS, UNITS.key, "the file", False, reading)) or units
    reading.family = units
    for key in raw:
        if key not in _KEYS:
            reading.problem(
                shown(key)[1:-1], "there is no such key in a bench file", listed(_KEYS), nearest(key, _KEYS)
            )
    table = raw.get("bench")
    if not isinstance(table, dict):
        found = "is missing" if table is None else f"{shown(table)} is no table"
        reading.problem("[bench]", found, "a table with what was read", "sanitize fit --bench, which shows one")
        raise InputError(in_order(reading.problems))
    fields = read_fields(Bench, table, table_place("bench", reading), "[bench]", reading)
    if reading.problems:
        raise InputError(in_order(reading.problems))
    return LoadedBench(Bench(**fields.values), units)


def blank_bench() -> str:
    """A bench file to fill in: every key with its help and an example."""
    lines = ["format = 1", 'units = "metric"            # of the answers: metric | us', "", "[bench]"]
    for spec in specs(Bench).values():
        lines += [f"# {spec.help}", f"{spec.key} = {spec.example}"]
    return "\n".join(lines) + "\n"
