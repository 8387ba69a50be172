"""Another throat in the same injector body."""

from math import pi, sqrt

from sanitize.basis.units import show
from sanitize.plant.changed import with_part
from sanitize.plant.injector import BenchRow, DropAtFlow, Injector
from sanitize.plant.loop import Plant
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.edit import the_injector
from sanitize.studies.operating_point.bores import nominal_bore
from sanitize.studies.operating_point.injector_model import WIDEST_THROAT_RATIO, InjectorModel

STEP_M = 0.001
"""One size of throat (a choice of this project: throats go by whole millimetres of a drill)."""
SIZES_DOWN = (1, 2)
LEAST_THROAT_M = 0.003
"""Smallest throat that is advised: narrower ones clog with what a filter lets pass (an estimate)."""


def throat_m(injector: Injector, model: InjectorModel) -> float:
    """The throat of an injector, by its bore or, of one known by its bench figures alone, as those imply it [m]."""
    if injector.throat_m is not None:
        return injector.throat_m.nominal
    return sqrt(4.0 * float(model.throat_m2[0]) / pi)


def with_throat(plant: Plant, ratio: float) -> Plant:
    """The injector with its throat scaled, of the same shape: its pressures are those of the present one at a flow.

    By likeness k ~ throat^-4, so what the bench read at a flow Q now holds at Q times the ratio squared.
    """
    injector = the_injector(plant)
    if ratio <= 0.0:
        raise NotPossibleError("throat")

    def at(drop: DropAtFlow | None) -> DropAtFlow | None:
        return None if drop is None else drop.model_copy(update={"flow_m3s": drop.flow_m3s * ratio**2})

    rows: tuple[BenchRow, ...] = tuple(
        row.model_copy(update={"flow_m3s": row.flow_m3s * ratio**2}) for row in injector.bench
    )
    return with_part(
        plant,
        injector.name,
        throat_m=None if injector.throat_m is None else injector.throat_m.scaled(ratio),
        mixing_bore_m=None if injector.mixing_bore_m is None else injector.mixing_bore_m * ratio,
        inlet_to_port=at(injector.inlet_to_port),
        outlet_to_port=at(injector.outlet_to_port),
        bench=rows,
    )


def smaller_throats(plant: Plant, now_m: float) -> list[Change]:
    """An injector of the same make with a throat one and two sizes smaller; now_m: its throat [m]."""
    name = the_injector(plant).name
    found = []
    for steps in SIZES_DOWN:
        new = now_m - steps * STEP_M
        if new < LEAST_THROAT_M:
            continue
        found.append(
            Change(
                "smaller-throat",
                f"Take for {name} one of the same make with a throat of {show(new, 'bore', plant.units)} instead of "
                f"{show(now_m, 'bore', plant.units)}.",
                lambda loop, ratio=new / now_m: with_throat(loop, ratio),  # type: ignore[misc]
            )
        )
    return found


def fits_injector(plant: Plant, throat_m: float) -> bool:
    """Whether a throat is no wider than its body bears."""
    bore = nominal_bore(the_injector(plant))
    return throat_m <= WIDEST_THROAT_RATIO * min(bore.inlet_m, bore.outlet_m)
