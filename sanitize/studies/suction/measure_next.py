"""Of the cheap readings, the one expected to move the verdict furthest from undecided."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.constants import ONE_SIDED_90_PERCENT
from sanitize.basis.tables import default
from sanitize.plant.machines import Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.operating_point.part_rows import pump_curve
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.result import MeasureNext

OUTCOMES = 256
"""At most so many of the cases are tried as the outcome; fewer cases are all tried."""
LEAST_GAIN_RATIO = 0.005
"""Gain in certainty below which a reading is not worth naming."""


@dataclass(frozen=True, eq=False)
class Candidate:
    """A cheap reading: what it would show in every case, and one standard error of it."""

    reading: str
    how: str
    values: Array
    error: Array | float


def certainty(share: float) -> float:
    """0 where half of the cases draw, 1 where all or none do."""
    return abs(2.0 * share - 1.0)


def expected_certainty(values: Array, error: Array | float, drawing: Mask, outcomes: int = OUTCOMES) -> float:
    """Mean certainty of the verdict after a reading, over the cases as its possible outcomes.

    Each case in turn is taken as the truth: the reading then shows its value, the other cases are weighed by how far
    they lie from it in standard errors, and the share that draws follows. With `outcomes` cases or fewer this is the
    full enumeration.
    """
    count = values.size
    picked = np.unique(np.linspace(0, count - 1, min(outcomes, count)).astype(np.intp))
    spread = np.broadcast_to(np.asarray(error, dtype=np.float64), values.shape)
    total = 0.0
    for index in picked:
        weights = np.exp(-0.5 * ((values - values[index]) / spread[index]) ** 2)
        total += certainty(float(np.sum(weights * drawing) / np.sum(weights)))
    return total / picked.size


def measure_next(draws: Draws, running: Run, opens_at_pa: Array) -> tuple[MeasureNext, ...]:
    """Cheap readings by how sure the verdict would be after them, best first; none where it is certain already."""
    port = running.port
    if port is None or draws.cases == 0:
        return ()
    kept = running.solved.copy()
    kept[0] = False
    drawing = (port.port_pa_gauge + opens_at_pa < 0.0)[kept]
    if drawing.size == 0:
        return ()
    now = certainty(float(np.mean(drawing)))
    found = [
        MeasureNext(item.reading, item.how, _expected(item, kept, drawing), now) for item in candidates(draws, running)
    ]
    found = [item for item in found if item.certainty_ratio > now + LEAST_GAIN_RATIO]
    return tuple(sorted(found, key=lambda item: -item.certainty_ratio))


def _expected(item: Candidate, kept: Mask, drawing: Mask) -> float:
    error = item.error[kept] if isinstance(item.error, np.ndarray) else item.error
    return expected_certainty(item.values[kept], error, drawing)


def candidates(draws: Draws, running: Run) -> list[Candidate]:
    """Bucket flow, port vacuum, the height to which the pump lifts a hose, and every height and bore in doubt."""
    port = running.port
    if port is None:
        return []
    share = default("measured_tolerance_ratio").value / ONE_SIDED_90_PERCENT
    pressure = default("reading_floor_pressure_pa_diff").value / ONE_SIDED_90_PERCENT
    flow = default("reading_floor_flow_m3s").value / ONE_SIDED_90_PERCENT
    tape = default("tape_tolerance_m").value / ONE_SIDED_90_PERCENT
    shank = default("bore_tolerance_m").value / ONE_SIDED_90_PERCENT
    found = [
        Candidate(
            "flow by bucket and watch, gas line closed",
            "fill a bucket of known size at the return and take the time",
            running.flow_m3s,
            np.maximum(share * np.abs(running.flow_m3s), flow),
        ),
        Candidate(
            "vacuum at the closed port",
            "put a vacuum gauge, or a tube dipped into a tall jar of water, on the injector's port",
            -port.port_pa_gauge,
            np.maximum(share * np.abs(port.port_pa_gauge), pressure),
        ),
    ]
    for item in running.assembly.parts:
        known = draws.inputs.get(f"{item.part.name}.head")
        if isinstance(item.part, Pump) and known is not None and known.values is not None:
            lifts = pump_curve(item.part).shut_off_head_m * item.part.speed_ratio**2 * known.values
            found.append(
                Candidate(
                    f"height to which {item.part.name} lifts the water in a hose",
                    "raise the end of a clear hose on the pump's outlet until the flow stops, and measure its height "
                    "over the tub's water",
                    lifts,
                    2.0 * tape,
                )
            )
    for known in draws.inputs.values():
        values = known.values
        if values is None or known.key.startswith("roughness"):
            continue
        is_height = known.key.endswith((".height", ".highest_point", ".water_level"))
        is_bore = known.key.startswith("bore of ") or known.key.endswith((".bore", "_bore", ".throat"))
        error = tape if is_height else shank
        if (is_height or is_bore) and float(np.std(values)) > error:
            found.append(Candidate(known.label, known.measure or "with a tape measure", values, error))
    return found
