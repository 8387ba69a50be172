"""Each kind of change on a loop where it is right, and on one that has no place for it or must not be given it."""

import math

import pytest

from sanitize.plant.ends import Return
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Pump
from sanitize.studies.advice.candidates import candidates, with_it
from sanitize.studies.advice.change import Change
from sanitize.studies.advice.edit import part_of, the_injector
from sanitize.studies.advice.geometry import too_short
from sanitize.studies.advice.throats import with_throat
from sanitize.studies.advice.tried import glance
from sanitize.studies.draws import Draws

THROAT_M = 0.015
ONE = Draws(0)


def of(plant: Plant, code: str) -> list[Change]:
    return [change for change in candidates(plant, THROAT_M) if change.code == code]


def after(plant: Plant, change: Change) -> Plant:
    changed = with_it(plant, change)
    assert changed is not None
    return changed


def port_pa(plant: Plant) -> float:
    return float(glance(plant, ONE).running.port.port_pa_gauge[0])


def flow(plant: Plant) -> float:
    return float(glance(plant, ONE).running.flow_m3s[0])


def test_lift_of_10_cm_gains_its_weight_less_what_the_longer_hose_costs(loop_of) -> None:
    """By hand: 0.10 m of water at 10 degC weigh 999.7 * 9.80665 * 0.1 = 980 Pa; 0.2 m more hose cost a few hundred."""
    plant = loop_of()
    changed = after(plant, of(plant, "lift-injector")[0])
    assert 300.0 < port_pa(plant) - port_pa(changed) < 980.0
    assert part_of(changed, "return hose").length_m.nominal == pytest.approx(3.1)
    assert part_of(changed, "riser").length_m.nominal == pytest.approx(0.9)


def test_lift_without_hose_beside_the_injector_adds_a_riser(loop_of) -> None:
    plant = loop_of(between="")
    changed = after(plant, of(plant, "lift-injector")[0])
    assert part_of(changed, "riser to injector").length_m.nominal == pytest.approx(0.1)
    assert too_short(plant).keys() == too_short(changed).keys()


def test_move_along_the_return_takes_its_hose_from_behind_the_injector(loop_of) -> None:
    plant = loop_of()
    changed = after(plant, of(plant, "move-injector")[-1])
    assert [part.name for part in walk(changed.loop)][-4:] == [
        "return hose",
        "injector",
        "rest of return hose",
        "return",
    ]
    assert part_of(changed, "return hose").length_m.nominal == pytest.approx(2.7)
    assert part_of(changed, "rest of return hose").length_m.nominal == pytest.approx(0.3)
    assert port_pa(changed) < port_pa(plant)


def test_injector_is_never_moved_to_where_no_hose_reaches_or_another_size_stands(loop_of) -> None:
    high = loop_of(injector='{part = "injector", throat = "15 mm", height = "1.9 m"}, ', between=riser(2.0))
    for change in of(high, "move-injector"):
        assert not too_short(after(high, change))
    assert not any("behind return hose" in change.words for change in of(high, "move-injector"))
    narrow = '{part = "reducer", to = "3/4 in"}, '
    assert [] == of(loop_of(back=narrow + BACK), "move-injector")


def riser(length_m: float) -> str:
    return f'{{part = "flexible hose", name = "riser", length = "{length_m} m"}}, '


def test_injector_before_the_pump_is_moved_behind_it_only(loop_of) -> None:
    injector = '{part = "injector", throat = "15 mm", height = "0.30 m"}, '
    suction = '{part = "suction fitting", height = "0.20 m", cover_rated_flow = "400 L/min"}, ' + riser(1.0) + injector
    plant = loop_of(suction=suction, injector="", between="")
    changes = of(plant, "move-injector")
    assert changes
    for change in changes:
        names = [part.name for part in walk(after(plant, change).loop)]
        assert names.index("pump") < names.index("injector")


def test_shortened_return_gains_and_is_not_offered_for_a_stub_or_below_the_height(loop_of) -> None:
    plant = loop_of()
    first, second = of(plant, "shorten-return")
    assert port_pa(plant) > port_pa(after(plant, first)) > port_pa(after(plant, second))
    stub = '{part = "flexible hose", name = "return hose", length = "0.4 m"}, {part = "return", height = "0.50 m"}'
    assert [] == of(loop_of(back=stub), "shorten-return")
    steep = '{part = "flexible hose", name = "return hose", length = "0.6 m"}, {part = "return", height = "0.05 m"}'
    assert ["Shorten return hose from 0.60 m to 0.45 m."] == [
        c.words for c in of(loop_of(back=steep), "shorten-return")
    ]


