"""How long a loop lasts: against closed forms of a loop of squares, and the wiring of limits, gauge and moments."""

import math

import numpy as np
import pytest

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.studies.draws import Draws
from sanitize.studies.loading.ageing import HALVINGS, LARGEST_DROP_RATIO, STEPS
from sanitize.studies.loading.result import Lasts, Limit
from sanitize.studies.loading.study import study_lasts
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run

DAY_S = 86400.0
L_MIN = 1.0 / 60_000.0
CLOTH_PA_S_PER_M3 = 6000.0 / (40.0 * L_MIN)


def limit_of(result: Lasts, name: str) -> Limit:
    return next(limit for limit in result.limits if limit.limit == name)


def least_step_s(longest_s: float) -> float:
    """What bisection leaves of the search."""
    return longest_s / STEPS / 2**HALVINGS


def clean_flow_m3s(plant) -> float:
    return float(run(plant, Draws(0), Condition(np.full(1, 0.8))).flow_m3s[0])


def ratio_at_flow(clean: float, share: float) -> float:
    """Drop ratio at which the flow is so much of the clean one, by hand.

    The pump's parabola A - B Q^2 through two points, every other loss S Q^2, the cloth R Q: with nothing but the
    clean flow known, S + B = (A - R Q0) / Q0^2, and at s Q0 the cloth takes A - (S + B) s^2 Q0^2 = ratio R s Q0.
    """
    shut_off = 998.2 * GRAVITY_MS2 * 6.0
    cloth = CLOTH_PA_S_PER_M3 * clean
    return (shut_off - (shut_off - cloth) * share**2) / (cloth * share)


def test_lasts_exponential_on_a_loop_of_squares_is_the_closed_form(loading_plant) -> None:
    """t = 30 d ln(ratio) / ln 2.5; the slack is the bisection's last step, and 0.1 % for friction that is no square."""
    plant = loading_plant()
    ratio = ratio_at_flow(clean_flow_m3s(plant), 0.8)
    expected = 30.0 * DAY_S * math.log(ratio) / math.log(2.5)
    got = limit_of(study_lasts(plant, 0), "flow down by a fifth")
    longest = 30.0 * DAY_S * math.log(LARGEST_DROP_RATIO) / math.log(2.5)
    assert expected == pytest.approx(got.time_s.ends[1], rel=1e-3, abs=least_step_s(longest))


def test_lasts_cake_on_a_loop_of_squares_is_the_closed_form(loading_plant) -> None:
    """Ruth: the cake adds mu (Q/A) alpha w, so t = (ratio - 1) dp A^2 / (mu Q alpha load), with alpha of the table."""
    plant = loading_plant('media_area = "2 m2", solids_load = "4 g/day"')
    ratio = ratio_at_flow(clean_flow_m3s(plant), 0.8)
    per_day = 1.0016e-3 * 40.0 * L_MIN / 2.0**2 * 1e11 * 4e-3
    got = study_lasts(plant, 0)
    expected = (ratio - 1.0) * 6000.0 / per_day
    step = least_step_s((LARGEST_DROP_RATIO - 1.0) * 6000.0 / per_day)
    assert expected == pytest.approx(limit_of(got, "flow down by a fifth").time_s.ends[1] / DAY_S, rel=1e-3, abs=step)
    assert "cake-resistance-assumed" in [notice.code for notice in got.notices]


def test_lasts_cake_with_days_is_calibrated_by_them(loading_plant) -> None:
    """2.5 times after 30 days grows evenly: at ratio r after 30 (r - 1) / 1.5 days, whatever the load."""
    plant = loading_plant('media_area = "2 m2", solids_load = "4 g/day", days_to_loaded = "30 days"')
    ratio = ratio_at_flow(clean_flow_m3s(plant), 0.8)
    got = study_lasts(plant, 0)
    expected = 30.0 * (ratio - 1.0) / 1.5
    step = least_step_s(30.0 * (LARGEST_DROP_RATIO - 1.0) / 1.5)
    assert expected == pytest.approx(limit_of(got, "flow down by a fifth").time_s.ends[1] / DAY_S, rel=1e-3, abs=step)
    assert 30.0 == pytest.approx(got.filters[0].loaded_time_s.ends[1] / DAY_S, rel=1e-9)
    resistance = got.filters[0].cake_resistance_m_per_kg
    assert resistance is not None
    expected_resistance = 1.5 * 6000.0 / (1.0016e-3 * 40.0 * L_MIN / 4.0 * 0.12)
    assert expected_resistance == pytest.approx(resistance.ends[1], rel=1e-3)


def test_lasts_moments_begin_clean_and_hold_the_loaded_drop(loading_plant) -> None:
    """At the moment nearest to 30 days the cloth's drop is R Q times 2.5^(t/30)."""
    result = study_lasts(loading_plant(), 0)
    assert result.flow_clean_m3s == result.moments[0].flow_m3s
    moment = min(result.moments, key=lambda moment: abs(moment.time_s - 30.0 * DAY_S))
    grown = 2.5 ** (moment.time_s / (30.0 * DAY_S))
    expected = CLOTH_PA_S_PER_M3 * grown * moment.flow_m3s.ends[1]
    assert expected == pytest.approx(moment.filter_drop_pa_diff.ends[1], rel=2e-3)
    flows = [moment.flow_m3s.ends[1] for moment in result.moments]
    assert sorted(flows, reverse=True) == flows


