"""Every need by hand from the flow."""

from collections.abc import Callable
from math import log
from typing import Any

import pytest

from sanitize.studies.hours.result import Hours, Need

NeedOf = Callable[..., Need]
HoursOf = Callable[..., Hours]


def nominal(need: Need) -> float:
    return need.run_s.ends[1]


@pytest.fixture(scope="module")
def flow(hours_of: HoursOf) -> float:
    """Through the loaded filter [m3/s]."""
    answer = hours_of()
    loaded, clean = answer.loaded_flow_m3s.nominal, answer.flow_m3s.nominal
    assert loaded is not None
    assert clean is not None
    assert loaded < clean
    return loaded


@pytest.mark.parametrize(
    ("tables", "count", "standing"),
    [
        ("", 6.0, "common practice"),
        ("[bathers]\nper_day = 0.5", 6.0, "common practice"),
        ("[bathers]\nper_day = 1", 12.0, "common practice"),
        ("[timer]\nturnovers = 8", 8.0, "stated"),
    ],
)
def test_turnovers_take_so_many_volumes(need_of: NeedOf, flow: float, tables: str, count: float, standing: str) -> None:
    need = need_of("turnovers", tables)
    assert count * 0.400 / flow == pytest.approx(nominal(need))
    assert standing == need.standing


def test_treated_water_by_the_austrian_rule(need_of: NeedOf, flow: float) -> None:
    """Section 11: 0.5 bathers for each m3, 2 m3 for each."""
    need = need_of("treated water", "[bathers]\nper_day = 3")
    assert 3.0 * 2.0 / flow == pytest.approx(nominal(need))
    assert ("austria_bhygv_1998", "published") == (need.source, need.standing)


def test_treated_water_of_a_crowd_is_told_in_whole_numbers(need_of: NeedOf) -> None:
    assert need_of("treated water", "[bathers]\nper_day = 1500").decides.startswith("1500 bathers a day")


def test_clarity_by_the_law_of_dilution(need_of: NeedOf, flow: float) -> None:
    """Pulse 2 * 0.05 / 0.36 m3 = 0.2778 NTU, limit 0.5, E 0.3: N = -ln(1 - 0.5556) / 0.3 = 2.703 of 360 L."""
    need = need_of("clarity", "[bathers]\nper_day = 2\nhaze_each = 0.05")
    turnovers = -log(1.0 - 2 * 0.05 / 0.36 / 0.5) / 0.3
    assert 2.703 == pytest.approx(turnovers, abs=5e-4)
    assert turnovers * 0.36 / flow == pytest.approx(nominal(need))


def test_clarity_of_large_particles_needs_a_third(need_of: NeedOf) -> None:
    """E 0.9 instead of 0.3."""
    small = need_of("clarity", "[bathers]\nper_day = 1")
    large = need_of("clarity", '[bathers]\nper_day = 1\nparticles = "above 25 um"')
    assert nominal(small) / 3.0 == pytest.approx(nominal(large))


def test_clarity_that_the_pulse_alone_breaks_is_met_by_no_run_time(hours_of: HoursOf) -> None:
    """2 * 0.1 / 0.36 = 0.56 NTU over a limit of 0.5: it does not count, and the others decide."""
    answer = hours_of("[bathers]\nper_day = 2")
    need = next(need for need in answer.needs if need.name == "clarity")
    assert (None, True, False) == (need.run_s.nominal, need.above_a_day, need.counts)
    assert "fewer bathers or more water" in need.helps
    assert answer.run_s.nominal is not None
    assert answer.binding_need != "clarity"


def test_needs_of_a_filter_that_is_not_there_are_met_by_no_run_time(hours_of: HoursOf, loop_text: str) -> None:
    bare = "\n".join(line for line in loop_text.splitlines() if "filter" not in line)
    answer = hours_of("[bathers]\nper_day = 1", loop=bare)
    unmet = {need.name for need in answer.needs if need.run_s.nominal is None}
    assert {"treated water", "clarity"} == unmet
    assert "no-filter" in {notice.code for notice in answer.notices}


