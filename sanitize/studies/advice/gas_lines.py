"""The gas side: a check valve that opens earlier, a shorter or wider tube."""

from sanitize.basis.band import Band
from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.plant.gas import GasLine
from sanitize.plant.loop import Plant
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.edit import resized, the_injector

EARLIER_RATIOS = (0.5, 0.25)
"""Openings of the check valve that are tried, over the one in the file (a choice of this project)."""
SHORTER_RATIO = 0.5
"""Length of the gas tube that is tried, over the one in the file (a choice of this project)."""
WIDER_M = (0.001, 0.002)
"""How much wider the gas tube is tried (a choice of this project: tubes go by whole millimetres)."""


def earlier_check_valves(plant: Plant) -> list[Change]:
    """A check valve of the gas line that opens at less, down to the least that such valves open at."""
    line = plant.gas_line
    if line is not None and not line.check_valve:
        return []
    table = default("gas_check_opening_pressure_pa_diff").band
    now = table if line is None else line.opens_at_pa
    found = []
    for ratio in EARLIER_RATIOS:
        opens = ratio * now.nominal
        if opens >= table.low:
            found.append(
                Change(
                    "earlier-check-valve",
                    f"Take a check valve for the gas line that opens at {show(opens, 'vacuum', plant.units)} instead "
                    f"of {show(now.nominal, 'vacuum', plant.units)}.",
                    lambda loop, opens=opens: _opening_at(loop, now, opens),  # type: ignore[misc]
                )
            )
    return found


def _opening_at(plant: Plant, now: Band, opens_pa: float) -> Plant:
    band = resized(now, opens_pa)
    line = GasLine(opens_at_pa=band) if plant.gas_line is None else plant.gas_line
    return plant.model_copy(update={"gas_line": line.model_copy(update={"opens_at_pa": band})})


def other_gas_tubes(plant: Plant) -> list[Change]:
    """The gas tube shorter where its run from unit over its highest point to the port allows it, and wider."""
    line = plant.gas_line
    found: list[Change] = []
    if line is None:
        return found
    if line.length_m is not None:
        length = SHORTER_RATIO * line.length_m.nominal
        if length >= _least_length_m(plant):
            found.append(
                Change(
                    "shorter-gas-line",
                    f"Shorten the gas tube from {show(line.length_m.nominal, 'length', plant.units)} to "
                    f"{show(length, 'length', plant.units)}, its highest point as it is.",
                    lambda loop: _line(loop, "length_m", length),
                    "gas",
                )
            )
    if line.bore_m is not None:
        now = line.bore_m.nominal
        for more in WIDER_M:
            found.append(
                Change(
                    "wider-gas-line",
                    f"Take a gas tube of {show(now + more, 'bore', plant.units)} instead of "
                    f"{show(now, 'bore', plant.units)}.",
                    lambda loop, bore=now + more: _line(loop, "bore_m", bore),  # type: ignore[misc]
                    "gas",
                )
            )
    return found


def _line(plant: Plant, field: str, value: float) -> Plant:
    if plant.gas_line is None:
        raise NotPossibleError("gas line")
    band: Band | None = getattr(plant.gas_line, field)
    if band is None:
        raise NotPossibleError(field)
    return plant.model_copy(update={"gas_line": plant.gas_line.model_copy(update={field: resized(band, value)})})


def _least_length_m(plant: Plant) -> float:
    """The tube that reaches from the unit up over the highest point and down to the port."""
    line = plant.gas_line
    if line is None:
        return 0.0
    injector = the_injector(plant)
    heights = [] if injector.height_m is None else [injector.height_m.nominal]
    if plant.ozone is not None and plant.ozone.height_m is not None:
        heights.append(plant.ozone.height_m.nominal)
    top = line.highest_point_m.nominal if line.highest_point_m is not None else max(heights, default=0.0)
    return sum(abs(top - height) for height in heights)
