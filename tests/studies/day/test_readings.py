"""What is read off a day: peaks, means, times above a limit, waits, from readings made by hand."""

import numpy as np
import pytest

from sanitize.plant.day import Window
from sanitize.studies.day.readings import entries, highest, highest_mean, mean_of_day, time_above_s, wait_s
from sanitize.studies.day.schedule import Stretches, Switching, rest_of_day, stretches_of


def _window(start_h: float, end_h: float) -> Window:
    return Window(start_s=3600.0 * start_h, end_s=3600.0 * end_h)


def _day(ozone: tuple[Window, ...], bathing: tuple[Window, ...] = ()) -> Stretches:
    return stretches_of(Switching((_window(0.0, 24.0),), ozone, (), bathing, (), "stated"), longest_min=60.0)


def _readings(day: Stretches, values_at: "np.ndarray") -> "np.ndarray":
    """Readings of one case from its values at the edges of the stretches."""
    return np.stack([values_at[:-1], values_at[1:]], axis=1)[:, :, np.newaxis]


def test_wait_is_the_time_of_a_known_fall() -> None:
    """Ozone off at 2 h; from 0.4 by half in each hour: at 0.1 two hours later, 0.05 three hours later."""
    day = _day((_window(0.0, 2.0),))
    hours = np.append(day.start_min, 1440.0) / 60.0
    readings = _readings(day, 0.4 * 0.5 ** np.maximum(hours - 2.0, 0.0))
    assert 7200.0 == pytest.approx(float(wait_s(readings, day, 0.1)[0]), abs=1.0)
    assert 2.5 * 3600.0 == pytest.approx(float(wait_s(readings, day, 0.4 * 0.5**2.5)[0]), rel=1e-9)


def test_wait_lasts_until_the_last_time_above() -> None:
    """Above again for the hour from 10 to 11, as when a lid is opened: 9 h after the ozone went off at 2 h."""
    day = _day((_window(0.0, 2.0),))
    values = np.where(np.arange(25) <= 2, 1.0, 1e-6)
    values[10] = 1.0
    found = float(wait_s(_readings(day, values.astype(float)), day, 0.5)[0])
    assert 8.0 * 3600.0 < found < 9.0 * 3600.0


def test_wait_never_ends_where_the_ozone_comes_on_too_soon_and_is_none_without_a_pause() -> None:
    day = _day((_window(0.0, 2.0), _window(3.0, 4.0)))
    assert np.isinf(wait_s(_readings(day, np.ones(25)), day, 0.5)[0])
    always = _day((_window(0.0, 24.0),))
    assert np.isnan(wait_s(_readings(always, np.ones(always.count + 1)), always, 0.5)[0])


def test_wait_of_a_reading_that_is_below_is_nothing() -> None:
    day = _day((_window(0.0, 2.0),))
    assert 0.0 == float(wait_s(_readings(day, np.full(25, 0.1)), day, 0.5)[0])


def test_time_above_counts_straight_lines() -> None:
    """From 0 to 1 and back in two hours: above 0.5 for one hour."""
    day = _day(())
    values = np.zeros(25)
    values[5] = 1.0
    assert 3600.0 == pytest.approx(float(time_above_s(_readings(day, values), day, 0.5)[0]))


def test_means_of_a_step() -> None:
    """1 for six hours across midnight: a quarter of the day, 6/8 of the worst eight hours."""
    day = _day(())
    inside = (day.start_min < 180.0) | (day.start_min >= 1260.0)
    readings = np.where(inside, 1.0, 0.0)[:, np.newaxis, np.newaxis] * np.ones((1, 2, 1))
    assert 0.25 == pytest.approx(float(mean_of_day(readings, day)[0]))
    assert 0.75 == pytest.approx(float(highest_mean(readings, day, 8.0)[0]))


def test_highest_leaves_out_what_is_not_there() -> None:
    readings = np.array([[[1.0, np.nan], [3.0, np.nan]], [[2.0, np.nan], [0.5, np.nan]]])
    assert [3.0] == highest(readings)[:1].tolist()
    assert np.isnan(highest(readings)[1])
    assert [2.0] == highest(readings, np.array([False, True]))[:1].tolist()
    assert np.isnan(highest(readings, np.array([False, False]))).all()


def test_entries_are_the_beginnings_of_bathing() -> None:
    day = _day((), (_window(7.0, 8.0), _window(18.0, 20.0)))
    assert [420.0, 1080.0] == day.start_min[entries(day)].tolist()


def test_rest_of_day_is_what_windows_leave() -> None:
    windows = (_window(23.0, 1.0), _window(0.5, 2.0), _window(10.0, 11.0))
    rest = rest_of_day(windows, 1800.0)
    assert [(2.0, 9.5), (11.0, 22.5)] == sorted((w.start_s / 3600.0, w.end_s / 3600.0) for w in rest)
    assert 86400.0 == rest_of_day(())[0].length_s
    assert () == rest_of_day((_window(0.0, 24.0),))


def test_stretches_fill_the_day_and_keep_ozone_to_the_pump() -> None:
    day = stretches_of(Switching((_window(6.0, 8.0),), (_window(5.0, 7.0),), (), (), (), "stated"))
    assert 1440.0 == pytest.approx(float(day.length_min.sum()))
    assert float(day.length_min.max()) <= 15.0
    assert 60.0 == pytest.approx(float(day.length_min[day.ozone].sum()))
    assert 3 == day.switchings_count
