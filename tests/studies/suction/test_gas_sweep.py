"""The sweep behind the gas picture: one quantity varied, everything else as in the file."""

from pathlib import Path

import numpy as np
import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.changed import with_part
from sanitize.studies.suction.gas_sweep import study_gas_sweep
from sanitize.studies.suction.study import study_suction

SERIES = (Path(__file__).parents[2] / "benchmarks" / "series.toml").read_text()


def test_sweep_names_the_quantity_that_moves_the_port_most() -> None:
    """By hand: 1.5 m of injector height weigh 14.7 kPa; 0.6 to 3.75 m of 3/4 in hose at 40 L/min lose about 5 kPa."""
    sweep = study_gas_sweep(read_plant(SERIES).plant)
    assert sweep.label == "height of injector"
    assert sweep.here_m == pytest.approx(1.05)


def test_sweep_of_a_low_throat_in_a_long_return_names_the_hose() -> None:
    plant = read_plant(SERIES, overrides=['return hose.length="12 m"']).plant
    assert study_gas_sweep(plant).label == "length of return hose"


def test_injector_lifted_draws_more_all_along() -> None:
    """Common practice, no source: lifting the injector is the cheapest way to gain suction."""
    sweep = study_gas_sweep(read_plant(SERIES).plant)
    ports = [item.ends[1] for item in sweep.port_pressure_closed_pa_gauge]
    assert np.all(np.diff(sweep.values_m) > 0.0)
    assert np.all(np.diff(ports) < 0.0)


def test_sweep_at_the_files_value_equals_the_study() -> None:
    plant = read_plant(SERIES).plant
    sweep = study_gas_sweep(plant)
    near = int(np.argmin(np.abs(np.array(sweep.values_m) - 1.0)))
    moved = read_plant(SERIES, overrides=[f'injector.height="{sweep.values_m[near]:.9f} m"']).plant
    answer = study_suction(moved, cases=256)
    assert answer.port_pressure_closed_pa_gauge.nominal == pytest.approx(
        sweep.port_pressure_closed_pa_gauge[near].nominal, rel=1e-6
    )
    assert answer.gas_flow_m3s.nominal == pytest.approx(sweep.gas_flow_m3s[near].nominal, rel=1e-6)


def test_with_part_changes_one_part_and_refuses_an_unknown_name() -> None:
    plant = read_plant(SERIES).plant
    hose = next(item for item in plant.loop.items if item.name == "return hose")
    changed = with_part(plant, "return hose", wall="ribbed")
    assert [item for item in changed.loop.items if item.name != "return hose"] == [
        item for item in plant.loop.items if item.name != "return hose"
    ]
    assert next(item for item in changed.loop.items if item.name == "return hose") == hose.model_copy(
        update={"wall": "ribbed"}
    )
    with pytest.raises(KeyError):
        with_part(plant, "no such part", wall="ribbed")
