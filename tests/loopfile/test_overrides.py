"""`--set` settings: values for parts, tables and the file's own keys."""

from pathlib import Path
from typing import Any

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import walk

BOATHOUSE = (Path(__file__).parent / "good" / "boathouse.toml").read_text(encoding="utf-8")


def changed(setting: str, name: str, attribute: str) -> Any:
    """The attribute of a part, or of a table, after a setting."""
    plant = read_plant(BOATHOUSE, overrides=[setting]).plant
    owner = {part.name: part for part in walk(plant.loop)} | {"tub": plant.tub, "room": plant.room, "file": plant}
    value = getattr(owner[name], attribute)
    return getattr(value, "nominal", value)


@pytest.mark.parametrize(
    ("setting", "name", "attribute", "expected"),
    [
        ("return hose.length=2 m", "return hose", "length_m", 2.0),
        ('"return hose".length = "2 m"', "return hose", "length_m", 2.0),
        ('tub.water_level="0.7 m"', "tub", "water_level_m", 0.7),
        ("tub.water_level=0.7 m +- 2 cm", "tub", "water_level_m", 0.7),
        ("room.air_changes_per_hour=2", "room", "changes_per_h", 2.0),
        ("elbow 90.count=5", "elbow 90", "count", 5),
        ("pump.running=false", "pump", "running", False),
        ("throttle valve.handle=unknown", "throttle valve", "handle_deg", 20.0),
        ("elbow 90.size=1", "elbow 90", "size", "1"),
        ("elbow 90.size=1 in", "elbow 90", "size", "1"),
        ("filter.name=big one", "big one", "word", "filter"),
        ("title=7", "file", "title", "7"),
        ("units=us", "file", "units", "us"),
        ("size=1 in", "return hose", "size", "3/4"),
    ],
)
def test_setting_changes_one_value(setting: str, name: str, attribute: str, expected: Any) -> None:
    found = changed(setting, name, attribute)
    assert expected == (pytest.approx(found) if isinstance(expected, float) else found)


def test_setting_changes_a_list() -> None:
    ((flow_m3s, head_m),) = changed('pump.curve=[["30 L/min", "3 m"]]', "pump", "curve")
    expected = (0.0005, 3.0)
    assert expected == pytest.approx((flow_m3s, head_m))


def test_setting_of_a_table_in_double_brackets_changes_the_last_one() -> None:
    text = BOATHOUSE + "\n[[water_test]]\nph = 7.0\n\n[[water_test]]\nph = 7.4\n"
    tests = read_plant(text, overrides=["water_test.ph=8.1", "water_test.date=2026-03-14"]).plant.water_test
    assert [7.0, 8.1] == [test.ph.nominal for test in tests if test.ph is not None]
    assert [None, "2026-03-14"] == [test.date and test.date.isoformat() for test in tests]


def test_setting_may_add_a_table_in_double_brackets() -> None:
    (test,) = read_plant(BOATHOUSE, overrides=["water_test.ph=8.1"]).plant.water_test
    assert test.ph is not None
    assert 8.1 == test.ph.nominal


def test_setting_may_add_a_table() -> None:
    text = BOATHOUSE.replace('[room]\nvolume = "38 m3"\nair_changes_per_hour = 0.7\n', "")
    assert read_plant(text).plant.room is None
    room = read_plant(text, overrides=["room.volume=20 m3"]).plant.room
    assert room is not None
    assert room.volume_m3 == pytest.approx(20.0)


def test_later_setting_wins() -> None:
    loaded = read_plant(BOATHOUSE, overrides=["title=first", "title=second"])
    assert loaded.plant.title == "second"


def test_part_and_table_of_one_name_are_told_apart_by_the_key() -> None:
    text = BOATHOUSE.replace('"return hose"', '"tub"')
    plant = read_plant(text, overrides=["tub.length=2 m", "tub.rim=1 m"]).plant
    lengths = {part.name: part.model_dump().get("length_m") for part in walk(plant.loop)}
    assert lengths["tub"]["nominal"] == pytest.approx(2.0)
    assert plant.tub.rim_m is not None
    assert plant.tub.rim_m.nominal == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("setting", "expected"),
    [
        ("return hose.length", '--set "return hose.length": is no setting; accepted: name.key=value; '
         'write: --set "return hose.length=2 m"'),
        (".length=2 m", '--set ".length=2 m": is no setting; accepted: name.key=value; '
         'write: --set "return hose.length=2 m"'),
        ("titel=x", '--set "titel=x": "titel" is no key that can be set; '
         "accepted: title, units, size, or name.key=value for a part or a table; write: title"),
        ("format=1", '--set "format=1": "format" is no key that can be set; '
         "accepted: title, units, size, or name.key=value for a part or a table"),
        ("return hoze.length=2 m", '--set "return hoze.length=2 m": no part or table has the name "return hoze"; '
         "accepted: suction fitting, reducer, flexible hose, pump, elbow 90, filter, split, injector, throttle valve, "
         "return hose, return, tub, room, gas_line, ozone, measured, fitted, bathers, timer, chiller, surroundings, "
             "fill_water, sanitizer, water_test, product; write: return hose"),
        ("return hose.lenght=2 m", '--set "return hose.lenght=2 m": there is no such key in flexible hose; '
         "accepted: name, size, height, inlet_end, outlet_end, material, sealant, length, bore, wall, bends, "
         "bend_radius, coil_diameter; write: length"),
        ("return hose.length=2", '--set "return hose.length=2": "2" has no unit; '
         'accepted: a length in quotes with its unit (m, cm, mm, in, ft) or "unknown"; write: length = "2.2 m"'),
        ("tub.rim=0.5 m", '--set "tub.rim=0.5 m": 0.500 m lies below the water level (0.800 m); '
         "accepted: a rim at or above the water level, from the same mark"),
        ("units=imperial", '--set "units=imperial": "imperial" is none of its words; accepted: "metric", "us"; '
         'write: units = "metric"'),
    ],
)  # fmt: skip
def test_setting_that_is_wrong_is_named(setting: str, expected: str) -> None:
    with pytest.raises(InputError) as caught:
        read_plant(BOATHOUSE, overrides=[setting])
    assert expected == str(caught.value)
