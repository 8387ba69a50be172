"""The lines to cut: the file's pipe and hose, the nipples between sockets, and short pieces of hose."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sanitize.basis.figure import Figure
from sanitize.plant.loop import Plant
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.mating.made import Made
from sanitize.studies.mating.result import Piece
from sanitize.studies.mating.schedules import fitting_schedule
from sanitize.studies.shopping.buy import HOSE_PIECE, PIPE_NIPPLE, figure_of
from sanitize.studies.shopping.lengths import allowance, nipple_m, socket_depth_m
from sanitize.studies.shopping.result import CutLine


def cut_lines(plant: Plant, made: Sequence[Made]) -> tuple[CutLine, ...]:
    """Every piece to cut, those that are alike in one line: the file's own first, then what the joints need."""
    schedule = fitting_schedule(plant)
    own = [line for one in made for line in _own(one, schedule)]
    added = [
        _added(piece, schedule, f"{joint.first} and {joint.second}")
        for one in made
        for joint in one.joints
        for piece in joint.missing
        if piece.cut
    ]
    return (*own, *_summed(added))


def _own(one: Made, schedule: str) -> Iterator[CutLine]:
    for number, station in enumerate(one.row):
        part = station.part
        if isinstance(part, Pipe):
            length = figure_of(part.length_m)
            hidden_m = one.sockets_count(number) * socket_depth_m(schedule, part.size)
            yield CutLine("pipe", part.size, part.schedule, 1, length, _less(length, hidden_m), (part.name,))
        elif isinstance(part, Hose):
            length = figure_of(part.length_m)
            yield CutLine(part.word, part.size, "", 1, length, length, (part.name,))


def _less(length: Figure, hidden_m: float) -> Figure:
    low, nominal, high = (max(0.0, end_m - hidden_m) for end_m in length.ends)
    return Figure(low, nominal, high)


def _added(piece: Piece, schedule: str, place: str) -> CutLine:
    if piece.name == HOSE_PIECE:
        length = figure_of(allowance("hose_piece_m").band)
        return CutLine(piece.name, piece.size, "", 1, length, length, (place,))
    nothing = Figure(0.0, 0.0, 0.0)
    return CutLine(PIPE_NIPPLE, piece.size, schedule, 1, nipple_m(schedule, piece.size), nothing, (place,))


def _summed(lines: Sequence[CutLine]) -> Iterator[CutLine]:
    found: dict[tuple[str, str], CutLine] = {}
    for line in lines:
        key = (line.item, line.size)
        before = found.get(key)
        found[key] = (
            line if before is None else replace(before, count=before.count + 1, serves=(*before.serves, *line.serves))
        )
    yield from found.values()
