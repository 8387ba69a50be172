"""What a loop can never do, and why."""

import numpy as np

from sanitize.basis.units import show
from sanitize.studies.advice.result import Refused
from sanitize.studies.advice.tried import Glance
from sanitize.studies.suction.onset import flow_window

MOST_TOLD = 2


def never_text(
    now: Glance, tried_count: int, pairs_count: int, refused: tuple[Refused, ...], *, must_move: bool
) -> str:
    """Why nothing that was tried makes the injector draw: what pulls, what pushes, and what forbids the rest."""
    port = now.running.port
    if port is None:
        raise ValueError("the loop has no injector")
    family = now.plant.units
    window = flow_window(now.running, now.gas.opens_at_pa)
    square = float(port.flow_m3s[0]) ** 2
    pull = float(port.model.recovery_pa_s2m6[0]) * square
    back = float(port.outlet_pa_gauge[0]) + float(now.gas.opens_at_pa[0])
    first = f"None of {tried_count} changes"
    if pairs_count:
        first += f" and {pairs_count} pairs of them"
    first += " that were tried makes this injector draw where it may be advised."
    if must_move:
        why = "It stands before a pump, where it must not stay, and behind the pump it does not draw."
    elif bool(port.cavitates[0]):
        why = (
            "Its water already boils in the throat: the vacuum goes no deeper, and what stands behind the injector "
            "presses more than that against it."
        )
    elif not np.isfinite(window.onset_m3s[0]) and not np.isfinite(window.below_m3s[0]):
        why = (
            f"At no flow up to the pump's run-out does it draw: at {show(float(port.flow_m3s[0]), 'flow', family)} "
            f"its throat pulls {show(pull, 'pressure', family)} below its outlet, but the outlet's pressure and the "
            f"check valve stand {show(back, 'pressure', family)} against it, and both grow with the flow."
        )
    else:
        onset = window.onset_m3s[0] if np.isfinite(window.onset_m3s[0]) else window.below_m3s[0]
        side = "above" if np.isfinite(window.onset_m3s[0]) else "below"
        why = (
            f"It would draw {side} {show(float(onset), 'flow', family)} through the injector, which this loop cannot "
            f"give; at {show(float(port.flow_m3s[0]), 'flow', family)} its throat pulls "
            f"{show(pull, 'pressure', family)} below its outlet, and {show(back, 'pressure', family)} stand against it."
        )
    reasons = list(dict.fromkeys(reason for item in refused for reason in item.reasons))[:MOST_TOLD]
    forbidden = f" What would make it draw is not advised: {' '.join(reasons)}" if reasons else ""
    return f"{first} {why}{forbidden}"
