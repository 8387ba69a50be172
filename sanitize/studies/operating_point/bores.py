"""Bores of parts: the table's by trade size, or the one that was measured."""

from dataclasses import dataclass
from math import pi

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.plant.injector import Injector
from sanitize.plant.part import Part
from sanitize.plant.pipework import Barb, Hose, Pipe, Reducer

STEP_RATIO = 0.97
"""Bores closer than this make no step."""
OWN_STEP_RATIO = 0.90
"""A measured bore makes a step among parts of its trade size only when it lies further apart than this."""


@dataclass(frozen=True)
class Bore:
    """The bore of a part on its two sides, nominal, with the trade sizes that name them; measured or the table's."""

    inlet_size: str
    inlet_m: float
    outlet_size: str
    outlet_m: float
    is_measured: bool = False
    joins_a_barb: bool = False


def fitting_bore_m(size: str) -> float:
    """Bore that a fitting's loss coefficient stands on: schedule 40, average wall."""
    return model_table("pipe_bores")[("40", size)].value


def area_m2(bore_m: float) -> float:
    """Area of a round bore [m2]."""
    return pi * bore_m * bore_m / 4.0


def table_band(part: Part) -> tuple[str, Band]:
    """Name of the draw and band of the table's bore of a pipe, hose, tube or barb."""
    if isinstance(part, Pipe):
        return (
            f"bore of schedule {part.schedule} pipe {part.size} in",
            model_table("pipe_bores")[(part.schedule, part.size)].band,
        )
    if isinstance(part, Hose):
        return f"bore of {part.word} {part.size} in", model_table("hose_bores")[(part.word, part.size)].band
    return f"bore of barb {part.size} in", model_table("barb_bores")[(part.size,)].band


def bore_band(part: Pipe | Hose | Barb) -> tuple[str, Band]:
    """Name of the draw and band of the bore of a pipe, hose, tube or barb: its own where it was measured."""
    return table_band(part) if part.bore_m is None else (f"{part.name}.bore", part.bore_m)


def injector_barb_band(part: Injector) -> tuple[str, Band]:
    """Name of the draw and band of the bore of an injector's barbed ends."""
    if part.barb_bore_m is not None:
        return f"{part.name}.barb_bore", part.barb_bore_m
    return f"bore of barb {part.size} in", model_table("barb_bores")[(part.size,)].band


def fitting_bore(size: str) -> Bore:
    """Bore of a fitting of a trade size, as of a split's tee."""
    bore = fitting_bore_m(size)
    return Bore(size, bore, size, bore)


def nominal_bore(part: Part) -> Bore:
    """Nominal bores of a part at its two sides."""
    if isinstance(part, Pipe | Hose | Barb):
        bore = part.bore_m.nominal if part.bore_m is not None else table_band(part)[1].nominal
        # a tube is named by its inside: its 3/4 in is not the 3/4 in of a pipe
        size = f"tube {part.size}" if part.word == "vinyl tube" else part.size
        return Bore(size, bore, size, bore, part.bore_m is not None, isinstance(part, Barb))
    if isinstance(part, Reducer):
        return Bore(part.size, fitting_bore_m(part.size), part.to_size, fitting_bore_m(part.to_size))
    if isinstance(part, Injector):
        barbed = part.ends == "barbed"
        inlet = part.inlet_bore_m or (injector_barb_band(part)[1].nominal if barbed else fitting_bore_m(part.size))
        outlet = part.outlet_bore_m or inlet
        measured = part.inlet_bore_m is not None or part.outlet_bore_m is not None
        return Bore(part.size, inlet, part.size, outlet, measured, barbed)
    own: Band | None = getattr(part, "bore_m", None)
    bore = own.nominal if own is not None else fitting_bore_m(part.size)
    return Bore(part.size, bore, part.size, bore, own is not None)


def makes_step(before: Bore, after: Bore) -> bool:
    """Whether a change of bore between neighbours is counted as a step of its own.

    Between parts of one trade size there is none, whatever their walls, unless a measured bore lies far off.
    """
    if before.joins_a_barb or after.joins_a_barb:
        return False
    ratio = min(before.outlet_m, after.inlet_m) / max(before.outlet_m, after.inlet_m)
    if before.outlet_size != after.inlet_size:
        return ratio < STEP_RATIO
    return (before.is_measured or after.is_measured) and ratio < OWN_STEP_RATIO
