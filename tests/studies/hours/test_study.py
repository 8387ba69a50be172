"""Energy, cost, replacement, wishes, and answers that there are not."""

from collections.abc import Callable
from dataclasses import fields
from typing import Any

import pytest

from sanitize.basis.errors import NoSolutionError
from sanitize.basis.figure import Figure
from sanitize.basis.tables import sources
from sanitize.studies.hours.result import NEEDS, Hours
from sanitize.studies.hours.wishes import mean_price_per_kwh

HoursOf = Callable[..., Hours]


def test_turnover_is_all_the_water_over_the_flow(hours_of: HoursOf) -> None:
    answer = hours_of()
    assert 0.4 / answer.flow_m3s.ends[1] == pytest.approx(answer.turnover_s.ends[1])
    assert 0.4 / answer.loaded_flow_m3s.ends[1] == pytest.approx(answer.loaded_turnover_s.ends[1])


def test_dead_zones_take_a_tenth_of_the_water_out(hours_of: HoursOf) -> None:
    assert 0.36 == pytest.approx(hours_of().effective_volume_m3.ends[1])


def test_energy_by_hand(hours_of: HoursOf) -> None:
    """100 W over the run time; a year has 365 days; no chiller takes nothing."""
    answer = hours_of()
    joule = 100.0 * answer.run_s.ends[1]
    assert joule == pytest.approx(answer.spread_energy_j.pump.ends[1])
    assert 365.0 * joule == pytest.approx(answer.spread_energy_year_j.both.ends[1])
    assert Figure(0.0, 0.0, 0.0) == answer.spread_energy_j.chiller
    assert None is answer.spread_cost


def test_energy_of_a_pump_that_needs_more_than_a_day_is_that_of_a_day(hours_of: HoursOf) -> None:
    assert 100.0 * 86400.0 == pytest.approx(hours_of("[timer]\nturnovers = 500").spread_energy_j.pump.ends[1])


def test_cost_by_hand(hours_of: HoursOf) -> None:
    """100 W for 6 h at 0.30 a kWh: 0.6 kWh and 0.18 a day, 65.70 a year."""
    cost = hours_of('[timer]\nprice = 0.30\nturnovers = 0.001\nlongest_idle = "18 h"\nleast_run = "6 h"').spread_cost
    assert cost is not None
    assert 0.18 == pytest.approx(cost.day.pump.ends[1])
    assert 65.70 == pytest.approx(cost.year.both.ends[1])


def test_cost_of_a_price_list_is_at_the_mean_of_the_day(hours_of: HoursOf) -> None:
    """16 h at 0.34 and 8 h at 0.21: 0.29667."""
    cost = hours_of('[timer]\nprices = [["06:00", "22:00", 0.34], ["22:00", "06:00", 0.21]]').spread_cost
    assert cost is not None
    assert 0.29667 == pytest.approx(cost.price_per_kwh, abs=5e-6)


def test_chiller_costs_its_power_over_its_time(hours_of: HoursOf) -> None:
    """400 W of electricity over the time that it runs, and in the cost apart from the pump."""
    tables = '[chiller]\ncapacity = "1 kW"\npower = "400 W"\n[timer]\nprice = 0.5'
    answer = hours_of(tables)
    assert answer.heat.chiller_run_s is not None
    joule = 400.0 * answer.heat.chiller_run_s.ends[1]
    assert joule > 0.0
    assert joule == pytest.approx(answer.spread_energy_j.chiller.ends[1])
    assert answer.spread_cost is not None
    assert joule / 3.6e6 * 0.5 == pytest.approx(answer.spread_cost.day.chiller.ends[1])


def test_replacement_example_of_the_source(hours_of: HoursOf) -> None:
    """Maine, 10-144 ch. 202, appendix B: 600 gallons, 85 bathers a day: 2.4, which is 2 days; and 1500 ppm."""
    tub = '[tub]\nvolume = "600 gal"\nwater_level = "0.8 m"\nwater_temperature = "10 degC"'
    drain = hours_of("[bathers]\nper_day = 85", tub=tub).replacement
    assert drain is not None
    assert 2.4 == pytest.approx(drain.interval_d, abs=0.051)
    assert (2, 1500.0, "maine_144_202") == (drain.whole_days_count, drain.dissolved_rise_mgl, drain.source)


def test_replacement_without_bathers_has_no_interval(hours_of: HoursOf) -> None:
    assert None is hours_of().replacement
    assert None is hours_of("[bathers]\nper_day = 0").replacement


def test_wishes_left_out_are_the_tables(hours_of: HoursOf) -> None:
    wishes = hours_of().wishes
    assert (900.0, 900.0, None, 21600.0) == (
        wishes.segment_s, wishes.least_run_s, wishes.most_runs_count, wishes.longest_idle_s,
    )  # fmt: skip
    assert (1800.0, 3600.0, 7200.0) == (wishes.run_before_s, wishes.run_after_s, wishes.ozone_rest_s)
    assert (0.0, 0.0, None, None) == (
        wishes.ozone_run_s, wishes.clocks_apart_s, wishes.chiller_run_s, wishes.prices,
    )  # fmt: skip
    assert not wishes.run_during