def test_widened_return_takes_the_next_size_in_every_part(loop_of) -> None:
    plant = loop_of(back='{part = "elbow 90", name = "bend"}, ' + BACK)
    changed = after(plant, of(plant, "widen-return")[-1])
    assert ["1-1/4", "1-1/4", "1-1/4"] == [part_of(changed, name).size for name in ("bend", "return hose", "return")]
    assert part_of(changed, "riser").size == "1"
    assert flow(changed) > flow(plant)


def test_return_of_the_largest_size_is_not_widened(loop_of) -> None:
    back = '{part = "reducer", to = "2 in"}, ' + BACK
    assert [] == of(loop_of(back=back), "widen-return")


BACK = '{part = "flexible hose", name = "return hose", length = "3 m"}, {part = "return", height = "0.50 m"}'


def test_swept_hose_takes_a_quarter_circle_for_each_elbow(loop_of) -> None:
    """By hand: 1 in pipe is 33.4 mm outside, 5 times that 167 mm; 3 quarter circles are 3 * pi/2 * 0.167 = 0.787 m."""
    plant = loop_of(back='{part = "elbow 90", name = "bends", count = 3}, ' + BACK)
    sweeps, hose = of(plant, "sweep-elbows")
    assert part_of(after(plant, sweeps), "bends").word == "sweep elbow 90"
    laid = part_of(after(plant, hose), "bends")
    assert laid.length_m.nominal == pytest.approx(3.0 * math.pi / 2.0 * 0.167, rel=2e-3)
    assert laid.bends_count == 3.0
    assert port_pa(after(plant, hose)) < port_pa(plant)
    assert [] == of(loop_of(back='{part = "sweep elbow 90"}, ' + BACK), "sweep-elbows")


def test_valve_in_the_return_is_opened_and_an_open_one_is_not(loop_of) -> None:
    half = loop_of(back='{part = "ball valve", handle = "40 deg"}, ' + BACK)
    (change,) = of(half, "open-valve")
    assert port_pa(after(half, change)) < port_pa(half)
    assert [] == of(loop_of(back='{part = "ball valve"}, ' + BACK), "open-valve")


WAYS = """way."side stream" = [{part = "injector", throat = "8 mm", height = "0.55 m", loss_ratio = 0.5}]
way.bypass = [{part = "throttle valve", name = "bypass valve", handle = "10 deg"}]
"""
SPLIT = '{part = "split", ways = ["side stream", "bypass"], straight = "bypass"}, '


def test_bypass_valve_is_closed_further_but_never_shut_and_one_behind_the_injector_does_not_help(loop_of) -> None:
    plant = loop_of(injector=SPLIT, ways=WAYS)
    ports = [port_pa(after(plant, change)) for change in of(plant, "close-valve")]
    assert [20.0, 35.0, 50.0, 60.0] == [
        part_of(after(plant, change), "bypass valve").handle_deg.nominal for change in of(plant, "close-valve")
    ]
    assert sorted(ports, reverse=True) == ports
    assert ports[0] < port_pa(plant)
    behind = loop_of(back='{part = "ball valve"}, ' + BACK)
    assert all(port_pa(after(behind, change)) > port_pa(behind) for change in of(behind, "close-valve"))


def test_side_stream_is_built_around_an_injector_in_the_loop_and_not_around_one_in_a_way(loop_of) -> None:
    plant = loop_of()
    back, own = of(plant, "side-stream")[:2]
    joined, apart = after(plant, back), after(plant, own)
    assert len([part for part in walk(joined.loop) if isinstance(part, Return)]) == 1
    assert len([part for part in walk(apart.loop) if isinstance(part, Return)]) == 2
    through = glance(joined, ONE).running
    assert 0.0 < through.port.flow_m3s[0] < through.flow_m3s[0]
    assert through.flow_m3s[0] > flow(plant)
    assert [] == of(loop_of(injector=SPLIT, ways=WAYS), "side-stream")


