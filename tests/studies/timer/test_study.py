"""The plan of a whole day: it keeps what it says, and says what it does not keep."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.basis.figure import Figure
from sanitize.plant.day import PriceWindow, Window
from sanitize.studies.hours.result import Wishes
from sanitize.studies.timer.result import Plan, PlanRun
from sanitize.studies.timer.study import solve_plan

H = 3600.0
WishesOf = Callable[..., Wishes]
FaultsOf = Callable[[Plan, Wishes, float], list[str]]
OZONE: dict[str, Any] = {
    "has_ozone": True, "two_timers": True, "clocks_apart_s": 1800.0, "ozone_run_s": 2 * H, "ozone_rest_s": 2 * H,
}  # fmt: skip


def span(start_h: float, end_h: float) -> Window:
    return Window(start_s=start_h * H, end_s=end_h * H)


def runs(plan: Plan, what: str = "pump") -> list[tuple[float, float]]:
    return [(run.start_s / H, run.stop_s / H) for run in plan.runs if run.what == what]


def exactly(value: float) -> Figure:
    return Figure(value, value, value)


def test_plan_at_one_price_is_one_run_at_the_day_s_beginning(wishes: WishesOf) -> None:
    plan = solve_plan(wishes(), 3 * H)
    assert [PlanRun("pump", 0.0, 3 * H)] == list(plan.runs)
    assert (1, 3 * H) == (plan.switchings_count, plan.run_s)


def test_plan_rounds_the_run_time_up_to_whole_segments(wishes: WishesOf) -> None:
    assert 5400.0 == solve_plan(wishes(), 3601.0).run_s
    assert 3600.0 == solve_plan(wishes(), 3600.0).run_s


def test_plan_of_no_longer_gap_than_six_hours_has_four_runs(wishes: WishesOf, faults_of: FaultsOf) -> None:
    """86400 / (6 h + 0.5 h) = 3.7: four runs."""
    plan = solve_plan(wishes(longest_idle_s=6 * H), 2 * H)
    assert 4 == len(runs(plan))
    assert [] == faults_of(plan, wishes(longest_idle_s=6 * H), 2 * H)


def test_plan_with_cheap_nights_runs_over_midnight(wishes: WishesOf) -> None:
    prices = (PriceWindow(start_s=6 * H, end_s=22 * H, price_per_kwh=0.4),
              PriceWindow(start_s=22 * H, end_s=6 * H, price_per_kwh=0.2))  # fmt: skip
    plan = solve_plan(wishes(prices=prices, bathing=(span(23, 0),), run_after_s=1800.0), 8 * H)
    assert [(22.0, 6.0)] == runs(plan)
    assert plan.spent.cost is not None
    assert 8 * 0.1 * 0.2 == pytest.approx(plan.spent.cost.pump.nominal)
    assert 365 * 8 * 0.1 * 3.6e6 == pytest.approx(plan.spent.energy_year_j.both.nominal)


def test_plan_where_some_hours_are_free_takes_no_more_of_them_than_it_needs(wishes: WishesOf) -> None:
    prices = (PriceWindow(start_s=0.0, end_s=12 * H, price_per_kwh=0.0),
              PriceWindow(start_s=12 * H, end_s=0.0, price_per_kwh=0.2))  # fmt: skip
    assert [(0.0, 2.0)] == runs(solve_plan(wishes(prices=prices), 2 * H))


def test_plan_of_all_day_is_one_run_without_switching(wishes: WishesOf) -> None:
    plan = solve_plan(wishes(), 24 * H)
    assert [(0.0, 24.0)] == runs(plan)
    assert 0 == plan.switchings_count


def test_plan_with_two_clocks_keeps_ozone_inside_the_pump_s_runs_either_way(
    wishes: WishesOf, faults_of: FaultsOf
) -> None:
    asked = wishes(**OZONE, bathing=(span(12, 13),))
    plan = solve_plan(asked, 3 * H)
    assert [] == faults_of(plan, asked, 3 * H)
    (pump,), (ozone,) = runs(plan), runs(plan, "ozone")
    assert (0.5, 0.5) == (ozone[0] - pump[0], pump[1] - ozone[1])
    assert 2 == plan.clocks_count


def test_plan_with_two_clocks_requires_an_interlock_against_power_cuts(wishes: WishesOf) -> None:
    """Pump 0 to 3 h, ozone 0.5 to 2.5 h, rest from 10 h."""
    plan = solve_plan(wishes(**OZONE, bathing=(span(12, 13),)), 3 * H)
    assert plan.needs_interlock
    told = {cut.stops: (cut.holds_up_to_s, cut.breaks) for cut in plan.cuts}
    assert {"pump": (1800.0, "flow"), "ozone": (1800.0, "flow"), "both": (7.5 * H, "rest")} == told


def test_plan_of_a_pump_that_never_stands_requires_no_interlock(wishes: WishesOf) -> None:
    plan = solve_plan(wishes(**OZONE), 24 * H)
    assert not plan.needs_interlock
    assert {None} == {cut.holds_up_to_s for cut in plan.cuts}


def test_plan_of_one_timer_knows_only_the_rest(wishes: WishesOf) -> None:
    asked = wishes(has_ozone=True, ozone_rest_s=2 * H, bathing=(span(12, 13),))
    plan = solve_plan(asked, 3 * H)
    assert [("both", 7 * H, "rest")] == [(cut.stops, cut.holds_up_to_s, cut.breaks) for cut in plan.cuts]
    assert (False, 3 * H) == (plan.needs_interlock, plan.ozone_run_s)


def test_plan_without_ozone_knows_no_power_cut(wishes: WishesOf) -> None:
    assert () == solve_plan(wishes(), 3 * H).cuts


def test_plan_keeps_the_chiller_s_least_times(wishes: WishesOf, faults_of: FaultsOf) -> None:
    asked = wishes(chiller_run_s=exactly(2 * H), chiller_least_on_s=H, chiller_least_off_s=3 * H,
                   chiller_power_w=exactly(500.0), longest_idle_s=4 * H, least_run_s=H)  # fmt: skip
    plan = solve_plan(asked, 6 * H)
    assert [] == faults_of(plan, asked, 6 * H)
    assert 2 * H == plan.chiller_run_s
    assert 2 * H * 500.0 == plan.spent.energy_j.chiller.nominal


def test_plan_of_a_chiller_that_cannot_hold_runs_it_with_the_pump(wishes: WishesOf) -> None:
    plan = solve_plan(wishes(chiller_run_s=Figure(None, None, None), chiller_power_w=exactly(500.0)), 5 * H)
    assert runs(plan) == runs(plan, "chiller")


NIGHT: dict[str, Any] = {"quiet": (span(22, 6),)}
CONFLICTS: dict[str, tuple[dict[str, Any], float, set[str]]] = {
    "more than a day": ({}, 25 * H, {"run time"}),
    "night and gap": ({**NIGHT, "longest_idle_s": 6 * H}, 2 * H, {"longest idle time", "quiet hours"}),
    "night and day": (NIGHT, 17 * H, {"run time", "quiet hours"}),
    "bathing in the night": ({**NIGHT, "bathing": (span(23, 0),), "run_after_s": H}, 2 * H,
                             {"quiet hours", "run after bathing"}),
    "two runs are enough": ({"longest_idle_s": 6 * H, "most_runs_count": 2}, 12 * H, set()),
    "gaps and few runs": ({**NIGHT, "longest_idle_s": 8 * H, "most_runs_count": 1, "bathing": (span(12, 13),),
                           "has_ozone": True, "ozone_rest_s": H}, 2 * H,
                          {"longest idle time", "quiet hours", "most runs", "ozone rest"}),
    "one timer": ({"has_ozone": True, "bathing": (span(12, 13),), "run_before_s": H, "ozone_rest_s": 2 * H}, 2 * H,
                  {"run before bathing", "ozone rest"}),
    "clocks": ({**OZONE, "ozone_run_s": 23.5 * H, **NIGHT}, 2 * H, {"quiet hours", "ozone hours"}),
    "chiller": ({"chiller_run_s": exactly(23 * H), "chiller_least_off_s": 2 * H, "quiet": (span(0, 1),)}, 23 * H,
                {"quiet hours", "chiller hours", "shortest chiller rest"}),
}  # fmt: skip


@pytest.mark.parametrize("case", CONFLICTS)
def test_conflict_is_the_smallest_one(wishes: WishesOf, faults_of: FaultsOf, case: str) -> None:
    """An empty set: no conflict at all (two runs of 6 h with 6 h between)."""
    more, run_s, expected = CONFLICTS[case]
    asked = wishes(**more)
    plan = solve_plan(asked, run_s)
    assert expected == set(plan.conflict)
    assert {item.wish for item in plan.broken} == set(faults_of(plan, asked, run_s))
    assert bool(expected) == bool(plan.broken)


def test_nearest_plan_lets_comfort_yield_by_as_little_as_it_may(wishes: WishesOf) -> None:
    """Quiet for 8 h, no gap of more than 6 h: half an hour of the night breaks it."""
    plan = solve_plan(wishes(**NIGHT, longest_idle_s=6 * H), 2 * H)
    assert [("quiet hours", 1800.0)] == [(item.wish, item.short_s) for item in plan.broken]


def test_nearest_plan_keeps_the_rest_of_ozone_before_all_else(wishes: WishesOf) -> None:
    more, run_s, _ = CONFLICTS["one timer"]
    plan = solve_plan(wishes(**more), run_s)
    assert [("run before bathing", H)] == [(item.wish, item.short_s) for item in plan.broken]


def test_nearest_plan_with_a_run_too_many_counts_it(wishes: WishesOf, faults_of: FaultsOf) -> None:
    """Before and after bathing are two runs where people are in the tub without the pump in between."""
    asked = wishes(has_ozone=True, two_timers=False, ozone_rest_s=0.0, bathing=(span(12, 13),), run_after_s=H,
                   quiet=(span(16, 18),), longest_idle_s=4 * H, most_runs_count=2, least_run_s=1800.0)  # fmt: skip
    plan = solve_plan(asked, 2 * H)
    assert {item.wish for item in plan.broken} == set(faults_of(plan, asked, 2 * H))


hours = st.integers(0, 47).map(lambda half: half / 2)


@st.composite
def any_day(draw: st.DrawFn) -> tuple[dict[str, Any], float]:
    """Wishes as people may have them, in half hours; some of them conflict."""
    bathing_h, quiet_h = draw(hours), draw(hours)
    more: dict[str, Any] = {
        "bathing": (span(bathing_h, bathing_h + draw(st.sampled_from((0.5, 1.0)))),),
        "run_before_s": draw(st.sampled_from((0.0, 1800.0))),
        "run_after_s": draw(st.sampled_from((0.0, H))),
        "run_during": draw(st.booleans()),
        "quiet": draw(st.sampled_from(((), (span(quiet_h, quiet_h + 6.0),)))),
        "longest_idle_s": draw(st.sampled_from((6 * H, 9 * H, 24 * H))),
        "least_run_s": draw(st.sampled_from((1800.0, H))),
        "most_runs_count": draw(st.sampled_from((None, 4))),
        "has_ozone": draw(st.booleans()),
        "two_timers": draw(st.booleans()),
        "clocks_apart_s": draw(st.sampled_from((900.0, 1800.0))),
        "ozone_run_s": draw(st.sampled_from((0.0, 2 * H))),
        "ozone_rest_s": draw(st.sampled_from((H, 2 * H))),
        "prices": draw(
            st.sampled_from(
                (
                    None,
                    (
                        PriceWindow(start_s=6 * H, end_s=21.5 * H, price_per_kwh=0.4),
                        PriceWindow(start_s=21.5 * H, end_s=6 * H, price_per_kwh=0.2),
                    ),
                )
            )
        ),
    }
    if draw(st.booleans()):
        more |= {"chiller_run_s": exactly(2 * H), "chiller_least_on_s": H, "chiller_least_off_s": 900.0}
        more |= {"chiller_power_w": exactly(400.0)}
    for name in ("bathing", "quiet"):
        more[name] = tuple(Window(start_s=one.start_s % 86400, end_s=one.end_s % 86400) for one in more[name])
    return more, draw(st.sampled_from((2 * H, 5 * H, 12 * H)))


@settings(max_examples=10, deadline=None, derandomize=True)
@given(day=any_day())
def test_plan_every_wish_holds_or_is_named(
    wishes: WishesOf, faults_of: FaultsOf, day: tuple[dict[str, Any], float]
) -> None:
    more, run_s = day
    asked = wishes(**more)
    plan = solve_plan(asked, run_s)
    assert {item.wish for item in plan.broken} == set(faults_of(plan, asked, run_s))
    assert bool(plan.conflict) == bool(plan.broken)
