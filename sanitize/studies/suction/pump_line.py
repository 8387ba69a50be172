"""Pump and system over the flow, for the picture: the system's head with all flows in proportion."""

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.studies.draws import Array
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.rows import Drive
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.result import PumpLine

POINTS = 25
BEYOND_RATIO = 1.3
"""How far beyond the operating point the lines run, at most to the pump's run-out."""


def pump_line(answer: Run) -> PumpLine:
    """Heads of all pumps and of the system, from rest to beyond the operating point.

    Both are power given or taken over weight and total flow, so that in a loop with ways they meet where it runs.
    """
    total = answer.flow_m3s
    nominal = float(total[0])
    weight = answer.assembly.water.density_kgm3 * GRAVITY_MS2
    run_out = max(
        (row.curve.run_out_flow_m3s * row.speed_ratio for rows in answer.network.rows for row in rows
         if isinstance(row, Drive)), default=nominal,
    )  # fmt: skip
    last = min(BEYOND_RATIO * nominal, max(run_out, nominal))
    flows = np.linspace(0.02 * last, last, POINTS)
    pump: list[tuple[float, ...]] = []
    system: list[tuple[float, ...]] = []
    for flow in flows:
        scale = np.where(total > 0.0, flow / np.where(total > 0.0, total, 1.0), np.nan)
        given, taken = _powers(answer, np.where(np.isnan(scale), 0.0, scale))
        for line, power in ((pump, given), (system, taken)):
            ends = figure(np.where(answer.solved & ~np.isnan(scale), power / (weight * flow), np.nan)).ends
            line.append(ends)
    return PumpLine(tuple(float(flow) for flow in flows), tuple(pump), tuple(system))


def _powers(answer: Run, scale: Array) -> tuple[Array, Array]:
    """Power that the pumps give and that the rest takes [W], with all flows scaled."""
    flows = answer.solution.flow_m3s * scale
    loss = answer.losses_pa(flows)
    given = np.zeros(scale.size)
    for index, rows in enumerate(answer.network.rows):
        for row in rows:
            if isinstance(row, Drive):
                given = given - row.loss(flows[index], answer.assembly.water)[0] * flows[index]
    taken = given + (loss * flows).sum(axis=0)
    return given, taken
