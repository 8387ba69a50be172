"""Bores of parts: the table's by trade size, or the one that was measured."""

from dataclasses import dataclass
from math import pi

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.plant.injector import Injector
from sanitize.plant.part import BORE, Part
from sanitize.plant.pipework import Barb, Hose, Pipe, Reducer
from sanitize.studies.draws import Array, Draws

STEP_RATIO = 0.97
"""Bores closer than this make no step."""
OWN_STEP_RATIO = 0.90
"""Bores of one trade size make a step only when they lie further apart than this."""


@dataclass(frozen=True)
class Bore:
    """The bore of a part on its two sides, nominal, with the trade size that names it."""

    size: str
    inlet_m: float
    outlet_m: float
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


def drawn_bore(part: Pipe | Hose | Barb, draws: Draws) -> Array:
    """Bore of a pipe, hose, tube or barb in every case [m]."""
    if part.bore_m is not None:
        return draws.value(f"{part.name}.bore", part.bore_m, f"bore of {part.name}", BORE.measure)
    key, band = table_band(part)
    return draws.value(key, band, key, BORE.measure)


def injector_barb_band(part: Injector) -> tuple[str, Band]:
    """Name of the draw and band of the bore of an injector's barbed ends."""
    if part.barb_bore_m is not None:
        return f"{part.name}.barb_bore", part.barb_bore_m
    return f"bore of barb {part.size} in", model_table("barb_bores")[(part.size,)].band


def nominal_bore(part: Part) -> Bore:
    """Nominal bores of a part at its two sides."""
    if isinstance(part, Pipe | Hose | Barb):
        bore = part.bore_m.nominal if part.bore_m is not None else table_band(part)[1].nominal
        return Bore(part.size, bore, bore, isinstance(part, Barb))
    if isinstance(part, Reducer):
        return Bore(part.to_size, fitting_bore_m(part.size), fitting_bore_m(part.to_size))
    if isinstance(part, Injector):
        if part.ends == "barbed":
            barb = injector_barb_band(part)[1].nominal
            inlet = part.inlet_bore_m or barb
            return Bore(part.size, inlet, part.outlet_bore_m or inlet, joins_a_barb=True)
        inlet = part.inlet_bore_m or fitting_bore_m(part.size)
        return Bore(part.size, inlet, part.outlet_bore_m or inlet)
    own: Band | None = getattr(part, "bore_m", None)
    bore = own.nominal if own is not None else fitting_bore_m(part.size)
    return Bore(part.size, bore, bore)


def makes_step(before: Bore, after: Bore) -> bool:
    """Whether a change of bore between neighbours is counted as a step of its own."""
    if before.joins_a_barb or after.joins_a_barb:
        return False
    ratio = min(before.outlet_m, after.inlet_m) / max(before.outlet_m, after.inlet_m)
    return ratio < (STEP_RATIO if before.size != after.size else OWN_STEP_RATIO)