def test_smaller_throat_by_bore_goes_as_its_fourth_power(loop_of) -> None:
    """Bernoulli: at one flow the pull grows with throat^-4 (the inlet's share aside, it stays below 2 %)."""
    plant = loop_of(injector='{part = "injector", throat = "8 mm", height = "0.55 m", loss_ratio = 0.5}, ')
    small = with_throat(plant, 7.0 / 8.0)
    pulls = [float(glance(p, ONE).running.port.model.recovery_pa_s2m6[0]) for p in (plant, small)]
    assert pulls[1] / pulls[0] == pytest.approx((8.0 / 7.0) ** 4, rel=0.02)


def test_smaller_throat_of_a_bench_injector_is_the_same_by_likeness(loop_of) -> None:
    """k = drop/flow^2: scaling the flows by ratio^2 makes k grow with ratio^-4 exactly."""
    rows = 'inlet_to_port = ["30 kPa", "25 L/min"], outlet_to_port = ["20 kPa", "25 L/min"]'
    bench = f'{{part = "injector", height = "0.55 m", {rows}}}, '
    plant = loop_of(injector=bench)
    pulls = [
        float(glance(p, ONE).running.port.model.recovery_pa_s2m6[0]) for p in (plant, with_throat(plant, 7.0 / 8.0))
    ]
    assert pulls[1] / pulls[0] == pytest.approx((8.0 / 7.0) ** 4, rel=1e-9)


def test_throat_below_3_mm_is_not_offered(loop_of) -> None:
    plant = loop_of(injector='{part = "injector", throat = "4.5 mm", height = "0.55 m"}, ')
    told = [change.words for change in candidates(plant, 0.0045) if change.code == "smaller-throat"]
    assert 1 == len(told)
    assert "a throat of 3.5 mm" in told[0]


def test_bigger_nozzle_gains_and_there_is_none_without_a_nozzle(loop_of) -> None:
    back = BACK.replace('height = "0.50 m"', 'height = "0.50 m", nozzle_bore = "14 mm"')
    plant = loop_of(back=back)
    ports = [port_pa(after(plant, change)) for change in of(plant, "bigger-nozzle")]
    assert 3 == len(ports)
    assert sorted(ports, reverse=True) == ports
    assert ports[0] < port_pa(plant)
    assert [] == of(loop_of(), "bigger-nozzle")


def test_check_valve_is_advised_to_open_earlier_but_never_left_out(loop_of) -> None:
    plant = loop_of()
    opens = [after(plant, change).gas_line.opens_at_pa.nominal for change in of(plant, "earlier-check-valve")]
    assert [750.0, 375.0] == opens
    assert all(after(plant, change).gas_line.check_valve for change in candidates(plant, THROAT_M))
    light = loop_of(tables=GAS.replace("1.5 kPa", "0.4 kPa"))
    assert [] == of(light, "earlier-check-valve")


GAS = """
[gas_line]
length = "1.6 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
highest_point = "1.90 m"
"""


def test_gas_tube_is_shortened_only_where_it_reaches_over_its_highest_point(loop_of) -> None:
    """By hand: from 0.55 m up to 1.90 m it takes 1.35 m; half of 4 m reaches, half of 1.6 m does not."""
    long = loop_of(tables=GAS.replace("1.6 m", "4 m"))
    (change,) = of(long, "shorter-gas-line")
    assert after(long, change).gas_line.length_m.nominal == pytest.approx(2.0)
    assert [] == of(loop_of(tables=GAS), "shorter-gas-line")


def test_wider_gas_tube_draws_more_gas_and_leaves_the_share(loop_of) -> None:
    narrow = GAS.replace("1.6 m", "6 m").replace("4 mm", "3 mm")
    plant = loop_of(injector='{part = "injector", throat = "11 mm", height = "0.55 m"}, ', tables=narrow)
    now = glance(plant, Draws(64))
    seen = glance(after(plant, of(plant, "wider-gas-line")[-1]), now.draws)
    assert now.share == seen.share
    assert seen.gas_flow()[0].nominal > 1.2 * now.gas_flow()[0].nominal
    assert [] == of(loop_of(tables=""), "wider-gas-line")


def test_filter_is_cleaned_earlier_only_where_it_is_left_longer(loop_of) -> None:
    text = '{part = "filter", drop = "6 kPa", at_flow = "60 L/min", loaded_drop_ratio = 6}, '
    plant = loop_of(between=text + riser(0.8))
    changed = [after(plant, change) for change in of(plant, "clean-earlier")]
    assert [1.5, 1.25] == [part_of(loop, "filter").loaded_ratio for loop in changed]
    soon = loop_of(between=text.replace("= 6}", "= 1.2}") + riser(0.8))
    assert [] == of(soon, "clean-earlier")
    assert [] == of(loop_of(), "bigger-filter")


