"""Numbers behind the run time: the file's where it states them, else the tables', with where they come from."""

from dataclasses import dataclass

from sanitize.basis.band import Band
from sanitize.basis.tables import Entry, model_table
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.result import NeedStanding


@dataclass(frozen=True, eq=False)
class Number:
    """A number over the cases, with its source and standing."""

    values: Array
    source: str
    standing: NeedStanding

    @property
    def nominal(self) -> float:
        """In the nominal case."""
        return float(self.values[0])


def hours_entry(name: str) -> Entry:
    """A row of the table behind the run time."""
    return model_table("hours_numbers")[(name,)]


def heat_entry(name: str) -> Entry:
    """A row of the table behind the heat of a tub."""
    return model_table("heat_numbers")[(name,)]


def number(draws: Draws, stated: float | None, name: str, label: str, measure: str = "") -> Number:
    """What the file states, or the row of the table behind the run time that stands in for it."""
    return _number(draws, stated, name, hours_entry(name), label, measure)


def heat_number(draws: Draws, stated: float | None, name: str, label: str, measure: str = "") -> Number:
    """The same from the table behind the heat of a tub."""
    return _number(draws, stated, name, heat_entry(name), label, measure)


def _number(draws: Draws, stated: float | None, name: str, entry: Entry, label: str, measure: str) -> Number:
    if stated is not None:
        return Number(draws.value(name, Band.exact(stated)), "", "stated")
    return Number(draws.value(name, entry.band, label, measure), entry.source, entry.standing)
