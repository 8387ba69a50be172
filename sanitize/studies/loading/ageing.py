"""The loop at any time after the cleaning, and when it crosses a limit."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from sanitize.basis.tables import default
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.loading.filters import Growth
from sanitize.studies.loading.result import LimitName
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.solve import REST_FLOW_M3S
from sanitize.studies.suction.states import GasSide

LARGEST_DROP_RATIO = 50.0
"""The search ends where the first filter's drop at the rated flow has grown so many times."""
STEPS = 16
"""Steps to the end of the search, in which a limit is looked for."""
HALVINGS = 10
"""Halvings of the step in which it is crossed: a sixteen-thousandth of the search is left."""

Crossed = Callable[[Run], Mask]


@dataclass(frozen=True, eq=False)
class Sought:
    """A limit: whether it ends the time between cleanings, and in which cases a run is beyond it."""

    limit: LimitName
    part: str
    ends_the_time: bool
    crossed: Crossed


class Ageing:
    """A loop whose filters load."""

    def __init__(self, plant: Plant, draws: Draws, level_m: Array, growths: Mapping[str, Growth]) -> None:
        self.plant, self.draws, self.level_m, self.growths = plant, draws, level_m, growths
        self.longest_s = np.minimum.reduce([growth.time_s(LARGEST_DROP_RATIO) for growth in growths.values()])

    def at(self, time_s: Array) -> Run:
        """The loop so long after the cleaning, over the cases."""
        ratios = {name: growth.ratio(time_s) for name, growth in self.growths.items()}
        return run(self.plant, self.draws, Condition(self.level_m, filter_drop_ratios=ratios))

    def crossings(self, clean: Run, sought: list[Sought]) -> list[Array]:
        """First time at which each limit is crossed [s], over the cases.

        NaN where it is crossed with the clean filter, infinite where it is not up to the end of the search.
        """
        size = self.draws.size
        from_start = [item.crossed(clean) for item in sought]
        before = [np.full(size, np.inf) for _ in sought]
        behind = [np.full(size, np.inf) for _ in sought]
        last = np.zeros(size)
        for step in range(1, STEPS + 1):
            time = self.longest_s * step / STEPS
            state = self.at(time)
            for index, item in enumerate(sought):
                new = item.crossed(state) & ~from_start[index] & np.isinf(behind[index])
                before[index] = np.where(new, last, before[index])
                behind[index] = np.where(new, time, behind[index])
            last = time
        found = []
        for index, item in enumerate(sought):
            low, high = before[index], behind[index]
            comes = np.isfinite(high)
            for _ in range(HALVINGS if comes.any() else 0):
                middle = np.where(comes, 0.5 * (low + high), 0.0)
                beyond = item.crossed(self.at(middle))
                low, high = np.where(beyond, low, middle), np.where(beyond, middle, high)
            found.append(np.where(from_start[index], np.nan, np.where(comes, 0.5 * (low + high), np.inf)))
        return found


def limits_of(plant: Plant, clean: Run, gas: GasSide, gauge: str) -> list[Sought]:
    """What ends the time between cleanings in this loop, and the usual rule of the gauge beside it."""
    found = [Sought("injector stops drawing", _injector(clean), True, lambda state: ~draws(state, gas))]
    for item in clean.assembly.parts:
        if isinstance(item.part, Chiller) and item.part.min_flow_m3s is not None:
            least, link = item.part.min_flow_m3s, item.link
            found.append(Sought("chiller below its least flow", item.part.name, True, _below(link, least)))
    left = (1.0 - default("flow_loss_limit_ratio").value) * clean.flow_m3s
    rise = default("filter_clean_rise_pa_diff").value
    reading = clean.station(gauge).pressure_pa_gauge
    found.append(Sought("flow down by a fifth", "", True, lambda state: ~state.solved | (state.flow_m3s < left)))
    found.append(Sought("gauge rule", gauge, False, _risen(gauge, reading, rise)))
    return found


def _below(link: int, least_m3s: float) -> Crossed:
    return lambda state: np.asarray(~state.solved | (state.solution.flow_m3s[link] < least_m3s))


def _risen(gauge: str, clean_pa_gauge: Array, rise_pa: float) -> Crossed:
    return lambda state: np.asarray(state.solved & (state.station(gauge).pressure_pa_gauge - clean_pa_gauge >= rise_pa))


def draws(state: Run, gas: GasSide) -> Mask:
    """In which cases the injector draws: as for the share that draws."""
    if state.port is None:
        raise ValueError("the loop has no injector")
    moving = state.solved & (state.port.flow_m3s > REST_FLOW_M3S)
    return np.asarray(moving & (state.port.port_pa_gauge + gas.opens_at_pa < 0.0))


def _injector(state: Run) -> str:
    if state.port is None:
        raise ValueError("the loop has no injector")
    return state.port.name


def gauge_of(clean: Run) -> str:
    """The pump behind which the pressure is read: the last one before the first filter in its way, else the last."""
    items = clean.assembly.parts
    first = next(item for item in items if isinstance(item.part, Filter))
    running = [item for item in items if isinstance(item.part, Pump) and item.part.running]
    place = items.index(first)
    before = [item for item in running if item.link == first.link and items.index(item) < place]
    return (before or running)[-1].part.name
