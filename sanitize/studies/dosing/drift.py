"""pH over some days in which carbon dioxide leaves through the injector's bubbles and the open surface."""

from math import pi

import numpy as np
from numpy.typing import ArrayLike

from sanitize.basis.figure import Figure
from sanitize.laws.chemistry.carbonate import Water
from sanitize.laws.chemistry.degassing import exchange_rate_per_s, ph_after
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.result import Drift
from sanitize.studies.dosing.water import Holds
from sanitize.studies.draws import Array

DAYS = (1.0, 3.0, 7.0)
_DAY_S = 86400.0


def drift_of(plant: Plant, after: Holds, gas_flow_m3s: Figure) -> tuple[Drift, ...]:
    """pH after some days by slow, nominal and fast exchange, from the nominal water after the plan."""
    rates = _rates(plant, gas_flow_m3s, after.temperature_c)
    water = after.water
    single = Water(
        _first(water.calcium_moll),
        _first(water.sodium_moll),
        _first(water.ionic_strength_moll),
        _first(water.temperature_c),
        acids=tuple((_first(total), _first(pk)) for total, pk in water.acids),
    )
    times_s = np.array(DAYS)[:, np.newaxis] * _DAY_S
    ends = ph_after(float(after.ph[0]), float(after.alkalinity[0]), single, rates, times_s)
    return tuple(
        Drift(days, Figure(float(row.min()), float(row[1]), float(row.max())))
        for days, row in zip(DAYS, ends, strict=True)
    )


def _first(values: ArrayLike) -> float:
    return float(np.ravel(values)[0])


def surface_m2(plant: Plant) -> tuple[float, float, float]:
    """Open surface by the tub's shape, else by its volume over the usual depth, low to high [m2]."""
    tub = plant.tub
    if tub.shape == "cylinder" and tub.inside_diameter_m is not None:
        return (0.25 * pi * tub.inside_diameter_m**2,) * 3
    if tub.shape == "box" and tub.inside_length_m is not None and tub.inside_width_m is not None:
        return (tub.inside_length_m * tub.inside_width_m,) * 3
    depth = number("tub_depth_m").band
    return tub.volume_m3 / depth.high, tub.volume_m3 / depth.nominal, tub.volume_m3 / depth.low


def _rates(plant: Plant, gas_flow_m3s: Figure, temperature_c: float) -> Array:
    running, bubbles = number("running_ratio").band, number("bubble_saturation_ratio").band
    transfer = number("surface_transfer_ms").band
    gas = np.array([0.0 if end == np.inf else end for end in gas_flow_m3s.ends])
    return exchange_rate_per_s(
        plant.tub.volume_m3,
        np.array(surface_m2(plant)),
        np.array([transfer.low, transfer.nominal, transfer.high]),
        gas * np.array([running.low, running.nominal, running.high]),
        np.array([bubbles.low, bubbles.nominal, bubbles.high]),
        temperature_c,
    )
