"""Which cautions fire on which loop, how gravely, and with which figures."""

import re
from collections.abc import Callable
from typing import Any

import pytest

from sanitize.basis.band import Band
from sanitize.basis.tables import sources
from sanitize.plant.gas import GasLine, OzoneUnit
from sanitize.plant.heat import Surroundings
from sanitize.plant.machines import Chiller, Filter
from sanitize.plant.tub import Room
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.rules import RULES, all_cautions, fire

MakeFacts = Callable[..., Facts]
Parts = dict[str, Callable[..., Any]]
LITRE_PER_MINUTE_M3S = 1.0 / 60000.0

ALWAYS_WITH_OZONE = {"ozone-under-cover", "no-interlock", "smell-is-no-guide", "ozone-attacks-materials", "ozone-alone"}
ALWAYS = {"electric-shock", "drowning", "single-suction", "blocked-suction-pull"}


def _codes(facts: Facts) -> set[str]:
    return {caution.code for caution in fire(facts)}


def _one(facts: Facts, code: str) -> Caution:
    return next(caution for caution in fire(facts) if caution.code == code)


def _chiller(**changes: Any) -> Chiller:
    return Chiller(word="chiller", name="chiller", size="3/4", **changes)


def test_rules_on_a_quiet_loop_only_the_standing_ones_fire(facts: MakeFacts) -> None:
    assert _codes(facts()) == ALWAYS | ALWAYS_WITH_OZONE | {"ozone-outdoors"}
    assert {caution.severity for caution in fire(facts())} == {"caution"}


def test_rules_without_injector_and_ozone_none_speaks_of_ozone(facts: MakeFacts, parts: Parts) -> None:
    quiet = facts(parts["suction"](), parts["pump"](), parts["return"](), ozone=None, gas_line=None, valve_missing=True)
    assert _codes(quiet) == ALWAYS


@pytest.mark.parametrize(
    ("code", "severity", "changes", "figures"),
    [
        ("no-check-valve", "danger", {"valve_missing": True}, ["has no check valve"]),
        ("air-enters-when-off", "caution", {"air_enters_when_off": True}, []),
        ("injector-on-suction-side", "danger", {"injector_on_suction_side": True}, []),
        ("gas-into-filter-or-chiller", "caution", {"injector_before": ("filter", "chiller")}, ["filter and chiller"]),
        ("pump-suction-below-air", "caution", {"pump_inlet_pressure_low_pa_gauge": {"pump": -2500.0}}, ["2.5 kPa"]),
        ("pump-above-water", "caution", {"pump_above_water": {"pump": True}}, ["Pump may"]),
        ("pump-past-curve", "caution", {"pump_past_curve_ratio": {"pump": 0.2}}, ["Pump may"]),
        ("suction-pipe-too-fast", "caution", {"suction_velocity_high_ms": 1.9}, ["1.9 m/s", "1.8 m/s", "suction hose"]),
        ("return-pipe-too-fast", "caution", {"return_velocity_high_ms": 3.4}, ["3.4 m/s", "3.0 m/s", "return hose"]),
        ("suction-above-cover-rating", "danger", {"flow_high_m3s": 160 / 60000}, ["160 L/min", "150 L/min"]),
        ("cold-water", "caution", {"tub": {"temperature_c": 15.0}}, ["15 degC"]),
        ("warm-water", "caution", {"tub": {"temperature_c": 38.0}}, ["38 degC", "grows well"]),
        ("warm-water", "caution", {"tub": {"temperature_c": 21.0}}, ["21 degC", "stands"]),
        ("ice-in-gas-line", "caution", {"tub": {"temperature_c": 2.0}}, ["2.0 degC"]),
        ("oxygen-feed", "danger", {"ozone": OzoneUnit(output_mg_per_h=90.0, feed="oxygen")}, []),
    ],
)
def test_rule_on_its_loop_fires_with_its_figures(
    facts: MakeFacts, code: str, severity: str, changes: dict[str, Any], figures: list[str]
) -> None:
    assert code not in _codes(facts())
    found = _one(facts(**changes), code)
    assert severity == found.severity
    for figure in figures:
        assert figure in found.text


