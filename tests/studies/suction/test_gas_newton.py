"""Newton on water, gas and the bore's end together against the search between brackets, below and at the choke."""

from pathlib import Path

import numpy as np
import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction import gas_flow
from sanitize.studies.suction.states import gas_side, levels

SERIES = (Path(__file__).parents[2] / "benchmarks" / "series.toml").read_text()


def test_newton_equals_bracketed_search_on_both_sides_of_the_choke() -> None:
    """Two methods that share the laws alone: the brackets solve the water anew for every gas flow that they try.

    1e-7: the brackets stop at a mismatch of 1e-10 of the atmosphere, which the gas flow magnifies near its most.
    """
    plant = read_plant(SERIES, overrides=('injector.throat="9 mm"', 'gas_line.bore="8 mm"')).plant
    draws = Draws(256)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    assert running.port is not None
    gas = gas_side(plant, draws, running.port.height_m)
    answer, _ = gas_flow.gas_answer(plant, draws, running, gas)
    drawing = answer.gas_flow_m3s > 0.0
    choked, free = np.flatnonzero(drawing & answer.is_choked), np.flatnonzero(drawing & ~answer.is_choked)
    cases = np.concatenate([choked[:8], free[:8]])
    assert cases.size == 16
    rival = gas_flow._bracketed(plant, draws, running, gas, cases)
    assert rival.solved.all()
    np.testing.assert_allclose(answer.gas_flow_m3s[cases], rival.gas_flow_m3s, rtol=1e-7)
    np.testing.assert_allclose(answer.injector_flow_m3s[cases], rival.flow_m3s[running.port.link], rtol=1e-7)


def test_newton_leaves_no_case_to_the_brackets(monkeypatch: pytest.MonkeyPatch) -> None:
    """The brackets cost far more than Newton: of the benchmark's loop no case may need them."""
    plant = read_plant(SERIES).plant
    draws = Draws(1024)
    running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
    assert running.port is not None
    monkeypatch.delattr(gas_flow, "_bracketed")
    answer, _ = gas_flow.gas_answer(plant, draws, running, gas_side(plant, draws, running.port.height_m))
    assert answer.solved.all()
    assert answer.is_choked.any()
