"""Each rule of the tables, met once in a loop: it passes or fails there as the table says."""

from collections.abc import Callable
from itertools import combinations_with_replacement

import pytest

from sanitize.basis.tables import model_table
from sanitize.plant.joints import ENDS, MATERIALS, SEALANTS
from sanitize.plant.loop import PART_OF_WORD, Plant
from sanitize.studies.mating.result import Joint, Mating
from sanitize.studies.mating.rules import UNKNOWN, is_cut, mating_rule, sealants_of
from sanitize.studies.mating.study import study_mating

LoopOf = Callable[..., Plant]
RULES = list(model_table("mating_rules").entries.items())
PAIRS = [key[:2] for key, _ in RULES]
ENTRIES = [entry for _, entry in RULES]


def two_parts(loop_of: LoopOf, outlet: str, inlet: str, more: str = "") -> Plant:
    one = f'{{part = "known drop", name = "one", drop = "1 kPa", at_flow = "20 L/min", outlet_end = "{outlet}"{more}}}'
    two = f'{{part = "known drop", name = "two", drop = "1 kPa", at_flow = "20 L/min", inlet_end = "{inlet}"}}'
    return loop_of(one, two)


def joint_of(mating: Mating, first: str = "one", second: str = "two") -> Joint:
    (joint,) = [joint for joint in mating.joints if (joint.first, joint.second) == (first, second)]
    return joint


def codes(mating: Mating, name: str = "one") -> list[str]:
    return [problem.code for problem in mating.problems if name in problem.parts]


def test_rules_every_pair_of_ends_stands_once() -> None:
    expected = sorted(tuple(sorted(pair)) for pair in combinations_with_replacement(ENDS, 2))
    assert expected == sorted(tuple(sorted(pair)) for pair in PAIRS)


def test_rules_name_ends_materials_sealants_and_parts_that_exist() -> None:
    forms = model_table("part_ends")
    assert set() == set(forms.words("inlet")) - {*ENDS, UNKNOWN}
    assert set() == set(forms.words("outlet")) - {*ENDS, UNKNOWN}
    assert set() == set(forms.words("material")) - {*MATERIALS, UNKNOWN}
    ways = {"injector plain", "injector barbed", "injector threaded", "split", "join", "injector"}
    assert set(PART_OF_WORD) - ways == set(forms.words("part")) - ways
    assert MATERIALS == model_table("cement_bonds").words("material")
    assert set(MATERIALS) == set(model_table("ozone_materials").words("material"))
    assert {*SEALANTS} - {"none"} == set(model_table("joint_sealants").words("sealant"))
    kinds = {kind for joined_by in model_table("mating_rules").words("joined_by") for kind in joined_by.split(" + ")}
    assert kinds == set(model_table("joint_sealants").words("joint"))
    pieces = {piece for missing in model_table("mating_rules").words("missing") for piece in missing.split(" + ")}
    assert {*pieces, "reducer"} - {"nothing"} == set(model_table("joint_pieces").words("piece"))


@pytest.mark.parametrize(("one", "two"), PAIRS, ids=[" to ".join(pair) for pair in PAIRS])
@pytest.mark.parametrize("turned", [False, True])
def test_rule_in_a_loop_passes_or_names_what_is_missing(loop_of: LoopOf, one: str, two: str, turned: bool) -> None:
    outlet, inlet = (two, one) if turned else (one, two)
    ((joined_by, missing, entry),) = [(key[2], key[3], row) for key, row in RULES if key[:2] == (one, two)]
    mating = study_mating(two_parts(loop_of, outlet, inlet))
    joint = joint_of(mating)
    pieces = [] if missing == "nothing" else missing.split(" + ")
    kinds = joined_by.split(" + ")
    assert (pieces[::-1] if turned else pieces) == [piece.name for piece in joint.missing]
    assert (kinds[::-1] if turned else kinds) == [seal.kind for seal in joint.seals]
    assert ("mates" if entry.value == 1.0 else "needs a piece") == joint.verdict
    assert ([] if entry.value == 1.0 else ["piece-missing"]) == codes(mating)
    assert all(piece in problem.action for problem in mating.problems for piece in pieces if "one" in problem.parts)


def test_rules_count_one_joint_more_than_pieces() -> None:
    """A tank fitting takes the other's place, so it brings no joint of its own."""
    for one, two in PAIRS:
        rule = mating_rule(one, two)
        assert rule is not None
        between = [piece for piece in rule.missing if not piece.startswith("tank fitting")]
        assert len(between) + 1 == len(rule.joined_by), (one, two)


