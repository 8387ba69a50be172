"""Posteriors by hand for a small table, weights within a group, and the information of an answer by enumeration."""

import numpy as np
import pytest

from sanitize.studies.cloudy.knowledge import Knowledge
from sanitize.studies.cloudy.posterior import answer_chance, entropy_bits, expected_gain_bits, posterior


def test_posterior_of_one_sign_seen_by_hand(small: Knowledge) -> None:
    """0.5*0.9, 0.3*0.2, 0.2*0.5 = 0.45, 0.06, 0.10 over 0.61."""
    assert [0.45 / 0.61, 0.06 / 0.61, 0.10 / 0.61] == pytest.approx(posterior(small, {"s": 1.0})[0].tolist())


def test_posterior_of_one_sign_not_seen_by_hand(small: Knowledge) -> None:
    """0.5*0.1, 0.3*0.8, 0.2*0.5 = 0.05, 0.24, 0.10 over 0.39."""
    assert [0.05 / 0.39, 0.24 / 0.39, 0.10 / 0.39] == pytest.approx(posterior(small, {"s": 0.0})[0].tolist())


def test_posterior_of_two_signs_of_one_group_weighs_each_by_two_thirds(small: Knowledge) -> None:
    """Two with correlation 0.5 count as 2/(1 + 0.5), so each logarithm by 1/1.5."""
    raw = np.array([0.5 * (0.9 * 0.8) ** (2 / 3), 0.3 * (0.2 * 0.4) ** (2 / 3), 0.2 * (0.5 * 0.5) ** (2 / 3)])
    assert (raw / raw.sum()).tolist() == pytest.approx(posterior(small, {"s": 1.0, "t": 1.0})[0].tolist())


def test_posterior_of_a_sign_that_all_causes_show_alike_stays(small: Knowledge) -> None:
    once, twice = (posterior(small, evidence)[0].tolist() for evidence in ({"s": 1.0}, {"s": 1.0, "u": 1.0}))
    assert once == pytest.approx(twice)


def test_witness_in_doubt_tells_nothing(small: Knowledge) -> None:
    assert small.weight[0].tolist() == pytest.approx(posterior(small, {"s": 0.5})[0].tolist())


def test_witness_of_three_quarters_by_hand(small: Knowledge) -> None:
    """P e + (1 - P)(1 - e): 0.9*0.75 + 0.1*0.25 = 0.70; 0.2*0.75 + 0.8*0.25 = 0.35; 0.5."""
    raw = np.array([0.5 * 0.70, 0.3 * 0.35, 0.2 * 0.5])
    assert (raw / raw.sum()).tolist() == pytest.approx(posterior(small, {"s": 0.75})[0].tolist())


def test_posterior_readings_multiply(small: Knowledge) -> None:
    raw = np.array([0.5 * 0.1, 0.3 * 0.4, 0.2 * 0.2])
    found = posterior(small, {}, np.log(np.array([0.1, 0.4, 0.2])))
    assert (raw / raw.sum()).tolist() == pytest.approx(found[0].tolist())


def test_entropy_of_equal_chances_is_their_logarithm() -> None:
    assert 3.0 == pytest.approx(float(entropy_bits(np.full(8, 0.125))))
    assert 0.0 == float(entropy_bits(np.array([1.0, 0.0])))


def test_gain_equals_the_mutual_information_by_enumeration(small: Knowledge) -> None:
    """I = H(sign) - sum of H(sign | cause), the other way round than the code goes."""

    def bits(chance: float) -> float:
        return float(-chance * np.log2(chance) - (1.0 - chance) * np.log2(1.0 - chance))

    weight = small.weight[0]
    for column, sign in enumerate(small.signs):
        shown = small.shows[0, :, column]
        given = sum(w * bits(float(p)) for w, p in zip(weight, shown, strict=True))
        mutual = bits(float(np.sum(weight * shown))) - float(given)
        assert mutual == pytest.approx(expected_gain_bits(small, {}, sign), abs=1e-12)


def test_gain_of_a_sign_that_all_causes_show_alike_is_nothing(small: Knowledge) -> None:
    assert 0.0 == pytest.approx(expected_gain_bits(small, {"s": 1.0}, "u"), abs=1e-12)


def test_answer_chance_averages_over_causes_and_heeds_the_witness(small: Knowledge) -> None:
    """0.5*0.9 + 0.3*0.2 + 0.2*0.5 = 0.61; a witness that is nearly sure makes it nearly 1."""
    assert 0.61 == pytest.approx(answer_chance(small, {}, "s", posterior(small, {})))
    sure = {"s": 0.999}
    assert answer_chance(small, sure, "s", posterior(small, sure)) > 0.99
