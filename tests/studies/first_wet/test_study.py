"""Healthy loops pass the sheet as often as it says, and a fault trips the line that names it."""

from pathlib import Path

import numpy as np
import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.studies.first_wet import study as sheet
from sanitize.studies.first_wet.study import PASS_RATIO, study_first_wet

ICEHOUSE = (Path(__file__).parents[3] / "demos" / "icehouse.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def plant():
    return read_plant(ICEHOUSE).plant


@pytest.fixture(scope="module")
def first_wet(plant):
    return study_first_wet(plant, 256)


@pytest.fixture(scope="module")
def others(plant):
    """Readings of loops that the sheet has not seen: other cases, other errors; by fault, healthy ones first."""
    return sheet.read_by_fault(sheet.sound_loop(plant, 256, 77), sheet.ORDER, 77)


def inside(line, values):
    return (values >= line.low_limit) & (values <= line.high_limit)


def test_healthy_loops_pass_at_the_stated_rate(first_wet, others) -> None:
    """256 loops of another seed: a share of 0.90 give or take two standard errors of 0.019 twice over."""
    healthy = others["nothing wrong"]
    passing = np.all([inside(line, healthy[line.reading][1:]) for line in first_wet.lines], axis=0)
    assert first_wet.passes_ratio == pytest.approx(PASS_RATIO, abs=0.02)
    assert first_wet.passes_ratio == pytest.approx(float(np.mean(passing)), abs=0.06)


def test_fault_trips_the_line_that_names_it(first_wet, others) -> None:
    named = 0
    for line in first_wet.lines:
        for suspects, sign, limit in ((line.too_low, -1.0, line.low_limit), (line.too_high, 1.0, line.high_limit)):
            for suspect in suspects:
                values = others[suspect.fault][line.reading][1:]
                out = sign * (values[~np.isnan(values)] - limit) > 0.0
                assert suspect.share_ratio == pytest.approx(float(np.mean(out)), abs=0.15)
                named += 1
    assert named >= 8
    told = [item for line in first_wet.lines for item in (*line.too_low, *line.too_high)]
    seen = {item.fault for item in told if item.share_ratio >= sheet.NAMES_FROM_RATIO}
    assert {"pump worn", "filter torn", "filter loaded", "return partly blocked", "gas line kinked"} <= seen
    assert seen.isdisjoint(first_wet.unseen)
    assert set(others) - {"nothing wrong", sheet.AS_BUBBLES} == seen | set(first_wet.unseen)


def test_faults_that_the_eye_sees_are_not_said_to_be_unseen(first_wet) -> None:
    """The icehouse's port stands over the water: its leaking check valve shows nowhere; under it, it does."""
    assert sheet.AS_BUBBLES not in first_wet.unseen
    assert sheet.AS_RISING_WATER in first_wet.unseen
    drowned = read_plant(ICEHOUSE, overrides=("injector.height=0.70 m",)).plant
    assert sheet.AS_RISING_WATER not in study_first_wet(drowned, 64).unseen


def test_line_that_no_fault_trips_in_half_of_its_cases_names_the_nearest() -> None:
    guest = Path(__file__).parents[3] / "demos" / "guest_house.toml"
    lines = study_first_wet(read_plant(guest.read_text(encoding="utf-8")).plant, 256).lines
    sides = [side for line in lines for side in (line.too_low, line.too_high) if side]
    doubtful = [side for side in sides if side[0].share_ratio < sheet.NAMES_FROM_RATIO]
    assert doubtful
    assert all(len(side) <= 2 and side[-1].share_ratio >= sheet.DOUBTFUL_FROM_RATIO for side in doubtful)


def test_signs_are_those_of_the_trade(first_wet) -> None:
    """Common practice without a source: a worn pump pushes less, a loaded filter drops more, a torn one less."""
    lines = {line.reading: line for line in first_wet.lines}

    def faults(suspects):
        return {item.fault for item in suspects}

    assert "pump worn" in faults(lines["pump_pa_gauge"].too_low)
    assert "filter loaded" in faults(lines["filter_drop_pa"].too_high)
    assert "filter torn" in faults(lines["filter_drop_pa"].too_low)
    assert {"return shut", "pump stopped", "suction blocked"} <= faults(lines["bucket_flow_m3s"].too_low)
    assert {"gas line kinked", "gas check valve stuck shut"} <= faults(lines["gas_flow_m3s"].too_low)
    assert faults(lines["port_vacuum_pa"].too_low) == {"return partly blocked", "chiller blocked"}


def test_lines_come_with_the_water_first_and_the_gas_last(first_wet) -> None:
    assert list(sheet.ORDER) == [line.reading for line in first_wet.lines]


def test_chiller_of_a_fresh_fill_drops_by_its_capacity_in_that_water(plant, first_wet) -> None:
    """2.4 kW (1 + 0.03 (15 - 20) - 0.008 (10 - 25)) = 2328 W in fill water of 15 degC, not 1.3 kW at the set 3 degC."""
    line = next(line for line in first_wet.lines if line.reading == "chiller_drop_k")
    bucket = next(line for line in first_wet.lines if line.reading == "bucket_flow_m3s")
    assert 2328.0 / (1000.0 * bucket.expected.nominal * 4195.0) == pytest.approx(line.expected.nominal, rel=0.01)
    assert {"chiller gives no cold"} == {item.fault for item in line.too_low}
    assert "chiller blocked" in {item.fault for item in bucket.too_low}


def test_chiller_whose_drop_no_thermometer_can_tell_is_owned_up_to() -> None:
    """300 W in 56 L/min: 0.07 K, a quarter of what one thermometer can part."""
    weak = read_plant(ICEHOUSE, overrides=("chiller.capacity=300 W", "chiller.power=120 W")).plant
    assert "chiller gives no cold" in study_first_wet(weak, 64).unseen


def test_chiller_without_its_table_has_no_line_and_is_told() -> None:
    text = ICEHOUSE.replace("[chiller]", "[chiller_not]")
    start = text.index("[chiller_not]")
    result = study_first_wet(read_plant(text[:start] + text[text.index("[surroundings]") :]).plant, 64)
    assert "chiller_drop_k" not in {line.reading for line in result.lines}
    assert "chiller-without-line" in {notice.code for notice in result.notices}


def test_first_wet_without_an_injector_is_refused() -> None:
    text = (
        'format=1\nsize="3/4 in"\nloop=[{part="suction fitting",height="0.2 m"},{part="pump",height="0.3 m",'
        'curve=[["0 L/min","5 m"],["60 L/min","0 m"]]},{part="return",height="0.5 m"}]\n'
        '[tub]\nvolume="430 L"\nwater_level="0.8 m"\nwater_temperature="6 degC"\n'
    )
    with pytest.raises(InputError, match="no injector"):
        study_first_wet(read_plant(text).plant, 64)


def test_shut_off_pressure_at_the_gauge_does_not_depend_on_the_mark_of_the_heights() -> None:
    """Pump of 5 m at 1.05 of its curve and 0.5 m under the water: 5.75 m of water, whatever the mark is."""
    loop = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "A m"},
  {part = "pump", height = "B m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "injector", throat = "9 mm", height = "C m"},
  {part = "return", height = "D m"},
]
[tub]
volume = "430 L"
water_level = "E m"
water_temperature = "6 degC"
"""
    found = []
    for mark in (0.0, -3.0):
        text = loop
        for letter, height in zip("ABCDE", (0.2, 0.3, 0.9, 0.5, 0.8), strict=True):
            text = text.replace(f'"{letter} m"', f'"{height + mark:.2f} m"')
        found.append(study_first_wet(read_plant(text).plant, 64).shut_off_pressure_pa_gauge)
    # tape errors of 1 cm at both ends, at their worst
    assert found == pytest.approx([1000.0 * 9.80665 * 5.75] * 2, abs=250.0)
    assert found[0] == pytest.approx(found[1], rel=1e-3)
