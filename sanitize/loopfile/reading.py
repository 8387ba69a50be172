"""What is gathered while a loop file is read: its problems, its notices, and where each value came from."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from sanitize.basis.errors import Problem
from sanitize.basis.notices import Notice
from sanitize.basis.units import Family


@dataclass(slots=True)
class Reading:
    """The problems and notices so far, and what the reading of a field has to know about the file as a whole.

    origins: (place, key) -> the text by which messages name a value that stands elsewhere (another file, `--set`);
    files: the loop or a way -> the file that it stands in, where that is another one, as it begins a message;
    base_lost: whether a file that this one is based on could not be read, so that nothing is said to be missing;
    water_level_m: nominal height of the water, for heights that are unknown.
    """

    family: Family = "metric"
    water_level_m: float = 0.0
    problems: list[Problem] = field(default_factory=list)
    notices: list[Notice] = field(default_factory=list)
    origins: dict[tuple[str, str], str] = field(default_factory=dict)
    files: dict[str, str] = field(default_factory=dict)
    base_lost: bool = False
    _seen: set[Problem] = field(default_factory=set)

    def problem(self, where: str, found: str, accepted: str = "", write: str = "") -> None:
        """Note one problem, once."""
        problem = Problem(where, found, accepted, write)
        if problem not in self._seen:
            self._seen.add(problem)
            self.problems.append(problem)

    def notice(self, code: str, text: str) -> None:
        """Note one notice."""
        self.notices.append(Notice(code, text))


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Problems in the order of the file: what stands above the loop, the loop, the ways, the tables."""
    return sorted(problems, key=_order)


def _order(problem: Problem) -> tuple[int, int]:
    where = problem.where.rpartition(": ")[2]
    if where.startswith("loop"):
        number = re.match(r"loop\[(\d+)\]", where)
        return 1, int(number[1]) if number else 0
    return (2 if where.startswith("way") else 3 if where.startswith("[") else 0), 0


@dataclass(frozen=True, slots=True)
class Place:
    """A table or a part in messages: how it is called, and how its keys are."""

    label: str
    comma: str
    origins: Mapping[tuple[str, str], str]
    position: str

    def at(self, key: str) -> str:
        """A key of it, as messages name it."""
        return self.origins.get((self.position, key)) or f"{self.label}{self.comma}{key}"


def row_position(name: str, number: int) -> str:
    """A table in double brackets, by its number from 1, as origins and messages name it."""
    return f"{name}[{number}]"


def row_place(name: str, number: int, reading: Reading) -> Place:
    """The place of a table in double brackets."""
    position = row_position(name, number)
    return Place(f"[[{name}]] {number}", ", ", reading.origins, position)


def table_place(name: str, reading: Reading) -> Place:
    """The place of a table."""
    return Place(f"[{name}]", " ", reading.origins, name)
