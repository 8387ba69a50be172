"""In which cases and from which flow the injector draws, and how much more return pressure it would stand."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sanitize.laws.injector.onset import draws_dry
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.rows import Drive
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.solve import REST_FLOW_M3S

HALVINGS = 45
AT_REST_RATIO = 1e-6
"""Share of the flows that stands for water at rest."""
SOME_CASES = 512
DOUBLINGS = 14
SECANT_STEPS = 40
SOME_CASES = 512
PRESSURE_RATIO = 1e-6
"""How near the search for the extra pressure comes, over the pumps' shut-off pressure."""


class Window(NamedTuple):
    """The injector's flows between which it draws [m3/s] over the cases: 0 for any, infinite for never."""

    onset_m3s: Array
    below_m3s: Array


def draws_share(answer: Run, opens_at_pa: Array) -> float:
    """Share of the cases besides the nominal one in which the closed port draws."""
    return share_of_cases(drawing_cases(answer, opens_at_pa))


def drawing_cases(answer: Run, opens_at_pa: Array) -> Mask:
    """In which cases the closed port draws.

    A case without an answer does not, nor does an injector through which no water moves.
    """
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    atmosphere = answer.assembly.water.atmosphere_pa_abs
    moving = answer.solved & (port.flow_m3s > REST_FLOW_M3S)
    return np.asarray(moving & draws_dry(port.port_pa_gauge + atmosphere, atmosphere, opens_at_pa))


def share_of_cases(holds: Mask) -> float:
    """Share of the cases besides the nominal one in which something holds; of the nominal one where it is alone."""
    return float(np.mean(holds[1:] if holds.size > 1 else holds))


def _margin_at(answer: Run, scale: Array, opens_at_pa: Array) -> Array:
    """Port gauge pressure plus the check valve's opening [Pa], with all flows scaled: negative means it draws."""
    return np.asarray(answer.port_pa_gauge_at(answer.solution.flow_m3s * scale) + opens_at_pa)


def _largest_scale(answer: Run) -> Array:
    """How far all flows can grow before every pump of some way stands at its run-out; at least 1."""
    largest = np.full(answer.assembly.draws.size, np.inf)
    for flow, rows in zip(answer.solution.flow_m3s, answer.network.rows, strict=True):
        run_outs = [row.curve.run_out_flow_m3s * row.speed_ratio for row in rows if isinstance(row, Drive)]
        if run_outs:
            moving = flow > REST_FLOW_M3S
            largest = np.minimum(largest, np.where(moving, max(run_outs) / np.where(moving, flow, 1.0), np.inf))
    return np.where(np.isinf(largest), 1.0, np.maximum(largest, 1.0))


def flow_window(answer: Run, opens_at_pa: Array) -> Window:
    """Bisection on the flow, the split of the ways held as it is with the gas line closed.

    Searches from rest to the pump's run-out; "never" means at no flow up to there. Where it draws at rest and at
    run-out but not as it runs, the onset is the flow above which it draws again.
    """
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    size = answer.assembly.draws.size
    moving = answer.solved & (port.flow_m3s > REST_FLOW_M3S)
    top = _largest_scale(answer)
    at_rest = _margin_at(answer, np.full(size, AT_REST_RATIO), opens_at_pa) < 0.0
    as_it_runs = _margin_at(answer, np.ones(size), opens_at_pa) < 0.0
    at_top = _margin_at(answer, top, opens_at_pa) < 0.0
    again = at_rest & ~as_it_runs & at_top
    low, high = np.where(again, 1.0, 0.0), top
    at_low = at_rest & ~again
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        as_at_low = (_margin_at(answer, middle, opens_at_pa) < 0.0) == at_low
        low = np.where(as_at_low, middle, low)
        high = np.where(as_at_low, high, middle)
    crossing = 0.5 * (low + high) * port.flow_m3s
    onset = np.where(at_low, 0.0, np.where(at_top, crossing, np.inf))
    below = np.where(at_rest & ~at_top, crossing, np.inf)
    nothing = np.full(size, np.nan)
    return Window(np.where(moving, onset, nothing), np.where(moving, below, nothing))


def extra_return_pressure(plant: Plant, draws: Draws, condition: Condition, answer: Run, opens_at_pa: Array) -> Array:
    """Pressure [Pa] that could be added behind the injector before it stops drawing; 0 where it does not draw.

    The loop is solved again with it, between brackets that secant steps and halvings draw together; of many cases the
    first 512 (evenly spread as all are) stand for the rest, so the array may be shorter than the draws.
    """
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    some = slice(0, SOME_CASES + 1)
    margin = (port.port_pa_gauge + opens_at_pa)[some]
    drawing = np.flatnonzero(answer.solved[some] & (port.flow_m3s[some] > REST_FLOW_M3S) & (margin < 0.0))
    scale = answer.network.scale_pa[drawing]

    def margin_with(chosen: NDArray[np.intp], pressure: Array) -> Array:
        """Margin of some of the drawing cases; where no water moves any more it is as good as stopped."""
        cases = drawing[chosen]
        trial = run(plant, draws.of_cases(cases), condition.of_cases(cases), back_pa=pressure)
        if trial.port is None:
            raise ValueError("the loop has no injector")
        runs = trial.solved & (trial.port.flow_m3s > REST_FLOW_M3S)
        return np.where(runs, trial.port.port_pa_gauge + opens_at_pa[cases], scale[chosen])

    low, f_low = np.zeros(drawing.size), margin[drawing]
    high, f_high = -f_low, np.full(drawing.size, np.nan)
    left = np.arange(drawing.size)
    for _ in range(DOUBLINGS):
        if not left.size:
            break
        f_high[left] = margin_with(left, high[left])
        left = left[f_high[left] < 0.0]
        low[left], f_low[left] = high[left], f_high[left]
        high[left] *= 2.0
    went_low = np.zeros(drawing.size, dtype=bool)
    for step in range(SECANT_STEPS):
        left = np.flatnonzero(high - low > PRESSURE_RATIO * scale)
        if not left.size:
            break
        share = 0.5 if step % 4 == 3 else f_low[left] / (f_low[left] - f_high[left])
        middle = low[left] + share * (high[left] - low[left])
        value = margin_with(left, middle)
        lower = value < 0.0
        # an end that stays twice counts half, so that the secant does not creep up on one side
        again = step > 0
        f_high[left] = np.where(lower, np.where(again & went_low[left], 0.5 * f_high[left], f_high[left]), value)
        f_low[left] = np.where(lower, value, np.where(again & ~went_low[left], 0.5 * f_low[left], f_low[left]))
        close = np.abs(value) <= PRESSURE_RATIO * scale[left]
        low[left], high[left] = np.where(lower | close, middle, low[left]), np.where(~lower | close, middle, high[left])
        went_low[left] = lower
    found = np.where(answer.solved[some], 0.0, np.nan)
    found[drawing] = low
    return found
