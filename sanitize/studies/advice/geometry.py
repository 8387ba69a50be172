"""Whether the pipe between two given heights is long enough to reach from one to the other."""

from sanitize.plant.loop import Chain, Junction, Plant
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.operating_point.heights import FITTING_LENGTH_M

SLACK_M = 0.05
"""How much shorter than the height the pipe may be: bodies of pump and injector reach as far (an estimate)."""


def too_short(plant: Plant) -> dict[tuple[str, str], float]:
    """Pairs of neighbours with given heights, and by how much the pipe between them is too short [m]."""
    found: dict[tuple[str, str], float] = {}
    _look(plant.loop, found)
    return found


def fits_as_well(plant: Plant, now: Plant) -> bool:
    """Whether no pipe of a changed loop is too short, unless it was as short before."""
    before = too_short(now)
    return all(lacking <= before.get(pair, 0.0) + 1e-9 for pair, lacking in too_short(plant).items())


def _look(chain: Chain, found: dict[tuple[str, str], float]) -> None:
    last: tuple[str, float] | None = None
    length = 0.0
    for item in chain.items:
        if isinstance(item, Junction):
            for way in item.chains:
                _look(way, found)
            last, length = None, 0.0
            continue
        if isinstance(item, Pipe | Hose):
            length += item.length_m.nominal
        else:
            length += FITTING_LENGTH_M * getattr(item, "count", 1)
        if item.height_m is None:
            continue
        if last is not None:
            lacking = abs(item.height_m.nominal - last[1]) - length - SLACK_M
            if lacking > 0.0:
                found[last[0], item.name] = lacking
        last, length = (item.name, item.height_m.nominal), 0.0
