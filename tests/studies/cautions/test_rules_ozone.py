"""Cautions of what the ozone study found: each fires at its limit and not below, and replaces the plain ones."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from sanitize.plant.gas import OzoneUnit
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.facts import Facts, OzoneFound
from sanitize.studies.cautions.rules import fire, fire_about_ozone

MakeFacts = Callable[..., Facts]
CALM = OzoneFound(
    is_drawn=True, residual_high_mgl=0.01, room_high_ppmv=0.01, room_is_assumed=False, over_water_high_ppmv=0.02,
    under_cover_high_ppmv=80.0, has_bromide=False,
)  # fmt: skip


def by_code(facts: Facts) -> dict[str, Caution]:
    return {caution.code: caution for caution in fire_about_ozone(facts)}


@pytest.mark.parametrize(("room_ppmv", "severity"), [(0.049, None), (0.05, "caution"), (0.1, "danger")])
def test_room_above_its_limits(
    room_ppmv: float, severity: str | None, facts: MakeFacts, indoors: dict[str, Any]
) -> None:
    found = by_code(facts(**indoors, ozone_found=replace(CALM, room_high_ppmv=room_ppmv)))
    assert severity == (found["ozone-room-above-limit"].severity if "ozone-room-above-limit" in found else None)


@pytest.mark.parametrize(("over_water_ppmv", "severity"), [(0.05, "caution"), (0.099, "caution"), (0.1, "danger")])
def test_over_water_is_a_danger_from_the_ceiling_on(over_water_ppmv: float, severity: str, facts: MakeFacts) -> None:
    """NIOSH: 0.1 ppm at no moment, and it is over the water that a bather breathes."""
    found = replace(CALM, over_water_high_ppmv=over_water_ppmv)
    assert severity == by_code(facts(ozone_found=found))["ozone-over-water"].severity


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"over_water_high_ppmv": 0.05}, "ozone-over-water"),
        ({"residual_high_mgl": 0.06}, "ozone-at-entry"),
        ({"has_bromide": True}, "ozone-with-bromide"),
    ],
)
def test_one_thing_wrong_fires_its_own_caution(
    change: dict[str, Any], code: str, facts: MakeFacts, indoors: dict[str, Any]
) -> None:
    calm = by_code(facts(**indoors, ozone_found=CALM))
    assert {code} == set(by_code(facts(**indoors, ozone_found=replace(CALM, **change)))) - set(calm)


def test_worked_out_air_replaces_the_plain_caution_unless_nothing_is_drawn(
    facts: MakeFacts, indoors: dict[str, Any]
) -> None:
    plain = {caution.code for caution in fire(facts(**indoors))}
    assert "ozone-in-room" in plain
    assert "ozone-in-room" not in by_code(facts(**indoors, ozone_found=CALM))
    assert "ozone-in-room" in by_code(facts(**indoors, ozone_found=replace(CALM, is_drawn=False)))


def test_assumed_room_is_said(facts: MakeFacts) -> None:
    found = replace(CALM, room_high_ppmv=0.3, room_is_assumed=True)
    text = by_code(facts(tub={"place": "indoors"}, ozone_found=found))["ozone-room-above-limit"].text
    assert "assumed" in text


def test_cover_tells_what_was_worked_out(facts: MakeFacts) -> None:
    assert "80 ppm" in by_code(facts(ozone_found=CALM))["ozone-under-cover"].text


@pytest.mark.parametrize(("feed", "fires"), [("room air", True), ("dried air", False)])
def test_damp_feed_makes_acid(feed: Any, fires: bool, facts: MakeFacts) -> None:
    unit = OzoneUnit(output_mg_per_h=90.0, feed=feed)
    assert fires == ("ozone-damp-feed" in by_code(facts(ozone=unit, ozone_found=CALM)))


def test_interlock_is_not_asked_for_where_there_is_one(facts: MakeFacts) -> None:
    assert "no-interlock" in by_code(facts(ozone_found=CALM))
    unit = OzoneUnit(output_mg_per_h=90.0, interlock=True)
    assert "no-interlock" not in by_code(facts(ozone=unit, ozone_found=CALM))
