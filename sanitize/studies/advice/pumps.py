"""Another pump, by the head and flow that it would need, or another speed of the present one."""

from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Pump
from sanitize.studies.advice.change import Change
from sanitize.studies.advice.edit import changed, part_of

HEAD_RATIOS = (1.25, 1.6, 2.0, 2.5)
"""Heads that are tried, over the present pump's at equal flow over its largest (a choice: steps of about a quarter)."""
SPEED_RATIOS = (0.6, 0.7, 0.8, 0.9, 1.0)
"""Speeds that are tried, over that of the pump's curve, which none passes (a choice of this project)."""


def stronger_pumps(plant: Plant) -> list[Change]:
    """Each running pump with a curve of more head, its flow grown with the root of the head as by a larger wheel."""
    return [
        Change(
            "stronger-pump",
            f"Take for {part.name} a pump with {ratio:g} times its head",
            lambda loop, name=part.name, ratio=ratio: _stronger(loop, name, ratio),  # type: ignore[misc]
        )
        for part in walk(plant.loop)
        if isinstance(part, Pump) and part.running
        for ratio in HEAD_RATIOS
    ]


def _stronger(plant: Plant, name: str, ratio: float) -> Plant:
    part: Pump = part_of(plant, name)
    return changed(plant, name, curve=tuple((flow * ratio**0.5, head * ratio) for flow, head in part.curve))


def other_speeds(plant: Plant) -> list[Change]:
    """Each running pump whose speed can be set, at other speeds up to that of its curve."""
    found = []
    for part in walk(plant.loop):
        if not isinstance(part, Pump) or not part.running or part.curve_speed_per_s is None or part.speed_per_s is None:
            continue
        for ratio in SPEED_RATIOS:
            speed = ratio * part.curve_speed_per_s
            if abs(speed / part.speed_per_s - 1.0) < 0.02:
                continue
            found.append(
                Change(
                    "other-speed",
                    f"Run {part.name} at {60.0 * speed:.0f} rpm instead of {60.0 * part.speed_per_s:.0f} rpm.",
                    lambda loop, name=part.name, speed=speed: changed(loop, name, speed_per_s=speed),  # type: ignore[misc]
                )
            )
    return found
