"""What the order and the heights of the parts say by themselves."""

from sanitize.plant.injector import Injector
from sanitize.plant.loop import Chain, Junction, Plant, walk
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.plant.part import Part


def behind_injector(plant: Plant) -> tuple[Part, ...]:
    """Every part that water can meet after an injector, in order, each once."""
    found: list[Part] = []
    _follow(plant.loop, False, found)
    return tuple(found)


def injector_on_suction_side(plant: Plant) -> bool:
    """Whether a pump draws water that has passed an injector."""
    return any(isinstance(part, Pump) for part in behind_injector(plant))


def gas_meets(plant: Plant) -> tuple[str, ...]:
    """Names of the filters and chillers that stand behind an injector."""
    return tuple(part.name for part in behind_injector(plant) if isinstance(part, Filter | Chiller))


def pump_above_water(plant: Plant) -> dict[str, bool]:
    """Whether each pump may stand above the water: its highest height against the lowest level."""
    level = plant.tub.water_level_m.low
    return {
        part.name: part.height_m is None or part.height_m.high > level
        for part in walk(plant.loop)
        if isinstance(part, Pump)
    }


def valve_missing(plant: Plant) -> bool:
    """Whether no check valve in the gas line is known."""
    return plant.gas_line is None or not plant.gas_line.check_valve


def _follow(chain: Chain, gassed: bool, found: list[Part]) -> bool:
    """Collect the parts behind an injector; returns whether gassed water leaves the chain's end."""
    for item in chain.items:
        if isinstance(item, Junction):
            ends = [(_follow(way, gassed, found), way.ends_in_tub) for way in item.chains]
            gassed = any(end for end, in_tub in ends if not in_tub)
        else:
            if gassed:
                found.append(item)
            gassed = gassed or isinstance(item, Injector)
    return gassed
