"""What a loop gives, case by case, and how much more or less another one gives in the same cases."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from sanitize.basis.figure import Figure
from sanitize.basis.tables import default
from sanitize.studies.advice.tried import Glance
from sanitize.studies.comparison.result import Change, DrawsChange, Tendency
from sanitize.studies.draws import Array, Mask
from sanitize.studies.figures import figure
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.onset import drawing_cases, flow_window, share_of_cases
from sanitize.studies.suction.study import pump_head

SAME_RATIO = 1e-6
"""Difference over the larger of the two below which nothing differs: as near as the solver comes (a choice)."""
GAS_FLOW = "gas_flow_m3s"
MEASURES = (
    "flow_port_closed_m3s",
    "injector_flow_port_closed_m3s",
    "port_pressure_closed_pa_gauge",
    "onset_flow_m3s",
    "injector_inlet_pressure_pa_gauge",
    "injector_outlet_pressure_pa_gauge",
    "pump_head_m",
    GAS_FLOW,
    "turnover_s",
)
"""Fields of the suction answer that are compared, in the order of telling."""


def measured_over_cases(seen: Glance) -> dict[str, Array]:
    """Every measure over the cases, as the suction study has it; NaN where there is no answer, infinite for never."""
    running, port = seen.running, seen.running.port
    if port is None:
        raise ValueError("the loop has no injector")
    gas, _ = gas_answer(seen.plant, seen.draws, running, seen.gas)
    flow = running.flow_m3s
    found = {
        "flow_port_closed_m3s": flow,
        "injector_flow_port_closed_m3s": port.flow_m3s,
        "port_pressure_closed_pa_gauge": port.port_pa_gauge,
        "injector_inlet_pressure_pa_gauge": port.inlet_pa_gauge,
        "injector_outlet_pressure_pa_gauge": port.outlet_pa_gauge,
        "pump_head_m": pump_head(running)[0],
        "turnover_s": seen.plant.tub.volume_m3 / np.where(flow > 0.0, flow, np.nan),
    }
    return {
        **{name: np.where(running.solved, values, np.nan) for name, values in found.items()},
        "onset_flow_m3s": flow_window(running, seen.gas.opens_at_pa).onset_m3s,
        GAS_FLOW: np.where(gas.solved, gas.gas_flow_m3s, np.nan),
    }


def changes(first: Mapping[str, Array], other: Mapping[str, Array]) -> dict[str, Change]:
    """How much more or less the other loop gives than the first, measure by measure, case by case."""
    return {name: change(name, first[name], other[name]) for name in MEASURES}


def change(name: str, first: Array, other: Array) -> Change:
    """The difference of one measure over the cases in which both loops have it."""
    both = np.isfinite(first) & np.isfinite(other)
    if not both.any():
        return Change(Figure(None, None, None), 0.0, 0.0, 0.0, "none")
    difference = np.where(both, np.where(both, other, 0.0) - np.where(both, first, 0.0), np.nan)
    scale = np.where(both, np.maximum(np.abs(np.where(both, first, 0.0)), np.abs(np.where(both, other, 0.0))), 0.0)
    nothing = both & (np.abs(difference) <= SAME_RATIO * scale)
    difference = np.where(nothing, 0.0, difference)
    drawn = figure(difference)
    drawn = _widened(drawn) if name == GAS_FLOW else drawn
    compared = share_of_cases(both)
    more, less = (share_of_cases(both & mask) for mask in (difference > 0.0, difference < 0.0))
    of = compared if compared > 0.0 else 1.0
    return Change(drawn, more / of, less / of, compared, _tendency(drawn, bool((nothing | ~both).all())))


def _tendency(difference: Figure, nothing: bool) -> Tendency:
    low, _, high = difference.ends
    if nothing:
        return "same"
    if low >= 0.0 and high > 0.0:
        return "more"
    return "less" if high <= 0.0 and low < 0.0 else "either"


def _widened(drawn: Figure) -> Figure:
    """A difference of gas flows of a device that was never measured with gas.

    Both loops' gas flows are off by the same factor, which the difference then is too; its sign stays.
    """
    factor = default("gas_draw_factor_ratio").value
    low, nominal, high = drawn.ends
    ends = (nominal / factor, nominal * factor)
    return Figure(min(low, *ends), nominal, max(high, *ends))


def draws_change(first: Glance, other: Glance, order: NDArray[np.intp] | None = None) -> DrawsChange:
    """In which share of the cases only one of two injectors draws."""
    here = drawing_cases(other.running, other.gas.opens_at_pa)
    before = drawing_cases(first.running, first.gas.opens_at_pa)
    return DrawsChange(
        share_of_cases(_reordered(here, order) & ~before), share_of_cases(before & ~_reordered(here, order))
    )


def _reordered(values: Mask, order: NDArray[np.intp] | None) -> Mask:
    return values if order is None else values[order]