def test_wishes_stated_are_the_files(hours_of: HoursOf) -> None:
    tables = """[timer]
segment = "30 min"
most_runs = 3
longest_idle = "9 h"
least_run = "1 h"
quiet = [["22:00", "06:00"]]
run_before = "45 min"
run_after = "90 min"
price = 0.25
public_profile = "Montana spa"
[bathers]
per_day = 2
times = [["18:00", "19:00"]]
[chiller]
capacity = "1 kW"
least_on = "20 min"
least_off = "5 min"
"""
    wishes = hours_of(tables).wishes
    assert (1800.0, 3600.0, 3, 32400.0) == (
        wishes.segment_s, wishes.least_run_s, wishes.most_runs_count, wishes.longest_idle_s,
    )  # fmt: skip
    assert (2700.0, 5400.0, 1200.0, 300.0) == (
        wishes.run_before_s, wishes.run_after_s, wishes.chiller_least_on_s, wishes.chiller_least_off_s,
    )  # fmt: skip
    assert [79200.0] == [window.start_s for window in wishes.quiet]
    assert [64800.0] == [window.start_s for window in wishes.bathing]
    assert wishes.prices is not None
    assert 0.25 == pytest.approx(mean_price_per_kwh(wishes.prices))
    assert wishes.run_during
    assert wishes.chiller_power_w is not None
    assert 400.0 == wishes.chiller_power_w.nominal


def test_wishes_in_lasting_frost_let_the_water_stand_for_half_an_hour(hours_of: HoursOf) -> None:
    assert 1800.0 == hours_of('[surroundings]\nair_temperature = "-3 degC"').wishes.longest_idle_s
    mild = '[surroundings]\nair_temperature = "3 degC"\ncoldest_air = "-3 degC"'
    assert 21600.0 == hours_of(mild).wishes.longest_idle_s


def test_needs_stand_in_the_order_of_their_names_with_sources_that_exist(hours_of: HoursOf) -> None:
    tables = """[bathers]
per_day = 1
times = [["18:00", "19:00"]]
[timer]
public_profile = "Montana spa"
[chiller]
capacity = "1 kW"
[surroundings]
coldest_air = "-3 degC"
"""
    answer = hours_of(tables)
    names = [need.name for need in answer.needs]
    assert set(NEEDS) - {"ozone"} == set(names)
    assert {need.source for need in answer.needs} - {""} <= set(sources())


def test_ranges_hold_the_nominal_case(hours_of: HoursOf) -> None:
    tables = '[bathers]\nper_day = 1\n[chiller]\ncapacity = "1 kW"\nstart_temperature = "18 degC"'
    answer: Any = hours_of(tables, cases=64)
    figures = [getattr(answer, field.name) for field in fields(answer)]
    figures += [need.run_s for need in answer.needs] + [row.heat_w for row in answer.heat.gains]
    found = [value for value in figures if isinstance(value, Figure)]
    assert len(found) > 15
    for value in found:
        low, nominal, high = value.ends
        assert low <= nominal <= high
    assert answer.heat.gain_w.low < answer.heat.gain_w.nominal < answer.heat.gain_w.high


def test_need_that_no_run_time_meets_in_some_cases_leaves_the_run_time_its_range(hours_of: HoursOf) -> None:
    """One bather: 0.28 NTU of 0.5 in the nominal case, more than the limit at the high end of the haze."""
    answer: Any = hours_of("[bathers]\nper_day = 1", cases=64)
    clarity = next(need for need in answer.needs if need.name == "clarity")
    assert clarity.counts
    assert clarity.run_s.high is None
    assert answer.run_s.high < 86400.0


def test_readings_of_a_loop_without_injector_narrow_nothing_and_say_so(hours_of: HoursOf) -> None:
    answer = hours_of('[measured]\nbucket_flow = "40 L/min"')
    assert "readings-not-used" in {notice.code for notice in answer.notices}


def test_pump_that_stands_has_no_answer(hours_of: HoursOf, loop_text: str) -> None:
    with pytest.raises(NoSolutionError, match="No pump of this loop runs"):
        hours_of(loop=loop_text.replace('power = "100 W"', "running = false"))


def test_filter_that_stops_the_flow_when_loaded_has_no_answer(hours_of: HoursOf, loop_text: str) -> None:
    """A return higher than the pump lifts."""
    with pytest.raises(NoSolutionError, match="cannot lift the water"):
        hours_of(loop=loop_text.replace('height = "0.50 m"', 'height = "8 m"'))


def test_readings_of_a_loop_with_injector_narrow_the_flow_and_leave_the_heat_its_range(hours_of: HoursOf) -> None:
    loop = """
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "injector", throat = "9 mm", height = "0.9 m"},
  {part = "return", height = "0.50 m"},
]
"""
    before: Any = hours_of(loop=loop, cases=256)
    flow = 60e3 * before.flow_m3s.nominal
    after: Any = hours_of(f'[measured]\nbucket_flow = "{flow} L/min +- 1 %"', loop=loop, cases=256)
    assert after.flow_m3s.high - after.flow_m3s.low < 0.5 * (before.flow_m3s.high - before.flow_m3s.low)
    assert after.heat.gain_w.high - after.heat.gain_w.low == pytest.approx(
        before.heat.gain_w.high - before.heat.gain_w.low, rel=0.2
    )
