"""Files that read without problems, and what they hold."""

from pathlib import Path

import pytest
from sanitize.loopfile.read import LoadedPlant, read_plant
from sanitize.plant.loop import walk
from sanitize.plant.pipework import Reducer

GOOD = Path(__file__).parent / "good"


def load(name: str) -> LoadedPlant:
    return read_plant((GOOD / f"{name}.toml").read_text(encoding="utf-8"), path=f"{name}.toml")


@pytest.fixture(scope="module")
def boathouse() -> LoadedPlant:
    return load("boathouse")


def test_boathouse_parts_have_their_names_in_order(boathouse: LoadedPlant) -> None:
    expected = [
        "suction fitting", "reducer", "flexible hose", "pump", "elbow 90", "filter", "split", "injector",
        "throttle valve", "return hose", "return",
    ]  # fmt: skip
    assert expected == [part.name for part in walk(boathouse.plant.loop)]


def test_boathouse_reducer_starts_at_the_size_of_the_fitting_before(boathouse: LoadedPlant) -> None:
    reducer = boathouse.plant.loop.items[1]
    assert isinstance(reducer, Reducer)
    assert ("1-1/2", "3/4") == (reducer.size, reducer.to_size)


def test_boathouse_everything_else_has_the_size_of_the_file(boathouse: LoadedPlant) -> None:
    assert {"3/4"} == {part.size for part in walk(boathouse.plant.loop)[2:]}


def test_boathouse_nothing_is_assumed(boathouse: LoadedPlant) -> None:
    assert () == boathouse.notices
