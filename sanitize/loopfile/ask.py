"""One field that is being read: its declaration, where it stands, and whether the record wants a range."""

import math
from dataclasses import dataclass

from sanitize.basis.units import KINDS, Family, accepted_units, show
from sanitize.loopfile.reading import Reading
from sanitize.plant.spec import Spec


@dataclass(frozen=True, slots=True)
class Ask:
    """What is asked of one value in the file.

    where: as messages name it; owner: the word of the part or the name of the table that it belongs to;
    band: whether the record holds it with its range.
    """

    spec: Spec
    where: str
    owner: str
    band: bool
    reading: Reading

    def wrong(self, found: str, accepted: str = "", write: str = "") -> None:
        """Note a problem of this field; says what to write by the example where nothing better is known."""
        self.reading.problem(self.where, found, accepted or self.accepted(), write or self.line(self.spec.example))

    def line(self, value: str) -> str:
        """The line of the file that would give the field that value."""
        return f"{self.spec.key} = {value}"

    def accepted(self) -> str:
        """What may stand in the field."""
        spec = self.spec
        if spec.kind in KINDS:
            text = f"{article(spec.kind)} in quotes with its unit ({accepted_units(spec.kind)})"
            return text + (' or "unknown"' if spec.unknown else "")
        text = _ACCEPTED.get(spec.kind, "") or f"a {spec.kind}"
        return text + (', or "unknown"' if spec.unknown else "")

    def outside(self, value: float) -> bool:
        """Whether a value in the unit inside breaks the limits."""
        return not within(self.spec, value)

    def wrong_limits(self, found: str) -> None:
        """Note that a value breaks the limits."""
        self.wrong(f"{found} lies outside the limits", limits_text(self.spec, self.reading.family))


_ACCEPTED = {
    "text": "text in quotes",
    "count": "a whole number without quotes",
    "number": "a number without quotes and unit",
    "flag": "true or false, without quotes",
    "names": "a list of at least two different names in quotes",
    "words": "a list of its words in quotes",
    "date": "a date as year, month and day",
    "percent": "a number of percent, without quotes and unit",
    "pump points": "a list of pairs of flow and head, each in quotes with its unit",
    "ozone points": "a list of pairs of gas flow and output, each in quotes with its unit",
    "drop points": "a list of at least two pairs of flow and pressure drop, each in quotes with its unit",
    "drop at flow": "a pair of pressure difference and flow, each in quotes with its unit",
    "lift rows": "a list of at least three pairs of height and flow, each in quotes with its unit",
    "column rows": "a list of rows of flow and two heights of water, each in quotes with its unit",
    "keys": "a list of different names in quotes",
    "number rows": "a list of rows of plain numbers",
    "bench rows": "a list of rows of flow, inlet pressure, outlet pressure and vacuum, each in quotes with its unit",
}


def article(noun: str) -> str:
    """A noun with a or an."""
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def within(spec: Spec, value: float) -> bool:
    """Whether a value keeps the limits of its declaration."""
    return (
        math.isfinite(value)
        and (spec.low is None or value >= spec.low)
        and (spec.above is None or value > spec.above)
        and (spec.high is None or value <= spec.high)
    )


def limits_text(spec: Spec, family: Family) -> str:
    """The limits of a declaration in words, in the units of the answers."""
    parts = []
    if spec.above is not None:
        parts.append(f"above {_limit(spec.above, spec.kind, family)}")
    elif spec.low is not None:
        parts.append(f"at least {_limit(spec.low, spec.kind, family)}")
    if spec.high is not None:
        parts.append(f"at most {_limit(spec.high, spec.kind, family)}")
    return " and ".join(parts)


def _limit(value: float, kind: str, family: Family) -> str:
    if kind not in KINDS:
        return f"{value:g}"
    number, unit = show(value, kind, family, 3).split(" ", 1)
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} {unit}"
