"""The study: figures with their range, worst ends, what fires, what is assumed, what would help."""

import math
from collections.abc import Callable

import pytest

from sanitize.basis.errors import InputError
from sanitize.plant.loop import Plant
from sanitize.studies.ozone.result import Ozone
from sanitize.studies.ozone.study import study_ozone

SHUT_BATHROOM = (('volume = "30 m3"\nair_changes_per_hour = 0.5', 'volume = "11 m3"\nair_changes_per_hour = 0.3'),)
OUTDOORS = (('place = "indoors"', 'place = "outdoors"'),)
DRIED = (('at_gas_flow = "2 L/min"', 'at_gas_flow = "2 L/min"\nfeed = "dried air"'),)


def codes(result: Ozone) -> set[str]:
    return {caution.code for caution in result.cautions}


def notices(result: Ozone) -> set[str]:
    return {notice.code for notice in result.notices}


def nominal(figure: object) -> float:
    value = getattr(figure, "nominal", None)
    assert isinstance(value, float)
    return value


def test_bathroom_with_the_door_shut_is_a_danger_and_ozone_far_too_little(ozone_of: Callable[..., Ozone]) -> None:
    result = ozone_of(*SHUT_BATHROOM)
    assert result.cautions[0].code == "ozone-room-above-limit"
    assert result.cautions[0].severity == "danger"
    assert nominal(result.emission_mg_per_h) > 5.0 * nominal(result.room_emission_limit_mg_per_h)
    assert nominal(result.undersized_ratio) > 1.0
    assert {"ozone-alone", "no-interlock", "smell-is-no-guide", "ozone-damp-feed"} <= codes(result)


def test_worst_end_lies_at_or_beyond_the_range(small_ozone: Ozone) -> None:
    assert small_ozone.room_ppmv is not None
    assert small_ozone.room_worst_ppmv is not None
    assert small_ozone.room_worst_ppmv >= (small_ozone.room_ppmv.high or 0.0)
    assert small_ozone.residual_entry_high_mgl >= (small_ozone.residual_mgl.high or 0.0)
    assert small_ozone.over_water_worst_ppmv >= (small_ozone.over_water_ppmv.high or 0.0)


def test_emission_that_the_room_bears_brings_it_to_its_limit(ozone_of: Callable[..., Ozone]) -> None:
    """Linear: room over limit is emission over what the room bears, in the nominal case."""
    result = ozone_of(cases=0)
    over = nominal(result.room_ppmv) / result.room_limit_ppmv
    assert over == pytest.approx(nominal(result.emission_mg_per_h) / nominal(result.room_emission_limit_mg_per_h))


@pytest.mark.parametrize("way", ["changes", "destruct", "output"])
def test_remedy_carried_out_holds_the_limit(way: str, ozone_of: Callable[..., Ozone]) -> None:
    """Each remedy put into the file brings the nominal room to its limit."""
    found = ozone_of(cases=0).remedy
    assert found is not None
    change = {
        "changes": ("air_changes_per_hour = 0.5", f"air_changes_per_hour = {nominal(found.changes_per_h)!r}"),
        "destruct": ('output = "100 mg/h"', f'output = "100 mg/h"\ndestruct = {nominal(found.destruct_ratio)!r}'),
        "output": ('output = "100 mg/h"', f'output = "{nominal(found.output_mg_per_h)!r} mg/h"'),
    }[way]
    after = ozone_of(change, cases=0)
    assert after.room_limit_ppmv == pytest.approx(nominal(after.room_ppmv), rel=0.01)


def test_wait_counts_what_the_water_gives_off_when_the_ozone_is_off(ozone_of: Callable[..., Ozone]) -> None:
    """A destruct unit keeps the room below its limit; over the water it is above, so there is a wait all the same.

    In still water air the room alone needs ln(c0/limit) over what takes the ozone away; nobody waits less than that.
    """
    plain = ozone_of(cases=0)
    assert plain.room is not None
    assert plain.air_wait_s is not None
    over = nominal(plain.room_ppmv) / plain.room_limit_ppmv
    away = nominal(plain.room.changes_per_h) + nominal(plain.room.removal_per_h)
    assert nominal(plain.air_wait_s) > 3600.0 * math.log(over) / away
    aired = ozone_of(("air_changes_per_hour = 0.5", "air_changes_per_hour = 60"), ('"100 mg/h"', '"1 g/h"'), cases=0)
    assert nominal(aired.air_wait_s) > 60.0


