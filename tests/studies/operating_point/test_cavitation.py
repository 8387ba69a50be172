"""Slopes of the whole network against differences, with the throat full and choked; the port read along open ways."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.operating_point.solve import SMALLEST_SLOPE, Network

RunOf = Callable[..., Run]
SUCTION = '{part="suction fitting",height="0.2 m"}'
STRONG = '{part="pump",height="0.3 m",curve=[["0 L/min","30 m"],["80 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
INJECTOR = '{part="injector",throat="4 mm",height="0.6 m"}'
LOSS = '{part="known loss",k=20}'


def _worst_slope_error(network: Network, flow: np.ndarray, seed: int = 0) -> float:
    """Largest error of the slopes along a random change of all flows, over the row's slopes, by central differences.

    A link without parts has the smallest slope though it loses nothing: far below what any part has.
    """
    _, jacobian, _, _ = network.losses(flow)
    change = flow * np.random.default_rng(seed).normal(size=flow.shape)
    nudge = 1e-6
    by_difference = (network.losses(flow + nudge * change)[0] - network.losses(flow - nudge * change)[0]) / (2 * nudge)
    by_slopes = np.einsum("ijn,jn->in", jacobian, change)
    size = np.maximum(np.abs(jacobian).max(axis=1), 1e4 * SMALLEST_SLOPE) * np.abs(change).max(axis=0)
    return float(np.max(np.abs(by_difference - by_slopes) / size))


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_slopes_of_a_random_tree_are_its_losses_differences(random_plant: Callable[[int], Plant], seed: int) -> None:
    """At flows all forward, so that no tee stands at the edge between two patterns; 1e-3 for what bends inside a nudge.

    Where a pipe, fitting or tee has its bend inside the nudge, the difference itself is in doubt; another flow is not.
    """
    draws = Draws(0)
    answer = run(random_plant(seed), draws, Condition(np.full(1, 0.8)))
    generator = np.random.default_rng(seed)
    errors = []
    for _ in range(2):
        x = np.linalg.lstsq(answer.network.topology.paths, np.abs(answer.solution.flow_m3s), rcond=None)[0]
        flow = np.abs(answer.network.topology.paths @ x) * generator.uniform(0.7, 1.3, (len(answer.network.rows), 1))
        errors.append(_worst_slope_error(answer.network, flow + 1e-6, seed))
    assert min(errors) < 1e-3


@pytest.mark.parametrize(
    "loop",
    [
        f"loop=[{SUCTION},{STRONG},{INJECTOR},{LOSS},{RETURN}]",
        f'loop=[{SUCTION},{STRONG},{{part="split",ways=["a","b"],straight="b"}},{LOSS},{RETURN}]\n'
        f'way.a=[{INJECTOR},{{part="elbow 90"}}]\nway.b=[{{part="known loss",name="x",k=50}}]',
        f'loop=[{SUCTION},{STRONG},{INJECTOR},{{part="split",ways=["a","b"]}},{RETURN}]\n'
        f'way.a=[{LOSS}]\nway.b=[{{part="elbow 90"}}]',
        f'loop=[{SUCTION},{STRONG},{INJECTOR},{{part="split",ways=["a","b"]}}]\n'
        f'way.a=[{LOSS},{RETURN}]\nway.b=[{{part="return",name="second",height="0.6 m"}}]',
    ],
    ids=["series", "side stream", "before a split", "before two returns"],
)
def test_slopes_with_a_choked_throat_are_the_losses_differences(run_of: RunOf, loop: str) -> None:
    answer = run_of(loop)
    assert answer.port is not None
    assert answer.port.cavitates[0]
    flow = answer.solution.flow_m3s * np.linspace(1.02, 1.06, len(answer.solution.flow_m3s))[:, None]
    assert answer.network.losses(flow)[3][0] > 0.0
    assert _worst_slope_error(answer.network, flow) < 1e-6


def test_choked_throat_takes_the_pressure_that_is_left_over(run_of: RunOf) -> None:
    """The extra loss is what the vapour pressure stands above the port that water without boiling would make."""
    answer = run_of(f"loop=[{SUCTION},{STRONG},{INJECTOR},{LOSS},{RETURN}]")
    network, flow = answer.network, answer.solution.flow_m3s
    assert network.cavitation is not None
    loss, _, legs, extra = network.losses(flow)
    free = network.cavitation.port_without_floor_pa_abs(flow, loss, legs, network.assembly.water)
    assert network.assembly.water.vapour_pa_abs - float(free[0]) == pytest.approx(float(extra[0]))
    assert float(extra[0]) > 0.0


def test_full_throat_takes_nothing_extra(run_of: RunOf) -> None:
    answer = run_of(f"loop=[{SUCTION},{STRONG},{INJECTOR.replace('4 mm', '14 mm')},{LOSS},{RETURN}]")
    assert 0.0 == float(answer.solution.extra_pa[0])
    assert not answer.port or not answer.port.cavitates[0]
