"""What stands in a file comes back as it was written, changes and settings laid over it."""

from sanitize.loopfile.read import read_plant

TEXT = """
format = 1
title = "A tub"
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m"},
  {part = "pump", name = "the pump", height = "0.1 m", curve = [["30 L/min", "3 m"]], running = true},
  {part = "elbow 90", count = 2},
  {part = "return", height = "50 cm"},
]
[tub]
volume = "400 L"
water_level = "0.8 m"
water_temperature = "10 degC"
"""


def test_written_holds_the_text_of_every_value_by_place_and_key() -> None:
    found = read_plant(TEXT).written
    expected = {
        ("", "title"): '"A tub"',
        ("", "size"): '"3/4 in"',
        ("the pump", "name"): '"the pump"',
        ("the pump", "curve"): '[["30 L/min", "3 m"]]',
        ("the pump", "running"): "true",
        ("elbow 90", "count"): "2",
        ("return", "height"): '"50 cm"',
        ("[tub]", "water_temperature"): '"10 degC"',
    }
    assert expected == {key: found[key] for key in expected}
    assert ("elbow 90", "name") not in found


def test_written_is_what_a_setting_puts_there() -> None:
    found = read_plant(TEXT, overrides=("return.height=0.6 m", "tub.rim=0.9 m")).written
    assert ('"0.6 m"', '"0.9 m"') == (found["return", "height"], found["[tub]", "rim"])


def test_written_is_what_a_change_puts_there() -> None:
    other = 'format = 1\nbased_on = "base.toml"\n[change."the pump"]\nheight = "15 cm"\n'
    found = read_plant(other, path="other.toml", reader={"base.toml": TEXT}.__getitem__).written
    assert ('"15 cm"', "true") == (found["the pump", "height"], found["the pump", "running"])


def test_written_holds_a_part_of_ones_own_under_its_real_word() -> None:
    own = '[part."my elbow"]\npart = "elbow 90"\nsize = "1 in"\n'
    text = TEXT.replace('title = "A tub"', 'parts_file = "own.toml"').replace('"elbow 90", count', '"my elbow", count')
    found = read_plant(text, path="tub.toml", reader={"own.toml": own}.__getitem__).written
    assert ('"elbow 90"', '"1 in"') == (found["my elbow", "part"], found["my elbow", "size"])
