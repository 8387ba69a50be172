"""The gas line open in loops of which a way is shut: as the same loop without that way."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.gas_flow import GasAnswer, gas_answer
from sanitize.studies.suction.states import gas_side

PlantOf = Callable[..., Plant]
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
INJECTOR = '{part="injector",throat="9 mm",height="0.7 m"}'
RETURN = '{part="return",height="0.5 m"}'
SHUT = '{part="ball valve",handle="90 deg"}'
WEAK = PUMP.replace('"5 m"', '"1 m"').replace("height", 'name="weak",has_check_valve=true,height')
ALONE = f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="known loss",k=7.3}},{RETURN}]'
SPLIT = f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="split",ways=WAYS}},{RETURN}]\n'
SPLIT += f'way.open=[{{part="known loss",k=4}}]\nway.shut=[{SHUT}]'


def _gas(plant: Plant) -> GasAnswer:
    draws = Draws(0)
    running = run(plant, draws, Condition(np.full(1, 0.8)))
    assert running.port is not None
    return gas_answer(plant, draws, running, gas_side(plant, draws, running.port.height_m))[0]


@pytest.mark.parametrize("ways", ['["open","shut"]', '["shut","open"]'])
def test_gas_flow_before_a_split_with_a_shut_way_is_that_without_the_way(plant_of: PlantOf, ways: str) -> None:
    """The tee turns all its water, 1 + 0.3, and takes it back in one run, 2: a loss of 3.3 beside the way's own 4.

    Gas grows on its way, and losses with it, so that one coefficient in one place differs a little from three.
    """
    with_way, alone = _gas(plant_of(SPLIT.replace("WAYS", ways))), _gas(plant_of(ALONE))
    assert with_way.solved[0]
    assert float(alone.gas_flow_m3s[0]) == pytest.approx(float(with_way.gas_flow_m3s[0]), rel=0.02)
    assert float(alone.flow_m3s[0]) == pytest.approx(float(with_way.flow_m3s[0]), rel=0.002)


def test_gas_flow_beside_a_shut_bypass_is_that_of_the_loop_without_it(plant_of: PlantOf) -> None:
    """The side stream turns twice: 1.3 of the tee's table away from it, and 1.1 back (0.55 (1 + 1))."""
    bypass = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\nway.a=[{INJECTOR}]\n'
        f"way.b=[{SHUT}]"
    )
    turning = (1.0 + 0.3) * (1.0 + 0.3)
    series = (
        f'loop=[{SUCTION},{PUMP},{{part="known loss",k={turning}}},{INJECTOR},{{part="known loss",k=1.1}},{RETURN}]'
    )
    with_way, alone = _gas(plant_of(bypass)), _gas(plant_of(series))
    assert with_way.solved[0]
    assert float(alone.gas_flow_m3s[0]) == pytest.approx(float(with_way.gas_flow_m3s[0]), rel=0.02)


def test_gas_flow_beside_a_dead_headed_pump_is_that_of_the_strong_one_alone(plant_of: PlantOf) -> None:
    """The weaker pump's run stands still: the other loses 2 at the join, before any gas is in the water."""
    both = _gas(
        plant_of(
            f'loop=[{{part="join",ways=["a","b"]}},{INJECTOR},{RETURN}]\nway.a=[{SUCTION},{WEAK}]\nway.b=[{SUCTION},{PUMP}]'
        )
    )
    alone = _gas(plant_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=2}},{INJECTOR},{RETURN}]'))
    assert both.solved[0]
    assert float(alone.gas_flow_m3s[0]) == pytest.approx(float(both.gas_flow_m3s[0]), rel=1e-6)
    assert float(alone.flow_m3s[0]) == pytest.approx(float(both.flow_m3s[0]), rel=1e-6)


def test_dead_injector_draws_no_gas(plant_of: PlantOf) -> None:
    dead = plant_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\nway.b=[{{part="elbow 90"}}]\n'
        f'way.a=[{SHUT},{{part="injector",throat="8 mm",height="1.3 m"}}]'
    )
    assert 0.0 == float(_gas(dead).gas_flow_m3s[0])
