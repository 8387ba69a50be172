"""Readings in a file of their own are laid over those of the loop file."""

from typing import Any

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "return", height = "0.5 m"},
]
[tub]
volume = "430 L"
water_level = "0.8 m"
water_temperature = "6 degC"
[measured]
bucket_flow = "30 L/min"
"""


def problems_of(text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_plant(LOOP, measured=("readings.toml", text))
    return str(caught.value)


def test_readings_replace_those_of_the_loop_file_key_by_key() -> None:
    measured = read_plant(
        LOOP, measured=("r.toml", '[measured]\npump_pressure = "20 kPa"\nbucket_flow = "33 L/min"\n')
    ).plant.measured
    assert (33 / 60e3, 20e3) == pytest.approx((measured.bucket_flow_m3s.nominal, measured.pump_pa_gauge.nominal))


def test_reading_without_its_unit_is_named_with_its_file() -> None:
    text = problems_of("[measured]\nbucket_flow = 33\n")
    assert text.startswith("readings.toml: [measured] bucket_flow: 33 has no unit")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "readings.toml: [measured]: is missing or empty"),
        ("measured = 3", "readings.toml: [measured]: 3 is no table"),
        ('[measured]\nbuket_flow = "30 L/min"', "there is no such key in [measured]"),
        (
            '[tub]\nvolume = "3 L"\n[measured]\nbucket_flow = "30 L/min"',
            "readings.toml: tub: belongs into the loop file",
        ),
        ('format = 2\n[measured]\nbucket_flow = "30 L/min"', "readings.toml: format: 2 is no format"),
        ("[measured", "readings.toml"),
    ],
)
def test_readings_file_that_is_wrong_is_told_as_one(text: str, said: str) -> None:
    assert said in problems_of(text)


@pytest.mark.parametrize(
    ("beside", "kept"),
    [
        ({}, {"bucket_flow_m3s"}),
        ({"measured": ("r.toml", '[measured]\npump_pressure = "20 kPa"\n')}, {"pump_pa_gauge"}),
        ({"overrides": ("measured.pump_pressure=20 kPa",)}, {"pump_pa_gauge"}),
    ],
)
def test_new_readings_stand_alone_on_a_fitted_file(beside: dict[str, Any], kept: set[str]) -> None:
    loaded = read_plant(LOOP + '[fitted]\nunknowns = ["pump.head"]\ncases = [[0.0]]\n', **beside)
    assert kept == {name for name, band in loaded.plant.measured if band is not None}
    assert bool(beside) == loaded.has_new_readings