def test_bigger_filter_lets_more_water_through(loop_of) -> None:
    plant = loop_of(between='{part = "filter", drop = "15 kPa", at_flow = "60 L/min"}, ' + riser(0.8))
    (change,) = of(plant, "bigger-filter")
    assert flow(after(plant, change)) > flow(plant)


def test_dirty_filter_is_cleaned_and_a_clean_one_is_not(loop_of) -> None:
    text = '{part = "filter", drop = "15 kPa", at_flow = "60 L/min", fouling = 2.5}, '
    plant = loop_of(between=text + riser(0.8))
    (change,) = of(plant, "clean-filter")
    assert "Clean filter: it takes 2.5 times what it takes clean." == change.words
    clean = loop_of(between=text.replace(", fouling = 2.5", "") + riser(0.8))
    assert flow(clean) == pytest.approx(flow(after(plant, change)))
    assert flow(plant) < 0.95 * flow(clean)
    assert [] == of(clean, "clean-filter")
    assert [] == of(loop_of(between=text.replace("2.5", "1") + riser(0.8)), "clean-filter")


def test_clogged_cover_is_cleared_and_a_clear_one_is_not(loop_of) -> None:
    clogged = '{part = "suction fitting", height = "0.20 m", cover_rated_flow = "400 L/min", clogged_share = 0.7}, '
    plant = loop_of(suction=clogged + riser(0.6).replace("riser", "suction hose"))
    (change,) = of(plant, "clear-cover")
    assert flow(after(plant, change)) > flow(plant)
    assert [] == of(loop_of(), "clear-cover")


def test_pump_is_told_by_head_and_flow_that_follow_one_wheel(loop_of) -> None:
    """Affinity of wheels: heads times 1.6 at flows times its root."""
    plant = loop_of()
    change = of(plant, "stronger-pump")[1]
    pump = part_of(after(plant, change), "pump")
    assert [(f, h) for f, h in pump.curve] == [
        pytest.approx((f * 1.6**0.5, h * 1.6)) for f, h in part_of(plant, "pump").curve
    ]


def test_speed_is_told_only_for_a_pump_that_has_one_and_never_above_its_curve(loop_of) -> None:
    slow = PUMP.replace('height = "0.10 m"', 'height = "0.10 m", curve_speed = "2900 rpm", speed = "2320 rpm"')
    plant = loop_of(pump=slow)
    ratios = [part_of(after(plant, change), "pump").speed_ratio for change in of(plant, "other-speed")]
    assert [0.6, 0.7, 0.9, 1.0] == pytest.approx(ratios)
    assert [] == of(loop_of(), "other-speed")


PUMP = '{part = "pump", height = "0.10 m", curve = [["0 L/min", "5 m"], ["50 L/min", "4 m"], ["100 L/min", "0 m"]]}, '


def test_every_change_leaves_the_plant_itself_alone_and_keeps_its_machines(loop_of) -> None:
    plant = loop_of(back='{part = "elbow 90", count = 2}, {part = "ball valve"}, ' + BACK)
    before = plant.model_dump_json()
    for change in candidates(plant, THROAT_M):
        changed = after(plant, change)
        names = [part.name for part in walk(changed.loop)]
        assert len(names) == len(set(names))
        assert 1 == sum(isinstance(part, Pump) for part in walk(changed.loop))
        assert the_injector(changed).name == "injector"
    assert before == plant.model_dump_json()


def test_glance_of_a_loop_without_injector_is_refused(plant_of) -> None:
    plant = plant_of(f"loop = [{PUMP_ONLY}]")
    with pytest.raises(ValueError, match="no injector"):
        glance(plant, ONE)


PUMP_ONLY = (
    '{part = "suction fitting", height = "0.20 m"}, {part = "flexible hose", length = "1 m"}, '
    '{part = "pump", height = "0.10 m", curve = [["0 L/min", "5 m"], ["90 L/min", "0 m"]]}, '
    '{part = "flexible hose", name = "back", length = "1 m"}, {part = "return", height = "0.5 m"}'
)
