"""A flow that no pump of the file moves is refused by every command that would use it."""

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.studies.cloudy.prepared import prepare
from sanitize.studies.fit.study import study_fit
from sanitize.studies.suction.study import study_suction

LOOP = """
format = 1
size = "1 in"
loop = [
  {part = "suction fitting", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "injector", throat = "9 mm", height = "0.9 m"},
  {part = "return", height = "0.5 m"},
]
[tub]
volume = "430 L"
water_level = "0.8 m"
water_temperature = "6 degC"
"""
USERS = {
    "suction": lambda plant: study_suction(plant, 64),
    "fit": lambda plant: study_fit(plant, 64),
    "cloudy": lambda plant: prepare(plant, 16),
}


@pytest.mark.parametrize("user", USERS)
def test_flow_above_the_pumps_largest_is_refused_with_that_flow(user: str) -> None:
    plant = read_plant(LOOP, overrides=("measured.bucket_flow=70 L/min",)).plant
    with pytest.raises(InputError, match=r"70 L/min is more than the pump's largest flow, 60 L/min"):
        USERS[user](plant)


@pytest.mark.parametrize(
    ("speed", "read", "refused"), [("1450 rpm", "35 L/min", True), ("2900 rpm", "61 L/min", False)]
)
def test_largest_flow_goes_with_the_speed_and_a_readings_error_counts(speed: str, read: str, refused: bool) -> None:
    """At half the speed 30 L/min; 61 L/min give or take 3 may be 60."""
    settings = ("pump.curve_speed=2900 rpm", f"pump.speed={speed}", f"measured.bucket_flow={read}")
    plant = read_plant(LOOP, overrides=settings).plant
    if refused:
        with pytest.raises(InputError, match="30 L/min by the file"):
            prepare(plant, 16)
    else:
        prepare(plant, 16)