@pytest.mark.parametrize(
    ("one", "two", "expected"),
    [
        ("spigot", "socket", ()),
        ("hose end", "socket", ()),
        ("tapered male", "tapered female", ()),
        ("hose thread male", "hose thread female", ()),
        ("barb", "tube end", ()),
        ("tapered male", "hose thread female", ("tapered to hose thread adapter",)),
        ("tapered female", "hose thread male", ("tapered to hose thread adapter",)),
        ("tube end", "socket", ("barb adapter",)),
        ("socket", "socket", ("pipe nipple",)),
        ("tapered female", "tapered female", ("close nipple",)),
        ("spigot", "tapered female", ("male adapter",)),
    ],
)
def test_rule_is_that_of_the_trade(one: str, two: str, expected: tuple[str, ...]) -> None:
    """Facts of the trade, written down by hand and not read from the table."""
    rule = mating_rule(one, two)
    assert rule is not None
    assert expected == rule.missing


@pytest.mark.parametrize(
    ("outlet", "inlet", "size", "expected"),
    [
        ("socket", "spigot", "1-1/2", [("reducer", "1-1/2", "3/4")]),
        ("spigot", "socket", "1-1/2", [("reducer", "1-1/2", "3/4")]),
        ("tapered male", "tapered female", "1", [("reducer", "1", "3/4")]),
        ("socket", "socket", "1", [("reducer", "1", "3/4"), ("pipe nipple", "3/4", "")]),
        ("socket", "tube end", "1", [("barb adapter", "1", "3/4")]),
    ],
)
def test_sizes_that_differ_need_a_step(
    loop_of: LoopOf, outlet: str, inlet: str, size: str, expected: list[tuple[str, str, str]]
) -> None:
    joint = joint_of(study_mating(two_parts(loop_of, outlet, inlet, f', size = "{size} in"')))
    assert expected == [(piece.name, piece.size, piece.to_size) for piece in joint.missing]
    assert "needs a piece" == joint.verdict


@pytest.mark.parametrize("kind", model_table("joint_sealants").words("joint"))
def test_joint_stated_without_sealant_is_named(loop_of: LoopOf, kind: str) -> None:
    pair = {
        "solvent cement": ("spigot", "socket"),
        "thread sealant": ("tapered male", "tapered female"),
        "hose clamp": ("barb", "tube end"),
        "washer": ("hose thread male", "hose thread female"),
    }[kind]
    assert [] == codes(study_mating(two_parts(loop_of, *pair)))
    mating = study_mating(two_parts(loop_of, *pair, more=', sealant = "none"'))
    assert f"no-{kind.replace(' ', '-')}" in codes(mating)


@pytest.mark.parametrize(("kind", "sealant"), list(model_table("joint_sealants").entries))
def test_sealant_of_the_table_seals_and_another_does_not(loop_of: LoopOf, kind: str, sealant: str) -> None:
    pair = ("tapered male", "tapered female") if kind == "thread sealant" else ("spigot", "socket")
    mating = study_mating(two_parts(loop_of, *pair, more=f', sealant = "{sealant}"'))
    seals = sealant in sealants_of(joint_of(mating).seals[0].kind)
    assert seals == ("sealant-does-not-seal" not in codes(mating))
    assert (sealant if seals else sealants_of(joint_of(mating).seals[0].kind)[0]) == joint_of(mating).seals[0].sealant


def test_cement_on_vinyl_tube_between_barbs_is_named(loop_of: LoopOf) -> None:
    mating = study_mating(
        loop_of(
            '{part = "barb", name = "in"}',
            '{part = "vinyl tube", name = "tube", length = "1 m", sealant = "solvent cement"}',
            '{part = "barb", name = "out"}',
        )
    )
    assert ["sealant-does-not-seal"] == codes(mating, "tube")


@pytest.mark.parametrize("material", MATERIALS)
def test_cement_bonds_what_the_table_says(loop_of: LoopOf, material: str) -> None:
    mating = study_mating(two_parts(loop_of, "spigot", "socket", f', material = "{material}"'))
    bonds = model_table("cement_bonds")[(material,)].value == 1.0
    assert bonds == ("cement-does-not-bond" not in codes(mating))
    assert (material in ("PVC", "flexible PVC")) == bonds


def test_pieces_that_are_cut_are_pipe_and_hose() -> None:
    assert ["pipe nipple", "piece of hose"] == [
        piece for piece in model_table("joint_pieces").words("piece") if is_cut(piece)
    ]
