"""The loop as rows of stations: every single piece with the ends that it may have, between tub and tees."""

from dataclasses import dataclass, replace
from itertools import pairwise

from sanitize.plant.ends import Return, Suction
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Chain, Join, Junction, Plant
from sanitize.plant.part import SIZES, Part
from sanitize.plant.pipework import Barb, Reducer
from sanitize.studies.mating.rules import Form, forms_of

ANY_SIZE = ""
"""The size of an end that is bought to suit its neighbour."""
_TEE = "tee"
_TUBE_SIZES = ("3/8", "5/8")


@dataclass(frozen=True, slots=True)
class Ends:
    """One way in which a station may stand in the loop: its ends, their sizes, its material."""

    inlet: str
    outlet: str
    inlet_size: str
    outlet_size: str
    material: str


@dataclass(frozen=True, slots=True)
class Station:
    """One piece of the loop; number counts those of one part, from 1.

    options: every way in which it may stand, the likeliest first; assumed: whether the file leaves an end open.
    """

    name: str
    word: str
    part: Part
    number: int
    options: tuple[Ends, ...]
    assumed: bool


Row = tuple[Station, ...]


def rows_of(plant: Plant) -> tuple[Row, ...]:
    """Every row of stations that join each other in turn; a tee stands in each row that meets it."""
    rows: list[Row] = []
    tail = _chain(plant.loop, [], rows)
    return tuple(row for row in (*rows, tuple(tail)) if row)


def _chain(chain: Chain, start: list[Station], rows: list[Row]) -> list[Station]:
    """Notes the rows of a chain that end at a tee; gives the row that still runs on behind it."""
    running = start
    for item in chain.items:
        running = _junction(item, running, rows) if isinstance(item, Junction) else [*running, *_stations(item)]
    return running


def _junction(part: Junction, running: list[Station], rows: list[Row]) -> list[Station]:
    before = [] if isinstance(part, Join) else _tees(part, "dividing", len(part.chains) - 1)
    meeting = [way for way in part.chains if not way.ends_in_tub]
    behind = _tees(part, "meeting", len(meeting) - 1)
    if before:
        rows.append((*running, before[0]))
        rows += pairwise(before)
    rows += pairwise(behind)
    met = 0
    tail: list[Station] = []
    for number, way in enumerate(part.chains):
        start = [before[min(number, len(before) - 1)]] if before else []
        end = _chain(way, start, rows)
        if way.ends_in_tub:
            rows.append(tuple(end))
        elif not behind:
            tail = end
        else:
            rows.append((*end, behind[max(met - 1, 0)]))
            met += 1
    return [behind[-1]] if behind else tail


def _tees(part: Junction, what: str, count: int) -> list[Station]:
    form = forms_of(_TEE)[0]
    ends = Ends(
        part.inlet_end or form.inlet,
        part.outlet_end or form.outlet,
        part.size,
        part.size,
        part.material or form.material,
    )
    assumed = part.inlet_end is None or part.outlet_end is None
    numbers = range(1, count + 1)
    names = [f"{what} tee{f' {number}' if count > 1 else ''} of {part.name}" for number in numbers]
    return [Station(name, _TEE, part, number, (ends,), assumed) for name, number in zip(names, numbers, strict=True)]


def _stations(part: Part) -> list[Station]:
    count = getattr(part, "count", 1)
    options, free = tuple(dict.fromkeys(_options(part))), _open_ends(part)
    return [Station(part.name, form_word(part), part, number, options, free) for number in range(1, count + 1)]


def form_word(part: Part) -> str:
    """The word of a part in the table of ends."""
    return f"{part.word} {part.ends}" if isinstance(part, Injector) else part.word


def _open_ends(part: Part) -> bool:
    inlet = part.inlet_end is None and not isinstance(part, Suction)
    outlet = part.outlet_end is None and not isinstance(part, Return)
    return inlet or outlet


def _options(part: Part) -> list[Ends]:
    """The usual forms with the ends that the file states; where an end is stated, only forms that go with it."""
    found, usual = [], set()
    for form in forms_of(form_word(part)):
        for turned in (False, True) if form.turnable else (False,):
            ends = _ends(part, form, turned != _widens(part))
            stated = replace(ends, inlet=part.inlet_end or ends.inlet, outlet=part.outlet_end or ends.outlet)
            found.append(stated)
            if stated == ends:
                usual.add(stated)
    return [ends for ends in found if ends in usual] or found


def _ends(part: Part, form: Form, turned: bool) -> Ends:
    inlet, outlet = (form.outlet, form.inlet) if turned else (form.inlet, form.outlet)
    before, behind = part.size, part.to_size if isinstance(part, Reducer) else part.size
    if isinstance(part, Barb) and part.size in _TUBE_SIZES:
        before, behind = (part.size if end == "barb" else ANY_SIZE for end in (inlet, outlet))
    return Ends(inlet, outlet, before, behind, part.material or form.material)


def _widens(part: Part) -> bool:
    return isinstance(part, Reducer) and SIZES.index(part.to_size) > SIZES.index(part.size)
