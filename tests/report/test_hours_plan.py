"""The timer's plan as text, record and picture, from plans written by hand."""

from dataclasses import replace

import pytest

from sanitize.basis.figure import Figure
from sanitize.loopfile.read import read_plant
from sanitize.plant.day import PriceWindow, Window
from sanitize.report.hours_plan import plan_block
from sanitize.report.pictures import timer_picture
from sanitize.report.pictures.timer import timer_figure
from sanitize.report.plan_record import plan_csv, plan_record
from sanitize.report.plan_words import asked, loosened
from sanitize.studies.hours.result import Apart, Hours
from sanitize.studies.hours.study import study_needs
from sanitize.studies.timer.result import WISHES, Broken, Plan, PlanRun, PowerCut, Spent

FILE = """format = 1
title = "Cooper's tub"
size = "1 in"
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", power = "100 W", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "return", height = "0.50 m"},
]
[tub]
volume = "400 L"
water_level = "0.80 m"
water_temperature = "10 degC"
"""
H = 3600.0
KWH = Figure(3.6e6, 3.6e6, 3.6e6)
SIDE = Apart(KWH, Figure(0.0, 0.0, 0.0), KWH)
PLAN = Plan(
    segment_s=900.0,
    runs=(PlanRun("pump", 22 * H, 2 * H), PlanRun("pump", 12 * H, 13 * H), PlanRun("ozone", 22.5 * H, 24 * H)),
    conflict=(),
    broken=(),
    run_s=5 * H,
    ozone_run_s=1.5 * H,
    chiller_run_s=0.0,
    switchings_count=3,
    clocks_count=2,
    cuts=(PowerCut("pump", 1800.0, "flow"), PowerCut("ozone", 0.0, "rest"), PowerCut("both", None, None)),
    needs_interlock=True,
    spent=Spent(SIDE, SIDE, None, None),
)


@pytest.fixture(scope="module")
def hours() -> Hours:
    found = study_needs(read_plant(FILE).plant, 0)
    bathing = (Window(start_s=3 * H, end_s=4 * H),)
    wishes = replace(found.wishes, has_ozone=True, two_timers=True, clocks_apart_s=900.0, bathing=bathing,
                     quiet=(Window(start_s=23 * H, end_s=5 * H),))  # fmt: skip
    return replace(found, wishes=wishes)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_text_shows_switch_times_over_midnight_and_to_the_day_s_end(hours: Hours) -> None:
    told = flat(plan_block(hours, PLAN, 100))
    assert "pump 22:00 02:00 4 h pump 12:00 13:00" in told
    assert "ozone 22:30 24:00" in told
    assert "Every wish" in told


def test_text_of_two_timers_tells_clocks_power_cuts_and_interlock(hours: Hours) -> None:
    told = flat(plan_block(hours, PLAN, 100))
    assert "15 min apart either way" in told
    assert "Of more than 30 min that stops only the pump's clock: the ozone unit runs into standing water." in told
    assert "Of any length that stops only the ozone unit's clock: the ozone unit runs within its rest" in told
    assert "every clock" not in told
    assert "Interlock Required" in told
    assert "licensed electrician" in told


def test_text_of_a_conflict_names_it_and_what_the_nearest_plan_breaks(hours: Hours) -> None:
    broken = (Broken("quiet hours", 1800.0, None), Broken("most runs", None, 2))
    plan = replace(PLAN, conflict=("longest idle time", "quiet hours"), broken=broken)
    told = flat(plan_block(hours, plan, 100))
    assert (
        "No plan keeps these together: longest idle time (no gap longer than 6.0 h) and quiet hours (the pump" in told
    )
    assert "break quiet hours by 30 min and most runs by 2" in told
    assert "`longest_idle` in [timer] and `quiet` in [timer]" in told
    assert "Every wish" not in told


def test_text_of_one_timer_in_conflict_with_the_rest_offers_a_second(hours: Hours) -> None:
    plan = replace(PLAN, clocks_count=1, conflict=("run before bathing", "ozone rest"),
                   broken=(Broken("run before bathing", 1800.0, None),))  # fmt: skip
    told = flat(plan_block(hours, plan, 100))
    assert "`two_timers = true`" in told
    assert "the ozone unit runs whenever the pump does" in told


def test_text_of_a_chiller_that_cannot_hold_says_so(hours: Hours) -> None:
    wishes = replace(hours.wishes, chiller_run_s=Figure(None, None, None))
    assert "cannot hold" in flat(plan_block(replace(hours, wishes=wishes), PLAN, 100))
    assert "cannot hold" not in flat(plan_block(hours, PLAN, 100))


def test_text_of_costs_has_them_only_with_prices(hours: Hours) -> None:
    assert "\ncost " not in plan_block(hours, PLAN, 100)
    assert "\ncost " in plan_block(hours, replace(PLAN, spent=Spent(SIDE, SIDE, SIDE, SIDE)), 100)


def test_words_are_there_for_every_wish(hours: Hours) -> None:
    for name in WISHES:
        assert asked(name, hours).startswith(f"{name} (")
        assert loosened(name)


def test_record_holds_the_switch_times_apart_from_the_rest() -> None:
    record = plan_record(PLAN)
    assert {"what": "pump", "start": "22:00", "stop": "02:00", "start_s": 79200.0, "stop_s": 7200.0} == record["plan"][
        0
    ]
    assert "runs" not in record["timer"]
    assert SIDE.pump.nominal == record["energy_j"]["pump"]["nominal"]
    assert record["timer"]["needs_interlock"] is True


def test_csv_has_a_row_for_each_run() -> None:
    assert "what,start,stop,start_s,stop_s\npump,22:00,02:00,79200.0,7200.0\n" == "\n".join(
        [*plan_csv(PLAN).splitlines()[:2], ""]
    )


def test_picture_draws_every_run_cut_at_midnight(hours: Hours) -> None:
    axes = timer_figure(hours, PLAN).axes[0]
    bars = {part.get_gid(): part.get_paths() for part in axes.collections}
    assert {"pump": 3, "ozone": 1, "in the tub": 1, "quiet": 2} == {name: len(paths) for name, paths in bars.items()}
    ends = [(path.get_extents().x0, path.get_extents().x1) for path in bars["pump"]]
    assert [(22.0, 24.0), (0.0, 2.0), (12.0, 13.0)] == ends
    assert "12:00\n13:00" in {text.get_text() for text in axes.texts}


def test_picture_with_prices_draws_them_over_the_whole_day(hours: Hours) -> None:
    prices = (PriceWindow(start_s=6 * H, end_s=22 * H, price_per_kwh=0.4),
              PriceWindow(start_s=22 * H, end_s=6 * H, price_per_kwh=0.2))  # fmt: skip
    above = timer_figure(replace(hours, wishes=replace(hours.wishes, prices=prices)), PLAN).axes[0]
    (line,) = (line for line in above.lines if line.get_gid() == "price")
    assert [0.0, 6.0, 22.0, 24.0] == list(line.get_xdata())
    assert [0.2, 0.4, 0.2, 0.2] == list(line.get_ydata())


def test_picture_is_a_file_of_its_kind(hours: Hours) -> None:
    assert timer_picture(hours, PLAN, "png").startswith(b"\x89PNG")