def test_wait_at_the_worst_end_is_the_longest(small_ozone: Ozone) -> None:
    """No shorter than the high end of its range; that of the water by hand from its residual and slowest decay.

    Clean water of 10 degC and pH 6.8: 0.01 per minute times 10^(0.7 (6.8 - 7.4)).
    """
    assert small_ozone.air_wait_worst_s is not None
    assert small_ozone.air_wait_s is not None
    assert small_ozone.air_wait_worst_s >= (small_ozone.air_wait_s.high or 0.0)
    assert small_ozone.water_wait_worst_s >= (small_ozone.water_wait_s.high or 0.0)
    by_hand = 60.0 * math.log(small_ozone.residual_entry_high_mgl / 0.05) / (0.01 * 10.0 ** (0.7 * -0.6))
    assert by_hand == pytest.approx(small_ozone.water_wait_worst_s, rel=1e-6)


def test_room_not_described_is_a_small_shut_one_and_said(ozone_of: Callable[..., Ozone]) -> None:
    result = ozone_of(('[room]\nvolume = "30 m3"\nair_changes_per_hour = 0.5\n', ""))
    assert result.room is not None
    assert result.room.is_assumed
    assert "room-assumed" in notices(result)
    assert "ozone-room-unknown" not in codes(result)
    assert nominal(result.room.volume_m3) <= 20.0


def test_outdoors_has_no_room_but_air_over_the_water(ozone_of: Callable[..., Ozone]) -> None:
    result = ozone_of(*OUTDOORS)
    assert result.room is None
    assert result.room_ppmv is None
    assert result.room_emission_limit_mg_per_h is None
    assert nominal(result.over_water_ppmv) > 0.0
    assert {"ozone-room-above-limit"}.isdisjoint(codes(result))
    assert "ozone-room-not-counted" in notices(result)


def test_bathers_and_hours_of_the_file_are_counted(ozone_of: Callable[..., Ozone]) -> None:
    """Three dips at 1 g each; three hours supply an eighth of a day."""
    tables = ('height = "1.30 m"', 'height = "1.30 m"\n[bathers]\nper_day = 3\n[timer]\nozone_hours = "3 h"')
    all_day, three = ozone_of(cases=0), ozone_of(tables, cases=0)
    assert 3.0 == pytest.approx(nominal(three.oxidant_need_g_per_day))
    assert nominal(all_day.oxidant_supply_g_per_day) / 8.0 == pytest.approx(nominal(three.oxidant_supply_g_per_day))
    assert {"ozone-bathers-assumed", "ozone-hours-assumed"} <= notices(all_day)
    assert {"ozone-bathers-assumed", "ozone-hours-assumed"}.isdisjoint(notices(three))


@pytest.mark.parametrize(("timer", "hours", "origin"), [
    ('pump_times = [["06:00", "12:00"]]\nozone_times = [["05:00", "08:00"]]\nozone_hours = "5 h"', 2.0, "ozone_times"),
    ('pump_times = [["22:00", "01:30"]]\nozone_hours = "5 h"', 5.0, "ozone_hours"),
    ('pump_times = [["22:00", "01:30"]]', 3.5, "pump_times"),
    ('least_run = "1 h"', 24.0, "assumed"),
])  # fmt: skip
def test_hours_counted_are_those_of_the_timer(
    timer: str, hours: float, origin: str, ozone_of: Callable[..., Ozone]
) -> None:
    """What dissolves an hour times the hours, whichever key says them; nothing is counted in silence."""
    result = ozone_of(('height = "1.30 m"', f'height = "1.30 m"\n[timer]\n{timer}'), cases=0)
    assert (3600.0 * hours, origin) == (result.ozone_run_s, result.ozone_run_from)
    by_hand = 1e-3 * hours * nominal(result.dissolved_mg_per_h)
    assert by_hand == pytest.approx(nominal(result.oxidant_supply_g_per_day))
    assert ("ozone-hours-assumed" in notices(result)) == (origin == "assumed")
    assert ("ozone-with-pump" in notices(result)) == (origin == "pump_times")


def test_interlock_silences_only_its_own_caution(ozone_of: Callable[..., Ozone], small_ozone: Ozone) -> None:
    with_it = ozone_of(('height = "1.30 m"', 'height = "1.30 m"\ninterlock = true'))
    assert {"no-interlock"} == codes(small_ozone) - codes(with_it)


def test_parts_that_ozone_attacks_are_named(ozone_of: Callable[..., Ozone], small_ozone: Ozone) -> None:
    attacked = ozone_of(('bore = "4 mm"', 'bore = "4 mm"\nmaterial = "vinyl tubing"'), cases=0)
    assert {"ozone-attacks-parts"} == codes(attacked) - codes(small_ozone)
    text = next(caution.text for caution in attacked.cautions if caution.code == "ozone-attacks-parts")
    assert "vinyl tubing" in text
    assert "gas line" in text


