"""The joints of a loop: what seals each, and which of them do not fit."""

from sanitize.basis.tables import model_table
from sanitize.studies.mating.layout import Ends, Station
from sanitize.studies.mating.pieces import REDUCER, pieces_between, sizes_between
from sanitize.studies.mating.result import Joint, Mismatch, Piece, Seal
from sanitize.studies.mating.rules import CEMENT, UNKNOWN, MatingRule, mating_rule, sealants_of

NO_SEALANT = "none"
PIECE_MISSING = "piece-missing"


def joint_between(first: Station, ends: Ends, second: Station, next_ends: Ends) -> Joint:
    """How two neighbours join, as they stand."""
    rule = mating_rule(ends.outlet, next_ends.inlet)
    before, behind = sizes_between(ends, next_ends)
    place = (_called(first), _called(second), ends.outlet, next_ends.inlet, before, behind)
    if rule is None:
        return Joint(*place, "not judged", (), (), "its ends are not known", "estimate", "")
    pieces = pieces_between(ends, next_ends)
    seals = _seals(rule, first, second, pieces, (before, behind))
    reason = rule.entry.note if rule.missing or before == behind else "the two have different trade sizes"
    verdict = "needs a piece" if pieces else "mates"
    return Joint(*place, verdict, pieces, seals, reason, rule.entry.standing, rule.entry.source)  # type: ignore[arg-type]


def _called(station: Station) -> str:
    return station.name if getattr(station.part, "count", 1) == 1 else f"{station.name} {station.number}"


def _seals(
    rule: MatingRule, first: Station, second: Station, pieces: tuple[Piece, ...], sizes: tuple[str, str]
) -> tuple[Seal, ...]:
    """Every joint between the two; a reducer that is added brings one more of the first's kind."""
    kinds = rule.joined_by
    if any(piece.name == REDUCER for piece in pieces):
        kinds = (kinds[0], *kinds)
    stated = (first.part.sealant, second.part.sealant)
    found = []
    for number, kind in enumerate(kinds):
        size = sizes[0] if number == 0 and len(kinds) > 1 else sizes[1]
        found.append(Seal(kind, _sealant(kind, stated), size))
    return tuple(found)


def _sealant(kind: str, stated: tuple[str | None, str | None]) -> str:
    """What the file states for a kind of joint, or that it states none, else the usual."""
    usual = sealants_of(kind)
    said = [sealant for sealant in stated if sealant is not None and (sealant in usual or sealant == NO_SEALANT)]
    return said[0] if said else usual[0]


def joint_problems(joint: Joint, first: Station, ends: Ends, second: Station, next_ends: Ends) -> list[Mismatch]:
    """What does not fit at one joint."""
    return [
        *_missing(joint),
        *_unsealed(joint),
        *_unbonded(joint, ((first, ends.material), (second, next_ends.material))),
    ]


def _missing(joint: Joint) -> list[Mismatch]:
    if not joint.missing:
        return []
    parts = (joint.first, joint.second)
    text = f"{joint.first} and {joint.second} do not mate: {missing_words(joint)}"
    return [Mismatch(PIECE_MISSING, parts, text, put_between(joint), joint.standing, joint.source)]


def missing_words(joint: Joint) -> str:
    """What meets at a joint, and why it does not mate, as a sentence without its capital."""
    ends = f"{end_words(joint.first_end, joint.first_size)} meets {end_words(joint.second_end, joint.second_size)}"
    return f"{ends}; {joint.reason}."


def put_between(joint: Joint) -> str:
    """What to put between two parts, in the order of the water."""
    return f"Put in between: {', '.join(piece_words(piece) for piece in joint.missing)}."


def _unsealed(joint: Joint) -> list[Mismatch]:
    found = []
    for kind in dict.fromkeys(seal.kind for seal in joint.seals if seal.sealant == NO_SEALANT):
        entry = model_table("joint_sealants")[kind, sealants_of(kind)[0]]
        text = f"{joint.first} and {joint.second} are joined without {kind}, by the file."
        action = f"Seal it with {' or '.join(sealants_of(kind))}."
        code = f"no-{kind.replace(' ', '-')}"
        found.append(Mismatch(code, (joint.first, joint.second), text, action, entry.standing, entry.source))
    return found


def _unbonded(joint: Joint, sides: tuple[tuple[Station, str], tuple[Station, str]]) -> list[Mismatch]:
    """Materials that solvent cement does not bond, on the side where it is asked to."""
    found = []
    touching = (joint.seals[0], joint.seals[-1]) if joint.seals else ()
    for seal, (station, material) in zip(touching, sides, strict=False):
        if seal.kind != CEMENT or material == UNKNOWN:
            continue
        entry = model_table("cement_bonds")[(material,)]
        if entry.value == 1.0:
            continue
        text = f"{station.name}, of {material}, would be joined with solvent cement for PVC: {entry.note}."
        action = "Join it by a barb and a clamp, by threads, or as the maker of the part says."
        found.append(Mismatch("cement-does-not-bond", (station.name,), text, action, entry.standing, entry.source))
    return found


def sealant_problems(station: Station, joints: tuple[Joint, ...]) -> list[Mismatch]:
    """A sealant that the file states for a part none of whose joints it can seal."""
    sealant = station.part.sealant
    if sealant is None or sealant == NO_SEALANT or not joints:
        return []
    kinds = tuple(dict.fromkeys(seal.kind for joint in joints for seal in joint.seals))
    if not kinds or any(sealant in sealants_of(kind) for kind in kinds):
        return []
    entry = model_table("joint_sealants")[kinds[0], sealants_of(kinds[0])[0]]
    text = f"{sealant} seals none of the joints of {station.name} ({' and '.join(kinds)})."
    reasons = dict.fromkeys(joint.reason for joint in joints)
    action = f"Use {' and '.join(sealants_of(kind)[0] for kind in kinds)}: {'; '.join(reasons)}."
    return [Mismatch("sealant-does-not-seal", (station.name,), text, action, entry.standing, entry.source)]


def end_words(end: str, size: str) -> str:
    """An end in a sentence.

    >>> end_words("tapered male", "3/4"), end_words("hose end", "1")
    ('a tapered male thread of 3/4 in', 'a hose end of 1 in')
    """
    noun = f"{end} thread" if end.startswith("tapered") else end
    return f"{'an' if noun[0] in 'aeio' else 'a'} {noun} of {size} in"


def piece_words(piece: Piece) -> str:
    """A missing piece in a sentence.

    >>> piece_words(Piece("reducer", "1", "3/4", False))
    'reducer (1 in to 3/4 in)'
    """
    return f"{piece.name} ({piece.size} in{f' to {piece.to_size} in' if piece.to_size else ''})"
