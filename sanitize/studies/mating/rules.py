"""The rules of the tables as the study asks for them."""

from dataclasses import dataclass
from functools import cache

from sanitize.basis.tables import Entry, model_table

NOTHING = "nothing"
UNKNOWN = "unknown"
CEMENT = "solvent cement"
THREAD = "thread sealant"
_PLUS = " + "


@dataclass(frozen=True, slots=True)
class MatingRule:
    """How two ends join, from the first to the second: the kinds of their joints, and the pieces in between."""

    joined_by: tuple[str, ...]
    missing: tuple[str, ...]
    entry: Entry


@cache
def _rules() -> dict[tuple[str, str], MatingRule]:
    found: dict[tuple[str, str], MatingRule] = {}
    for (one, other, joined_by, missing), entry in model_table("mating_rules").entries.items():
        joints = tuple(joined_by.split(_PLUS))
        pieces = () if missing == NOTHING else tuple(missing.split(_PLUS))
        found[one, other] = MatingRule(joints, pieces, entry)
        found[other, one] = MatingRule(joints[::-1], pieces[::-1], entry)
    return found


def mating_rule(one: str, other: str) -> MatingRule | None:
    """The rule for two ends in either order; None where one of them is unknown.

    >>> mating_rule("tapered female", "socket").missing
    ('male adapter', 'pipe nipple')
    """
    return _rules().get((one, other))


@dataclass(frozen=True, slots=True)
class Form:
    """One way in which a part is usually made."""

    inlet: str
    outlet: str
    material: str
    turnable: bool
    entry: Entry


@cache
def forms_of(word: str) -> tuple[Form, ...]:
    """The usual forms of a part, the likeliest first."""
    return tuple(
        Form(inlet, outlet, material, entry.value == 1.0, entry)
        for (part, inlet, outlet, material), entry in model_table("part_ends").entries.items()
        if part == word
    )


@cache
def sealants_of(kind: str) -> tuple[str, ...]:
    """What may seal a kind of joint, the usual first.

    >>> sealants_of("thread sealant")
    ('thread tape', 'thread paste')
    """
    return tuple(sealant for joint, sealant in model_table("joint_sealants").entries if joint == kind)


@cache
def comes_undone(kind: str) -> bool:
    """Whether a kind of joint is undone by hand."""
    table = model_table("joint_sealants")
    return table[kind, sealants_of(kind)[0]].value == 1.0


@cache
def _pieces() -> dict[str, tuple[bool, bool]]:
    entries = model_table("joint_pieces").entries.items()
    return {piece: (got == "cut", entry.value == 1.0) for (piece, got), entry in entries}


def is_cut(piece: str) -> bool:
    """Whether a missing piece is cut rather than bought."""
    return _pieces()[piece][0]


def has_two_sizes(piece: str) -> bool:
    """Whether a missing piece is sold with two sizes."""
    return _pieces()[piece][1]
