"""What the cases say of each reading that can be taken on a running loop."""

from collections.abc import Callable, Collection

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.constants import ONE_SIDED_90_PERCENT
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter, Pump
from sanitize.plant.measured import Measured
from sanitize.plant.spec import specs
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.builder import PartRows
from sanitize.studies.operating_point.part_rows import pump_curve
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.chiller_reading import chiller_drop
from sanitize.studies.suction.circumstances import pump_inlet_pressure
from sanitize.studies.suction.gas_flow import gas_answer
from sanitize.studies.suction.states import GasSide

LINE_OPEN = ("port_vacuum_open_pa", "gas_flow_m3s")
"""Readings with the gas line open; all others are taken with it closed."""
AT_INJECTOR = ("port_vacuum_pa", "inlet_pa_gauge", "outlet_pa_gauge", *LINE_OPEN)
CONDITIONS = ("water_temperature_c", "air_temperature_c")
"""Read beside the others: how warm water and air were then; the running loop itself predicts neither."""
_FLOORS = {
    "flow": "reading_floor_flow_m3s",
    "vacuum": "reading_floor_pressure_pa_diff",
    "pressure": "reading_floor_pressure_pa_diff",
    "gas flow": "reading_floor_gas_flow_m3s",
    "temperature": "reading_floor_temperature_k",
    "temperature difference": "reading_floor_temperature_difference_k",
}


def kind_of(reading: str) -> str:
    """The kind of quantity of a reading."""
    return specs(Measured)[reading].kind


def error_of(reading: str, band: Band) -> float:
    """One standard error of a reading: its spread, and at least what the instrument can be read to."""
    spread = (band.high - band.low) / (2.0 * ONE_SIDED_90_PERCENT)
    return max(spread, floor_of(reading))


def floor_of(reading: str) -> float:
    """One standard error below which the instrument of a reading cannot be read."""
    return default(_FLOORS[kind_of(reading)]).value / ONE_SIDED_90_PERCENT


def given(measured: Measured | None) -> dict[str, Band]:
    """The readings that were taken of what the running loop does; see CONDITIONS for the others."""
    if measured is None:
        return {}
    found = {name: getattr(measured, name) for name in type(measured).model_fields if name not in CONDITIONS}
    return {name: band for name, band in found.items() if band is not None}


def as_read(plant: Plant) -> Plant:
    """The plant with its water as warm as it was while the readings were taken; the same where nobody said."""
    read = None if plant.measured is None else plant.measured.water_temperature_c
    if read is None or read.nominal == plant.tub.temperature_c:
        return plant
    return plant.model_copy(update={"tub": plant.tub.model_copy(update={"temperature_c": read.nominal})})


def refuse_more_than_the_pumps_move(plant: Plant) -> None:
    """Raise InputError for a bucket flow that all pumps together do not move with nothing in their way."""
    read = None if plant.measured is None else plant.measured.bucket_flow_m3s
    pumps = [part for part in walk(plant.loop) if isinstance(part, Pump) and part.running]
    most = sum(pump_curve(part).run_out_flow_m3s * part.speed_ratio for part in pumps)
    if read is None or not pumps or read.low <= most:
        return
    flow, largest = (show(value, "flow", plant.units) for value in (read.nominal, most))
    whose = "the pump's largest flow" if len(pumps) == 1 else "what all pumps move together"
    raise InputError(
        [
            Problem(
                f"[measured] {specs(Measured)['bucket_flow_m3s'].key}",
                f"{flow} is more than {whose}, {largest} by the file with nothing in the way",
                f"a flow below {largest}: look at the bucket's size and the unit, or at the curve in the file",
            )
        ]
    )


def reading_error(reading: str, values: Array) -> Array:
    """One standard error of an ordinary instrument where it shows these values, shape of them."""
    tolerance = specs(Measured)[reading].tolerance
    share = default(tolerance).value / ONE_SIDED_90_PERCENT
    spread = share * np.abs(values) if tolerance.endswith("_ratio") else np.full(np.shape(values), share)
    return np.maximum(spread, floor_of(reading))


def predicted(
    plant: Plant, draws: Draws, running: Run, gas: GasSide | None, readings: Collection[str]
) -> dict[str, Array]:
    """Each of these readings over the cases, not a number where the loop has no operating point.

    Raises ValueError for a reading of a part that the loop has not.
    """
    port = running.port
    answer = None
    if any(reading in LINE_OPEN for reading in readings):
        if gas is None:
            raise ValueError("the loop has no injector")
        answer = gas_answer(plant, draws, running, gas)[0]
    values: dict[str, Callable[[], Array]] = {
        "bucket_flow_m3s": lambda: running.flow_m3s,
        "pump_pa_gauge": lambda: running.station(_last(running, Pump)).pressure_pa_gauge,
        "pump_inlet_pa_gauge": lambda: pump_inlet_pressure(running, _part(running, _last(running, Pump))),
        "filter_drop_pa": lambda: running.station(_last(running, Filter)).loss_pa,
        "chiller_drop_k": lambda: chiller_drop(plant, draws, running),
    }
    if port is not None:
        values |= {
            "port_vacuum_pa": lambda: -port.port_pa_gauge,
            "inlet_pa_gauge": lambda: port.inlet_pa_gauge,
            "outlet_pa_gauge": lambda: port.outlet_pa_gauge,
        }
    if answer is not None:
        values |= {
            "port_vacuum_open_pa": lambda: -answer.port_pa_gauge,
            "gas_flow_m3s": lambda: answer.gas_flow_m3s,
        }
    missing = [reading for reading in readings if reading not in values]
    if missing:
        raise ValueError(f"the loop has nothing to read {missing[0]} at")
    return {reading: np.where(running.solved, values[reading](), np.nan) for reading in readings}


def _part(running: Run, name: str) -> PartRows:
    return next(item for item in running.assembly.parts if item.part.name == name)


def _last(running: Run, kind: type[Pump] | type[Filter]) -> str:
    names = [item.part.name for item in running.assembly.parts if isinstance(item.part, kind)]
    if not names:
        raise ValueError(f"the loop has no {kind.words[0]}")
    return names[-1]
