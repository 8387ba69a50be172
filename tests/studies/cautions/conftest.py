"""A boathouse tub on which almost nothing is wrong, and what changes of it say."""

from collections.abc import Callable
from typing import Any

import pytest

from sanitize.basis.band import Band
from sanitize.plant.ends import Return, Suction
from sanitize.plant.gas import GasLine, OzoneUnit
from sanitize.plant.heat import Surroundings
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Chain, Plant
from sanitize.plant.machines import Pump
from sanitize.plant.part import Part
from sanitize.plant.tub import Room, Tub
from sanitize.studies.cautions.facts import Facts

LITRE_PER_MINUTE_M3S = 1.0 / 60000.0


def suction(name: str = "suction fitting", **changes: Any) -> Suction:
    given = {"height_m": Band.exact(0.2), "cover_rated_flow_m3s": 150 * LITRE_PER_MINUTE_M3S, **changes}
    return Suction(word="suction fitting", name=name, size="1-1/2", **given)


def pump(name: str = "pump", height_m: float = 0.3) -> Pump:
    curve = ((0.0, 4.4), (52 * LITRE_PER_MINUTE_M3S, 0.0))
    return Pump(word="pump", name=name, size="3/4", height_m=Band.exact(height_m), curve=curve)


def injector() -> Injector:
    return Injector(word="injector", name="injector", size="3/4", height_m=Band.exact(0.75), throat_m=Band.exact(0.008))


def outlet() -> Return:
    return Return(word="return", name="return", size="3/4", height_m=Band.exact(0.55))


def loop(*items: Part) -> Chain:
    return Chain(name="loop", items=items)


def plant(*items: Part, **changes: Any) -> Plant:
    tub = {
        "volume_m3": 0.43,
        "water_level_m": Band(0.79, 0.8, 0.81),
        "rim_m": Band(0.89, 0.9, 0.91),
        "temperature_c": 18.0,
        "place": "outdoors",
        **changes.pop("tub", {}),
    }
    given = {
        "gas_line": GasLine(opens_at_pa=Band(1200.0, 1500.0, 1800.0)),
        "ozone": OzoneUnit(
            output_mg_per_h=90.0, at_gas_flow_m3s=2 * LITRE_PER_MINUTE_M3S, height_m=Band(1.59, 1.6, 1.61)
        ),
        "room": None,
        "surroundings": Surroundings(coldest_air_c=5.0),
        **changes,
    }
    return Plant(loop=loop(*(items or (suction(), pump(), injector(), outlet()))), tub=Tub(**tub), **given)


def facts(*items: Part, **changes: Any) -> Facts:
    """Facts of a plant; keywords that Facts does not know change the plant."""
    given: dict[str, Any] = {
        "family": "metric",
        "flow_high_m3s": 40 * LITRE_PER_MINUTE_M3S,
        "suction_flows_high_m3s": {},
        "blocked": {"suction fitting": (22000.0, 25.0)},
        "suction_velocity_high_ms": 1.0,
        "suction_velocity_part": "suction hose",
        "return_velocity_high_ms": 2.0,
        "return_velocity_part": "return hose",
        "pump_inlet_pressure_low_pa_gauge": {"pump": 1000.0},
        "pump_above_water": {"pump": False},
        "pump_past_curve_ratio": {"pump": 0.0},
        "chiller_flows_m3s": {},
        "injector_on_suction_side": False,
        "injector_before": (),
        "floods": (),
        "valve_missing": False,
        "air_enters_when_off": False,
        "ozone_found": None,
    }
    for name in list(changes):
        if name in given:
            given[name] = changes.pop(name)
    return Facts(plant=changes.pop("plant", None) or plant(*items, **changes), **given)


@pytest.fixture(name="facts")
def _facts() -> Callable[..., Facts]:
    return facts


@pytest.fixture(name="plant")
def _plant() -> Callable[..., Plant]:
    return plant


@pytest.fixture(name="parts")
def _parts() -> dict[str, Callable[..., Part]]:
    return {"suction": suction, "pump": pump, "injector": injector, "return": outlet}


@pytest.fixture(name="indoors")
def _indoors() -> dict[str, Any]:
    return {"tub": {"place": "indoors"}, "room": Room(volume_m3=38.0, changes_per_h=0.7)}
