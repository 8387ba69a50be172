"""The ranking against trying everything; pairs where one change is not enough; what a loop can never do."""

import itertools

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.advice import study as module
from sanitize.studies.advice.candidates import candidates, with_it
from sanitize.studies.advice.checks import objections
from sanitize.studies.advice.study import study_advice
from sanitize.studies.advice.throats import throat_m
from sanitize.studies.advice.tried import cautioned, examine, glance
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.run import injector_of
from sanitize.studies.suction.study import study_suction

CASES = 512


def everything(plant: Plant, cases: int = CASES) -> list[tuple[str, float]]:
    """Every change with all cases, no short cut: words and share of those that gain and pass, the best first."""
    now = glance(plant, Draws(cases))
    if cases <= module.FEW_CASES:
        now.gas_flow()  # draws the gas line's inputs first, as the study does where few cases are all
    cautioned(now)
    examined = examine(glance(plant, now.draws))
    rows = []
    for order, change in enumerate(candidates(plant, throat_m(injector_of(plant), now.running.port.model))):
        changed = with_it(plant, change)
        seen = glance(changed, now.draws)
        if change.purpose == "draw" and seen.share - now.share >= 0.01 and not objections(examined, examine(seen)):
            rows.append((-round(seen.share, 2), -float(seen.running.flow_m3s[0]), order, change.words, seen.share))
    return [(words, share) for _, _, _, words, share in sorted(rows)]


def test_ranking_equals_trying_everything(loop_of, monkeypatch) -> None:
    plant = loop_of()
    monkeypatch.setattr(module, "MOST_CHANGES", 1000)
    monkeypatch.setattr(module, "LEAST_GAIN_RATIO", 0.01)
    expected = everything(plant)
    advice = study_advice(plant, CASES)
    found = [(row.words[0], row.draws_share_ratio) for row in advice.changes if row.codes[0] in DRAW_CODES]
    assert len(expected) > 5
    assert [words for words, _ in expected] == [words for words, _ in found]
    assert [share for _, share in expected] == pytest.approx([share for _, share in found], abs=0.004)


def test_ranking_in_a_side_stream_equals_trying_everything(loop_of, monkeypatch) -> None:
    """As many cases as every change is solved with first: the shares are then the very same."""
    split = '{part = "split", ways = ["side stream", "bypass"], straight = "bypass"}, '
    plant = loop_of(injector=split, ways=WAYS)
    monkeypatch.setattr(module, "MOST_CHANGES", 1000)
    expected = everything(plant, 128)
    advice = study_advice(plant, 128)
    found = [(row.words[0], row.draws_share_ratio) for row in advice.changes if row.codes[0] in DRAW_CODES]
    assert len(expected) > 3
    assert expected == found


WAYS = """way."side stream" = [{part = "injector", throat = "8 mm", height = "0.55 m", loss_ratio = 0.5}]
way.bypass = [{part = "throttle valve", name = "bypass valve", handle = "25 deg"}]
"""
DRAW_CODES = {
    "lift-injector", "move-injector", "shorten-return", "widen-return", "sweep-elbows", "open-valve", "close-valve",
    "side-stream", "smaller-throat", "bigger-nozzle", "earlier-check-valve", "bigger-filter", "clear-cover",
    "stronger-pump", "other-speed", "clean-filter",
}  # fmt: skip


def test_best_of_few_is_the_best_of_everything(loop_of) -> None:
    plant = loop_of()
    assert everything(plant)[0][0] == study_advice(plant, CASES).changes[0].words[0]


def test_advised_changes_draw_as_often_when_studied_alone(loop_of) -> None:
    """The changed loop in a suction study of its own, with other cases: shares agree within their sampling."""
    plant = loop_of()
    now = study_suction(plant, 1024, seed=7)
    first = study_advice(plant, 1024).changes[0]
    changed = next(with_it(plant, c) for c in candidates(plant, 0.015) if c.words == first.words[0])
    alone = study_suction(changed, 1024, seed=7)
    assert alone.draws_share_ratio == pytest.approx(first.draws_share_ratio, abs=0.03)
    assert alone.flow_port_closed_m3s.nominal / now.flow_port_closed_m3s.nominal == pytest.approx(first.flow_ratio)
    assert {c.code for c in alone.cautions} <= {c.code for c in now.cautions}