@pytest.mark.parametrize(
    ("timer", "runs", "least_min"),
    [
        ("", 4, 15),  # 24 h / 6.25 h = 3.84
        ('longest_idle = "24 h"', 1, 15),
        ('longest_idle = "90 min"\nleast_run = "30 min"', 12, 30),  # 24 h / 2 h, none over
        ('longest_idle = "6 h"\nsegment = "30 min"', 4, 30),  # 24 / 6.5 = 3.7
        ('least_run = "20 min"', 4, 30),  # in whole steps of 15 min
    ],
)
def test_idle_gaps_take_the_fewest_shortest_runs(need_of: NeedOf, timer: str, runs: int, least_min: int) -> None:
    assert 60.0 * runs * least_min == pytest.approx(nominal(need_of("idle gaps", f"[timer]\n{timer}")))


def test_idle_gaps_of_warm_water_are_shorter(need_of: NeedOf) -> None:
    """20 degC: 3 h; 24 h / 3.25 h = 7.4: eight runs of 15 min."""
    tub = '[tub]\nvolume = "400 L"\nwater_level = "0.8 m"\nwater_temperature = "20 degC"'
    assert 8 * 900.0 == pytest.approx(nominal(need_of("idle gaps", tub=tub)))


@pytest.mark.parametrize(
    ("times", "timer", "minutes"),
    [
        ('[["18:00", "19:00"]]', "", 30 + 60),
        ('[["18:00", "19:00"], ["19:30", "20:00"]]', "", 30 + 60 + 60),  # 17:30-18, 19-20, 20-21
        ('[["23:30", "00:15"]]', 'run_before = "45 min"\nrun_after = "2 h"', 45 + 120),  # over midnight
        ('[["18:00", "19:00"]]', 'public_profile = "Montana pool"', 30 + 60 + 60),  # and while they are in it
    ],
)
def test_bathing_times_take_what_lies_before_and_behind_them(
    need_of: NeedOf, times: str, timer: str, minutes: int
) -> None:
    """Half an hour before and an hour after unless the file says otherwise; what overlaps counts once."""
    need = need_of("bathing times", f"[bathers]\nper_day = 1\ntimes = {times}\n[timer]\n{timer}")
    assert 60.0 * minutes == pytest.approx(nominal(need))


OZONE_LOOP = """
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "injector", throat = "8 mm", height = "0.9 m"},
  {part = "return", height = "0.50 m"},
]
"""
OZONE = '[ozone]\noutput = "50 mg/h"\nheight = "1.6 m"\n'
OUTDOORS = """[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "10 degC"
place = "outdoors"
"""


def test_ozone_asks_for_the_hours_that_the_file_gives(need_of: NeedOf) -> None:
    need = need_of("ozone", f'{OZONE}[timer]\nozone_hours = "5 h"', loop=OZONE_LOOP, tub=OUTDOORS)
    assert 5 * 3600.0 == pytest.approx(nominal(need))
    assert "stated" == need.standing


def test_ozone_without_hours_asks_for_none_and_says_so(hours_of: HoursOf) -> None:
    answer = hours_of(OZONE, loop=OZONE_LOOP, tub=OUTDOORS)
    assert "ozone" not in {need.name for need in answer.needs}
    assert "ozone-hours-not-given" in {notice.code for notice in answer.notices}
    assert 1800.0 == answer.wishes.least_run_s


@pytest.mark.parametrize(
    ("around", "counts"),
    [('coldest_air = "-1 degC"\nair_temperature = "4 degC"', False), ('air_temperature = "-3 degC"', True)],
)
def test_frost_takes_a_run_every_45_minutes(need_of: NeedOf, around: str, counts: bool) -> None:
    """Gaps of 30 min and runs of 15: 24 h / 45 min = 32 runs; it counts where the mean air is below zero."""
    need = need_of("frost", f"[surroundings]\n{around}")
    assert 32 * 900.0 == pytest.approx(nominal(need))
    assert counts == need.counts
    assert "if the power fails" in need.decides


