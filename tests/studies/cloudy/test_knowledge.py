"""Two causes at once, weights that add up, causes left out, and own numbers."""

from typing import get_args

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.basis.tables import model_table
from sanitize.plant.answers import Judgement
from sanitize.studies.cloudy.causes import CAUSES, ELSE, NAMED
from sanitize.studies.cloudy.knowledge import knowledge, noisy_or
from sanitize.studies.cloudy.readings import POINTS_TO
from sanitize.studies.cloudy.signs import EXCLUDE, NEEDS, SIGNS
from sanitize.studies.cloudy.warmth import WarmthFault
from sanitize.studies.draws import Draws
from sanitize.studies.faults.result import FAULTS

CHANCES = st.floats(0.02, 0.98)


def test_tables_name_the_causes_and_signs_of_the_program() -> None:
    assert model_table("cloudy_causes").words("cause") == NAMED
    assert model_table("cloudy_signs").words("sign") == tuple(SIGNS)
    assert set(model_table("cloudy_shows").words("cause")) == set(NAMED)
    assert set(model_table("cloudy_shows").words("sign")) <= set(SIGNS)
    assert {key[0] for key in model_table("cloudy_times").entries if key[1] == "work"} == set(SIGNS)
    assert {code for pair in (*EXCLUDE, *NEEDS) for code in pair[:2]} <= set(SIGNS)
    assert set(POINTS_TO) <= {*FAULTS, *get_args(WarmthFault)}
    assert set(POINTS_TO.values()) <= set(NAMED)
    assert len(NAMED) >= 24
    assert len(SIGNS) >= 36


def test_tables_of_judgement_claim_no_source() -> None:
    for name in ("cloudy_causes", "cloudy_signs", "cloudy_shows", "cloudy_times", "cloudy_rules"):
        assert {("estimate", "")} == {(item.standing, item.source) for item in model_table(name).entries.values()}


def test_two_causes_by_hand() -> None:
    """Leak 0.2, own chances 1 - 0.4/0.8 = 0.5 and 1 - 0.5/0.8 = 0.375: 1 - 0.8*0.5*0.625 = 0.75."""
    assert 0.75 == pytest.approx(float(noisy_or(np.array(0.6), np.array(0.5), np.array(0.2))))


@given(CHANCES, CHANCES, CHANCES)
def test_two_causes_show_a_sign_at_least_as_often_as_either(one: float, other: float, usual: float) -> None:
    both = float(noisy_or(np.array(one), np.array(other), np.array(usual)))
    assert max(one, other) - 1e-12 <= both < 1.0
    assert both == pytest.approx(float(noisy_or(np.array(other), np.array(one), np.array(usual))))


@given(CHANCES, CHANCES)
def test_second_cause_without_effect_changes_nothing(one: float, usual: float) -> None:
    both = float(noisy_or(np.array(max(one, usual)), np.array(usual), np.array(usual)))
    assert max(one, usual) == pytest.approx(both)


def test_weights_add_up_in_every_case_and_pairs_have_their_share() -> None:
    found = knowledge(Draws(16))
    assert np.ones(17) == pytest.approx(found.weight.sum(axis=1))
    rules = model_table("cloudy_rules")
    elsewhere, twice = (rules[(name,)].value for name in ("something_else_ratio", "pair_share_ratio"))
    assert twice / (1.0 + elsewhere) == pytest.approx(found.weight[0, len(CAUSES) :].sum())
    assert elsewhere / (1.0 + elsewhere) == pytest.approx(found.weight[0, found.causes.index(ELSE)])


def test_causes_left_out_have_no_weight_alone_or_in_a_pair() -> None:
    found = knowledge(Draws(0), ("copper", "algae"))
    for code in ("copper", "algae"):
        assert 0.0 == (found.weight[0] @ found.member)[found.causes.index(code)]
    assert 1.0 == pytest.approx(found.weight.sum())


def test_own_numbers_stand_in_place_of_the_tables() -> None:
    own = Judgement({"copper": 0.5}, {"foam": 0.4}, {("copper", "foam"): 0.7})
    found = knowledge(Draws(0), (), own)
    copper, foam = found.causes.index("copper"), found.signs.index("foam")
    assert 0.7 == pytest.approx(found.shows[0, copper, foam])
    assert 0.4 == pytest.approx(found.shows[0, found.causes.index("algae"), foam])
    assert found.weight[0, copper] > 10.0 * knowledge(Draws(0)).weight[0, copper]
