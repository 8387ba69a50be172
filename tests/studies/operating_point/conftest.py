"""Random trees of ways, and draws that hold every case at nominal."""

import random
from collections.abc import Callable
from typing import Literal

import numpy as np
import pytest

from sanitize.basis.band import Band
from sanitize.plant.ends import Return, Suction
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Chain, Join, Plant, Split
from sanitize.plant.machines import Filter, Pump
from sanitize.plant.part import Part
from sanitize.plant.pipework import Fitting, Hose, KnownDrop, KnownLoss
from sanitize.plant.tub import Tub
from sanitize.plant.valves import CheckValve, Valve
from sanitize.studies.draws import Array, Draws

L_MIN = 1.0 / 60_000.0


class NominalDraws(Draws):
    """Every case is the nominal one, for sweeps of a condition."""

    def rank(self, key: str, label: str = "", measure: str = "", band: Band | None = None) -> Array:
        return np.full(self.size, 0.5)


@pytest.fixture(scope="session")
def nominal_draws() -> Callable[[int], Draws]:
    return NominalDraws


class _Maker:
    """A loop with ways in ways, from one seed; every number is exact.

    valves: some parts are check valves and shut or half shut ball valves, some ways have pumps of their own.
    """

    def __init__(self, seed: int, valves: bool) -> None:
        self.random = random.Random(seed)
        self.count = 0
        self.valves = valves

    def name(self, word: str) -> str:
        self.count += 1
        return f"{word} {self.count}"

    def valve(self) -> Part:
        dice = self.random.random()
        if dice < 0.6:
            style: Literal["spring", "swing"] = "spring" if dice < 0.3 else "swing"
            return CheckValve(word="check valve", name=self.name("check valve"), size="3/4", style=style)
        if dice < 0.8:
            return self.pump()
        handle = Band.exact(self.random.choice([20.0, 50.0, 90.0]))
        return Valve(word="ball valve", name=self.name("ball valve"), size="3/4", handle_deg=handle)

    def part(self) -> Part:
        if self.valves and self.random.random() < 0.3:
            return self.valve()
        dice, draw = self.random.random(), self.random.uniform
        if dice < 0.35:
            return Hose(word="flexible hose", name=self.name("hose"), size="3/4", length_m=Band.exact(draw(0.2, 4.0)))
        if dice < 0.6:
            return Fitting(word="elbow 90", name=self.name("elbow"), size="3/4", count=self.random.randint(1, 4))
        if dice < 0.8:
            k = Band.exact(10.0 ** draw(-1.0, 2.0))
            return KnownLoss(word="known loss", name=self.name("loss"), size="3/4", k_ratio=k)
        drop = Band.exact(10.0 ** draw(2.5, 4.3))
        if dice < 0.9:
            flow, exponent = draw(5.0, 60.0) * L_MIN, Band.exact(draw(1.0, 2.0))
            return KnownDrop(
                word="known drop", name=self.name("drop"), size="3/4", drop_pa=drop, at_flow_m3s=flow,
                exponent_ratio=exponent,
            )  # fmt: skip
        return Filter(word="filter", name=self.name("filter"), size="3/4", drop_pa=drop, at_flow_m3s=40.0 * L_MIN)

    def pump(self) -> Pump:
        curve = ((0.0, self.random.uniform(2.0, 8.0)), (self.random.uniform(30.0, 90.0) * L_MIN, 0.0))
        return Pump(
            word="pump", name=self.name("pump"), size="3/4", height_m=Band.exact(0.3), curve=curve,
            check_valve=self.valves and self.random.random() < 0.5,
        )  # fmt: skip

    def suction(self) -> Suction:
        return Suction(word="suction fitting", name=self.name("suction"), size="1", height_m=Band.exact(0.2))

    def back(self) -> Return:
        return Return(word="return", name=self.name("return"), size="3/4", height_m=Band.exact(0.5))

    def split(self, depth: int, to_the_tub: bool = False) -> Split:
        ways = tuple(self.name("way") for _ in range(self.random.choice([2, 2, 2, 3, 4])))
        chains = []
        for way in ways:
            items: list[Part] = [self.part() for _ in range(self.random.randint(1, 3))]
            if depth > 0 and self.random.random() < 0.4:
                items.insert(self.random.randint(0, len(items)), self.split(depth - 1))
            if to_the_tub:
                items.append(self.back())
            chains.append(Chain(name=way, items=tuple(items)))
        straight = self.random.choice([None, *ways])
        return Split(
            word="split", name=self.name("split"), size="3/4", ways=ways, straight=straight, chains=tuple(chains)
        )

    def plant(self) -> Plant:
        items: list[Part] = [self.suction()]
        if self.random.random() < 0.25:
            ways = (self.name("way"), self.name("way"))
            chains = tuple(Chain(name=way, items=(self.suction(), self.part())) for way in ways)
            items = [Join(word="join", name=self.name("join"), size="3/4", ways=ways, chains=chains)]
        items += [self.part(), self.pump(), self.part()]
        if self.random.random() < 0.2:
            items.append(self.pump())
        for _ in range(self.random.randint(1, 3)):
            items.append(self.split(2) if self.random.random() < 0.7 else self.part())
        if self.random.random() < 0.6:
            throat, height = Band.exact(self.random.uniform(0.004, 0.012)), Band.exact(self.random.uniform(0.3, 1.5))
            items.append(Injector(word="injector", name="injector", size="3/4", throat_m=throat, height_m=height))
        items += [self.split(1, True)] if self.random.random() < 0.3 else [self.part(), self.back()]
        tub = Tub(volume_m3=0.4, water_level_m=Band.exact(0.8), temperature_c=6.0)
        return Plant(loop=Chain(name="", items=tuple(items)), tub=tub)


@pytest.fixture(scope="session")
def random_plant() -> Callable[[int], Plant]:
    """A loop by its seed: ways up to three deep, up to four abreast, sometimes two suctions, pumps or returns."""
    return lambda seed: _Maker(seed, False).plant()


@pytest.fixture(scope="session")
def random_plant_with_valves() -> Callable[[int], Plant]:
    """The same with check valves, shut valves and pumps in its ways."""
    return lambda seed: _Maker(seed, True).plant()
