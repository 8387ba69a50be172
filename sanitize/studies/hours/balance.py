"""The heat of a tub over a day at its set temperature, and the need for cooling."""

import numpy as np

from sanitize.basis.units import show
from sanitize.plant.day import DAY_S
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array
from sanitize.studies.hours.cooling import Chilling, alone_run_s, reach_s, warmest_air_c, warming_k_per_h
from sanitize.studies.hours.gains import Gains
from sanitize.studies.hours.money import Shown
from sanitize.studies.hours.needs import Moved, NeedCases
from sanitize.studies.hours.result import Heat, HeatRow


def cooling(moved: Moved, gains: Gains, chiller: Chilling) -> NeedCases:
    """Chiller and pump hold the set temperature."""
    run_s = alone_run_s(moved.plant, gains, chiller)
    air = float(gains.air_c[0])
    water = moved.plant.tub.temperature_c
    capacity = float(chiller.capacity_w(water, gains.air_c)[0])
    sides = gains.at(water, gains.air_c)
    return NeedCases(
        "cooling",
        run_s,
        "",
        "estimate",
        _cooling_words(moved, air, capacity, sides.standing_w, sides.moving_w),
        "a lid and insulation, a larger chiller, a pump of fewer watts, cooler air, a warmer set temperature",
    )


def _cooling_words(moved: Moved, air_c: float, capacity_w: float, standing_w: Array, moving_w: Array) -> str:
    family = moved.family
    return (
        f"at {show(moved.plant.tub.temperature_c, 'temperature', family)} in air of "
        f"{show(air_c, 'temperature', family)} the tub takes in {show(float(standing_w[0]), 'power', family)} and "
        f"{show(float(moving_w[0]), 'power', family)} more while the pump runs; the chiller takes out "
        f"{show(capacity_w, 'power', family)}"
    )


def heat_of(
    plant: Plant, gains: Gains, chiller: Chilling | None, pump_run_s: Array, chilled_s: Array, shown: Shown
) -> Heat:
    """The balance at the set temperature, a mean over a day with that run time."""
    water = plant.tub.temperature_c
    sides = gains.at(water, gains.air_c)
    share = pump_run_s / DAY_S
    rows = {
        **sides.standing,
        **{name: share * heat for name, heat in sides.moving.items()},
        **{name: heat / DAY_S for name, heat in gains.daily_j(water).items()},
    }
    total = sum(rows.values(), np.zeros(gains.air_c.size))
    start = None if plant.chiller is None else plant.chiller.start_c
    return Heat(
        water_c=water,
        air_c=shown(gains.air_c),
        gains=tuple(HeatRow(name, shown(heat)) for name, heat in rows.items() if np.any(heat != 0.0)),
        gain_w=shown(total),
        warming_k_per_h=shown(warming_k_per_h(plant, gains)),
        capacity_w=None if chiller is None else shown(chiller.capacity_w(water, gains.air_c)),
        chiller_run_s=None if chiller is None else shown(chilled_s),
        start_c=start,
        reach_s=None if chiller is None or start is None else shown(reach_s(plant, gains, chiller, start)),
        warmest_air_c=None if chiller is None else shown(warmest_air_c(plant, gains, chiller)),
    )
