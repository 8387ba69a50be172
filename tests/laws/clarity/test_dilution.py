"""The law of dilution: printed removals, consecutive parts, the replacement example, limits and properties."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.clarity.dilution import (
    US_GALLON_M3,
    pulse_peak,
    remaining_by_parts_ratio,
    remaining_ratio,
    replacement_interval_d,
    treatment_run_s,
    turnover_s,
    turnovers_for_pulse_count,
    turnovers_for_removal_count,
)


@pytest.mark.parametrize(("turnovers", "percent"), [(1, 63), (2, 86), (3, 95)])
def test_removal_is_what_was_measured_in_a_model_pool(turnovers: int, percent: int) -> None:
    """Alansari, Amburgey and Madding 2018: 63, 86 and 95 % after 1, 2 and 3 turnovers."""
    assert percent == pytest.approx(100.0 * (1.0 - remaining_ratio(turnovers)), abs=0.5)


@pytest.mark.parametrize(("turnovers", "percent"), [(4, 98), (5, 99.3), (6, 99.7), (7, 99.9)])
def test_removal_of_many_turnovers_by_hand(turnovers: int, percent: float) -> None:
    """e^-4 = 0.0183, e^-5 = 0.0067, e^-6 = 0.0025, e^-7 = 0.0009."""
    assert percent == pytest.approx(100.0 * (1.0 - remaining_ratio(turnovers)), abs=0.2)


@pytest.mark.parametrize("parts", [1, 2, 10, 100])
def test_parts_are_dilutions_in_a_row(parts: int) -> None:
    left = 1.0
    for _ in range(parts):
        left -= left / parts
    assert left == pytest.approx(float(remaining_by_parts_ratio(parts)), abs=1e-12)


def test_parts_many_come_to_the_mixed_tub() -> None:
    assert float(remaining_ratio(1.0)) == pytest.approx(float(remaining_by_parts_ratio(1e7)), rel=1e-6)


def test_turnovers_for_95_percent_at_the_measured_efficiency_of_cartridges() -> None:
    """At most 36 % in one pass (Amburgey and others 2012, 0.19 log): 8.3 turnovers where a perfect filter needs 3."""
    assert 0.36 == pytest.approx(1.0 - 10.0**-0.19, abs=0.006)
    assert 8.3 == pytest.approx(float(turnovers_for_removal_count(0.95, 0.36)), abs=0.05)
    assert 3.0 == pytest.approx(float(turnovers_for_removal_count(0.95)), abs=0.05)


def test_mixed_tub_is_the_solution_of_its_balance() -> None:
    """dC/dt = -E Q C / V in small steps."""
    share, steps = 1.0, 200_000
    for _ in range(steps):
        share -= share * 0.36 * 2.5 / steps
    assert share == pytest.approx(float(remaining_ratio(2.5, 0.36)), rel=1e-5)


def test_pulse_peak_is_that_of_many_days_in_a_row() -> None:
    level = 0.0
    for _ in range(500):
        level = level * np.exp(-0.3 * 4.0) + 0.2
    assert level == pytest.approx(float(pulse_peak(0.2, 4.0, 0.3)), rel=1e-12)


@given(st.floats(0.001, 0.999), st.floats(0.01, 1.0))
def test_pulse_turnovers_give_the_limit_as_peak(share: float, efficiency: float) -> None:
    turnovers = turnovers_for_pulse_count(share, 1.0, efficiency)
    assert 1.0 == pytest.approx(float(pulse_peak(share, turnovers, efficiency)), rel=1e-9)


@pytest.mark.parametrize(("pulse", "efficiency"), [(0.5, 0.9), (0.7, 1.0), (0.1, 0.0)])
def test_pulse_that_filtration_cannot_keep_below_needs_infinite_turnovers(pulse: float, efficiency: float) -> None:
    assert np.inf == float(turnovers_for_pulse_count(pulse, 0.5, efficiency))


def test_no_pulse_needs_no_turnover() -> None:
    assert 0.0 == float(turnovers_for_pulse_count(0.0, 0.5, 0.0))


def test_replacement_is_the_printed_example() -> None:
    """Maine 10-144 ch. 202 appendix B: 600 gal and 85 bathers a day, 2.4, so every 2 days."""
    interval = float(replacement_interval_d(600.0 * US_GALLON_M3, 85.0))
    assert 2.4 == pytest.approx(interval, abs=0.05)
    assert 2 == round(interval)


def test_replacement_without_bathers_is_never() -> None:
    assert np.inf == float(replacement_interval_d(1.0, 0.0))


def test_treatment_is_half_a_bather_for_a_cubic_metre() -> None:
    """Austria 1998 section 11, b = 0.5 per m3: ten bathers want 20 m3, at 5 m3/h 4 h."""
    assert 4.0 * 3600.0 == pytest.approx(float(treatment_run_s(10.0, 2.0, 5.0 / 3600.0)))


def test_turnover_without_flow_is_never() -> None:
    assert np.inf == float(turnover_s(0.4, 0.0))
    assert np.inf == float(treatment_run_s(1.0, 2.0, 0.0))


def test_arrays_are_their_numbers_one_by_one() -> None:
    flows = np.array([1e-4, 3e-4, 0.0])
    assert [float(turnover_s(0.4, flow)) for flow in flows] == turnover_s(0.4, flows).tolist()


@pytest.mark.parametrize(
    "call",
    [
        lambda: turnover_s(0.0, 1.0),
        lambda: turnover_s(1.0, -1.0),
        lambda: remaining_ratio(-1.0),
        lambda: remaining_ratio(1.0, 1.1),
        lambda: remaining_by_parts_ratio(0.5),
        lambda: turnovers_for_removal_count(1.0),
        lambda: turnovers_for_pulse_count(-1.0, 1.0, 0.5),
        lambda: turnovers_for_pulse_count(1.0, 0.0, 0.5),
        lambda: pulse_peak(-1.0, 1.0, 0.5),
        lambda: treatment_run_s(-1.0, 1.0, 1.0),
        lambda: replacement_interval_d(0.0, 1.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call) -> None:
    with pytest.raises(ValueError, match=r"need|are|is|there"):
        call()