@pytest.mark.parametrize(
    ("code", "changes"),
    [
        ("suction-pipe-too-fast", {"suction_velocity_high_ms": 1.82}),
        ("return-pipe-too-fast", {"return_velocity_high_ms": 3.04}),
        ("suction-above-cover-rating", {"flow_high_m3s": 149 / 60000}),
        ("cold-water", {"tub": {"temperature_c": 15.1}}),
        ("warm-water", {"tub": {"temperature_c": 20.0}}),
        ("pump-past-curve", {"pump_past_curve_ratio": {"pump": 0.04}}),
        ("pump-suction-below-air", {"pump_inlet_pressure_low_pa_gauge": {"pump": 0.0}}),
    ],
)
def test_rule_just_inside_its_limit_stays_silent(facts: MakeFacts, code: str, changes: dict[str, Any]) -> None:
    assert code not in _codes(facts(**changes))


# Water in the gas line.


@pytest.mark.parametrize("state", ["off", "running"])
def test_flood_by_a_leaking_valve_alone_is_a_danger_and_stands_first(facts: MakeFacts, state: str) -> None:
    found = fire(facts(floods=((state, "normal", "leaking"),), injector_on_suction_side=True, valve_missing=False))
    assert found[0].code == "water-reaches-ozone-unit"
    assert found[0].severity == "danger"
    assert found[0].text.startswith("If the gas line's check valve leaks, water reaches the ozone unit")


@pytest.mark.parametrize("state", ["returns shut", "filter loaded"])
def test_flood_that_needs_a_second_fault_is_a_caution(facts: MakeFacts, state: str) -> None:
    found = _one(facts(floods=((state, "normal", "leaking"),)), "water-reaches-ozone-unit")
    assert found.severity == "caution"
    assert f"with the {state.split(maxsplit=1)[0]} {state.split()[1]}" in found.text


def test_flood_only_at_the_rim_says_so(facts: MakeFacts) -> None:
    text = _one(facts(floods=(("off", "rim", "leaking"),)), "water-reaches-ozone-unit").text
    assert "with the pump off and the tub full to the rim" in text


def test_flood_without_a_valve_names_no_leak(facts: MakeFacts) -> None:
    text = _one(facts(floods=(("off", "normal", "leaking"),), valve_missing=True), "water-reaches-ozone-unit").text
    assert "leaks" not in text


def test_gas_line_not_described_counts_as_without_valve(facts: MakeFacts) -> None:
    found = _one(facts(gas_line=None, valve_missing=True), "no-check-valve")
    assert found.severity == "danger"
    assert "[gas_line]" in found.text


def test_ozone_unit_below_the_highest_rim_is_told_with_both_heights(facts: MakeFacts) -> None:
    low = OzoneUnit(output_mg_per_h=90.0, height_m=Band(0.90, 0.95, 1.0))
    text = _one(facts(ozone=low), "ozone-unit-below-rim").text
    assert "0.90 m" in text
    assert "0.91 m" in text


@pytest.mark.parametrize("ozone", [None, OzoneUnit(output_mg_per_h=90.0)])
def test_ozone_unit_of_unknown_height_counts_as_below_the_rim(facts: MakeFacts, ozone: OzoneUnit | None) -> None:
    assert "is not given" in _one(facts(ozone=ozone), "ozone-unit-below-rim").text


# Ozone in the air.


