"""Whole loops: forms that parts take, tees, service, ozone, sizes."""

from collections.abc import Callable

import pytest

from sanitize.basis.tables import model_table
from sanitize.plant.loop import Plant
from sanitize.studies.mating.result import Mating
from sanitize.studies.mating.study import study_mating

LoopOf = Callable[..., Plant]
PUMP = '{part = "pump", height = "0.3 m", curve = [["30 L/min", "3 m"]]}'
FILTER = '{part = "filter", drop = "5 kPa", at_flow = "30 L/min"}'
CHILLER = '{part = "chiller", drop = "5 kPa", at_flow = "30 L/min"}'
SERVICED = {"pump": PUMP, "filter": FILTER, "chiller": CHILLER}
UNION = '{{part = "union", name = "{}"}}'
VALVE = '{{part = "ball valve", name = "{}"}}'
INJECTOR = '{part = "injector", throat = "8 mm", height = "0.9 m", material = "PVDF"}'
OZONE = '[gas_line]\nlength = "1 m"\nbore = "4 mm"\n{}\n[ozone]\noutput = "50 mg/h"\nheight = "1.5 m"'
GOOD_LINE = 'material = "PTFE"\ncheck_valve_material = "PVDF"'


def mated(plant: Plant) -> list[tuple[str, str]]:
    return [(joint.first_end, joint.second_end) for joint in study_mating(plant).joints]


def codes(mating: Mating, name: str) -> list[str]:
    return [problem.code for problem in mating.problems if name in problem.parts]


def test_adapter_turns_round_to_fit_its_neighbours(loop_of: LoopOf) -> None:
    pump = PUMP.replace("}", ', inlet_end = "tapered female"}')
    hose = '{part = "flexible hose", length = "1 m"}'
    expected = [("socket", "hose end"), ("hose end", "socket"), ("tapered male", "tapered female")]
    assert expected == mated(loop_of(hose, '{part = "male adapter"}', pump))[:3]


def test_adapter_with_one_end_stated_has_the_other_to_match(loop_of: LoopOf) -> None:
    adapter = '{part = "male adapter", inlet_end = "tapered male"}'
    assert ("socket", "spigot") == mated(loop_of(adapter, '{part = "pipe", length = "1 m"}'))[1]


def test_bushing_has_its_spigot_on_the_larger_side(loop_of: LoopOf) -> None:
    """From 1-1/2 to 3/4 in the spigot is its inlet, from 3/4 to 1-1/2 in its outlet."""
    down = '{part = "bushing", size = "1-1/2 in", to = "3/4 in", outlet_end = "socket"}'
    up = '{part = "bushing", name = "up", to = "1-1/2 in", inlet_end = "socket"}'
    pipe = '{part = "pipe", length = "1 m"}'
    plant = loop_of(down, pipe, up, suction=', size = "1-1/2 in"', back='height = "0.5 m", size = "1-1/2 in"')
    expected = [("socket", "spigot"), ("socket", "spigot"), ("spigot", "socket"), ("spigot", "socket")]
    assert expected == mated(plant)
    assert all(joint.verdict == "mates" for joint in study_mating(plant).joints)


def test_split_joins_both_ways_to_its_two_tees(loop_of: LoopOf) -> None:
    """Two ways: one tee on either side, so six joints: before, two ways at two tees, behind; each tee of three."""
    split = '{part = "split", ways = ["a", "b"]}'
    ways = 'way.a = [{part = "pipe", name = "pa", length = "1 m"}]\nway.b = [{part = "ball valve"}]'
    joints = {(joint.first, joint.second) for joint in study_mating(loop_of(split, ways=ways)).joints}
    expected = {
        ("suction fitting", "dividing tee of split"),
        ("dividing tee of split", "pa"),
        ("dividing tee of split", "ball valve"),
        ("pa", "meeting tee of split"),
        ("ball valve", "meeting tee of split"),
        ("meeting tee of split", "return"),
    }
    assert expected == joints


