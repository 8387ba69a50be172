"""The lines to buy: parts that the file names, pieces that its joints need, and what is sold by length."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sanitize.basis.band import Band
from sanitize.basis.figure import Figure
from sanitize.plant.loop import Plant
from sanitize.plant.pipework import Hose, KnownDrop, KnownLoss, Pipe, Reducer
from sanitize.studies.mating.layout import Ends, Station
from sanitize.studies.mating.made import Made
from sanitize.studies.mating.result import Joint
from sanitize.studies.mating.rules import UNKNOWN
from sanitize.studies.shopping.lengths import ENDS, with_saw_cuts, with_trimming
from sanitize.studies.shopping.result import BuyLine, CutLine

_TUBE_SIZES = ("3/8", "5/8")
HOSE_PIECE, PIPE_NIPPLE = "piece of hose", "pipe nipple"


def buy_lines(plant: Plant, made: Sequence[Made], cut: Sequence[CutLine]) -> tuple[BuyLine, ...]:
    """Everything to buy: first the parts of the file in their order, then missing pieces, then lengths, then gas."""
    singles = [*_parts(made), *_pieces(joint for one in made for joint in one.joints)]
    return (*_summed(singles), *_lengths(cut), *_gas_side(plant))


def stations_of(made: Sequence[Made]) -> Iterator[tuple[Station, Ends]]:
    """Every station once, though a tee stands in several rows."""
    seen = set()
    for one in made:
        for station, ends in zip(one.row, one.ends, strict=True):
            if (station.name, station.number) not in seen:
                seen.add((station.name, station.number))
                yield station, ends


def _parts(made: Sequence[Made]) -> Iterator[BuyLine]:
    for station, ends in stations_of(made):
        part = station.part
        if isinstance(part, Pipe | Hose):
            continue
        to_size = part.to_size if isinstance(part, Reducer) else ""
        item = "tee" if station.word == "tee" else part.name if isinstance(part, KnownDrop | KnownLoss) else part.word
        yield BuyLine(item, part.size, to_size, ends_words(ends), None, 1, 0, None, (station.name,))


def ends_words(ends: Ends) -> str:
    """Both ends of a part in a line.

    >>> ends_words(Ends("spigot", "socket", "1", "3/4", "PVC"))
    'spigot to socket'
    >>> ends_words(Ends("socket", "socket", "1", "1", "PVC"))
    'socket, both ends'
    """
    if UNKNOWN in (ends.inlet, ends.outlet):
        return ""
    if ends.inlet == ends.outlet:
        return f"{ends.inlet}, both ends"
    return f"{ends.inlet} to {ends.outlet}"


def _pieces(joints: Iterator[Joint]) -> Iterator[BuyLine]:
    for joint in joints:
        for piece in joint.missing:
            if not piece.cut:
                place = f"{joint.first} and {joint.second}"
                yield BuyLine(piece.name, piece.size, piece.to_size, "", None, 0, 1, None, (place,))


def _summed(lines: Sequence[BuyLine]) -> Iterator[BuyLine]:
    """Lines of the same thing as one."""
    found: dict[tuple[str, str, str, str], BuyLine] = {}
    for line in lines:
        key = (line.item, line.size, line.to_size, line.ends)
        before = found.get(key)
        found[key] = line if before is None else _both(before, line)
    yield from found.values()


def _both(one: BuyLine, other: BuyLine) -> BuyLine:
    return replace(
        one,
        stated_count=one.stated_count + other.stated_count,
        missing_count=one.missing_count + other.missing_count,
        serves=tuple(dict.fromkeys((*one.serves, *other.serves))),
    )


def _lengths(cut: Sequence[CutLine]) -> Iterator[BuyLine]:
    """Pipe with a saw cut for each piece, hose and tube with their allowance."""
    alike: dict[tuple[str, str], list[CutLine]] = {}
    for line in cut:
        alike.setdefault((sold_as(line), line.size), []).append(line)
    for (item, size), lines in alike.items():
        count = sum(line.count for line in lines)
        serves = tuple(dict.fromkeys(name for line in lines for name in line.serves))
        net = Figure(*(sum(line.count * getattr(line.length_m, end) for line in lines) for end in ENDS))
        length = with_saw_cuts(net, count) if lines[0].schedule else with_trimming(net)
        yield BuyLine(item, size, "", "", None, 0, 0, length, serves)


def sold_as(line: CutLine) -> str:
    """What a piece is cut from."""
    if line.schedule:
        return f"Schedule {line.schedule} pipe"
    if line.item == HOSE_PIECE:
        return "vinyl tube" if line.size in _TUBE_SIZES else "flexible hose"
    return line.item


def _gas_side(plant: Plant) -> Iterator[BuyLine]:
    line = plant.gas_line
    if line is not None and line.length_m is not None:
        bore_m = None if line.bore_m is None else line.bore_m.nominal
        length = with_trimming(figure_of(line.length_m))
        yield BuyLine("gas tube", "", "", "", bore_m, 0, 0, length, ("the gas line",))
    if line is not None and line.check_valve:
        yield BuyLine("gas check valve", "", "", "", None, 1, 0, None, ("the gas line",))
    if line is not None and line.needle_valve is not None:
        yield BuyLine("needle valve", "", "", "", None, 1, 0, None, ("the gas line",))
    if plant.ozone is not None:
        yield BuyLine("ozone unit", "", "", "", None, 1, 0, None, ("the gas line",))


def figure_of(band: Band) -> Figure:
    """A band of the file as a figure."""
    return Figure(band.low, band.nominal, band.high)
