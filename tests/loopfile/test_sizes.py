"""Trade sizes: their spellings, and which size a part takes where it names none."""

from collections.abc import Callable

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.loopfile.sizes import canonical
from sanitize.plant.part import SIZES

LoopText = Callable[..., str]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("unit", [" in", '"', "", "in", " inch", " inches", "''"])
def test_canonical_takes_every_size_with_every_sign_for_inches(size: str, unit: str) -> None:
    assert size == canonical(f"{size}{unit}")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("0.75 in", "3/4"), (".5 in", "1/2"), ("0.5", "1/2"), ("1.25 in", "1-1/4"), ("1 1/2 in", "1-1/2"),
        ("2.0 in", "2"), ("6/8 in", "3/4"), ("20 mm", None), ("3/4 ft", None), ("7/8 in", None), ("3/0 in", None),
        ("0.75/2 in", None), ("1-0.5 in", None), ("", None), ("in", None), ("-1/2 in", None), ("1e0 in", None),
    ],
)  # fmt: skip
def test_canonical_of_other_spellings(text: str, expected: str | None) -> None:
    assert expected == canonical(text)


ELBOW = '{part = "elbow 90"}'
WIDE = '{part = "elbow 90", size = "2 in"}'
DOWN = '{part = "reducer", to = "1/2 in"}'
SPLIT = '{part = "split", ways = ["a", "b"]}'


def sizes(text: str) -> list[str]:
    return [item.size for item in read_plant(text).plant.loop.items]


def test_own_size_is_the_parts_alone_where_the_file_has_one(loop_text: LoopText) -> None:
    expected = ["3/4", "3/4", "2", "3/4", "3/4"]
    assert expected == sizes(loop_text(WIDE, ELBOW))


def test_own_size_runs_on_where_the_file_has_none(loop_text: LoopText) -> None:
    expected = ["1", "1", "2", "2", "2"]
    suction = '{part = "suction fitting", height = "0.2 m", size = "1 in"}'
    assert expected == sizes(loop_text(WIDE, ELBOW, size="", suction=suction))


def test_reducer_sets_the_size_behind_it_and_starts_at_the_part_before(loop_text: LoopText) -> None:
    expected = ["3/4", "3/4", "2", "2", "1/2", "1/2"]
    assert expected == sizes(loop_text(WIDE, DOWN, ELBOW))


def test_reducer_in_a_way_does_not_reach_behind_the_split(loop_text: LoopText) -> None:
    text = loop_text(SPLIT, ELBOW, ways=f"way.a = [{DOWN}, {ELBOW}]\nway.b = [{ELBOW}]\n")
    loop = read_plant(text).plant.loop
    expected = {"a": ["3/4", "1/2"], "b": ["3/4"]}
    split = loop.items[2]
    assert expected == {chain.name: [item.size for item in chain.items] for chain in split.chains}
    assert [item.size for item in loop.items] == ["3/4"] * 5


def test_tees_of_a_split_have_the_size_of_the_part_before(loop_text: LoopText) -> None:
    expected = ["3/4", "3/4", "2", "2", "3/4"]
    assert expected == sizes(loop_text(WIDE, SPLIT, ways=f"way.a = [{ELBOW}]\nway.b = [{ELBOW}]\n"))


def test_vinyl_tube_and_barb_take_tube_sizes(loop_text: LoopText) -> None:
    expected = ["3/4", "3/4", "3/8", "5/8", "3/4"]
    tube = '{part = "vinyl tube", length = "1 m", size = "5/8 in"}'
    assert expected == sizes(loop_text('{part = "barb", size = "3/8 in"}', tube))
