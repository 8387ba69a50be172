"""Ozone's way into the water while the pump runs: what the unit makes, and what of it dissolves."""

import numpy as np

from sanitize.basis.notices import Notice
from sanitize.laws.ozone.solubility import solubility_ratio
from sanitize.plant.loop import Plant
from sanitize.studies.day.hydraulics import Hydraulics
from sanitize.studies.day.parts import Supply
from sanitize.studies.day.ranges import CORNERS, Ranges
from sanitize.studies.day.schedule import MINUTE_S
from sanitize.studies.draws import Array
from sanitize.studies.ozone.contact import crossing
from sanitize.studies.ozone.model import NO_GAS_M3S, Flows, contact_gas_m3s, made_mg_per_h, rising, solubility_of
from sanitize.studies.ozone.numbers import Numbers

LITRES_PER_MIN = 60000.0
"""Litres a minute in one cubic metre a second, exact."""
MIN_PER_H = 60.0


def supply_of(plant: Plant, loop: Hydraulics, ranges: Ranges) -> tuple[Supply | None, tuple[Notice, ...]]:
    """The supply of a plant, None without an ozone unit; and what was assumed for it.

    What crosses is that of the steady balance at the tub's stated temperature. In the corners gas flows wherever it
    does in any case, and the unit makes the most of all cases; of it the least of all cases dissolves where the air is
    at stake, and the most where those are who get in.
    """
    unit, flows = plant.ozone, loop.ozone
    if unit is None or flows is None:
        return None, ()
    notices: list[Notice] = []
    temperature_c = plant.tub.temperature_c
    (drawn, drawn_strips), *corners = (
        _crossed(flows, temperature_c, numbers) for numbers in (ranges.drawn, *ranges.corners)
    )
    made, *most = (
        made_mg_per_h(unit, flows.gas_m3s, flows.running.assembly.water.atmosphere_pa_abs, numbers)
        for numbers in (ranges.drawn, *ranges.corners)
    )
    full = float(max(corner.max() for corner in most))
    dissolved = np.append(drawn, _dissolved_ratios(full, most, [corner[0] for corner in corners]))
    (_, in_air), (_, at_entry) = corners
    draws = flows.gas_m3s > NO_GAS_M3S
    stripped = np.append(drawn_strips, [in_air.max(), at_entry[draws].min() if draws.any() else 0.0])
    at_tub, _ = contact_gas_m3s(flows)
    solubility = ranges.joined(*(solubility_of(temperature_c, numbers) for numbers in (ranges.drawn, *ranges.corners)))
    spread = solubility / solubility_ratio(temperature_c)
    if unit.feed == "room air":
        notices.append(
            Notice(
                "damp-feed",
                "Fed with undried room air the unit is taken to make 30 to 100 % of its rated output, half most "
                "likely; for the dangers all of it counts.",
            )
        )
    return Supply(
        fed_mg_min=np.append(made, [full] * CORNERS) / MIN_PER_H,
        dissolved_ratio=lambda water_c: np.broadcast_to(dissolved, water_c.shape),
        stripped_l_min=lambda water_c: np.broadcast_to(stripped, water_c.shape),
        solubility_ratio=lambda water_c: spread * solubility_ratio(water_c),
        gas_m3_min=MINUTE_S * np.append(at_tub, [_drawing(at_tub, flows.gas_m3s)] * CORNERS),
    ), tuple(notices)


def _dissolved_ratios(full_mg_per_h: float, made_mg_per_h: list[Array], dissolved: list[Array]) -> tuple[float, float]:
    """Shares that dissolve of all that a unit makes, in the corners for air and entry.

    So much that, case by case, no more of what is made leaves with the gas, or dissolves.
    """
    if full_mg_per_h <= 0.0:
        return 0.0, 0.0
    vented, absorbed = made_mg_per_h[0] * (1.0 - dissolved[0]), made_mg_per_h[1] * dissolved[1]
    return 1.0 - float(vented.max()) / full_mg_per_h, float(absorbed.max()) / full_mg_per_h


def _drawing(at_tub: Array, gas_m3s: Array) -> float:
    """Gas in the corners: as in the nominal case, else as in the middle of the cases that draw."""
    draws = gas_m3s > NO_GAS_M3S
    return float(at_tub[0]) if draws[0] or not draws.any() else float(np.median(at_tub[draws]))


def _crossed(flows: Flows, temperature_c: float, numbers: Numbers) -> tuple[Array, Array]:
    """Share of the ozone fed that dissolves in water without any, and water that the gas would strip of all [L/min]."""
    at_tub, gas = contact_gas_m3s(flows)
    solubility = solubility_of(temperature_c, numbers)
    way = crossing(flows.way, flows.running, gas, solubility, np.zeros(gas.size), numbers)
    risen = rising(flows, solubility, numbers)
    dissolved = way.end_m3s * way.water_of_gas / gas + risen * way.gas_of_gas
    stripped = way.end_m3s * (1.0 - way.water_of_water) - risen * (gas * way.gas_of_water - at_tub / solubility)
    draws = flows.gas_m3s > NO_GAS_M3S
    return np.where(draws, np.clip(dissolved, 0.0, 1.0), 0.0), np.where(draws, LITRES_PER_MIN * stripped, 0.0)
