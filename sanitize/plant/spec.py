"""What one field of the loop file is: declared beside the record it fills, and nowhere else.

Checking, the starter file, the field list and the JSON Schema all read these declarations.
"""

from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict


@dataclass(frozen=True, slots=True)
class Spec:
    """One field of the loop file.

    key: the word in the file; kind: a kind of quantity of `basis.units`, or one of `text`, `word`, `count`, `number`,
    `flag`, `size`, `names`, `words`, `date`, `percent`, `pump points`, `day windows`,
    `day prices`, `drop points`, `ozone points`, `drop at flow`, `bench rows`,
    `keys`, `number rows`, `lift rows`, `column rows`;
    help: one sentence; example: the value as it would be written (TOML);
    low, high: limits in the unit inside, `above` excludes its end;
    required: whether it must be given; words: what a `word` may be, or each of `words`;
    tolerance: entry of the defaults table that a stated value carries as its range (a name in `_ratio` is relative);
    unknown: the three texts that stand in for "unknown" (low, nominal, high), or the one name of a defaults entry;
    from_water: heights stand in relative to the water level; scale: how the range is drawn;
    measure: how a person would measure it.
    """

    key: str
    kind: str
    help: str
    example: str
    low: float | None = None
    high: float | None = None
    above: float | None = None
    required: bool = False
    words: tuple[str, ...] = ()
    tolerance: str = ""
    unknown: tuple[str, ...] = ()
    from_water: bool = False
    scale: str = "linear"
    measure: str = ""


class Record(BaseModel):
    """A frozen record of something that the user owns."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)


def specs(record: type[Record]) -> dict[str, Spec]:
    """Attribute name -> declaration, for the fields of a record that come from the file."""
    found: dict[str, Spec] = {}
    for name, info in record.model_fields.items():
        for item in info.metadata:
            if isinstance(item, Spec):
                found[name] = item
    return found


def default_of(record: type[Record], attribute: str) -> Any:
    """The value that a record holds where the file says nothing."""
    return record.model_fields[attribute].get_default(call_default_factory=True)
