"""What every job gives and takes, and how many cases it draws unless asked."""

from dataclasses import dataclass
from typing import Literal, get_args

from sanitize.report.pictures import View

DAY_CASES = 128
"""Cases of a simulated day, each of which takes many days of steps."""
Form = Literal["text", "json", "csv"]
HoursTable = Literal["needs", "plan"]
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
