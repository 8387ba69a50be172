"""Every uncertain number once by its key, half the cases below nominal, case 0 nominal."""

import numpy as np
import pytest

from sanitize.basis.band import Band
from sanitize.studies.draws import Draws

LOG = Band(0.65, 0.73, 1.5, "log")
LINEAR = Band(0.85, 1.0, 1.0)


def test_case_0_is_nominal_for_every_band() -> None:
    draws = Draws(64)
    assert [0.73, 1.0, 7.0] == [
        float(draws.value(key, band)[0]) for key, band in (("a", LOG), ("b", LINEAR), ("c", Band.exact(7.0)))
    ]


def test_draws_without_cases_hold_the_nominal_one_alone() -> None:
    draws = Draws(0)
    assert (1, [0.73]) == (draws.size, draws.value("a", LOG).tolist())


def test_values_follow_the_band_rule_on_both_sides_of_nominal() -> None:
    """u below one half: K_nom (K_low/K_nom)^(1 - 2u); above: K_nom (K_high/K_nom)^(2u - 1)."""
    draws = Draws(256)
    value, u = draws.value("a", LOG), draws.rank("a")
    below = u < 0.5
    assert (0.73 * (0.65 / 0.73) ** (1.0 - 2.0 * u))[below] == pytest.approx(value[below])
    assert (0.73 * (1.5 / 0.73) ** (2.0 * u - 1.0))[~below] == pytest.approx(value[~below])
    assert 0.65 <= value.min() < 0.66
    assert 1.48 < value.max() <= 1.5


def test_half_of_the_cases_lie_below_nominal_however_lopsided_the_band() -> None:
    """Exactly half: a scrambled Sobol sequence puts as many points into either half."""
    draws = Draws(4096)
    for key, band in (("a", LOG), ("b", Band(0.13, 0.24, 0.78, "log")), ("c", Band(0.0, 0.3, 1.5))):
        assert 2048 == np.sum(draws.value(key, band)[1:] < band.nominal)


def test_band_that_ends_at_nominal_never_passes_it() -> None:
    """Rated pump head: -15 %, +0 %."""
    value = Draws(1024).value("pump.head", LINEAR)
    assert 1.0 == value.max()
    assert 0.5 == pytest.approx(np.mean(value[1:] < 1.0), abs=1e-3)


def test_key_used_twice_is_one_draw_also_for_another_band() -> None:
    """Parts of one kind come from one mould: their ranks agree, whatever their sizes."""
    draws = Draws(64)
    first, second = draws.value("elbow", LOG), draws.value("elbow", Band(0.7, 0.78, 1.7, "log"))
    assert 1 == len(draws.inputs)
    assert np.argsort(first).tolist() == np.argsort(second).tolist()


def test_band_without_width_uses_no_draw() -> None:
    draws = Draws(8)
    assert [7.0] * 9 == draws.value("c", Band.exact(7.0)).tolist()
    assert {} == draws.inputs


def test_draws_of_one_seed_repeat_and_of_another_differ() -> None:
    one, again, other = (Draws(64, seed).value("a", LOG) for seed in (3, 3, 4))
    assert one.tolist() == again.tolist()
    assert one.tolist() != other.tolist()


def test_number_of_cases_that_is_no_power_of_two_is_refused() -> None:
    for cases in (3, 100, -2):
        with pytest.raises(ValueError, match="power of two"):
            Draws(cases)


def test_draws_of_some_cases_keep_their_ranks_and_leave_the_rest_nominal() -> None:
    draws = Draws(64)
    value = draws.value("a", LOG)
    some = draws.of_cases(np.array([5, 0, 17]))
    assert value[[5, 0, 17]].tolist() == some.value("a", LOG).tolist()
    assert [0.24] * 3 == some.value("new", Band(0.13, 0.24, 0.78, "log")).tolist()


def test_inputs_beyond_the_first_block_of_columns_are_independent_of_it() -> None:
    """130 inputs: no two of them move together; chance alone gives 4096 cases correlations of about 0.016."""
    draws = Draws(4096)
    ranks = np.stack([draws.rank(f"input {number}")[1:] for number in range(130)])
    correlation = np.abs(np.corrcoef(ranks) - np.eye(130))
    assert correlation.max() < 0.1
    halves = np.abs(np.corrcoef(ranks > 0.5) - np.eye(130))
    assert halves.max() < 0.1


def test_draws_of_some_cases_opened_again_keep_their_ranks_and_spread_the_rest() -> None:
    """Chosen in the order of one input, as readings choose them: a new input must not move with it."""
    draws = Draws(256)
    value = draws.value("a", LOG)
    chosen = np.concatenate([[0], 1 + np.sort(np.argsort(value[1:])[64:128].repeat(4))])
    some = draws.of_cases(chosen).opened()
    fresh = [some.rank(f"new {number}") for number in range(130)]
    assert value[chosen].tolist() == some.value("a", LOG).tolist()
    assert all(column[0] == 0.5 and column.min() < 0.01 and column.max() > 0.99 for column in fresh)
    with_a = [abs(np.corrcoef(some.rank("a")[1:], column[1:])[0, 1]) for column in fresh]
    assert max(with_a) < 0.3


def test_draws_that_were_never_closed_are_themselves_when_opened() -> None:
    draws = Draws(64)
    assert draws is draws.opened()


def test_draws_continued_with_other_names_give_a_part_its_fellows_cases() -> None:
    draws = Draws(64)
    known = {key: draws.value(key, LOG).tolist() for key in ("riser.length", "hose.length", "elbow")}
    other = draws.continued({"riser": "lift", "hose": None})
    assert known["riser.length"] == other.value("lift.length", LOG).tolist()
    assert known["elbow"] == other.value("elbow", LOG).tolist()
    fresh = [other.value(key, LOG).tolist() for key in ("riser.length", "hose.length")]
    assert all(values not in known.values() for values in fresh)
    assert fresh[0] != fresh[1]


def test_draws_continued_with_names_that_change_places_swap_their_cases() -> None:
    draws = Draws(64)
    one, two = draws.value("a.length", LOG).tolist(), draws.value("b.length", LOG).tolist()
    other = draws.continued({"a": "b", "b": "a"})
    assert (two, one) == (other.value("a.length", LOG).tolist(), other.value("b.length", LOG).tolist())
