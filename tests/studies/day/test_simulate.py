"""A day and the next: balances, what repeats, the lid, the room, haze and the chiller against hand and rival laws."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sanitize.laws.clarity.dilution import pulse_peak
from sanitize.laws.heat.cooling import holding_run_s
from sanitize.plant.day import Window
from sanitize.studies.day.parts import AirSide, Chemistry
from sanitize.studies.day.rates import lid_moved, rates_of
from sanitize.studies.day.reactor import OVER, OXIDANT, OZONE, ROOM, SMALL, slopes
from sanitize.studies.day.schedule import Stretches, Switching, stretches_of
from sanitize.studies.day.simulate import Day

Run = Callable[..., Day]


def test_day_every_milligram_fed_is_found_again(run_day: Run) -> None:
    """90 mg/h for four hours; closer than 1e-6 of what was fed, here to rounding."""
    day = run_day(days=3)
    assert 360.0 == pytest.approx(float(day.masses.total()["fed"][0]))
    assert float(day.masses.imbalance_ratio.max()) < 1e-9


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.floats(1.0, 2000.0), st.floats(0.0, 20.0), st.floats(0.0, 0.99), st.booleans(), st.floats(0.0, 10.0))
def test_day_balances_close_and_nothing_is_negative(
    run_day: Run, fed: float, bathers: float, destroyed: float, indoors: bool, oxidant: float
) -> None:
    one = np.ones(2)
    day = run_day(
        cases=2,
        fed_mg_h=np.array([fed, 0.5 * fed]),
        bathers=bathers,
        air={"destroyed_ratio": destroyed * one, "indoors": indoors},
        chemistry={"oxidant_start_mgl": oxidant * one},
    )
    assert float(day.masses.imbalance_ratio.max()) < 1e-6
    assert min(float(day.first.min()), float(day.last.min()), float(day.haze_ntu.min())) >= 0.0
    demand = bathers * 200.0
    taken = (day.masses.with_fast + day.masses.with_slow + day.masses.by_oxidant_mg).sum(0)
    assert demand == pytest.approx(taken + 400.0 * day.demand_rise_mgl, rel=1e-6, abs=1e-3)


def test_day_agrees_with_a_plain_integrator_all_along(
    run_day: Run, busy_day: Stretches, air: AirSide, chemistry: Chemistry
) -> None:
    """scipy's LSODA over the same stretches, one by one, without a lid; at every midnight and hour."""
    lidless = Stretches(**{**vars(busy_day), "lid": np.zeros(busy_day.count, dtype=bool)})
    day = run_day(stretches=lidless, tolerance_ratio=1e-4, chemistry={"oxidant_start_mgl": np.array([0.0])})
    rates = rates_of(lidless, day.ways, 1.0, air, chemistry)
    state = np.zeros(6)
    for index in range(lidless.count):
        here = rates.at(index)
        found = solve_ivp(
            lambda _, y, here=here: slopes(y[:, np.newaxis], here)[0][:, 0],
            (0.0, float(lidless.length_min[index])), state, method="LSODA", rtol=1e-8, atol=1e-11,
        )  # fmt: skip
        state = found.y[:, -1]
        assert np.all(np.abs(state - day.last[index, :, 0]) <= 1e-3 * state + SMALL[:, 0]), index


def test_day_repeats_itself_where_the_other_oxidant_keeps_up(run_day: Run) -> None:
    """The next day after the last is the same one."""
    day = run_day(days=None, chemistry={"oxidant_start_mgl": np.array([30.0])})
    assert bool(day.repeats.all())
    longer = run_day(days=day.days_count + 1, chemistry={"oxidant_start_mgl": np.array([30.0])})
    assert day.last[:, OZONE] == pytest.approx(longer.last[:, OZONE], rel=0.03, abs=2e-5)


def test_day_does_not_repeat_itself_where_bathers_bring_more_than_is_oxidized(run_day: Run) -> None:
    """Nothing but 270 mg of ozone a day against 4 g."""
    day = run_day(days=4, bathers=20.0, chemistry={"oxidant_start_mgl": np.array([0.0])})
    assert not day.repeats.any()
    assert 3.73 / 400.0 * 1000.0 <= float(day.demand_rise_mgl[0]) <= 10.0


