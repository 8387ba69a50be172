"""Low, nominal and high of an array of cases."""

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.studies.figures import figure


def test_ends_are_the_5th_and_95th_percentile_and_nominal_is_case_0() -> None:
    """0 to 100 in a mixed order: the 5th of 101 values in rank is 5, the 95th 95."""
    values = np.arange(101.0)
    mixed = np.concatenate(([50.0], np.random.default_rng(1).permutation(np.delete(values, 50))))
    assert Figure(5.0, 50.0, 95.0) == figure(mixed)


def test_ends_are_widened_to_hold_a_nominal_outside_them() -> None:
    values = np.concatenate(([200.0], np.arange(1.0, 101.0)))
    assert 200.0 == figure(values).high
    values[0] = -3.0
    assert -3.0 == figure(values).low


def test_single_case_has_no_width() -> None:
    assert Figure(7.0, 7.0, 7.0) == figure(np.array([7.0]))


def test_negative_figures_put_the_algebraically_smaller_end_first() -> None:
    shown = figure(-np.arange(101.0))
    assert (-95.0, 0.0) == (shown.low, shown.high)


def test_infinite_values_mean_never_and_become_none_at_the_high_end() -> None:
    """One in ten never draws: the 95th percentile is `never`, the 5th and nominal are not."""
    values = np.concatenate(([1.0], np.linspace(1.0, 2.0, 89), np.full(10, np.inf)))
    shown = figure(values)
    assert shown.high is None
    assert 1.0 == shown.nominal
    assert shown.low is not None


def test_nominal_that_never_comes_takes_the_high_end_with_it() -> None:
    shown = figure(np.concatenate(([np.inf], np.linspace(1.0, 2.0, 99))))
    assert (None, None) == (shown.nominal, shown.high)
    assert shown.low is not None


def test_cases_without_an_answer_are_left_out() -> None:
    values = np.concatenate(([3.0], np.full(50, np.nan), np.arange(1.0, 6.0)))
    assert Figure(1.0, 3.0, 5.0) == figure(values)


def test_nominal_case_without_an_answer_is_stood_in_for_by_the_median() -> None:
    assert 3.0 == figure(np.array([np.nan, 1.0, 2.0, 3.0, 4.0, 5.0])).nominal


def test_no_answer_at_all_is_nothing() -> None:
    assert Figure(None, None, None) == figure(np.full(4, np.nan))
