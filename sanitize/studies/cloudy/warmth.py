"""How warm the tub is with each fault: the heat of a day against what the chiller takes out while the pump runs.

The temperature settles where the day's balance closes, standing + once a day + hours x (moving - capacity) = 0, by the
terms of `studies.hours`. A thermostat holds the set temperature wherever that lies between the two where it settles
with the chiller on all of those hours and without it. A chiller that has given no cold for a while leaves the set
temperature on an exponential towards the one without it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.laws.air import COLDEST_AIR_C, WARMEST_AIR_C
from sanitize.plant.day import DAY_S
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.hours.cooling import Chilling, alone_run_s, chilling_of
from sanitize.studies.hours.flows import pump_power_w
from sanitize.studies.hours.gains import Gains, gains_of
from sanitize.studies.hours.numbers import heat_number
from sanitize.studies.operating_point.run import Run

WarmthFault = Literal["chiller gives no cold", "pump runs too few hours", "lid left off"]
ACTIONS: Mapping[WarmthFault, str] = {
    "chiller gives no cold": "Look at its display, its fan and its condenser: dust off, free the air round it, set "
    "temperature and plug checked; what is then still warm is for somebody licensed for refrigerants.",
    "pump runs too few hours": "Let pump and chiller run as long as `sanitize hours` asks for.",
    "lid left off": "Put the lid back on, and read the thermometer again after a day.",
}
"""Faults that leave the running loop as it is and show on the thermometer alone, and what to do."""
COLDEST_C, WARMEST_C = 0.0, 45.0
"""Ends of the laws of water."""
HALVINGS = 24
"""To about 1e-5 K."""


@dataclass(frozen=True, eq=False)
class Warmth:
    """A tub with a chiller over the cases.

    set_c: of the thermostat; swing_k: of what a thermometer in the tub shows over it; run_s: of the pump a day; asked:
    whether somebody told it; off_s: how long a chiller has given no cold when somebody reads a thermometer.
    """

    plant: Plant
    gains: Gains
    chiller: Chilling
    set_c: float
    swing_k: Array
    run_s: Array
    is_told: bool
    off_s: Array
    short_ratio: Array

    def _net_w(self, water_c: Array, run_s: Array, cools: Mask) -> Array:
        """Heat into the water on average over a day, the chiller on as long as the pump where it cools [W]."""
        sides = self.gains.at(water_c, self.gains.air_c)
        once = sum(self.gains.daily_j(water_c).values(), np.zeros(()))
        taken = np.where(cools, self.chiller.capacity_w(water_c, self.gains.air_c), 0.0)
        return np.asarray(sides.standing_w + once / DAY_S + run_s / DAY_S * (sides.moving_w - taken))

    def settles_c(self, run_s: Array, cools: Mask) -> Array:
        """Where the water comes to rest, within the laws of water [degC]."""
        low, high = np.full(run_s.shape, COLDEST_C), np.full(run_s.shape, WARMEST_C)
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            warms = self._net_w(middle, run_s, cools) > 0.0
            low, high = np.where(warms, middle, low), np.where(warms, high, middle)
        return np.asarray(0.5 * (low + high))

    def tub_c(self, run_s: Array, cools: Mask) -> Array:
        """What a thermometer in the tub shows; cools: the cases in which the chiller gives cold [degC]."""
        nobody = np.zeros(run_s.shape, dtype=bool)
        free = self.settles_c(run_s, nobody)
        held = np.minimum(np.maximum(self.settles_c(run_s, ~nobody), self.set_c), free)
        away = free - held
        rate = self._net_w(held, run_s, nobody) / self.gains.heat_capacity_jk(self.set_c)
        power = np.where(np.abs(away) > 1e-6, self.off_s * rate / np.where(np.abs(away) > 1e-6, away, 1.0), 0.0)
        warmed = np.asarray(held - away * np.expm1(-np.maximum(power, 0.0)))
        shown = np.where(cools, held, warmed)
        return np.asarray(np.clip(shown + self.swing_k, COLDEST_C, WARMEST_C))

    def with_loop(self, running: Run | None) -> Array:
        """The thermometer with a fault of the loop: a chiller below its least flow is stopped by its flow switch."""
        if running is None:
            return self.tub_c(np.zeros(self.run_s.shape), np.zeros(self.run_s.shape, dtype=bool))
        cools = np.ones(self.run_s.shape, dtype=bool)
        for item in running.assembly.parts:
            if isinstance(item.part, Chiller) and item.part.min_flow_m3s is not None:
                flow = np.where(running.solved, np.abs(running.station(item.part.name).flow_m3s), np.inf)
                cools &= flow >= item.part.min_flow_m3s
        return np.where(running.solved, self.tub_c(self.run_s, cools), np.nan)

    def faults(self) -> dict[WarmthFault, Array]:
        """The thermometer with every fault that leaves the running loop as it is."""
        every = np.ones(self.run_s.shape, dtype=bool)
        found: dict[WarmthFault, Array] = {"chiller gives no cold": self.tub_c(self.run_s, ~every)}
        if not self.is_told:
            enough = np.minimum(alone_run_s(self.plant, self.gains, self.chiller), DAY_S)
            found["pump runs too few hours"] = self.tub_c(self.short_ratio * enough, every)
        if float(self.gains.covered_ratio[0]) > 0.0:
            bare = replace(self, gains=replace(self.gains, covered_ratio=np.zeros(self.run_s.shape)))
            found["lid left off"] = bare.tub_c(self.run_s, every)
        return found

    def rates_k_per_h(self) -> tuple[Array, Array]:
        """How fast the water cools at first with pump and chiller on, and warms with the pump on alone [K/h]."""
        sides = self.gains.at(self.set_c, self.gains.air_c)
        gain = sides.standing_w + sides.moving_w
        warms = 3600.0 * gain / self.gains.heat_capacity_jk(self.set_c)
        taken = self.chiller.capacity_w(self.set_c, self.gains.air_c) / self.gains.heat_capacity_jk(self.set_c)
        return np.asarray(3600.0 * taken - warms), np.asarray(warms)


def warmth_of(plant: Plant, draws: Draws, running: Run, run_s: float | None) -> Warmth | None:
    """The tub's warmth over the cases; None without [chiller].

    plant: the loop as its file states it, temperatures as read in its [measured]; running: with nothing wrong; run_s:
    of the pump a day, None where nobody told it, then from as long as holds the tub to all day.
    """
    if plant.chiller is None:
        return None
    power = np.where(running.solved, pump_power_w(plant, draws, running), 0.0)
    gains = _as_read(plant, draws, gains_of(plant, draws, power))

    def size(name: str, label: str) -> Array:
        return draws.value(f"fault {name}", model_table("fault_sizes")[(name,)].band, label)

    chiller = chilling_of(plant.chiller, draws)
    enough = np.minimum(alone_run_s(plant, gains, chiller), DAY_S)
    more = draws.value("pump hours that nobody told", Band(0.0, 0.5, 1.0))
    return Warmth(
        plant=plant,
        gains=gains,
        chiller=chiller,
        set_c=plant.tub.temperature_c,
        swing_k=heat_number(draws, None, "thermostat_swing_k", "thermometer over thermostat").values,
        run_s=np.full(draws.size, run_s) if run_s is not None else enough + (DAY_S - enough) * more,
        is_told=run_s is not None,
        off_s=size("chiller_off_time_s", "how long the chiller has given no cold"),
        short_ratio=size("short_run_ratio", "pump hours over those that hold the tub"),
    )


def _as_read(plant: Plant, draws: Draws, gains: Gains) -> Gains:
    """With the air as somebody read it, which the mean of the days before may differ from."""
    read = None if plant.measured is None else plant.measured.air_temperature_c
    if read is None:
        return gains
    mean = draws.value("air as read", read, "air at the time of the readings")
    apart = heat_number(draws, None, "air_of_days_k", "mean air of the days before over that at the reading").values
    return replace(gains, air_c=np.clip(mean + apart, COLDEST_AIR_C, WARMEST_AIR_C))
