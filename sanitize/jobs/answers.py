"""What every job takes and gives, and how many cases it draws unless asked."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal, get_args

from sanitize.report.answer import Answer
from sanitize.report.pictures import View
from sanitize.studies.draws import NOMINAL_ALONE

if TYPE_CHECKING:
    from sanitize.loopfile.files import Reader
    from sanitize.loopfile.read import LoadedPlant
    from sanitize.report.warnings import Warned

DAY_CASES = 128
"""Cases of a simulated day, each of which takes many days of steps."""
Form = Literal["text", "json", "csv"]
TextOrJson = Literal["text", "json"]
HoursTable = Literal["needs", "plan"]
FIT_CASES = 512
CLOUDY_CASES = 256
VIEWS: tuple[View, ...] = get_args(View)
MAX_AGE_DAYS = 3.0
"""Oldest water test that is used unless asked, in days (common practice)."""


@dataclass(frozen=True, slots=True)
class Source:
    """The loop file that a question is about.

    text: of the file; path: its own, for messages and for the files that it names; settings: other values for some
    fields, such as "return hose.length=2 m"; reader: gives the text of another file by its path; measured: path and
    text of a file of readings.
    """

    text: str
    path: str = "loop file"
    settings: tuple[str, ...] = ()
    reader: "Reader | None" = None
    measured: tuple[str, str] | None = None

    @property
    def called(self) -> str:
        """The path, with the settings."""
        return f"{self.path} with {', '.join(self.settings)}" if self.settings else self.path

    def load(self, *more: str, cases: int | None = None) -> "LoadedPlant":
        """What the file describes; more: settings besides its own; cases: that will be drawn, where any may be.

        With no case drawn a notice says what the answer then cannot show. Raises InputError with every problem.
        """
        from sanitize.loopfile.read import read_plant

        loaded = read_plant(
            self.text,
            path=self.path,
            overrides=(*more, *self.settings),
            reader=self.reader,
            measured=self.measured,
        )
        return replace(loaded, notices=(*loaded.notices, NOMINAL_ALONE)) if cases == 0 else loaded


def told(document: str, result: "Warned", picture: bytes | None = None) -> Answer:
    """The answer that a document gives, with the warnings and the dangers of its result."""
    from sanitize.report.warnings import warnings_text

    danger = any(caution.severity == "danger" for caution in result.cautions)
    return Answer(document, warnings_text(result), danger, picture)
