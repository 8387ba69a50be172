"""One kind of file where another is wanted is one problem that names both."""

from collections.abc import Callable
from typing import Any

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.bench_file import blank_bench, read_bench
from sanitize.loopfile.cloudy_files import read_answers, read_judgement
from sanitize.loopfile.read import read_plant
from sanitize.loopfile.starter import starter_file
from sanitize.plant.answers import Answers

LOOP = starter_file()
READINGS = '[measured]\nbucket_flow = "30 L/min"\n'
TEXTS = {
    "a loop file": LOOP,
    "a file of bench readings": blank_bench(),
    "a file of readings": READINGS,
    "a file of answers": 'saw = ["foam"]\n',
    "a file of judgement": "[weight]\nchalk = 0.1\n",
    "a file of own parts": '[part."my elbow"]\npart = "elbow 90"\n',
}
READ: dict[str, Callable[[str], Any]] = {
    "a loop file": lambda text: read_plant(text, path="given.toml"),
    "a file of bench readings": lambda text: read_bench(text, "given.toml"),
    "a file of readings": lambda text: read_plant(LOOP, measured=("given.toml", text)),
    "a file of answers": lambda text: read_answers(Answers(), ("given.toml", text), {"foam": "foam"}, (), ()),
    "a file of judgement": lambda text: read_judgement("given.toml", text, ("chalk",), ("foam",)),
}


@pytest.mark.parametrize("wanted", READ)
@pytest.mark.parametrize("kind", TEXTS)
def test_file_of_another_kind_is_one_problem_that_names_both(wanted: str, kind: str) -> None:
    if kind == wanted:
        READ[wanted](TEXTS[kind])
        return
    with pytest.raises(InputError) as caught:
        READ[wanted](TEXTS[kind])
    (problem,) = caught.value.problems
    assert (True, True, "given.toml") == (
        f"looks like {kind}" in problem.found, f"{wanted} is wanted" in problem.found, problem.where
    )  # fmt: skip


def test_loop_file_that_holds_readings_too_is_still_a_loop_file() -> None:
    with pytest.raises(InputError, match="looks like a loop file"):
        read_plant(LOOP, measured=("other.toml", LOOP + "\n" + READINGS))
    assert read_plant(LOOP + "\n" + READINGS).plant.measured is not None


def test_file_without_a_telling_key_is_read_for_its_own_problems() -> None:
    with pytest.raises(InputError, match="there is no such key in a bench file"):
        read_bench("colour = 3\n", "given.toml")