def test_room_figure_is_output_over_volume_and_removal(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    """90 mg/h / (38 m3 x (0.7 + 1.0) 1/h) = 1.39 mg/m3; over 1.962 mg/m3 a ppm: 0.71 ppm."""
    found = _one(facts(**indoors), "ozone-in-room")
    assert found.severity == "danger"
    assert "0.71 ppm" in found.text
    assert "0.70 air changes" in found.text


def test_room_of_a_tub_whose_place_is_not_said_counts(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    assert "ozone-in-room" in _codes(facts(tub={"place": None}, room=indoors["room"]))
    assert "ozone-in-room" not in _codes(facts(tub={"place": "outdoors"}, room=indoors["room"]))


def test_room_large_enough_is_a_caution(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    """90 / (300 x (0.7 + 1.0)) / 1.962 = 0.09 ppm."""
    found = _one(facts(**{**indoors, "room": Room(volume_m3=300.0, changes_per_h=0.7)}), "ozone-in-room")
    assert found.severity == "caution"


def test_room_without_air_changes_counts_as_shut(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    """90 / (38 x (0.2 + 1.0)) / 1.962 = 1.0 ppm."""
    text = _one(facts(**{**indoors, "room": Room(volume_m3=38.0)}), "ozone-in-room").text
    assert "1.0 ppm" in text
    assert "door and window shut" in text


@pytest.mark.parametrize("place", ["indoors", None])
def test_room_not_described_is_judged_as_a_bathroom(facts: MakeFacts, place: str | None) -> None:
    """90 / (6 x 1.2) / 1.962 = 6.4 ppm; the smallest room: 90 / 1.2 / 0.1962 = 380 m3."""
    found = _one(facts(tub={"place": place}), "ozone-room-unknown")
    assert found.severity == "danger"
    assert "6.0 to 20 m3" in found.text
    assert "6.4 ppm" in found.text
    assert "380 m3" in found.text


def test_room_that_stands_in_is_never_smaller_than_twice_the_water(facts: MakeFacts) -> None:
    """10 m3 of water: a room of 20 m3 and more."""
    assert "20 to 67 m3" in _one(facts(tub={"place": "indoors", "volume_m3": 10.0}), "ozone-room-unknown").text


def test_room_high_up_has_more_ozone_by_volume(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    """At 2500 m (74.7 kPa) 0.708 ppm become 0.96."""
    assert (
        "0.96 ppm" in _one(facts(**{**indoors, "tub": {**indoors["tub"], "altitude_m": 2500.0}}), "ozone-in-room").text
    )


def test_room_with_furniture_takes_more_of_it(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    """90 / (38 x (0.7 + 1.5)) / 1.962 = 0.55 ppm."""
    room = Room(volume_m3=38.0, changes_per_h=0.7, surfaces="furnished")
    assert "0.55 ppm" in _one(facts(**{**indoors, "room": room}), "ozone-in-room").text


def test_unit_not_described_still_warns_of_the_air(facts: MakeFacts) -> None:
    found = _one(facts(tub={"place": "indoors"}, ozone=None), "ozone-room-unknown")
    assert found.severity == "caution"


def test_bathroom_fills_to_the_ceiling_in_the_time_of_its_volume(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    """8 m3 x 0.1962 mg/m3 / 90 mg/h = 63 s."""
    small = {**indoors, "room": Room(volume_m3=8.0)}
    assert "1.0 min" in _one(facts(**small), "bathroom-size-room").text
    assert "bathroom-size-room" not in _codes(facts(**indoors))


def test_cover_figure_is_output_over_gas_flow(facts: MakeFacts) -> None:
    """90 mg/h / 0.12 m3/h = 750 mg/m3 = 380 ppm."""
    assert "380 ppm" in _one(facts(), "ozone-under-cover").text


def test_cover_without_gas_flow_still_warns(facts: MakeFacts) -> None:
    assert "5.0 ppm" in _one(facts(ozone=OzoneUnit(output_mg_per_h=90.0)), "ozone-under-cover").text


# Entrapment.


def test_suction_without_any_cover_is_a_danger(facts: MakeFacts, parts: Parts) -> None:
    bare = parts["suction"](cover_rated_flow_m3s=None)
    found = _one(facts(bare, parts["pump"](), parts["return"]()), "no-suction-cover")
    assert found.severity == "danger"
    assert "No cover is named for suction fitting" in found.text


def test_suction_cover_without_rating_is_a_danger(facts: MakeFacts, parts: Parts) -> None:
    unrated = parts["suction"](cover_rated_flow_m3s=None, cover_face_m=0.15)
    assert "no rated flow" in _one(facts(unrated, parts["pump"](), parts["return"]()), "no-suction-cover").text


def test_suction_pull_shows_vacuum_and_force(facts: MakeFacts) -> None:
    text = _one(facts(), "blocked-suction-pull").text
    assert "22 kPa" in text
    assert "25 N" in text


def test_suction_pull_not_worked_out_still_warns(facts: MakeFacts) -> None:
    assert "not known" in _one(facts(blocked={}), "blocked-suction-pull").text


def test_suction_too_large_for_a_body_is_not_blockable(facts: MakeFacts, parts: Parts) -> None:
    large = parts["suction"](cover_face_m=0.75)
    assert "single-suction" not in _codes(facts(large, parts["pump"](), parts["return"]()))


def test_grate_velocity_is_flow_over_open_area(facts: MakeFacts, parts: Parts) -> None:
    """40 L/min through 0.3 x 0.8 of a 70 mm face (924 mm2): 0.72 m/s; 1458 mm2 would give 0.457 m/s."""
    cover = parts["suction"](cover_face_m=0.070, cover_free_ratio=0.3, clogged_ratio=0.2)
    found = facts(cover, parts["pump"](), parts["return"]())
    assert "0.72 m/s" in _one(found, "grate-too-fast").text


def test_grate_of_1458_mm2_stands_at_the_limit(facts: MakeFacts, parts: Parts) -> None:
    face_m = (1459e-6 / 0.3 * 4.0 / 3.141592653589793) ** 0.5
    cover = parts["suction"](cover_face_m=face_m, cover_free_ratio=0.3)
    assert "grate-too-fast" not in _codes(facts(cover, parts["pump"](), parts["return"]()))


def test_suction_flow_not_worked_out_counts_as_all_of_it(facts: MakeFacts) -> None:
    high = 160 * LITRE_PER_MINUTE_M3S
    assert "suction-above-cover-rating" in _codes(facts(flow_high_m3s=high))
    assert "suction-above-cover-rating" not in _codes(
        facts(flow_high_m3s=high, suction_flows_high_m3s={"suction fitting": 0.5 * high})
    )


# Chillers.


@pytest.mark.parametrize(
    ("flows", "words"),
    [((10, 20), "at least 15 L/min"), ((20, 50), "allows 45 L/min"), ((20, 40), None)],
)
def test_chiller_window_looks_at_both_ends(
    facts: MakeFacts, parts: Parts, flows: tuple[float, float], words: str | None
) -> None:
    part = _chiller(min_flow_m3s=15 * LITRE_PER_MINUTE_M3S, max_flow_m3s=45 * LITRE_PER_MINUTE_M3S)
    low, high = (flow * LITRE_PER_MINUTE_M3S for flow in flows)
    found = facts(
        parts["suction"](), parts["pump"](), part, parts["return"](), chiller_flows_m3s={"chiller": (low, high)}
    )
    if words is None:
        assert "chiller-outside-window" not in _codes(found)
    else:
        assert words in _one(found, "chiller-outside-window").text


def test_chiller_with_too_little_flow_is_not_told_to_open_a_bypass(facts: MakeFacts, parts: Parts) -> None:
    """A bypass takes water from the chiller: it helps only one that gets too much."""
    part = _chiller(min_flow_m3s=15 * LITRE_PER_MINUTE_M3S)
    low, high = 10 * LITRE_PER_MINUTE_M3S, 20 * LITRE_PER_MINUTE_M3S
    found = facts(
        parts["suction"](), parts["pump"](), part, parts["return"](), chiller_flows_m3s={"chiller": (low, high)}
    )
    too_little, too_much = _one(found, "chiller-outside-window").action.split("too much")
    assert "close what runs beside it" in too_little
    assert "bypass" not in too_little
    assert "bypass" in too_much


def test_chiller_least_flow_is_told_as_that_with_loaded_filters(facts: MakeFacts, parts: Parts) -> None:
    """The least flow that the facts carry is the one behind loaded filters; a loop without a filter has none."""
    part = _chiller(min_flow_m3s=15 * LITRE_PER_MINUTE_M3S)
    flows = {"chiller": (10 * LITRE_PER_MINUTE_M3S, 20 * LITRE_PER_MINUTE_M3S)}
    cloth = Filter(word="filter", name="filter", size="3/4")
    with_filter = facts(parts["suction"](), parts["pump"](), cloth, part, parts["return"](), chiller_flows_m3s=flows)
    without = facts(parts["suction"](), parts["pump"](), part, parts["return"](), chiller_flows_m3s=flows)
    assert "only 10 L/min with the filters loaded;" in _one(with_filter, "chiller-outside-window").text
    assert "only 10 L/min;" in _one(without, "chiller-outside-window").text


def test_chiller_without_least_flow_still_warns(facts: MakeFacts, parts: Parts) -> None:
    found = facts(parts["suction"](), parts["pump"](), _chiller(), parts["return"]())
    assert "is not given" in _one(found, "chiller-outside-window").text


def test_chiller_near_freezing_warns(facts: MakeFacts, parts: Parts) -> None:
    items = (parts["suction"](), parts["pump"](), _chiller(), parts["return"]())
    assert "chiller-freezing" in _codes(facts(*items, tub={"temperature_c": 3.0}))
    assert "chiller-freezing" not in _codes(facts(*items, tub={"temperature_c": 6.0}))


@pytest.mark.parametrize(
    ("coldest_c", "place", "fires"),
    [(-5.0, "indoors", True), (5.0, "outdoors", False), (None, "outdoors", True), (None, None, True),
     (None, "indoors", False)],
)  # fmt: skip
def test_frost_warns_where_nothing_rules_it_out(
    facts: MakeFacts, coldest_c: float | None, place: str | None, fires: bool
) -> None:
    told = _codes(facts(surroundings=Surroundings(coldest_air_c=coldest_c), tub={"place": place}))
    assert fires == ("frost" in told)


# All of them.


def test_cautions_dangers_stand_first(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    worst = facts(
        floods=(("off", "normal", "leaking"),), valve_missing=True, injector_on_suction_side=True,
        gas_line=GasLine(opens_at_pa=Band.exact(1500.0), check_valve=False), **indoors,
    )  # fmt: skip
    severities = [caution.severity for caution in fire(worst)]
    assert severities == sorted(severities, reverse=True)
    assert severities.count("danger") == 4


def test_cautions_in_us_units_show_no_metric_figure(facts: MakeFacts, indoors: dict[str, Any]) -> None:
    told = " ".join(
        caution.text + caution.action
        for caution in fire(facts(family="us", suction_velocity_high_ms=2.5, flow_high_m3s=0.003, **indoors))
    )
    assert re.findall(r"\d (?:m|m/s|L/min|kPa|N|m3|degC)\b", told) == []
    assert "ft/s" in told


def test_every_rule_has_its_own_code_and_names_who_decides() -> None:
    codes = [rule.code for rule in RULES]
    assert len(codes) == len(set(codes))
    for caution in all_cautions():
        assert caution.defers_to
        assert caution.text.endswith(".")
        assert caution.action.endswith(".")


def test_every_source_of_a_rule_is_cited() -> None:
    assert {caution.source for caution in all_cautions()} - {""} <= set(sources())


def test_cautions_in_general_say_the_same_in_both_families() -> None:
    metric, us = all_cautions("metric"), all_cautions("us")
    assert [caution.code for caution in metric] == [caution.code for caution in us]
    assert any("6.0 ft/s" in caution.text for caution in us)
    assert any("1.8 m/s" in caution.text for caution in metric)


@pytest.mark.parametrize("word", ["safe", "safely", "sanitized", "harmless", "no danger", "guaranteed"])
def test_cautions_never_clear_anything(word: str) -> None:
    told = " ".join(f"{caution.text} {caution.action}" for caution in all_cautions()).lower()
    assert re.search(rf"\b{word}\b", told) is None
