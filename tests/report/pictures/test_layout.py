"""Which part follows which in a picture."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from sanitize.basis.band import Band
from sanitize.plant.ends import Return, Suction
from sanitize.plant.loop import Chain, Join, Plant, Split
from sanitize.plant.pipework import Fitting
from sanitize.report.pictures.layout import WAY_SHIFT, Layout, lay_out
from sanitize.studies.suction.result import Suction as Answer

MakeAnswer = Callable[..., Answer]


def _pairs(layout: Layout) -> set[tuple[str, str]]:
    return {(start.row.name, end.row.name) for start, end in layout.edges}


def _elbow(name: str) -> Fitting:
    return Fitting(word="elbow 90", name=name, size="3/4")


def _suction(name: str) -> Suction:
    return Suction(word="suction fitting", name=name, size="3/4", height_m=Band.exact(0.2))


def _return(name: str) -> Return:
    return Return(word="return", name=name, size="3/4", height_m=Band.exact(0.5))


def _rows(answer: MakeAnswer, *names: str) -> Answer:
    made = answer()
    return replace(made, parts=tuple(replace(made.parts[0], name=name) for name in names))


def _junction(kind: type[Any], name: str, *chains: Chain) -> Any:
    return kind(word=kind.words[0], name=name, size="3/4", ways=tuple(chain.name for chain in chains), chains=chains)


def _around(plant: Plant, *items: Any) -> Plant:
    return plant.model_copy(update={"loop": Chain(name="loop", items=items)})


def test_layout_joins_what_the_water_joins(answer: MakeAnswer, plant: Plant) -> None:
    pairs = _pairs(lay_out(answer(), plant))
    assert pairs == {
        ("suction fitting", "suction hose"),
        ("suction hose", "pump"),
        ("pump", "elbow 90"),
        ("elbow 90", "split: side stream leaves"),
        ("split: side stream leaves", "ozone venturi"),
        ("ozone venturi", "split: side stream rejoins"),
        ("split: side stream rejoins", "return hose"),
        ("elbow 90", "split: bypass leaves"),
        ("split: bypass leaves", "throttle valve"),
        ("throttle valve", "split: bypass rejoins"),
        ("split: bypass rejoins", "return hose"),
        ("return hose", "return"),
    }


def test_layout_every_row_of_the_answer_stands_in_it_once(answer: MakeAnswer, plant: Plant) -> None:
    names = [node.row.name for node in lay_out(answer(), plant).nodes]
    assert sorted(names) == sorted(part.name for part in answer().parts)


def test_layout_knows_which_heights_were_given(answer: MakeAnswer, plant: Plant) -> None:
    given = {node.row.name for node in lay_out(answer(), plant).nodes if node.height_given}
    assert given == {"suction fitting", "pump", "ozone venturi", "return"}


def test_layout_numbers_parts_in_the_order_of_the_file_and_no_tee(answer: MakeAnswer, plant: Plant) -> None:
    layout = lay_out(answer(), plant)
    assert [(node.number, node.row.name) for node in layout.numbered] == list(
        enumerate(
            [
                "suction fitting",
                "suction hose",
                "pump",
                "elbow 90",
                "ozone venturi",
                "throttle valve",
                "return hose",
                "return",
            ],
            start=1,
        )
    )
    assert all(node.number == 0 for node in layout.nodes if node.row.part == "tee")


def test_layout_ways_run_side_by_side_a_shift_apart(answer: MakeAnswer, plant: Plant) -> None:
    layout = lay_out(answer(), plant)
    assert layout.node("throttle valve").x - layout.node("ozone venturi").x == WAY_SHIFT
    assert layout.node("throttle valve").second != layout.node("ozone venturi").second


def test_layout_ways_of_a_join_start_in_the_tub(answer: MakeAnswer, plant: Plant) -> None:
    join = _junction(Join, "join", Chain(name="a", items=(_suction("one"),)), Chain(name="b", items=(_suction("two"),)))
    rows = _rows(answer, "one", "two", "join: a rejoins", "join: b rejoins", "out")
    assert _pairs(lay_out(rows, _around(plant, join, _return("out")))) == {
        ("one", "join: a rejoins"),
        ("two", "join: b rejoins"),
        ("join: a rejoins", "out"),
        ("join: b rejoins", "out"),
    }


def test_layout_way_that_ends_in_the_tub_leads_nowhere_else(answer: MakeAnswer, plant: Plant) -> None:
    split = _junction(
        Split, "split", Chain(name="a", items=(_return("first"),)), Chain(name="b", items=(_elbow("bend"),))
    )
    rows = _rows(answer, "in", "split: a leaves", "first", "split: b leaves", "bend", "last")
    assert _pairs(lay_out(rows, _around(plant, _suction("in"), split, _return("last")))) == {
        ("in", "split: a leaves"),
        ("split: a leaves", "first"),
        ("in", "split: b leaves"),
        ("split: b leaves", "bend"),
        ("bend", "last"),
    }


def test_layout_split_in_a_way_stays_inside_it(answer: MakeAnswer, plant: Plant) -> None:
    inner = _junction(Split, "inner", Chain(name="c", items=(_elbow("one"),)), Chain(name="d", items=(_elbow("two"),)))
    outer = _junction(
        Split, "outer", Chain(name="a", items=(inner, _elbow("three"))), Chain(name="b", items=(_elbow("four"),))
    )
    names = ["in", "one", "two", "three", "four", "last"]
    tees = [f"inner: {way} {side}" for way in "cd" for side in ("leaves", "rejoins")]
    tees += [f"outer: {way} {side}" for way in "ab" for side in ("leaves", "rejoins")]
    pairs = _pairs(lay_out(_rows(answer, *names, *tees), _around(plant, _suction("in"), outer, _return("last"))))
    assert {end for start, end in pairs if start == "outer: a leaves"} == {"inner: c leaves", "inner: d leaves"}
    assert {start for start, end in pairs if end == "three"} == {"inner: c rejoins", "inner: d rejoins"}
    assert {start for start, end in pairs if end == "last"} == {"outer: a rejoins", "outer: b rejoins"}
