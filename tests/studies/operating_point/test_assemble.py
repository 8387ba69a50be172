"""Steps between neighbours, at both ends of a way, and the notices that say so."""

from collections.abc import Callable
from math import pi

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.assemble import assemble
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
IN_1, IN_3_4, IN_1_2 = 0.02624, 0.02057, 0.01544
"""Bores of 1, 3/4 and 1/2 in fittings [m]."""


def _head_pa(answer: Run, k: float, flow: float, bore: float) -> float:
    return k * answer.assembly.water.density_kgm3 / 2.0 * (flow / (pi * bore**2 / 4.0)) ** 2


def _borda(small: float, large: float) -> float:
    return (1.0 - (small / large) ** 2) ** 2


def _contraction(small: float, large: float) -> float:
    return 0.5 * (1.0 - (small / large) ** 2)


def test_unnamed_steps_of_a_row_are_counted_on_the_smaller_bore_and_said(run_of: RunOf) -> None:
    """1 in to 3/4 in and back: 0.5 (1 - b2) and (1 - b2)2, b2 = (20.57 / 26.24)2, on the head in 20.57 mm."""
    answer = run_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=1,size="3/4 in"}},{RETURN}]')
    flow = float(answer.flow_m3s[0])
    narrow = _head_pa(answer, 1.0 + _contraction(IN_3_4, IN_1), flow, IN_3_4)
    assert narrow == pytest.approx(float(answer.station("known loss").loss_pa[0]))
    back = _head_pa(answer, _borda(IN_3_4, IN_1), flow, IN_3_4) + _head_pa(answer, 1.0, flow, IN_1)
    assert back == pytest.approx(float(answer.station("return").loss_pa[0]))
    texts = [notice.text for notice in answer.assembly.notices if notice.code == "step-counted"]
    assert ["known loss", "return"] == [text.split(" in front of ")[1].split(";")[0] for text in texts]


def test_named_reducer_is_counted_once(run_of: RunOf) -> None:
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="reducer",to="3/4 in"}},{{part="known loss",k=1}},'
        f'{{part="reducer",to="1 in"}},{RETURN}]'
    )
    flow = float(answer.flow_m3s[0])
    into = _head_pa(answer, _contraction(IN_3_4, IN_1), flow, IN_3_4)
    assert into == pytest.approx(float(answer.station("reducer (1)").loss_pa[0]))
    assert _head_pa(answer, _borda(IN_3_4, IN_1), flow, IN_3_4) == pytest.approx(
        float(answer.station("reducer (2)").loss_pa[0])
    )
    assert [] == [notice.code for notice in answer.assembly.notices]


def test_narrow_way_steps_down_behind_its_tee_and_up_before_the_other(run_of: RunOf) -> None:
    """The tees are 1 in, the way 1/2 in: both steps stand on the way's bore."""
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\n'
        'way.a=[{part="known loss",k=1,size="1/2 in"}]\nway.b=[{part="elbow 90"}]'
    )
    station = answer.station("known loss")
    k = _contraction(IN_1_2, IN_1) + 1.0 + _borda(IN_1_2, IN_1)
    assert _head_pa(answer, k, float(station.flow_m3s[0]), IN_1_2) == pytest.approx(float(station.loss_pa[0]))
    texts = [notice.text for notice in answer.assembly.notices if notice.code == "step-counted"]
    assert ["in front of known loss", "behind known loss"] == [
        text.split(" is counted ")[1].split(";")[0] for text in texts
    ]


def test_step_behind_an_injector_that_ends_its_way_presses_on_its_outlet(run_of: RunOf) -> None:
    """The outlet's total pressure is what the step behind it, the tee and the rest lose."""
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\n'
        'way.a=[{part="injector",throat="8 mm",height="0.6 m",size="1/2 in"}]\nway.b=[{part="known loss",k=20}]'
    )
    assert answer.port is not None
    flow = float(answer.port.flow_m3s[0])
    rejoins = float(answer.station("split: a rejoins").loss_pa[0] + answer.station("return").loss_pa[0])
    behind = rejoins + _head_pa(answer, _borda(IN_1_2, IN_1), flow, IN_1_2)
    raised = answer.assembly.water.density_kgm3 * 9.80665 * (0.6 - 0.8)
    static = behind - raised - _head_pa(answer, 1.0, flow, IN_1_2)
    assert static == pytest.approx(float(answer.port.outlet_pa_gauge[0]), abs=1e-3)


def test_suction_and_first_part_make_no_step_from_the_tub(plant_of: PlantOf) -> None:
    assembly = assemble(plant_of(f"loop=[{SUCTION},{PUMP},{RETURN}]"), Draws(0), Condition(np.full(1, 0.8)))
    assert [1, 1, 2] == [len(item.rows) for item in assembly.parts]
