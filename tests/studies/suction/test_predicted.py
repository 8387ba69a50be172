"""Each predicted reading is what the suction study says of the same place."""

from pathlib import Path

import numpy as np
import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.predicted import predicted
from sanitize.studies.suction.states import gas_side, levels
from sanitize.studies.suction.study import study_suction

SERIES = (Path(__file__).parents[2] / "benchmarks" / "series.toml").read_text(encoding="utf-8")


def test_readings_are_the_suction_studys_own_figures_with_a_vacuum_positive() -> None:
    plant = read_plant(SERIES).plant
    draws = Draws(0)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    assert running.port is not None
    gas = gas_side(plant, draws, running.port.height_m)
    study = study_suction(plant, 0)
    behind = {part.name: part.pressure_behind_pa_gauge.nominal for part in study.parts}
    expected = {
        "bucket_flow_m3s": study.flow_port_closed_m3s.nominal,
        "port_vacuum_pa": -study.port_pressure_closed_pa_gauge.nominal,
        "inlet_pa_gauge": study.injector_inlet_pressure_pa_gauge.nominal,
        "outlet_pa_gauge": study.injector_outlet_pressure_pa_gauge.nominal,
        "pump_pa_gauge": behind["pump"],
        "port_vacuum_open_pa": -study.port_pressure_open_pa_gauge.nominal,
        "gas_flow_m3s": study.gas_flow_m3s.nominal,
    }
    shown = predicted(plant, draws, running, gas, list(expected))
    for name, value in expected.items():
        assert value == pytest.approx(float(shown[name][0]), rel=1e-9), name
    assert np.all(shown["port_vacuum_open_pa"] > 0.0)


def test_reading_of_a_part_that_is_not_there_is_refused() -> None:
    plant = read_plant(SERIES).plant
    draws = Draws(0)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    with pytest.raises(ValueError, match="no injector"):
        predicted(plant, draws, running, None, ["gas_flow_m3s"])
