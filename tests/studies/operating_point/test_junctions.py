"""Tees of a split or merge: which leg loses what, in which order, and how that moves with the flows."""

from math import pi

import fluids
import numpy as np
import pytest

from sanitize.plant.loop import Split
from sanitize.studies.operating_point.junctions import leg_losses
from sanitize.studies.operating_point.topology import Meeting

BORE, DENSITY = 0.02624, 999.7
NOMINAL = np.full(1, 0.5)
SPLIT = Split(word="split", name="split", size="1", ways=("a", "b"))


def _meeting(ways: int, straight: int | None, diverging: bool) -> Meeting:
    return Meeting(0, SPLIT, diverging, 0, list(range(1, ways + 1)), straight)


def _head(flow: float) -> float:
    return DENSITY / 2.0 * (flow / (pi * BORE**2 / 4.0)) ** 2


def _losses(meeting: Meeting, *flows: float) -> list[float]:
    loss, _ = leg_losses(meeting, np.array(flows)[:, None], BORE, DENSITY, NOMINAL)
    return loss[:, 0].tolist()


@pytest.mark.parametrize("straight", [0, 1])
def test_straight_way_is_the_run_and_the_other_the_branch_where_water_parts(straight: int) -> None:
    flows = (3e-4, 5e-4)
    run, branch = flows[straight], flows[1 - straight]
    whole = _head(sum(flows))
    expected = [0.0, 0.0]
    expected[straight] = fluids.K_run_diverging_Crane(BORE, BORE, run, branch) * whole
    expected[1 - straight] = fluids.K_branch_diverging_Crane(BORE, BORE, run, branch) * whole
    assert expected == pytest.approx(_losses(_meeting(2, straight, True), *flows))


@pytest.mark.parametrize("straight", [0, 1])
def test_straight_way_is_the_run_and_the_other_the_branch_where_water_meets(straight: int) -> None:
    flows = (4e-4, 5e-4)
    run, branch = flows[straight], flows[1 - straight]
    whole = _head(sum(flows))
    expected = [0.0, 0.0]
    expected[straight] = fluids.K_run_converging_Crane(BORE, BORE, run, branch) * whole
    expected[1 - straight] = fluids.K_branch_converging_Crane(BORE, BORE, run, branch) * whole
    assert expected == pytest.approx(_losses(_meeting(2, straight, False), *flows))


def test_water_that_enters_by_the_branch_loses_the_more_the_larger_a_way(  # 1 + 0.3 q2
) -> None:
    whole = _head(8e-4)
    expected = [(1.0 + 0.3 * (3 / 8) ** 2) * whole, (1.0 + 0.3 * (5 / 8) ** 2) * whole]
    assert expected == pytest.approx(_losses(_meeting(2, None, True), 3e-4, 5e-4))


def test_runs_that_meet_in_the_branch_lose_2_less_3_q_and_3_q2() -> None:
    whole = _head(8e-4)
    expected = [(2.0 - 3.0 * q + 3.0 * q * q) * whole for q in (3 / 8, 5 / 8)]
    assert expected == pytest.approx(_losses(_meeting(2, None, False), 3e-4, 5e-4))


def test_three_ways_are_two_tees_in_a_row_with_the_straight_way_through_both() -> None:
    """Ways a, b, straight c: at the first tee a branches off 9 of 9, at the second b off what is left, 7."""
    a, b, c = 2e-4, 3e-4, 4e-4
    run_1 = fluids.K_run_diverging_Crane(BORE, BORE, b + c, a) * _head(a + b + c)
    expected = [
        fluids.K_branch_diverging_Crane(BORE, BORE, b + c, a) * _head(a + b + c),
        run_1 + fluids.K_branch_diverging_Crane(BORE, BORE, c, b) * _head(b + c),
        run_1 + fluids.K_run_diverging_Crane(BORE, BORE, c, b) * _head(b + c),
    ]
    assert expected == pytest.approx(_losses(_meeting(3, 2, True), a, b, c))


def test_three_ways_meet_at_two_tees_in_the_order_listed() -> None:
    a, b, c = 2e-4, 3e-4, 4e-4
    run_1 = fluids.K_run_converging_Crane(BORE, BORE, b + c, a) * _head(a + b + c)
    expected = [
        fluids.K_branch_converging_Crane(BORE, BORE, b + c, a) * _head(a + b + c),
        run_1 + fluids.K_branch_converging_Crane(BORE, BORE, c, b) * _head(b + c),
        run_1 + fluids.K_run_converging_Crane(BORE, BORE, c, b) * _head(b + c),
    ]
    assert expected == pytest.approx(_losses(_meeting(3, 2, False), a, b, c))


@pytest.mark.parametrize("diverging", [True, False])
@pytest.mark.parametrize(("ways", "straight"), [(2, None), (2, 0), (3, None), (3, 1), (4, 3)])
def test_slopes_of_the_legs_are_their_differences(ways: int, straight: int | None, diverging: bool) -> None:
    meeting = _meeting(ways, straight, diverging)
    flows = np.array([2.1e-4, 3.3e-4, 4.7e-4, 1.9e-4])[:ways, None]
    for rank in (0.1, 0.5, 0.95):
        _, slope = leg_losses(meeting, flows, BORE, DENSITY, np.full(1, rank))
        for other in range(ways):
            nudge = np.zeros_like(flows)
            nudge[other] = 1e-10
            up, _ = leg_losses(meeting, flows + nudge, BORE, DENSITY, np.full(1, rank))
            down, _ = leg_losses(meeting, flows - nudge, BORE, DENSITY, np.full(1, rank))
            assert (up - down) / 2e-10 == pytest.approx(slope[:, other], rel=1e-4, abs=1.0)


@pytest.mark.parametrize("diverging", [True, False])
@pytest.mark.parametrize(("ways", "straight"), [(2, None), (2, 0), (3, 1)])
def test_tees_never_make_energy(ways: int, straight: int | None, diverging: bool) -> None:
    """Flow times loss over all legs, for 500 random shares at the ends of the shift and in its middle."""
    generator = np.random.default_rng(5)
    flows = generator.dirichlet(np.ones(ways), 500).T * 1e-3
    for rank in (0.0, 0.5, 1.0):
        loss, _ = leg_losses(_meeting(ways, straight, diverging), flows, BORE, DENSITY, np.full(500, rank))
        assert np.all((flows * loss).sum(axis=0) > -1e-12)


def test_still_water_loses_nothing_at_tees() -> None:
    assert [0.0, 0.0] == _losses(_meeting(2, 0, True), 0.0, 0.0)
