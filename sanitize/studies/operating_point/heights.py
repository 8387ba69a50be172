"""Height of every part's outlet: given where the file gives it, linear along the loop in between."""

from dataclasses import dataclass, field

import numpy as np

from sanitize.plant.loop import Chain, Junction
from sanitize.plant.part import HEIGHT, Part
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.draws import Array, Draws

FITTING_LENGTH_M = 0.05
"""Length that a fitting takes up when heights are spread along the loop (an estimate; losses do not use it)."""


def _length_m(item: Part) -> float:
    if isinstance(item, Pipe | Hose):
        return item.length_m.nominal
    if isinstance(item, Junction):
        lengths = [sum(_length_m(part) for part in way.items) for way in item.chains]
        return float(np.mean(lengths))
    return FITTING_LENGTH_M


@dataclass
class Heights:
    """Heights over the cases [m] by `id(part)`: of a part's outlet, and of a split or join on entry and behind it."""

    outlet_m: dict[int, Array] = field(default_factory=dict)
    entry_m: dict[int, Array] = field(default_factory=dict)
    behind_m: dict[int, Array] = field(default_factory=dict)


def place(loop: Chain, draws: Draws) -> Heights:
    """The height of every part and junction of a loop."""
    heights = Heights()
    _place(loop, draws, heights, None, None)
    return heights


def _given(item: Part, draws: Draws) -> Array | None:
    if item.height_m is None:
        return None
    return draws.value(f"{item.name}.height", item.height_m, f"height of {item.name}", HEIGHT.measure)


def _place(chain: Chain, draws: Draws, heights: Heights, start: Array | None, end: Array | None) -> None:
    behind = np.cumsum([_length_m(item) for item in chain.items])
    positions: list[float] = []
    anchors: list[Array] = []
    if start is not None:
        positions.append(0.0)
        anchors.append(start)
    for item, position in zip(chain.items, behind, strict=True):
        given = _given(item, draws)
        if given is not None:
            positions.append(float(position))
            anchors.append(given)
    if end is not None:
        positions.append(float(behind[-1]) if len(behind) else 0.0)
        anchors.append(end)
    for index, item in enumerate(chain.items):
        after = _between(float(behind[index]), positions, anchors, draws.size)
        if not isinstance(item, Junction):
            heights.outlet_m[id(item)] = after
            continue
        before = _between(float(behind[index]) - _length_m(item), positions, anchors, draws.size)
        heights.entry_m[id(item)], heights.behind_m[id(item)] = before, after
        for way in item.chains:
            _place(
                way,
                draws,
                heights,
                None if way.starts_in_tub else before,
                None if way.ends_in_tub else after,
            )


def _between(position: float, positions: list[float], anchors: list[Array], size: int) -> Array:
    if not positions:
        return np.zeros(size)
    if position <= positions[0]:
        return anchors[0]
    for index in range(1, len(positions)):
        if position <= positions[index]:
            span = positions[index] - positions[index - 1]
            share = (position - positions[index - 1]) / span if span > 0.0 else 1.0
            return anchors[index - 1] + share * (anchors[index] - anchors[index - 1])
    return anchors[-1]
