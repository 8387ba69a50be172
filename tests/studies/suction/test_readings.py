"""Readings narrow the cases: towards a hidden truth, never without saying how many cases are left."""

from pathlib import Path

import numpy as np
import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import read_plant
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.readings import _prior, narrowed
from sanitize.studies.suction.states import levels
from sanitize.studies.suction.study import study_suction

SERIES = (Path(__file__).parents[2] / "benchmarks" / "series.toml").read_text()


def with_readings(*lines: str) -> str:
    return SERIES + "\n[measured]\n" + "\n".join(lines) + "\n"


def truth(case: int = 37) -> tuple[float, float]:
    """Bucket flow [L/min] and port vacuum [kPa] of one hidden case of the same file."""
    from sanitize.studies.draws import Draws

    plant = read_plant(SERIES).plant
    draws = Draws(64, seed=5)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    assert running.port is not None
    return float(running.flow_m3s[case] * 60000.0), float(-running.port.port_pa_gauge[case] / 1000.0)


def test_no_readings_leave_the_draws_alone() -> None:
    _, narrowing, notices = narrowed(read_plant(SERIES).plant, 256, 1)
    assert narrowing is None
    assert notices == []


def test_readings_of_a_hidden_case_hold_it_and_narrow_the_ranges() -> None:
    flow, vacuum = truth()
    text = with_readings(f'bucket_flow = "{flow:.3f} L/min +- 1 L/min"', f'port_vacuum = "{vacuum:.3f} kPa +- 1 kPa"')
    before, after = study_suction(read_plant(SERIES).plant, 1024), study_suction(read_plant(text).plant, 1024)
    narrowing = after.narrowing
    assert narrowing is not None
    low, _, high = after.port_pressure_closed_pa_gauge.ends
    assert low - 500.0 <= -1000.0 * vacuum <= high + 500.0
    assert high - low < 0.5 * (
        before.port_pressure_closed_pa_gauge.ends[2] - before.port_pressure_closed_pa_gauge.ends[0]
    )
    assert narrowing.port_pressure_width_ratio < 0.5
    assert narrowing.effective_cases_count > 0


def test_more_exact_reading_narrows_more() -> None:
    _, vacuum = truth()
    widths = []
    for error in ("4 kPa", "1 kPa"):
        plant = read_plant(with_readings(f'port_vacuum = "{vacuum:.3f} kPa +- {error}"')).plant
        narrowing = narrowed(plant, 512, 1)[1]
        assert narrowing is not None
        widths.append(narrowing.port_pressure_width_ratio)
    assert widths[1] < widths[0] < 1.0


def test_gas_reading_calibrates_the_gas_flow() -> None:
    plant = read_plant(with_readings('gas_flow = "5 L/min +- 0.5 L/min"')).plant
    narrowing = narrowed(plant, 512, 1)[1]
    assert narrowing is not None
    used = narrowing.readings[0]
    assert used.after.ends[0] * 60000.0 > 4.0
    assert used.after.ends[2] * 60000.0 < 6.0


def test_reading_that_no_case_explains_is_refused_with_its_miss() -> None:
    plant = read_plant(with_readings('pump_pressure = "200 kPa +- 1 kPa"')).plant
    with pytest.raises(
        InputError, match=r"\[measured\] pump_pressure: no case that the file allows comes near 200 kPa"
    ):
        narrowed(plant, 256, 1)


def test_two_readings_that_contradict_each_other_are_refused_or_said() -> None:
    """Each alone is possible; together they leave few cases, which is said."""
    plant = read_plant(
        with_readings('port_vacuum = "36 kPa +- 0.5 kPa"', 'outlet_pressure = "1.6 kPa +- 0.5 kPa"')
    ).plant
    _, narrowing, notices = narrowed(plant, 64, 1)
    assert narrowing is not None
    assert [notice.code for notice in notices] == ["few-cases-fit-readings"]
    assert narrowing.effective_cases_count < 400


def test_chosen_cases_are_whole_cases_of_the_first_draw() -> None:
    """Each narrowed case carries all its inputs together: its column of ranks is one of the drawn columns."""
    plant = read_plant(with_readings('port_vacuum = "28 kPa +- 8 kPa"')).plant
    draws, _, _ = narrowed(plant, 1024, 1)
    first = _prior(plant, 1024, 1).draws
    keys = [key for key in draws.inputs if first.inputs[key].rank.size == first.size]
    drawn = {tuple(column) for column in np.stack([first.inputs[key].rank for key in keys]).T}
    chosen = [tuple(column) for column in np.stack([draws.inputs[key].rank for key in keys]).T]
    assert len(chosen) == 1025
    assert set(chosen) <= drawn
    assert len(set(chosen)) < len(chosen)