def test_split_of_three_ways_has_two_tees_a_side_that_join_each_other(loop_of: LoopOf) -> None:
    """Three ways: two tees on either side; joints: 1 + 1 between + 3 in, and the same behind."""
    split = '{part = "split", ways = ["a", "b", "c"]}'
    ways = "\n".join(f'way.{way} = [{{part = "pipe", name = "p{way}", length = "1 m"}}]' for way in "abc")
    joints = [(joint.first, joint.second) for joint in study_mating(loop_of(split, ways=ways)).joints]
    assert 10 == len(joints) == len(set(joints))
    assert ("dividing tee 1 of split", "dividing tee 2 of split") in joints
    assert ("pc", "meeting tee 2 of split") in joints


def test_parts_in_a_row_join_each_other(loop_of: LoopOf) -> None:
    joints = [(joint.first, joint.second) for joint in study_mating(loop_of('{part = "elbow 90", count = 3}')).joints]
    assert 4 == len(joints)
    assert ("elbow 90 1", "elbow 90 2") in joints


def test_ends_that_are_not_known_are_not_judged_but_said(loop_of: LoopOf) -> None:
    mating = study_mating(loop_of('{part = "known loss", k = 2}'))
    assert ["not judged", "not judged"] == [joint.verdict for joint in mating.joints]
    assert [] == codes(mating, "known loss")
    assert ["ends-not-known"] == [notice.code for notice in mating.notices if "known loss" in notice.text]


def test_ends_that_the_file_states_are_not_called_taken(loop_of: LoopOf) -> None:
    stated = PUMP.replace("}", ', inlet_end = "union", outlet_end = "union"}')
    assert not [notice for notice in study_mating(loop_of(stated)).assumptions if "pump" in notice.text]
    assert [notice for notice in study_mating(loop_of(PUMP)).assumptions if "pump" in notice.text]


@pytest.mark.parametrize(("part", "need"), list(model_table("service_rules").entries))
def test_serviced_part_needs_it_on_both_sides(loop_of: LoopOf, part: str, need: str) -> None:
    code = {"valve": "no-valve-to-shut", "union": "no-union"}[need]
    fitting = {"valve": VALVE, "union": UNION}[need]
    one_side = study_mating(loop_of(fitting.format("before"), SERVICED[part]))
    both = study_mating(loop_of(fitting.format("before"), SERVICED[part], fitting.format("behind")))
    (problem,) = [problem for problem in one_side.problems if problem.code == code]
    assert f"{part} has no {need} on its outlet side:" in problem.text
    assert code not in codes(both, part)


def test_barb_with_a_clamp_comes_apart_like_a_union(loop_of: LoopOf) -> None:
    barb, tube = '{{part = "barb", name = "{}"}}', '{{part = "vinyl tube", name = "{}", length = "1 m"}}'
    parts = (tube.format("a"), barb.format("b"), PUMP, barb.format("c"), tube.format("d"))
    assert "no-union" not in codes(study_mating(loop_of(*parts)), "pump")


def test_union_behind_the_next_serviced_part_does_not_serve_this_one(loop_of: LoopOf) -> None:
    mating = study_mating(loop_of(UNION.format("before"), PUMP, FILTER, UNION.format("behind")))
    assert "no-union" in codes(mating, "pump")
    assert "no-union" in codes(mating, "filter")


def test_return_that_falls_free_shuts_like_a_valve(loop_of: LoopOf) -> None:
    """Its height 1.20 m stands over the water at 0.80 m: nothing runs back from the tub."""
    free = study_mating(loop_of(VALVE.format("before"), PUMP, back='height = "1.2 m"'))
    drowned = study_mating(loop_of(VALVE.format("before"), PUMP, back='height = "0.5 m"'))
    assert "no-valve-to-shut" not in codes(free, "pump")
    assert "no-valve-to-shut" in codes(drowned, "pump")


def test_split_shuts_only_where_each_of_its_ways_does(loop_of: LoopOf) -> None:
    split = '{part = "split", ways = ["a", "b"]}'
    both = f"way.a = [{VALVE.format('va')}]\nway.b = [{VALVE.format('vb')}]"
    one = f'way.a = [{VALVE.format("va")}]\nway.b = [{{part = "pipe", length = "1 m"}}]'
    valve = VALVE.format("before")
    assert "no-valve-to-shut" not in codes(study_mating(loop_of(valve, PUMP, split, ways=both)), "pump")
    assert "no-valve-to-shut" in codes(study_mating(loop_of(valve, PUMP, split, ways=one)), "pump")