def test_destruct_unit_spares_the_air_and_wants_parted_gas(ozone_of: Callable[..., Ozone]) -> None:
    """Half of what is vented, and all of the surface."""
    result = ozone_of(('output = "100 mg/h"', 'output = "100 mg/h"\ndestruct = 0.5'), cases=0)
    by_hand = 0.5 * nominal(result.vented_mg_per_h) + nominal(result.surface_mg_per_h)
    assert by_hand == pytest.approx(nominal(result.emission_mg_per_h))
    assert "ozone-destruct-needs-separation" in notices(result)


def test_dried_air_makes_more_and_no_acid(ozone_of: Callable[..., Ozone], small_ozone: Ozone) -> None:
    dried = ozone_of(*DRIED)
    assert nominal(dried.feed_mg_per_h) == pytest.approx(2.0 * nominal(small_ozone.feed_mg_per_h))
    assert "ozone-damp-feed" not in codes(dried)


def test_outputs_of_a_data_sheet_are_followed(ozone_of: Callable[..., Ozone]) -> None:
    """Level beyond the last point, where more gas is drawn: 90 mg/h, of which undried air makes half."""
    rows = '[["1 L/min", "60 mg/h"], ["2 L/min", "90 mg/h"]]'
    result = ozone_of(('output = "100 mg/h"\nat_gas_flow = "2 L/min"', f"outputs = {rows}"), cases=0)
    assert 45.0 == pytest.approx(nominal(result.feed_mg_per_h))
    assert 90.0 == result.rated_mg_per_h


def test_oxygen_is_a_danger_in_a_home(ozone_of: Callable[..., Ozone]) -> None:
    result = ozone_of(('at_gas_flow = "2 L/min"', 'at_gas_flow = "2 L/min"\nfeed = "oxygen"'))
    found = next(caution for caution in result.cautions if caution.code == "oxygen-feed")
    assert found.severity == "danger"
    assert "burn" in found.text


def test_more_gas_than_the_unit_is_rated_for_says_what_a_needle_valve_brings(small_ozone: Ozone) -> None:
    valve = small_ozone.needle_valve
    assert valve is not None
    assert 2.0 / 60_000.0 == pytest.approx(valve.gas_flow_m3s)
    assert nominal(valve.transfer_ratio) > nominal(small_ozone.transfer_ratio)
    assert nominal(valve.emission_mg_per_h) < nominal(small_ozone.emission_mg_per_h)


def test_less_gas_than_rated_needs_no_needle_valve(ozone_of: Callable[..., Ozone]) -> None:
    held = ('highest_point = "1.40 m"', 'highest_point = "1.40 m"\nneedle_valve = ["6 kPa", "2 L/min"]')
    assert ozone_of(held, ('at_gas_flow = "2 L/min"', 'at_gas_flow = "30 L/min"'), cases=0).needle_valve is None


def test_injector_that_draws_in_some_cases_counts_the_air_over_those_alone(ozone_of: Callable[..., Ozone]) -> None:
    """A return so high that the device draws in some cases only: no case without gas is counted as clean air.

    What the unit makes then ends in the room all the same, so the plain caution stays, destruct unit or not.
    """
    result = ozone_of(
        ('{part = "return", height = "0.40 m"}', '{part = "return", height = "3.80 m"}'),
        ('output = "100 mg/h"', 'output = "100 mg/h"\ndestruct = 0.99'),
        cases=64,
    )
    assert 0.05 < result.drawn_share_ratio < 0.95
    for air in (result.room_ppmv, result.over_water_ppmv, result.under_cover_ppmv, result.emission_mg_per_h):
        assert air is not None
        assert (air.low or 0.0) > 0.0
    assert 0.0 == result.feed_mg_per_h.low
    assert "ozone-in-room" in codes(result)


def test_injector_that_does_not_draw_feeds_nothing_and_keeps_the_plain_caution(ozone_of: Callable[..., Ozone]) -> None:
    result = ozone_of(('{part = "return", height = "0.40 m"}', '{part = "return", height = "4.50 m"}'), cases=0)
    assert 0.0 == nominal(result.gas_flow_m3s) == nominal(result.feed_mg_per_h) == nominal(result.residual_mgl)
    assert result.transfer_ratio.nominal is None
    assert "ozone-not-drawn" in notices(result)
    assert "ozone-in-room" in codes(result)