@pytest.mark.parametrize("around", ["", '[surroundings]\ncoldest_air = "1 degC"'])
def test_frost_asks_for_nothing_where_it_does_not_freeze(hours_of: HoursOf, around: str) -> None:
    assert "frost" not in {need.name for need in hours_of(around).needs}


@pytest.mark.parametrize(
    ("profile", "limit_h", "source"),
    [
        ("Wisconsin cold soak", 4.0, "wisconsin_sps_390_14"),
        ("Wisconsin plunge", 1.0, "wisconsin_sps_390_14"),
        ("Wisconsin whirlpool", 0.5, "wisconsin_sps_390_14"),
        ("Wisconsin wading", 1.0, "wisconsin_sps_390_14"),
        ("Wisconsin swimming", 6.0, "wisconsin_sps_390_14"),
        ("Montana pool", 6.0, "montana_arm_37_115"),
        ("Montana spa", 0.5, "montana_arm_37_115"),
        ("Austria 1998", 6.0, "austria_bhygv_1998"),
    ],
)
def test_public_rule_of_a_turnover_as_printed_runs_all_day_without_times(
    hours_of: HoursOf, profile: str, limit_h: float, source: str
) -> None:
    """Table 390.14-1 of SPS 390.14, ARM 37.115 and section 11 of the ordinance; 400 L pass in less than 0.5 h."""
    answer = hours_of(f'[timer]\npublic_profile = "{profile}"')
    need = next(need for need in answer.needs if need.name == "public rule")
    assert answer.public_rule is not None
    assert (limit_h * 3600.0, 1.0, source) == (
        answer.public_rule.limit_s, answer.public_rule.meets_share_ratio, need.source,
    )  # fmt: skip
    assert answer.turnover_s.nominal == answer.public_rule.value_s.nominal
    assert 86400.0 == nominal(need)
    assert "the local authority decides" in need.decides


def test_public_rule_that_the_flow_does_not_keep_is_met_by_no_run_time(hours_of: HoursOf) -> None:
    tub = '[tub]\nvolume = "4000 L"\nwater_level = "0.8 m"\nwater_temperature = "10 degC"'
    answer = hours_of('[timer]\npublic_profile = "Wisconsin whirlpool"', tub=tub)
    need = next(need for need in answer.needs if need.name == "public rule")
    assert (None, True, False) == (need.run_s.nominal, need.above_a_day, need.counts)
    assert answer.public_rule is not None
    assert 0.0 == answer.public_rule.meets_share_ratio


def test_public_rule_of_loudoun_runs_all_day(need_of: NeedOf) -> None:
    assert 86400.0 == nominal(need_of("public rule", '[timer]\npublic_profile = "Loudoun County"'))


def test_need_above_a_day_says_what_would_help(hours_of: HoursOf) -> None:
    answer = hours_of("[timer]\nturnovers = 500")
    need = answer.needs[0]
    assert need.run_s.ends[1] > 86400.0
    assert (True, True) == (need.above_a_day, need.counts)
    assert "more flow" in need.helps
    assert "turnovers" == answer.binding_need
    assert answer.run_s.nominal == need.run_s.nominal


def test_need_within_a_day_offers_no_help(hours_of: HoursOf) -> None:
    assert [""] == list({need.helps for need in hours_of().needs})


@pytest.mark.parametrize("tables", ["", "[bathers]\nper_day = 1", "[bathers]\nper_day = 6\nhaze_each = 0.01"])
def test_run_time_is_that_of_the_binding_need(hours_of: HoursOf, tables: str) -> None:
    answer: Any = hours_of(tables)
    largest = max(need.run_s.ends[1] for need in answer.needs if need.counts)
    assert largest == answer.run_s.nominal
    assert largest == next(need for need in answer.needs if need.name == answer.binding_need).run_s.nominal
