"""A loop as its file describes it, and whether two values of a file mean the same."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sanitize.basis.band import Band
from sanitize.basis.figure import Figure
from sanitize.basis.figure_words import figure
from sanitize.basis.notices import Notice
from sanitize.basis.units import KINDS, Family, show
from sanitize.plant.loop import Plant
from sanitize.plant.part import Part
from sanitize.plant.spec import Record, Spec, specs

AGREE_RATIO = 1e-9
"""How far two numbers may lie apart that were written in different units and mean the same."""


@dataclass(frozen=True)
class Described:
    """One file: its label and path, the loop, what stands in it by place and key, and what its reading left."""

    label: str
    path: str
    plant: Plant
    written: Mapping[tuple[str, str], str]
    notices: tuple[Notice, ...] = ()

    @property
    def named(self) -> frozenset[str]:
        """Names of parts that the file gives."""
        return frozenset(place for place, key in self.written if key == "name" and place and not place.startswith("["))


def fields_of(record: Record) -> dict[str, tuple[Spec, Any]]:
    """Key -> declaration and value, of every field of a record but a part's own name."""
    found = {spec.key: (spec, getattr(record, attribute)) for attribute, spec in specs(type(record)).items()}
    if isinstance(record, Part):
        found.pop("name", None)
    return found


def same(one: Any, other: Any) -> bool:
    """Whether two values of a field mean the same, whatever unit they were written in."""
    if isinstance(one, Band) and isinstance(other, Band):
        ends = zip((one.low, one.nominal, one.high), (other.low, other.nominal, other.high), strict=True)
        return one.scale == other.scale and all(same(a, b) for a, b in ends)
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=AGREE_RATIO, abs_tol=1e-15)
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(same(a, b) for a, b in zip(one, other, strict=True))
    return bool(one == other)


def meant_text(spec: Spec, value: Any, family: Family) -> str:
    """A value that does not stand in the file itself."""
    if value is None or value == ():
        return "not given"
    if isinstance(value, Band) and spec.kind in KINDS:
        taken = figure(Figure(value.low, value.nominal, value.high), spec.kind, family)
        return f"not given, {taken} is taken"
    if isinstance(value, float) and spec.kind in KINDS:
        return f"not given, {show(value, spec.kind, family)} is taken"
    if isinstance(value, Band):
        value = value.nominal
    plain = str(value).lower() if isinstance(value, bool) else f"{value:g}" if isinstance(value, float) else value
    return f"not given, {plain} is taken"