@pytest.mark.parametrize(("temperature", "codes_wanted"), [
    ("2 degC", {"ozone-solubility-extrapolated", "ozone-decay-carried-on"}),
    ("10 degC", {"ozone-decay-carried-on"}),
    ("20 degC", set()),
    ("38 degC", {"ozone-solubility-extrapolated"}),
])  # fmt: skip
def test_temperature_outside_a_laws_range_is_said(
    temperature: str, codes_wanted: set[str], ozone_of: Callable[..., Ozone]
) -> None:
    result = ozone_of(('"10 degC"', f'"{temperature}"'), cases=0)
    both = {"ozone-solubility-extrapolated", "ozone-decay-carried-on"}
    assert codes_wanted == notices(result) & both


def test_warm_idle_water_brings_legionella_up(ozone_of: Callable[..., Ozone]) -> None:
    assert "warm-water" in codes(ozone_of(('"10 degC"', '"24 degC"'), cases=0))


def test_feed_beyond_what_was_published_is_doubted(ozone_of: Callable[..., Ozone]) -> None:
    assert "ozone-feed-implausible" in notices(ozone_of(('"100 mg/h"', '"20 g/h"'), cases=0))


TEST = ('height = "1.30 m"', 'height = "1.30 m"\n[[water_test]]\nph = 7.9\nfree_chlorine = "2 mg/L"\nmethod = "drops"')


def test_water_test_is_read_with_its_error(ozone_of: Callable[..., Ozone], small_ozone: Ozone) -> None:
    result = ozone_of(TEST)
    assert result.water.ph_from == "tested"
    assert 7.9 == pytest.approx(nominal(result.water.ph))
    assert (result.water.ph.low or 0.0) < 7.9 < (result.water.ph.high or 0.0)
    assert nominal(result.residual_mgl) < nominal(small_ozone.residual_mgl)
    assert {"ozone-ph-assumed", "ozone-oxidants-unknown"}.isdisjoint(notices(result))
    assert "ozone-meets-chlorine" in notices(result)


def test_latest_water_test_counts(ozone_of: Callable[..., Ozone]) -> None:
    later = "[[water_test]]\nph = 7.0\ndate = 2026-03-02\n[[water_test]]\nph = 7.8\ndate = 2026-03-01"
    assert 7.0 == pytest.approx(nominal(ozone_of(('height = "1.30 m"', f'height = "1.30 m"\n{later}')).water.ph))


def test_peroxide_leaves_no_ozone_and_says_so(ozone_of: Callable[..., Ozone]) -> None:
    peroxide = '[[water_test]]\nph = 7.4\nperoxide = "40 mg/L"'
    result = ozone_of(('height = "1.30 m"', f'height = "1.30 m"\n{peroxide}'))
    assert "ozone-meets-peroxide" in notices(result)
    assert nominal(result.residual_mgl) < 0.001


@pytest.mark.parametrize("text", ['[[water_test]]\nph = 7.4\nbromine = "3 mg/L"', '[sanitizer]\nuses = "bromine"'])
def test_bromide_warns_of_bromate(text: str, ozone_of: Callable[..., Ozone], small_ozone: Ozone) -> None:
    result = ozone_of(('height = "1.30 m"', f'height = "1.30 m"\n{text}'))
    assert "ozone-with-bromide" in codes(result) - codes(small_ozone)
    assert nominal(result.water.bromide_mgl) > 0.0


def test_credits_ask_for_the_larger_published_figure(small_ozone: Ozone) -> None:
    """At 10 degC: Giardia 1.43 by the table; Cryptosporidium 19.9 by the formula against 14.7 from infectivity."""
    asked = {row.organism: row.asked_ct_mg_min_l for row in small_ozone.credits}
    assert 1.43 == pytest.approx(asked["Giardia"], abs=0.03)
    assert 19.9 == pytest.approx(asked["Cryptosporidium"], abs=0.1)
    assert all(nominal(row.tub_share_ratio) < 1.0 for row in small_ozone.credits)


def test_limits_name_their_body_and_time(small_ozone: Ozone) -> None:
    assert {"NIOSH", "OSHA", "WHO", "ACGIH", "US FDA, devices"} == {row.body for row in small_ozone.limits}
    assert all(row.averaged for row in small_ozone.limits)


def test_no_ozone_unit_and_no_injector_are_said(ozone_plant: Callable[..., Plant]) -> None:
    plant = ozone_plant()
    with pytest.raises(InputError, match=r"\[ozone\]: is missing"):
        study_ozone(plant.model_copy(update={"ozone": None}), 0)
    bare = plant.loop.model_copy(update={"items": tuple(i for i in plant.loop.items if i.word != "injector")})
    with pytest.raises(InputError, match="no injector"):
        study_ozone(plant.model_copy(update={"loop": bare}), 0)
