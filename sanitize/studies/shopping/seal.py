"""What seals the joints, by kind and size, and how deep pipe goes into fittings of those sizes."""

from collections.abc import Iterator, Sequence

from sanitize.basis.figure import Figure
from sanitize.basis.tables import Entry, model_table
from sanitize.studies.mating.result import Joint, Seal
from sanitize.studies.mating.rules import CEMENT, THREAD, sealants_of
from sanitize.studies.shopping.lengths import tape_m
from sanitize.studies.shopping.result import Depth, SealLine

_TAPE = "thread tape"


def seal_lines(joints: Sequence[Joint]) -> tuple[SealLine, ...]:
    """How many joints each sealant seals; a joint that the file leaves without one counts with the usual."""
    counted: dict[tuple[str, str, str], int] = {}
    for seal in _seals(joints):
        sealant = seal.sealant if seal.sealant in sealants_of(seal.kind) else sealants_of(seal.kind)[0]
        key = (sealant, seal.kind, seal.size)
        counted[key] = counted.get(key, 0) + 1
    return tuple(
        SealLine(sealant, kind, size, count, tape_m(size, count) if sealant == _TAPE else None)
        for (sealant, kind, size), count in counted.items()
    )


def depths_of(joints: Sequence[Joint], schedule: str) -> tuple[Depth, ...]:
    """The depths of the sockets and threads that this loop's joints have."""
    return tuple(_depths(joints, schedule))


def _depths(joints: Sequence[Joint], schedule: str) -> Iterator[Depth]:
    sizes = dict.fromkeys((seal.kind, seal.size) for seal in _seals(joints) if seal.kind in (CEMENT, THREAD))
    for kind, size in sizes:
        if kind == CEMENT:
            yield _depth(f"socket, Schedule {schedule}", size, model_table("socket_depths")[schedule, size])
        else:
            yield _depth("tapered thread of plastic", size, model_table("thread_lengths")["taken up", size])


def _depth(kind: str, size: str, entry: Entry) -> Depth:
    return Depth(kind, size, Figure(entry.low, entry.value, entry.high), entry.standing, entry.source)


def _seals(joints: Sequence[Joint]) -> Iterator[Seal]:
    for joint in joints:
        yield from joint.seals
