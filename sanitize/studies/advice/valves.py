"""A hand valve opened, or closed further."""

from sanitize.basis.band import Band
from sanitize.basis.units import show
from sanitize.plant.loop import Plant, walk
from sanitize.plant.valves import Valve
from sanitize.studies.advice.change import Change
from sanitize.studies.advice.edit import changed, resized

HANDLES_DEG = (20.0, 35.0, 50.0, 60.0)
"""Turns of a handle that are tried, short of shut (a choice of this project)."""
HANDLE_TOLERANCE_DEG = 5.0
"""How near a handle is set without a protractor (an estimate)."""
OPEN_RATIOS = (0.5, 0.25)
"""Lifts of a gate or globe valve that are tried (a choice of this project)."""
OPEN_TOLERANCE_RATIO = 0.05
"""How near a lift is set by counting turns (an estimate)."""
DROP_RATIOS = (2.0, 4.0)
"""For a valve known by its drop: drops at the same flow that are tried, over the one in the file (a choice)."""
LIFTED = ("gate valve", "globe valve")


def is_open(valve: Valve) -> bool:
    """Whether a valve stands fully open in the file."""
    if valve.drop_pa is not None:
        return False
    if valve.handle_deg is not None:
        return valve.handle_deg.nominal <= 0.0
    return valve.open_ratio is None or valve.open_ratio.nominal >= 1.0


def opened_valves(plant: Plant) -> list[Change]:
    """Each valve that is not fully open, opened."""
    return [
        Change(
            "open-valve",
            f"Open {part.name} fully.",
            lambda loop, name=part.name: changed(  # type: ignore[misc]
                loop, name, handle_deg=None, open_ratio=None, drop_pa=None, at_flow_m3s=None
            ),
        )
        for part in walk(plant.loop)
        if isinstance(part, Valve) and not is_open(part)
    ]


def closed_valves(plant: Plant) -> list[Change]:
    """Each valve further closed, never shut."""
    found: list[Change] = []
    for part in walk(plant.loop):
        if isinstance(part, Valve):
            found += _closed(plant, part)
    return found


def _closed(plant: Plant, part: Valve) -> list[Change]:
    if part.drop_pa is not None and part.at_flow_m3s is not None:
        drop, flow = part.drop_pa, show(part.at_flow_m3s, "flow", plant.units)
        return [
            Change(
                "close-valve",
                f"Close {part.name} until it takes {show(ratio * drop.nominal, 'pressure', plant.units)} at {flow}.",
                lambda loop, ratio=ratio: changed(  # type: ignore[misc]
                    loop, part.name, drop_pa=resized(drop, ratio * drop.nominal)
                ),
            )
            for ratio in DROP_RATIOS
        ]
    if part.word in LIFTED:
        lift = 1.0 if part.open_ratio is None else part.open_ratio.nominal
        return [
            Change(
                "close-valve",
                f"Close {part.name} until {100.0 * ratio:.0f} % of its lift are open.",
                lambda loop, ratio=ratio: changed(loop, part.name, open_ratio=_lift(ratio)),  # type: ignore[misc]
            )
            for ratio in OPEN_RATIOS
            if ratio < lift
        ]
    handle = 0.0 if part.handle_deg is None else part.handle_deg.nominal
    return [
        Change(
            "close-valve",
            f"Turn the handle of {part.name} to {degrees:.0f} deg from fully open.",
            lambda loop, degrees=degrees: changed(loop, part.name, handle_deg=handle_band(degrees)),  # type: ignore[misc]
        )
        for degrees in HANDLES_DEG
        if degrees > handle
    ]


def handle_band(degrees: float) -> Band:
    """A handle set by eye."""
    return Band(degrees - HANDLE_TOLERANCE_DEG, degrees, degrees + HANDLE_TOLERANCE_DEG)


def _lift(ratio: float) -> Band:
    return Band(ratio - OPEN_TOLERANCE_RATIO, ratio, ratio + OPEN_TOLERANCE_RATIO)
