"""In which cases and from which flow the injector draws, and how much more return pressure it would stand."""

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.onset import draws_dry
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.rows import Drive
from sanitize.studies.operating_point.run import Run, run

HALVINGS = 45
SECANT_STEPS = 14
SOME_CASES = 512
PRESSURE_RATIO = 1e-6
"""How near the search for the extra pressure comes, over the pumps' shut-off pressure."""


class Window(NamedTuple):
    """The injector's flows between which it draws [m3/s] over the cases: 0 for any, infinite for never."""

    onset_m3s: Array
    below_m3s: Array


def draws_share(answer: Run, opens_at_pa: Array) -> float:
    """Share of the cases besides the nominal one in which the closed port draws; one without an answer does not."""
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    atmosphere = answer.assembly.water.atmosphere_pa_abs
    drawing = answer.solved & np.asarray(draws_dry(port.port_pa_gauge + atmosphere, atmosphere, opens_at_pa))
    return float(np.mean(drawing[1:] if drawing.size > 1 else drawing))


def _margin_at(answer: Run, scale: Array, opens_at_pa: Array) -> Array:
    """Port gauge pressure plus the check valve's opening [Pa], with all flows scaled: negative means it draws."""
    network, port = answer.network, answer.port
    if port is None or network.cavitation is None:
        raise ValueError("the loop has no injector")
    flow = answer.solution.flow_m3s * scale
    loss, _, legs, _ = network.losses(flow)
    water = answer.assembly.water
    free = network.cavitation.port_without_floor_pa_abs(flow, loss, legs, water)
    return np.asarray(np.maximum(free, water.vapour_pa_abs) - water.atmosphere_pa_abs + opens_at_pa)


def flow_window(answer: Run, opens_at_pa: Array) -> Window:
    """Bisection on the flow, the split of the ways held as it is with the gas line closed.

    Searches from rest to the pump's run-out; "never" means at no flow up to there.
    """
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    run_out = max(
        (row.curve.run_out_flow_m3s * row.speed_ratio for rows in answer.network.rows for row in rows
         if isinstance(row, Drive)), default=0.0,
    )  # fmt: skip
    size = answer.assembly.draws.size
    moving = answer.solved & (port.flow_m3s > 0.0)
    total = np.where(moving, answer.flow_m3s, 1.0)
    top = np.maximum(run_out / total, 1.0)
    at_rest = _margin_at(answer, np.full(size, 1e-6), opens_at_pa) < 0.0
    at_top = _margin_at(answer, top, opens_at_pa) < 0.0
    low, high = np.zeros(size), top.copy()
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        as_at_rest = (_margin_at(answer, middle, opens_at_pa) < 0.0) == at_rest
        low = np.where(as_at_rest, middle, low)
        high = np.where(as_at_rest, high, middle)
    crossing = 0.5 * (low + high) * port.flow_m3s
    onset = np.where(at_rest, 0.0, np.where(at_top, crossing, np.inf))
    below = np.where(at_rest & ~at_top, crossing, np.inf)
    nothing = np.full(size, np.nan)
    return Window(np.where(moving, onset, nothing), np.where(moving, below, nothing))


def extra_return_pressure(plant: Plant, draws: Draws, condition: Condition, answer: Run, opens_at_pa: Array) -> Array:
    """Pressure [Pa] that could be added behind the injector before it stops drawing; 0 where it does not draw.

    The loop is solved again with it, by safeguarded secant steps over all cases at once; of many cases the first 512
    (evenly spread as all are) stand for the rest, so the array may be shorter than the draws.
    """
    if draws.size > SOME_CASES + 1:
        some = np.arange(SOME_CASES + 1)
        draws, condition = draws.of_cases(some), replace(condition, level_m=condition.level_m[some])
        answer, opens_at_pa = run(plant, draws, condition), opens_at_pa[some]
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    draws_now = answer.solved & (port.port_pa_gauge + opens_at_pa < 0.0)
    size = draws.size
    low, f_low = np.zeros(size), np.where(draws_now, port.port_pa_gauge + opens_at_pa, 0.0)
    high = np.where(draws_now, -f_low, 0.0)
    f_high = np.full(size, np.nan)
    for _ in range(SECANT_STEPS):
        trial = run(plant, draws, condition, back_pa=high)
        if trial.port is None:
            break
        margin = trial.port.port_pa_gauge + opens_at_pa
        f_high = np.where(trial.solved, margin, np.abs(f_low))
        short = draws_now & (f_high < 0.0)
        if not short.any():
            break
        low, f_low = np.where(short, high, low), np.where(short, f_high, f_low)
        high = np.where(short, 2.0 * high, high)
    tolerance = PRESSURE_RATIO * answer.network.scale_pa
    best, miss = high, np.where(draws_now, f_high, 0.0)
    for _ in range(SECANT_STEPS):
        open_cases = draws_now & (np.abs(miss) > tolerance)
        if not open_cases.any():
            break
        slope = f_high - f_low
        share = np.clip(np.where(slope > 0.0, -f_low / np.where(slope > 0.0, slope, 1.0), 0.5), 0.01, 0.99)
        middle = np.where(open_cases, low + share * (high - low), best)
        trial = run(plant, draws, condition, back_pa=middle)
        if trial.port is None:
            break
        value = np.where(trial.solved, trial.port.port_pa_gauge + opens_at_pa, np.abs(f_low))
        best, miss = middle, np.where(open_cases, value, miss)
        lower, upper = open_cases & (value < 0.0), open_cases & (value >= 0.0)
        f_low, f_high = (
            np.where(lower, value, np.where(upper, 0.5 * f_low, f_low)),
            np.where(upper, value, np.where(lower, 0.5 * f_high, f_high)),
        )
        low, high = np.where(lower, middle, low), np.where(upper, middle, high)
    return np.where(answer.solved, np.where(draws_now, best, 0.0), np.nan)