@pytest.mark.parametrize(("material", "side"), list(model_table("ozone_materials").entries))
def test_ozone_attacks_wears_or_leaves_what_the_table_says(loop_of: LoopOf, material: str, side: str) -> None:
    line = GOOD_LINE if side == "water" else f'material = "{material}"\ncheck_valve_material = "PVDF"'
    stated = f', material = "{material}"' if side == "water" else ""
    pipe = f'{{part = "pipe", name = "behind", length = "1 m"{stated}}}'
    mating = study_mating(loop_of(PUMP, INJECTOR, pipe, tables=OZONE.format(line)))
    entry = model_table("ozone_materials")[material, side]
    assert (entry.value == 0.0) == (f"ozone-attacks-{side}" in [problem.code for problem in mating.problems])
    assert (entry.value == 1.0) == (f"ozone-wears-{side}" in [notice.code for notice in mating.notices])
    assert entry.value > 1.0 or not entry.source or entry.source in mating.sources
    for problem in mating.problems:
        if problem.code == f"ozone-attacks-{side}":
            assert entry.source == problem.source


@pytest.mark.parametrize("material", ["natural rubber", "nitrile rubber"])
def test_ozone_attacks_rubber_seals_by_the_gasket_table(loop_of: LoopOf, material: str) -> None:
    line = f'material = "PTFE"\ncheck_valve_material = "{material}"'
    mating = study_mating(loop_of(PUMP, INJECTOR, tables=OZONE.format(line)))
    (problem,) = [problem for problem in mating.problems if problem.code == "ozone-attacks-gas"]
    assert ("its check valve",) == problem.parts
    assert "gasket_elastomers" == problem.source


def test_ozone_before_the_injector_and_without_an_ozone_unit_is_no_matter(loop_of: LoopOf) -> None:
    rubber = '{part = "pipe", name = "rubber", length = "1 m", material = "natural rubber"}'
    before = study_mating(loop_of(PUMP, rubber, INJECTOR, tables=OZONE.format(GOOD_LINE)))
    without = study_mating(loop_of(PUMP, INJECTOR, rubber))
    assert "ozone-attacks-water" not in codes(before, "rubber")
    assert "ozone-attacks-water" not in codes(without, "rubber")


def test_ozone_in_a_side_stream_meets_what_stands_behind_the_split(loop_of: LoopOf) -> None:
    split = '{part = "split", ways = ["a", "b"]}'
    nylon = '{{part = "pipe", name = "{}", length = "1 m", material = "nylon"}}'
    ways = f"way.a = [{INJECTOR}, {nylon.format('own')}]\nway.b = [{nylon.format('beside')}]"
    mating = study_mating(loop_of(PUMP, split, nylon.format("behind"), ways=ways, tables=OZONE.format(GOOD_LINE)))
    (problem,) = [problem for problem in mating.problems if problem.code == "ozone-attacks-water"]
    assert ("own", "behind") == problem.parts


def test_gas_line_without_a_material_is_asked_for(loop_of: LoopOf) -> None:
    mating = study_mating(loop_of(PUMP, INJECTOR, tables=OZONE.format("")))
    (text,) = [notice.text for notice in mating.notices if notice.code == "ozone-material-unknown-gas"]
    assert "the gas line, its check valve" in text
    assert "PTFE" in text


def test_pipe_shorter_than_its_two_sockets_is_named(loop_of: LoopOf) -> None:
    """Sockets of 3/4 in, Schedule 40, are 0.719 in deep (ASTM D2466): two take 36.5 mm."""
    pipe = '{{part = "pipe", length = "{}"}}'
    assert ["pipe-too-short"] == codes(study_mating(loop_of(pipe.format("36 mm"))), "pipe")
    assert [] == codes(study_mating(loop_of(pipe.format("37 mm"))), "pipe")


def test_tank_fittings_of_an_unusual_size_are_said(loop_of: LoopOf) -> None:
    small = [notice.text for notice in study_mating(loop_of()).notices if notice.code == "unusual-size"]
    large = study_mating(loop_of(suction=', size = "1-1/2 in"', back='height = "0.5 m", size = "1-1/2 in"'))
    assert 2 == len(small)
    assert [] == [notice for notice in large.notices if notice.code == "unusual-size"]