def test_air_is_linear_in_what_is_fed_without_water_chemistry(run_day: Run) -> None:
    """No demand and no other oxidant: three times the ozone, three times in room and water."""
    day = run_day(cases=2, fed_mg_h=np.array([50.0, 150.0]), bathers=0.0, chemistry={"oxidant_start_mgl": np.zeros(2)})
    for row in (OZONE, OVER, ROOM):
        first, third = day.last[:, row].T
        assert 3.0 * first == pytest.approx(third, rel=2e-3, abs=1e-6)


def test_room_without_lid_comes_to_the_box_models_answer(run_day: Run) -> None:
    """All of it vented all day: E / (V (n + k)) = 1.5 mg/min / (30 m3 * 3.3 / 60 min) = 0.909 mg/m3."""
    all_day = (Window(start_s=0.0, end_s=86400.0),)
    day = run_day(
        stretches=stretches_of(Switching(all_day, all_day, (), (), (), "stated")), bathers=0.0,
        chemistry={"decay_per_min": lambda water: 0.0 * water, "oxidant_start_mgl": np.zeros(1)},
    )  # fmt: skip
    assert 1.5 / (30.0 * 3.3 / 60.0) == pytest.approx(float(day.last[-1, OVER, 0]), rel=1e-3)


def test_lid_parts_and_mixes_the_air_without_losing_ozone(air: AirSide) -> None:
    state = np.zeros((6, 1))
    state[OVER] = 2.0
    shut = lid_moved(state, air, closes=True)
    assert [2.0, 2.0] == [shut[OVER, 0], shut[ROOM, 0]]
    shut[OVER], shut[ROOM] = 400.0, 1.0
    opened = lid_moved(shut, air, closes=False)
    assert (0.1 * 400.0 + 29.9 * 1.0) / 30.0 == pytest.approx(opened[OVER, 0])


def test_oxidant_is_dosed_back_after_bathing(run_day: Run) -> None:
    """At the end of the last bathing it stands where it started, and what was missing is the dose."""
    day = run_day(bathers=2.0)
    after = int(np.flatnonzero(day.stretches.bathing)[-1]) + 1
    assert 3.0 == pytest.approx(float(day.first[after, OXIDANT, 0]))
    assert 3.0 - float(day.last[after - 1, OXIDANT, 0]) == pytest.approx(float(day.dosed_mgl[0]))


def test_haze_peak_is_that_of_the_law_of_dilution(run_day: Run) -> None:
    """All day pumped, a pulse of one bather in a minute: 0.25 NTU, 0.03 a minute, 43.2 particle-turnovers."""
    all_day = (Window(start_s=0.0, end_s=86400.0),)
    minute = (Window(start_s=43200.0, end_s=43201.0),)
    day = run_day(stretches=stretches_of(Switching(all_day, (), (), minute, (), "stated")), days=3, supply=False)
    expected = float(pulse_peak(0.25, 0.03 * 1440.0, 1.0))
    assert expected == pytest.approx(float(day.haze_ntu.max()), rel=1e-3)


def test_chiller_runs_as_long_as_its_law_says_to_hold(run_day: Run) -> None:
    """200 W all day, 700 W out for half a day; nobody in it and no heat of the pump."""
    windows = (Window(start_s=0.0, end_s=43200.0),)
    day = run_day(
        stretches=stretches_of(Switching(windows, (), windows, (), (), "stated")), bathers=0.0, days=4,
        warmth={"standing_w": lambda water, lid: 200.0 + 0.0 * water, "moving_w": lambda water: 0.0 * water},
    )  # fmt: skip
    expected = float(holding_run_s(200.0, 0.0, 700.0, 0.0)) / 60.0
    assert expected == pytest.approx(float(day.chiller_min[0]), rel=1e-3)


def test_water_without_chiller_warms_by_the_exact_exponential(run_day: Run) -> None:
    """20 W/K towards 20 degC with 1677 kJ/K, nobody in it and no pump: T = 20 - 10 exp(-20 t / C)."""
    off = stretches_of(Switching((), (), (), (), (), "stated"))
    day = run_day(stretches=off, bathers=0.0, warmth={"capacity_w": None})
    assert 20.0 - 10.0 * np.exp(-20.0 * 86400.0 / 1.677e6) == pytest.approx(float(day.water_c[-1, 0]), abs=1e-6)
