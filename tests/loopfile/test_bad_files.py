"""Every bad file gives exactly the problems that stand beside it."""

from pathlib import Path

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant

BAD = Path(__file__).parent / "bad"
NAMES = sorted(path.stem for path in BAD.glob("*.toml"))


def beside(path: str) -> str:
    return (BAD / path).read_text(encoding="utf-8")


def problems_of(name: str) -> InputError:
    with pytest.raises(InputError) as caught:
        read_plant(beside(f"{name}.toml"), path=f"{name}.toml", reader=beside)
    return caught.value


@pytest.mark.parametrize("name", NAMES)
def test_bad_file_gives_the_problems_beside_it(name: str) -> None:
    expected = beside(f"{name}.txt").splitlines()
    assert expected == str(problems_of(name)).splitlines()


def test_bad_files_and_messages_stand_in_pairs() -> None:
    messages = sorted(path.stem for path in BAD.glob("*.txt"))
    assert messages == NAMES


def test_six_mistakes_give_six_problems() -> None:
    expected = 6
    assert expected == len(problems_of("six_mistakes").problems)


def test_base_file_that_cannot_be_read_without_a_reader_is_a_problem() -> None:
    with pytest.raises(InputError, match=r'"other/base\.toml" cannot be read here'):
        read_plant(beside("change_of_no_part.toml"))


def test_ways_nested_too_deeply_are_a_problem() -> None:
    rows = [
        f'way.a{i} = [{{part = "split", ways = ["a{i + 1}", "b{i + 1}"]}}]\nway.b{i} = [{{part = "union"}}]'
        for i in range(20)
    ]
    text = 'format = 1\nsize = "1 in"\nloop = [{part = "split", ways = ["a0", "b0"]}]\n' + "\n".join(rows)
    with pytest.raises(InputError, match="nested deeper than 12; accepted: at most 12 deep"):
        read_plant(text)


def test_very_many_parts_are_a_problem() -> None:
    text = 'format = 1\nsize = "1 in"\nloop = [' + '{part = "union"},' * 1001 + "]"
    with pytest.raises(InputError, match="more than 1000 parts"):
        read_plant(text)


def test_very_many_ways_are_a_problem() -> None:
    text = "format = 1\n" + "\n".join(f'way.a{i} = [{{part = "union"}}]' for i in range(101))
    with pytest.raises(InputError, match="there are 101 ways; accepted: at most 100 ways"):
        read_plant(text)