def test_same_cases_serve_every_change(loop_of) -> None:
    """Common random numbers: an input that both loops have is the same number in both, one that is new is not."""
    plant = loop_of()
    now = glance(plant, Draws(64))
    change = next(c for c in candidates(plant, 0.015) if c.code == "side-stream")
    seen = glance(with_it(plant, change), now.draws)
    for key, known in now.draws.inputs.items():
        np.testing.assert_array_equal(known.rank, seen.draws.inputs[key].rank)
    new = set(seen.draws.inputs) - set(now.draws.inputs)
    assert new
    assert all(np.ptp(seen.draws.inputs[key].rank) > 0.5 for key in new)


def test_loop_that_draws_gets_no_pairs_and_no_never(loop_of) -> None:
    plant = loop_of(injector='{part = "injector", throat = "8 mm", height = "0.55 m", loss_ratio = 0.2}, ')
    advice = study_advice(plant, 256)
    assert advice.now_share_ratio > 0.95
    assert () == advice.pairs
    assert advice.never is None


# a 3/4 in return behind a 1 in injector: no other place for it, and each single change does too little or harms
NARROW = """{part = "reducer", to = "3/4 in"}, {part = "flexible hose", name = "return hose", length = "4 m"},
  {part = "return", height = "0.50 m"}"""
SMALLER = '{part = "injector", throat = "13 mm", height = "0.55 m", loss_ratio = 0.5}, '


def test_pairs_are_tried_only_where_no_single_change_is_enough(loop_of) -> None:
    enough = study_advice(loop_of(), 256)
    assert enough.changes[0].draws_share_ratio >= 0.95
    assert () == enough.pairs
    short = study_advice(loop_of(injector=SMALLER, back=NARROW), 256)
    best = max(row.draws_share_ratio for row in short.changes)
    assert best < 0.95
    assert short.pairs[0].draws_share_ratio >= max(0.95, best + 0.05)
    assert all(len(row.codes) == 2 and row.codes[0] != row.codes[1] for row in short.pairs)


def test_best_pair_is_the_best_of_all_pairs(loop_of) -> None:
    plant = loop_of(injector=SMALLER, back=NARROW)
    now = glance(plant, Draws(256))
    examined = examine(now)
    now.gas_flow()
    single = [c for c in candidates(plant, 0.013) if c.purpose == "draw"]
    rows = []
    for pair in itertools.combinations(single, 2):
        changed = with_it(plant, *pair)
        if changed is not None and pair[0].code != pair[1].code:
            seen = glance(changed, now.draws)
            rows.append((-round(seen.share, 2), -float(seen.running.flow_m3s[0]), seen, pair))
    rows.sort(key=lambda row: row[:2])
    best = next(pair for _, _, seen, pair in rows if not objections(examined, examine(seen)))
    assert {change.words for change in best} == set(study_advice(plant, 256).pairs[0].words)


def test_never_names_what_pulls_and_what_pushes_where_nothing_helps(loop_of) -> None:
    """A throat as wide as 19 mm in 1 in hose hardly narrows the water: it pulls next to nothing."""
    plant = loop_of(
        injector='{part = "injector", throat = "19 mm", height = "0.30 m", loss_ratio = 0.7}, ',
        back='{part = "flexible hose", name = "return hose", length = "30 m"}, {part = "return", height = "0.30 m"}',
        pump='{part = "pump", height = "0.10 m", curve = [["0 L/min", "2 m"], ["30 L/min", "0 m"]]}, ',
    )
    advice = study_advice(plant, 256)
    assert () == advice.changes
    assert () == advice.pairs
    assert advice.never is not None
    assert "At no flow up to the pump's run-out does it draw" in advice.never
    assert study_advice(loop_of(), 256).never is None
