"""Other speeds of a pump that allows them: the same volume a day, its energy, and whether the injector draws."""

from collections.abc import Sequence

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.laws.hydraulics.pump_curve import power_at_speed_w
from sanitize.plant.changed import with_part
from sanitize.plant.day import DAY_S
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller, Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.figures import figure
from sanitize.studies.hours.flows import treated_m3s
from sanitize.studies.hours.result import SpeedRow, Speeds
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.solve import REST_FLOW_M3S
from sanitize.studies.suction.states import gas_side

RATIOS = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)
"""Speeds that are tried, over that of the pump's curve."""
CASES = 256
"""As many of the cases are solved at every speed."""


def pump_with_speeds(plant: Plant) -> Pump | None:
    """The one running pump of a loop, where the file gives the speed of its curve and its power."""
    running = [part for part in walk(plant.loop) if isinstance(part, Pump) and part.running]
    if len(running) != 1 or running[0].curve_speed_per_s is None or running[0].power_w is None:
        return None
    return running[0]


def speeds_of(plant: Plant, draws: Draws, level_m: Array, volume_m3: Array) -> Speeds | None:
    """The loop with loaded filters at other speeds, for a volume a day [m3] over the cases; None where none is allowed.

    plant, draws, level_m: as they stand; the first cases of the draws are solved again.
    """
    pump = pump_with_speeds(plant)
    if pump is None or pump.curve_speed_per_s is None or pump.power_w is None:
        return None
    kept = np.arange(min(CASES + 1, draws.size))
    some = draws.of_cases(kept)
    ratios = sorted({*RATIOS, pump.speed_ratio}, reverse=True)
    rows: list[SpeedRow] = []
    drawing: list[Array] = []
    for ratio in ratios:
        speed = ratio * pump.curve_speed_per_s
        at_speed = with_part(plant, pump.name, speed_per_s=speed)
        answer = run(at_speed, some, Condition(level_m[kept], filter="loaded"))
        flow = np.where(answer.solved, treated_m3s(answer), 0.0)
        moves = flow > REST_FLOW_M3S
        power = float(power_at_speed_w(pump.power_w, ratio))
        time = np.where(moves, volume_m3[kept] / np.where(moves, flow, 1.0), np.inf)
        share = None
        if answer.port is not None:
            margin = _margin(at_speed, some, answer)
            drawing.append(np.where(answer.solved, margin, np.inf))
            share = float(np.mean(drawing[-1] < 0.0))
        rows.append(
            SpeedRow(
                speed_per_s=speed,
                speed_ratio=ratio,
                flow_m3s=figure(flow),
                power_w=Figure(power, power, power),
                run_s=figure(time),
                energy_j=figure(np.where(time <= DAY_S, time * power, np.inf)),
                draws_share_ratio=share,
                too_little_for=_starved(answer),
            )
        )
    start = None if not drawing else figure(draws_from_ratio(ratios, drawing) * pump.curve_speed_per_s)
    return Speeds(pump.name, tuple(rows), start)


def _starved(answer: Run) -> tuple[str, ...]:
    """Names of the chillers whose least flow the nominal case does not reach."""
    return tuple(
        item.part.name
        for item in answer.assembly.parts
        if isinstance(item.part, Chiller)
        and item.part.min_flow_m3s is not None
        and not abs(answer.solution.flow_m3s[item.link][0]) >= item.part.min_flow_m3s
    )


def _margin(plant: Plant, draws: Draws, answer: Run) -> Array:
    """Pressure at the closed port and the check valve's opening: below 0 it draws [Pa]."""
    if answer.port is None:
        raise ValueError("the loop has no injector")
    return answer.port.port_pa_gauge + gas_side(plant, draws, answer.port.height_m).opens_at_pa


def draws_from_ratio(ratios: Sequence[float], margins: Sequence[Array]) -> Array:
    """Lowest speed at which an injector draws, between two tried speeds by a straight line over the square of it.

    ratios: falling; margins: below 0 where it draws, over the cases, inf without an answer.
    Returns inf where it draws at none; the lowest tried speed where it still draws there.

    >>> draws_from_ratio([1.0, 0.5], [np.array([-3.0, 1.0, -1.0]), np.array([1.0, 2.0, -1.0])]).round(4).tolist()
    [0.6614, inf, 0.5]
    """
    found = np.full(np.shape(margins[0]), np.inf)
    below: tuple[float, Array] | None = None
    for ratio, margin in zip(reversed(ratios), reversed(margins), strict=True):
        starts: Mask = (margin < 0.0) & np.isinf(found)
        crossing = np.full(np.shape(margin), ratio)
        if below is not None:
            slow, before = below
            known = starts & np.isfinite(before)
            rise = np.where(known, before - margin, 1.0)
            part = np.where(known, before / rise, 1.0)
            crossing = np.sqrt(slow**2 + part * (ratio**2 - slow**2))
        found = np.where(starts, crossing, found)
        below = (ratio, margin)
    return found
