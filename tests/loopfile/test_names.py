"""The name of every part."""

from collections.abc import Callable

from sanitize.loopfile.read import read_plant

LoopText = Callable[..., str]


def names(text: str) -> list[str]:
    return [item.name for item in read_plant(text).plant.loop.items][2:-1]


ELBOW = '{part = "elbow 90"}'
UNION = '{part = "union"}'


def test_word_that_stands_once_is_the_name(loop_text: LoopText) -> None:
    expected = ["elbow 90", "union"]
    assert expected == names(loop_text(ELBOW, UNION))


def test_word_that_stands_more_often_is_numbered_in_order(loop_text: LoopText) -> None:
    expected = ["elbow 90 (1)", "union", "elbow 90 (2)"]
    assert expected == names(loop_text(ELBOW, UNION, ELBOW))


def test_named_parts_are_not_counted(loop_text: LoopText) -> None:
    expected = ["corner", "elbow 90"]
    assert expected == names(loop_text('{part = "elbow 90", name = " corner "}', ELBOW))


def test_number_that_a_user_gave_away_is_passed_over(loop_text: LoopText) -> None:
    expected = ["elbow 90 (1)", "elbow 90 (2)", "elbow 90 (3)"]
    assert expected == names(loop_text(ELBOW, '{part = "union", name = "elbow 90 (2)"}', ELBOW))


def test_word_that_is_another_parts_name_is_numbered(loop_text: LoopText) -> None:
    expected = ["union", "union (1)"]
    assert expected == names(loop_text('{part = "elbow 90", name = "union"}', UNION))
