"""The lists of the demos: all of them come out, two are counted by hand."""

from collections import Counter
from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.shopping.result import PartsList
from sanitize.studies.shopping.study import study_parts

DEMOS = sorted((Path(__file__).resolve().parents[3] / "demos").glob("*.toml"))


def list_of(path: Path) -> PartsList:
    def beside(name: str) -> str:
        return (path.parent / Path(name).name).read_text(encoding="utf-8")

    return study_parts(read_plant(beside(path.name), path=path.name, reader=beside).plant)


def demo(name: str) -> PartsList:
    return list_of(next(path for path in DEMOS if path.stem == name))


def counts(result: PartsList) -> dict[tuple[str, str], int]:
    found: Counter[tuple[str, str]] = Counter()
    for line in result.buy:
        if line.length_m is None:
            found[line.item, line.size] += line.count
    return dict(found)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_demo_gives_a_list_in_which_everything_is_accounted_for(path: Path) -> None:
    result = list_of(path)
    assert result.buy
    assert [line for line in result.buy if line.count == 0 and line.length_m is None] == []
    cut = sum(line.count for line in result.cut if line.item in ("pipe nipple", "piece of hose"))
    bought = sum(line.missing_count for line in result.buy)
    assert sum(len(joint.missing) for joint in result.joints) == cut + bought
    assert sum(len(joint.seals) for joint in result.joints) == sum(line.joints_count for line in result.seal)
    for problem in result.problems:
        assert problem.action
        assert problem.text


def test_reed_house_counted_by_hand() -> None:
    """suction, reducer, 2 barbs, pump, filter, tee, injector, return; unit and check valve on the gas side.

    Missing: a male adapter and a nipple from the filter's female thread to the tee's socket; a female adapter on either
    side of the injector, between its male threads and pipe. So 3 adapters are bought, one nipple is cut.
    """
    result = demo("reed_house")
    expected = {
        ("suction fitting", "1-1/2"): 1,
        ("reducer", "1-1/2"): 1,
        ("barb", "3/4"): 2,
        ("pump", "3/4"): 1,
        ("filter", "3/4"): 1,
        ("tee", "3/4"): 1,
        ("injector", "3/4"): 1,
        ("return", "3/4"): 1,
        ("male adapter", "3/4"): 1,
        ("female adapter", "3/4"): 2,
        ("gas check valve", ""): 1,
        ("ozone unit", ""): 1,
    }
    assert expected == counts(result)
    assert [("vinyl tube", 1), ("pipe", 1), ("pipe", 1), ("pipe nipple", 1)] == [
        (line.item, line.count) for line in result.cut
    ]


def test_reed_house_lengths_by_hand() -> None:
    """Tube 1.0 m + 10 %; pipe 0.5 + 0.4 m + a nipple of 35.0 mm + three cuts of 3 mm; both pipes go into two sockets
    of 18.26 mm: 0.5 m shows 463.5 mm, 0.4 m from the injector's adapter to the return 363.5 mm."""
    result = demo("reed_house")
    bought = {line.item: line.length_m.ends[1] for line in result.buy if line.length_m is not None}
    assert 1.1 == pytest.approx(bought["vinyl tube"])
    assert 0.944 == pytest.approx(bought["Schedule 40 pipe"], abs=0.0005)
    assert 0.88 == pytest.approx(bought["gas tube"])
    showing = [line.showing_m.ends[1] for line in result.cut if line.item == "pipe"]
    assert [0.4635, 0.3635] == pytest.approx(showing, abs=0.0001)


def test_reed_house_seals_by_hand() -> None:
    """Threads: suction to reducer (1-1/2 in); reducer to barb, barb to pump, pump to filter, filter to adapter, two
    adapters to the injector (3/4 in: 6). Clamps: 2. Cement: adapter-nipple, nipple-tee, tee-pipe, pipe-adapter,
    adapter-pipe, pipe-return: 6."""
    found = {(line.kind, line.size): line.joints_count for line in demo("reed_house").seal}
    expected = {
        ("thread sealant", "1-1/2"): 1,
        ("thread sealant", "3/4"): 6,
        ("hose clamp", "3/4"): 2,
        ("solvent cement", "3/4"): 6,
    }
    assert expected == found


