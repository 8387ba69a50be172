"""What a fit to readings gives."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.fitted import Fitted
from sanitize.studies.cautions.caution import Caution

RELATIVE = "relative"


@dataclass(frozen=True)
class Unknown:
    """One unknown of the loop before and after the readings, in its own unit; without range where it has no number.

    kind: of its quantity, `number` for a plain one, `relative` for one that is told over its nominal value before;
    width_ratio: spread after over before, in normal scores.
    """

    key: str
    label: str
    kind: str
    before: Figure
    after: Figure
    width_ratio: float


@dataclass(frozen=True)
class ReadingFit:
    """One reading beside what the loop file said it would be, and what it says after the fit.

    error: one standard error; miss_errors: measured less fitted, in standard errors.
    """

    reading: str
    kind: str
    measured: float
    error: float
    before: Figure
    after: Figure
    miss_errors: float


@dataclass(frozen=True)
class TakenAt:
    """A temperature that held while the readings were taken; error: one standard error."""

    reading: str
    kind: str
    measured: float
    error: float


@dataclass(frozen=True)
class Together:
    """Two unknowns that the readings tell only together, and the reading that would part them best.

    correlation_ratio: of their normal scores after the fit; parts_ratio: what that reading leaves of it.
    """

    first: str
    second: str
    correlation_ratio: float
    reading: str | None
    parts_ratio: float | None


@dataclass(frozen=True)
class Fit:
    """The fitted unknowns, how well they explain the readings, and what they could not tell.

    changes: keys that the written file must open, by part; draws_share_*_ratio: share of the cases that draw, None
    without an injector.
    """

    title: str
    units: Literal["metric", "us"]
    unknowns: tuple[Unknown, ...]
    untouched_count: int
    readings: tuple[ReadingFit, ...]
    taken_at: tuple[TakenAt, ...]
    together: tuple[Together, ...]
    fitted: Fitted
    changes: dict[str, dict[str, str]]
    draws_share_before_ratio: float | None
    draws_share_after_ratio: float | None
    cases_count: int
    seed: int
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
