"""The wall schedule that the fittings of a loop are taken to have."""

from sanitize.plant.loop import Plant, walk
from sanitize.plant.pipework import Pipe


def fitting_schedule(plant: Plant) -> str:
    """Schedule 80 where all rigid pipe of the loop is, else 40."""
    found = {part.schedule for part in walk(plant.loop) if isinstance(part, Pipe)}
    return "80" if found == {"80"} else "40"
