"""A procedure with the figures of one tub."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.notices import Notice
from sanitize.basis.tables import Standing
from sanitize.basis.units import Family
from sanitize.studies.cautions.caution import Caution

Kind = Literal["first-fill", "after-lay-up", "biofilm-purge", "filter-soak", "vomit", "blood", "faeces"]


@dataclass(frozen=True)
class Action:
    """One step: what to do, how long before the next one, and what it rests on.

    wait_s: None where the next follows at once; source: a key of the table of sources, or empty.
    """

    text: str
    wait_s: float | None
    standing: Standing
    source: str


@dataclass(frozen=True)
class Procedure:
    """The steps of one procedure in the order of carrying out.

    when: what it is for; ask: who decides and whom to ask; back: when the tub may be used again, as an estimate.
    """

    title: str
    units: Family
    kind: Kind
    name: str
    when: str
    actions: tuple[Action, ...]
    back: str
    ask: str
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
