"""Where the ozone of a stretch went, in mg, and how closely the sum closes."""

from dataclasses import dataclass, fields

import numpy as np

from sanitize.studies.day.parts import AirSide, Chemistry
from sanitize.studies.day.rates import Flowing
from sanitize.studies.day.reactor import OVER, OZONE, ROOM
from sanitize.studies.day.schedule import Stretches
from sanitize.studies.draws import Array


@dataclass(frozen=True, eq=False)
class Masses:
    """Ozone [mg] over the stretches and cases; ways of the water first, then those of the air.

    vented: left the water with the gas, of it destroyed before it reached the air; surfaced: through the surface;
    kept by reactions: with itself, fast and slow demand, the other oxidant; removed: at surfaces of the room; carried:
    by air changes, or by the wind outdoors; stored: what water and air gained.
    by_oxidant_mg: demand that the other oxidant took, counted as ozone.
    """

    fed: Array
    vented: Array
    destroyed: Array
    surfaced: Array
    decayed: Array
    with_fast: Array
    with_slow: Array
    with_oxidant: Array
    removed: Array
    carried: Array
    stored_in_water: Array
    stored_in_air: Array
    by_oxidant_mg: Array

    @property
    def dissolved(self) -> Array:
        """What stayed in the water, less what the gas stripped out of it."""
        return self.fed - self.vented

    @property
    def imbalance_ratio(self) -> Array:
        """What is missing in water and air over all that was fed, for each case."""
        water = self.dissolved - self.surfaced - self.decayed - self.with_fast - self.with_slow - self.with_oxidant
        air = self.vented - self.destroyed + self.surfaced - self.removed - self.carried
        missing = np.abs((water - self.stored_in_water).sum(0)) + np.abs((air - self.stored_in_air).sum(0))
        fed = self.fed.sum(0)
        return np.asarray(missing / np.where(fed > 0.0, fed, 1.0))

    def total(self) -> dict[str, Array]:
        """The day's sums by name, each over the cases."""
        return {field.name: getattr(self, field.name).sum(0) for field in fields(self)}


def stored_in_air_mg(state: Array, lid: bool, air: AirSide) -> Array:
    """Ozone in the air over the water and in the room [mg]; outdoors only what a lid holds."""
    if lid:
        room = (air.room_m3 - air.headspace_m3) * state[ROOM] if air.indoors else 0.0
        return np.asarray(air.headspace_m3 * state[OVER] + room)
    return np.asarray(air.room_m3 * state[OVER] if air.indoors else np.zeros(state.shape[1]))


def masses_of(
    day: Stretches, ways: Flowing, seen: Array, first: Array, last: Array, air: AirSide, chemistry: Chemistry
) -> Masses:
    """Masses by stretch; seen: (stretches, 8, cases); first, last: states at its ends, (stretches, 6, cases)."""
    length = day.length_min[:, np.newaxis]
    lid = day.lid[:, np.newaxis]
    ozone, over, room = seen[:, 0], seen[:, 1], seen[:, 2]
    vented = ways.to_air_mg_min * length + ways.to_air_l_min * ozone
    destroyed = air.destroyed_ratio * vented
    surfaced = ways.surface_l_min * ozone - ways.returned_l_min * over
    breathed = ways.room_m3 * np.where(lid, room, over)
    if air.indoors:
        carried = ways.changes_per_min * breathed
    else:
        carried = np.where(lid, ways.out_m3_min * over, vented - destroyed + surfaced)
    volume = chemistry.volume_l
    stored = [
        stored_in_air_mg(last[index], bool(closed), air) - stored_in_air_mg(first[index], bool(closed), air)
        for index, closed in enumerate(day.lid)
    ]
    return Masses(
        fed=ways.fed_mg_min * length,
        vented=vented,
        destroyed=destroyed,
        surfaced=surfaced,
        decayed=volume * ways.decay_per_min * ozone,
        with_fast=volume * seen[:, 3],
        with_slow=volume * seen[:, 4],
        with_oxidant=volume * seen[:, 5],
        removed=ways.removal_per_min * breathed,
        carried=carried,
        stored_in_water=volume * (last[:, OZONE] - first[:, OZONE]),
        stored_in_air=np.stack(stored),
        by_oxidant_mg=volume * (seen[:, 6] + seen[:, 7]),
    )
