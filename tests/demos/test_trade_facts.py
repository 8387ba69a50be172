"""What people who build tubs know from practice, as directions: common practice, without a source.

Each change is laid over a demo; the nominal case before and after is compared.
"""

from collections.abc import Callable
from typing import Any

import pytest


def flow(result: Any) -> float:
    """All of the water."""
    return float(result.flow_port_closed_m3s.nominal)


def own(result: Any) -> float:
    """The injector's water."""
    return float(result.injector_flow_port_closed_m3s.nominal)


def port(result: Any) -> float:
    """Gauge pressure at the closed port; the lower, the stronger it pulls."""
    return float(result.port_pressure_closed_pa_gauge.nominal)


LESS_FLOW = {
    "more elbows": ("boathouse", "elbow 90.count=8"),
    "a longer suction hose": ("orchard", "suction hose.length=6 m"),
    "a longer return hose": ("orchard", "return hose.length=6 m"),
    "more bends": ("orchard", "suction hose.bends=12"),
    "tighter bends": ("orchard", "suction hose.bend_radius=0.06 m"),
    "a ribbed hose": ("reed_house", "suction tube.wall=ribbed"),
    "a tee that turns, not straight": ("reed_house", "tee.path=turn"),
    "colder water": ("orchard", "tub.water_temperature=1 degC"),
    "a dirtier filter": ("orchard", "filter.drop=15 kPa"),
    "a clogged cover": ("boathouse", "suction fitting.clogged_share=0.8"),
    "a clogged strainer": ("ferry_landing", "strainer.clogged_share=0.7"),
    "a narrower throat": ("reed_house", "injector.throat=6 mm"),
    "a tighter nozzle": ("bakehouse", "return.nozzle_bore=1/2 in"),
    "a tight barb": ("net_loft_open_return", "suction barb.bore=12 mm"),
    "a half shut valve": ("icehouse", "service valve.open_share=0.25"),
    "a spring check valve, not a swing one": ("ferry_landing", "check valve.style=spring"),
    "schedule 80 pipe": ("orchard", "riser.schedule=80"),
    "a free outlet that is lifted": ("guest_house", "west outlet.height=1.15 m"),
}
BASES = {"a tee that turns, not straight": "tee.path=straight"}


@pytest.mark.parametrize("change", LESS_FLOW)
def test_water_flow_falls_with(change: str, nominal: Callable[..., Any]) -> None:
    name, setting = LESS_FLOW[change]
    before = nominal(name, *([BASES[change]] if change in BASES else []))
    assert flow(nominal(name, setting)) < flow(before)


WEAKER_PULL = {
    "a lower injector": ("orchard", "injector.height=0.60 m"),
    "a higher water level": ("orchard", "tub.water_level=0.80 m"),
    "a longer return hose": ("orchard", "return hose.length=6 m"),
    "a bend more behind the injector": ("net_loft", "return hose.bends=4"),
    "a narrower return": ("orchard", "return.nozzle_bore=13 mm"),
    "a dirtier filter before it": ("orchard", "filter.drop=15 kPa"),
    "a wider throat": ("reed_house", "injector.throat=11 mm"),
    "a lossier injector": ("reed_house", "injector.loss_ratio=0.5"),
    "an opened bypass": ("boathouse", "throttle valve.handle=15 deg"),
    "colder water": ("orchard", "tub.water_temperature=1 degC"),
    "more elbows before it": ("boathouse", "elbow 90.count=8"),
}


@pytest.mark.parametrize("change", WEAKER_PULL)
def test_pull_of_the_injector_weakens_with(change: str, nominal: Callable[..., Any]) -> None:
    name, setting = WEAKER_PULL[change]
    assert port(nominal(name, setting)) > port(nominal(name))


def test_closing_the_bypass_gives_the_side_stream_more_and_the_tub_less(nominal: Callable[..., Any]) -> None:
    as_is, closer = nominal("boathouse"), nominal("boathouse", "throttle valve.handle=50 deg")
    assert own(closer) > own(as_is)
    assert flow(closer) < flow(as_is)
    assert port(closer) < port(as_is)


def test_opening_the_valve_past_the_chiller_robs_the_chiller_and_the_side_stream(nominal: Callable[..., Any]) -> None:
    as_is, opened = nominal("guest_house"), nominal("guest_house_open_valve")
    chilled = [
        next(part.flow_m3s.nominal for part in result.parts if part.part == "chiller") for result in (as_is, opened)
    ]
    assert chilled[1] < chilled[0]
    assert own(opened) < own(as_is)
    assert flow(opened) > flow(as_is)


def test_lifting_the_injector_by_10_cm_wins_its_weight_of_water(nominal: Callable[..., Any]) -> None:
    """Exact: the flow does not change between submerged ends, the port falls by rho g 0.1 m = 980.6 Pa."""
    as_is, lifted = nominal("orchard"), nominal("orchard", "injector.height=1.05 m")
    assert flow(as_is) == pytest.approx(flow(lifted), rel=1e-9)
    assert 980.6 == pytest.approx(port(as_is) - port(lifted), abs=0.1)


def test_depth_of_a_submerged_return_changes_nothing(nominal: Callable[..., Any]) -> None:
    as_is, deeper = nominal("orchard"), nominal("orchard", "return.height=0.20 m")
    assert flow(as_is) == pytest.approx(flow(deeper), rel=1e-9)
    assert port(as_is) == pytest.approx(port(deeper), rel=1e-9)


def test_altitude_does_not_move_the_gauge_pressures(nominal: Callable[..., Any]) -> None:
    as_is, mountain = nominal("orchard"), nominal("orchard", "tub.altitude=1800 m")
    assert port(as_is) == pytest.approx(port(mountain), rel=1e-9)


def test_a_stiffer_check_valve_puts_the_onset_up(nominal: Callable[..., Any]) -> None:
    as_is, stiffer = nominal("reed_house"), nominal("reed_house", "gas_line.check_valve_opens_at=6 kPa")
    assert stiffer.onset_flow_m3s.nominal > as_is.onset_flow_m3s.nominal


def test_taking_the_nozzle_out_more_than_doubles_the_pull(nominal: Callable[..., Any]) -> None:
    assert port(nominal("net_loft_open_return")) < 2.0 * port(nominal("net_loft")) < 0.0


def test_half_the_pump_speed_gives_a_little_less_than_half_the_flow(nominal: Callable[..., Any]) -> None:
    """Affinity, where the losses grow a little slower than with the square of the flow."""
    half = nominal("reed_house", "pump.curve_speed=2900 rpm", "pump.speed=1450 rpm")
    assert 0.45 < flow(half) / flow(nominal("reed_house")) < 0.5


def test_twice_the_pump_speed_chokes_the_injector(nominal: Callable[..., Any]) -> None:
    """The throat boils: the port stands at the vapour pressure of 12 degC, 1.4 kPa, and the flow falls behind."""
    double = nominal("reed_house", "pump.curve_speed=1450 rpm", "pump.speed=2900 rpm")
    assert 1.4e3 == pytest.approx(port(double) + double.atmosphere_pa_abs, rel=0.01)
    assert flow(double) < 1.8 * flow(nominal("reed_house"))


def test_side_stream_takes_what_a_shut_bypass_leaves(nominal: Callable[..., Any]) -> None:
    shut = nominal("boathouse", "throttle valve.handle=90 deg")
    assert flow(shut) == pytest.approx(own(shut), rel=1e-9)
