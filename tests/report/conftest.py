"""Suction answers made up for the reports: numbers chosen, not computed."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.suction.result import (
    BlockedSuction,
    Driver,
    Level,
    PartAlong,
    PumpLine,
    State,
    StateName,
    Suction,
)

LITRE_PER_MINUTE_M3S = 1.0 / 60000.0


def around(value: float, spread_ratio: float = 0.1) -> Figure:
    ends = sorted((value * (1.0 - spread_ratio), value * (1.0 + spread_ratio)))
    return Figure(ends[0], value, ends[1])


def flow(low: float, nominal: float, high: float) -> Figure:
    return Figure(low * LITRE_PER_MINUTE_M3S, nominal * LITRE_PER_MINUTE_M3S, high * LITRE_PER_MINUTE_M3S)


def part(
    name: str, word: str, height_m: float, loss_m: float, pressure_pa_gauge: float, way: str = "loop"
) -> PartAlong:
    return PartAlong(
        name=name,
        part=word,
        way=way,
        bore_m=0.02057,
        height_m=around(height_m, 0.01),
        flow_m3s=flow(33, 36, 37) if way == "loop" else flow(15, 18, 20),
        velocity_ms=around(1.8 if way == "loop" else 0.9),
        head_loss_m=around(loss_m),
        power_share_ratio=around(max(loss_m, 0.0) / 2.5),
        pressure_behind_pa_gauge=around(pressure_pa_gauge),
    )


def states() -> tuple[State, ...]:
    found = []
    names: tuple[StateName, ...] = ("off", "running", "returns shut", "filter loaded")
    levels: tuple[Level, ...] = ("normal", "rim")
    for name in names:
        for level in levels:
            for leaking in (False, True):
                pressure = around(-6000.0 if name in ("running", "filter loaded") else 500.0)
                floods = leaking and name == "returns shut"
                found.append(
                    State(
                        state=name,
                        level=level,
                        check_valve="leaking" if leaking else "sound",
                        port_pressure_pa_gauge=pressure,
                        water_height_m=around(5.4 if floods else 0.8),
                        passes_highest_point=floods,
                        reaches_ozone_unit=floods,
                        air_enters=pressure.ends[1] < 0.0,
                        text="Gas is drawn in at the port."
                        if pressure.ends[1] < 0.0
                        else f"Valve {leaking}: water waits.",
                    )
                )
    return tuple(found)


def answer(**changes: Any) -> Suction:
    """A marginal loop with a side stream and a bypass; keywords replace its fields."""
    flows = tuple(n * 4.0 * LITRE_PER_MINUTE_M3S for n in range(1, 12))
    pump = tuple((4.4 - 80.0e6 * q**2 * 0.06, 4.5 - 80.0e6 * q**2 * 0.06, 4.5 - 80.0e6 * q**2 * 0.06) for q in flows)
    system = tuple((5.0e6 * q**2, 6.8e6 * q**2, 9.0e6 * q**2) for q in flows)
    made = Suction(
        title="Boathouse larch barrel",
        units="metric",
        verdict="marginal",
        draws_share_ratio=0.62,
        cases_count=4096,
        seed=20,
        why="What decides is the resistance of what stands behind the injector.",
        flow_port_closed_m3s=flow(33, 36, 37),
        injector_flow_port_closed_m3s=flow(15, 18, 20),
        port_pressure_closed_pa_gauge=Figure(-12000.0, -5800.0, 2700.0),
        onset_flow_m3s=flow(7.2, 9.0, 11.0),
        draws_below_flow_m3s=Figure(None, None, None),
        loss_ratio=Figure(0.14, 0.24, 0.69),
        injector_inlet_pressure_pa_gauge=around(8300.0),
        injector_outlet_pressure_pa_gauge=around(4900.0),
        outlet_pressure_limit_pa_gauge=around(6000.0),
        extra_return_pressure_pa_diff=Figure(0.0, 1800.0, 3700.0),
        rule_of_thumb_ratio=0.2,
        differential_share_ratio=Figure(0.22, 0.41, 0.57),
        check_valve_opens_at_pa=Figure(1200.0, 1500.0, 1800.0),
        pump_head_m=around(2.5),
        pump_power_to_water_w=around(14.0),
        gas_draw="draws",
        flow_m3s=around(0.58e-3),
        injector_flow_m3s=around(0.23e-3),
        port_pressure_open_pa_gauge=around(-1600.0),
        gas_flow_m3s=around(2.5e-5),
        gas_to_water_ratio=around(0.11),
        gas_efficiency_ratio=around(0.2),
        gas_flow_wanted_m3s=2.0 / 60000.0,
        turnover_s=around(720.0),
        atmosphere_pa_abs=99900.0,
        vapour_pressure_pa_abs=935.0,
        water_level_m=around(0.8, 0.01),
        injector="ozone venturi",
        parts=(
            part("suction fitting", "suction fitting", 0.2, 0.02, 5600.0),
            part("suction hose", "flexible hose", 0.29, 0.40, -1200.0),
            part("pump", "pump", 0.3, -2.5, 23000.0),
            part("elbow 90", "elbow 90", 0.31, 0.4, 19000.0),
            part("split: bypass leaves", "tee", 0.32, 0.01, 14000.0, "bypass"),
            part("throttle valve", "throttle valve", 0.33, 0.5, 9200.0, "bypass"),
            part("split: bypass rejoins", "tee", 0.40, 0.05, 8400.0, "bypass"),
            part("split: side stream leaves", "tee", 0.75, 0.1, 8300.0, "side stream"),
            part("ozone venturi", "injector", 0.75, 0.35, 4900.0, "side stream"),
            part("split: side stream rejoins", "tee", 0.75, 0.05, 4400.0, "side stream"),
            part("return hose", "flexible hose", 0.54, 0.3, 2600.0),
            part("return", "return", 0.55, 0.16, 2500.0),
        ),
        states=states(),
        blocked_suctions=(BlockedSuction("suction fitting", 45000.0, 58.0),),
        measure_next=(),
        narrowing=None,
        drivers=(
            Driver("injector loss ratio", "loss ratio of ozone venturi", 0.79, "on the bench"),
            Driver("tee", "shift of tees", -0.2, ""),
        ),
        pump_line=PumpLine(flows, pump, system),
        notices=(Notice("injector-by-geometry", "ozone venturi is known by its throat only."),),
        cautions=(
            Caution("no-check-valve", "danger", "No check valve.", "Fit one.", "dguv_103_015", "the maker"),
            Caution("cold-water", "caution", "Cold.", "Be brief.", "shattock_tipton_2012", "a physician"),
        ),
    )
    return replace(made, **changes)


@pytest.fixture(name="answer")
def _answer() -> Callable[..., Suction]:
    return answer


LOOP_FILE = """
format = 1
title = "Boathouse larch barrel"
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "flexible hose", name = "suction hose", length = "2.2 m"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "4.5 m"], ["52 L/min", "0 m"]]},
  {part = "elbow 90"},
  {part = "split", ways = ["side stream", "bypass"]},
  {part = "flexible hose", name = "return hose", length = "1.5 m"},
  {part = "return", height = "0.55 m"},
]
way."side stream" = [{part = "injector", name = "ozone venturi", throat = "8 mm", height = "0.75 m"}]
way.bypass = [{part = "throttle valve"}]
[tub]
volume = "430 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "6 degC"
place = "outdoors"
[gas_line]
highest_point = "1.75 m"
[ozone]
output = "90 mg/h"
height = "1.60 m"
"""
"""The loop file to which the answer made up here belongs."""


@pytest.fixture(name="plant")
def _plant() -> Plant:
    return read_plant(LOOP_FILE).plant