def test_boathouse_counted_by_hand() -> None:
    """3 elbows in a row, 2 tees of the split; female adapters on both sides of pump (2) and injector (2), male ones on
    both sides of the filter (2). Nipples: pump-elbow, 2 between the elbows, elbow-filter, filter-tee, 2 at the
    injector, 2 at the throttle valve: 9. Hose: 2.2 m and 1.5 m, with 10 %: 4.07 m."""
    result = demo("boathouse")
    expected = {
        ("suction fitting", "1-1/2"): 1,
        ("reducer", "1-1/2"): 1,
        ("pump", "3/4"): 1,
        ("elbow 90", "3/4"): 3,
        ("filter", "3/4"): 1,
        ("tee", "3/4"): 2,
        ("injector", "3/4"): 1,
        ("throttle valve", "3/4"): 1,
        ("return", "3/4"): 1,
        ("female adapter", "3/4"): 4,
        ("male adapter", "3/4"): 2,
        ("gas check valve", ""): 1,
        ("ozone unit", ""): 1,
    }
    assert expected == counts(result)
    assert [9] == [line.count for line in result.cut if line.item == "pipe nipple"]
    assert [4.07] == pytest.approx([line.length_m.ends[1] for line in result.buy if line.item == "flexible hose"])  # type: ignore[union-attr]
    assert ["fittings-in-a-row"] == [notice.code for notice in result.notices if notice.code == "fittings-in-a-row"]


def test_pieces_that_are_missing_are_said_not_to_be_in_the_file() -> None:
    """In reed_house three joints lack a piece; the loop of test_caution below lacks none."""
    assert ["missing-pieces-not-in-the-file"] == [
        notice.code for notice in demo("reed_house").notices if notice.code.startswith("missing")
    ]


def test_part_of_unknown_make_is_bought_by_its_name() -> None:
    """Bakehouse has a heater and a flow meter as known drop and known loss."""
    assert {("heater", "1"), ("flow meter", "1")} < set(counts(demo("bakehouse")))


def test_icehouse_takes_schedule_80_fittings_for_its_schedule_80_pipe() -> None:
    """Its nipples of 1 in: two depths of 1.125 in, 57.15 mm, less 1.5 mm."""
    result = demo("icehouse")
    nipples = {line.size: line.length_m.ends[1] for line in result.cut if line.item == "pipe nipple"}
    assert 0.05565 == pytest.approx(nipples["1"], abs=1e-6)
    assert ["socket, Schedule 80"] == sorted({depth.kind for depth in result.depths if "socket" in depth.kind})


def test_caution_on_solvent_cement_comes_with_cement_only() -> None:
    text = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m", outlet_end = "barb"},
  {part = "vinyl tube", length = "1 m"},
  {part = "pump", height = "0.1 m", curve = [["30 L/min", "3 m"]], inlet_end = "barb", outlet_end = "barb"},
  {part = "vinyl tube", name = "back", length = "1 m"},
  {part = "return", height = "0.5 m", inlet_end = "barb"},
]
[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "10 degC"
"""
    without = study_parts(read_plant(text).plant)
    assert () == without.cautions
    assert [] == [notice for notice in without.notices if notice.code == "missing-pieces-not-in-the-file"]
    assert [("hose clamp", 4)] == [(line.sealant, line.joints_count) for line in without.seal]
    (caution,) = demo("boathouse").cautions
    assert ("solvent-cement", "caution") == (caution.code, caution.severity)
    assert "label" in caution.defers_to
    assert "gloves" in caution.action
    assert "vapours" in caution.text