def test_lasts_gauge_rises_by_what_the_pump_gives_more(loading_plant) -> None:
    """From Q to 0.8 Q the parabola gives H0 (1 - 0.64) (Q/Q1)^2 more; the gauge also gains the velocity head there."""
    plant = loading_plant()
    got = limit_of(study_lasts(plant, 0), "flow down by a fifth")
    state = run(plant, Draws(0), Condition(np.full(1, 0.8)))
    clean, bore = float(state.flow_m3s[0]), state.station("pump").bore_m
    head = 998.2 * GRAVITY_MS2 * 6.0 * 0.36 * (clean / (60.0 * L_MIN)) ** 2
    swept = 0.36 * 998.2 / 2.0 * (clean / (math.pi / 4.0 * bore**2)) ** 2
    assert head + swept == pytest.approx(got.gauge_rise_pa_diff.ends[1], rel=0.02)


def test_lasts_injector_stops_where_a_loop_of_that_drop_stops(loading_plant) -> None:
    """Just before the day the closed port pulls more than the check valve's 1 kPa, just behind it less."""
    plant = loading_plant(height="0.5 m")
    day = limit_of(study_lasts(plant, 0), "injector stops drawing").time_s.ends[1]
    assert math.isfinite(day)
    for factor, pulls in ((0.99, True), (1.01, False)):
        ratio = np.full(1, 2.5 ** (factor * day / (30.0 * DAY_S)))
        state = run(plant, Draws(0), Condition(np.full(1, 0.8), filter_drop_ratios={"filter": ratio}))
        assert state.port is not None
        assert pulls == bool(state.port.port_pa_gauge[0] < -1000.0)


def test_lasts_chiller_falls_below_its_least_flow_at_that_flow(loading_plant) -> None:
    chiller = '{part = "chiller", drop = "2 kPa", at_flow = "40 L/min", exponent = 2, min_flow = "22 L/min"},'
    result = study_lasts(loading_plant(more=chiller), 0)
    limit = limit_of(result, "chiller below its least flow")
    assert "chiller" == limit.part
    assert 22.0 * L_MIN == pytest.approx(limit.flow_m3s.ends[1], rel=1e-3)
    assert "chiller" == result.moments[0].chiller_flows[0].name


def test_lasts_limit_met_with_the_clean_filter_does_not_end_the_time(loading_plant) -> None:
    result = study_lasts(loading_plant(height="-8 m"), 0)
    injector = limit_of(result, "injector stops drawing")
    assert (1.0, True, 0.0) == (
        injector.met_when_clean_ratio,
        injector.nominal_met_when_clean,
        injector.comes_first_ratio,
    )
    assert limit_of(result, "flow down by a fifth").time_s == result.lasts_s


def test_lasts_gauge_rises_at_most_to_the_shut_off_head(loading_plant) -> None:
    """Still water stands over the gauge by 0.8 - 0.2 m, and the pump adds its 6 m at the high curve's 1.05."""
    result = study_lasts(loading_plant(), 0)
    still = 998.2 * GRAVITY_MS2 * (0.6 + 1.05 * 6.0)
    clean = result.gauge_clean_pa_gauge.ends[1]
    assert still - clean == pytest.approx(result.gauge_largest_rise_pa_diff.ends[1], rel=1e-4)


def test_lasts_usual_rule_cannot_show_on_a_pump_of_less_head() -> None:
    """8 psi is 5.6 m of water: a pump of 5 m cannot give that more even at its high curve (1.05), one of 15 m can."""
    assert not study_lasts(read_plant(LESS_HEAD).plant, 0).gauge_rule_can_trigger
    more = read_plant(LESS_HEAD.replace('"5 m"', '"15 m"')).plant
    assert study_lasts(more, 0).gauge_rule_can_trigger


LESS_HEAD = """format = 1
size = "1 in"
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.20 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "filter", drop = "6 kPa", at_flow = "40 L/min"},
  {part = "injector", throat = "9 mm", height = "0.9 m"},
  {part = "return", height = "0.50 m"},
]

[tub]
volume = "400 L"
water_level = "0.80 m"
water_temperature = "20 degC"
"""


def test_lasts_ranges_hold_nominal_and_the_same_seed_gives_the_same(loading_plant) -> None:
    plant = loading_plant('days_to_loaded = "30 days +- 50 %"')
    one, other = study_lasts(plant, 64), study_lasts(plant, 64)
    assert one == other
    low, nominal, high = one.lasts_s.ends
    assert 0.0 < low < nominal < high
    assert 1.0 == pytest.approx(sum(limit.comes_first_ratio for limit in one.limits))


def test_lasts_without_days_says_what_stands_in(loading_plant) -> None:
    codes = [notice.code for notice in study_lasts(loading_plant('media_area = "2 m2"'), 0).notices]
    assert "days-to-loaded-assumed" in codes


def test_lasts_counts_from_the_next_cleaning_whatever_is_on_the_filter_now(loading_plant) -> None:
    fouled = study_lasts(loading_plant('days_to_loaded = "30 days", fouling = 2'), 0)
    assert study_lasts(loading_plant(), 0).lasts_s == fouled.lasts_s
    assert "days-from-next-cleaning" in [notice.code for notice in fouled.notices]


def test_lasts_filter_that_ends_at_its_clean_drop_is_refused(loading_plant) -> None:
    with pytest.raises(InputError, match="ends above its clean drop"):
        study_lasts(loading_plant("loaded_drop_ratio = 1"), 0)


def test_lasts_without_a_filter_is_refused(plant_of) -> None:
    loop = LESS_HEAD.partition("loop = [")[2].partition("]\n\n[tub]")[0]
    without = "\n".join(line for line in loop.splitlines() if "filter" not in line)
    with pytest.raises(InputError, match="no filter, so nothing loads"):
        study_lasts(plant_of(f"loop = [{without}]"), 0)
