"""A plain tub for the simulated day: numbers that are easy to check by hand."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from sanitize.plant.day import Window
from sanitize.studies.day.parts import AirSide, Chemistry, Clearing, Supply
from sanitize.studies.day.schedule import Stretches, Switching, rest_of_day, stretches_of
from sanitize.studies.day.simulate import Day, simulate
from sanitize.studies.day.warmth import Warmth

Array = np.ndarray[Any, np.dtype[np.float64]]


def window(start_h: float, end_h: float) -> Window:
    return Window(start_s=3600.0 * start_h, end_s=3600.0 * end_h)


BATHING = (window(18.0, 19.0),)
PUMP = (window(6.0, 8.0), window(11.0, 13.0), window(17.0, 20.0), window(23.0, 1.0))
OZONE = (window(6.0, 7.0), window(11.0, 12.5), window(23.0, 0.5))


@pytest.fixture
def busy_day() -> Stretches:
    """A day with fourteen switchings, its lid closed outside of bathing."""
    return stretches_of(Switching(PUMP, OZONE, PUMP, BATHING, rest_of_day(BATHING, 900.0), "stated"))


def _supply(fed_mg_h: Array) -> Supply:
    one = np.ones_like(fed_mg_h)
    return Supply(
        fed_mg_min=fed_mg_h / 60.0,
        dissolved_ratio=lambda water: 0.5 * one + 0.0 * water,
        stripped_l_min=lambda water: 3.0 * one + 0.0 * water,
        solubility_ratio=lambda water: 0.394 * one + 0.0 * water,
        gas_m3_min=1.5e-3 * one,
    )


def _air(cases: int) -> AirSide:
    one = np.ones(cases)
    return AirSide(
        indoors=True,
        room_m3=30.0 * one,
        changes_per_h=0.5 * one,
        removal_per_h=2.8 * one,
        headspace_m3=0.1 * one,
        leak_m3_min=0.0 * one,
        film_still_m_min=2.4e-4 * one,
        film_moving_m_min=6e-4 * one,
        film_people_m_min=6e-3 * one,
        surface_m2=0.6,
        mixing_m3_min=2.26 * one,
        destroyed_ratio=0.0 * one,
        per_ppm_mgm3=2.0 * one,
    )


def _chemistry(cases: int) -> Chemistry:
    one = np.ones(cases)
    return Chemistry(
        volume_l=400.0,
        decay_per_min=lambda water: 0.043 * one + 0.0 * water,
        ozone_speed=np.stack([2.0 * one, 0.02 * one]),
        oxidant_speed=np.stack([0.1 * one, 1e-3 * one]),
        meeting_speed=0.03 * one,
        oxidant_each=1.477 * one,
        oxidant_each_ozone=1.477 * one,
        oxidant_loss_per_min=1.7e-4 * one,
        oxidant_start_mgl=3.0 * one,
        demand_each_mg=np.stack([60.0 * one, 140.0 * one]),
        dilution_per_min=0.0 * one,
    )


def _warmth(cases: int) -> Warmth:
    one = np.ones(cases)
    return Warmth(
        start_c=10.0 * one,
        set_c=10.0,
        heat_capacity_jk=1.677e6 * one,
        standing_w=lambda water, lid: 20.0 * (20.0 - water),
        moving_w=lambda water: 60.0 + 0.0 * water,
        capacity_w=lambda water: 700.0 + 0.0 * water,
        bather_j=4e5 * one,
    )


@pytest.fixture
def air() -> AirSide:
    """The air around the plain tub, one case."""
    return _air(1)


@pytest.fixture
def chemistry() -> Chemistry:
    """The chemistry of the plain tub, one case."""
    return _chemistry(1)


@pytest.fixture
def run_day(busy_day: Stretches) -> Callable[..., Day]:
    """Simulates the plain tub; every part may be changed by a function of it."""

    def run(
        cases: int = 1,
        fed_mg_h: float | Array = 90.0,
        bathers: float = 1.0,
        days: int | None = 1,
        tolerance_ratio: float = 1e-3,
        stretches: Stretches | None = None,
        chemistry: dict[str, Any] | None = None,
        air: dict[str, Any] | None = None,
        warmth: dict[str, Any] | None = None,
        supply: bool = True,
    ) -> Day:
        fed = np.broadcast_to(np.asarray(fed_mg_h, dtype=np.float64), (cases,))
        one = np.ones(cases)
        return simulate(
            stretches or busy_day,
            replace(_warmth(cases), **(warmth or {})),
            _supply(fed) if supply else None,
            replace(_air(cases), **(air or {})),
            replace(_chemistry(cases), **(chemistry or {})),
            Clearing(0.25 * one, 0.03 * one, 0.0 * one),
            bathers,
            days,
            tolerance_ratio,
        )

    return run
