"""Rows give losses and true slopes; gathering them changes nothing but their number."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.laws.hydraulics.friction import transition
from sanitize.laws.hydraulics.pump_curve import fit_pump_curve
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.operating_point.assemble import assemble
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.rows import (
    Coil,
    Drive,
    Friction,
    Lift,
    Opening,
    Quadratic,
    Row,
    SmallReynolds,
    Water,
    merged,
    total,
)
from sanitize.studies.operating_point.stated_drops import FilterDrop, PowerDrop

PlantOf = Callable[..., Plant]
WATER = Water(10.0, 999.7, 1.3059e-3, 1228.2, 101_325.0)
CASES = 7
FLOW = np.array([-8e-4, -2e-5, 1e-6, 3e-5, 2e-4, 6e-4, 1.1e-3])
BORE = np.linspace(0.018, 0.028, CASES)
BRIDGE = transition(1.5e-6 / BORE)


def _full(value: float) -> Array:
    return np.full(CASES, value)


ROWS: dict[str, Row] = {
    "friction": Friction(BORE, _full(3.0), 1.0, BRIDGE),
    "ribbed": Friction(BORE, _full(3.0), _full(2.8), BRIDGE),
    "coil": Coil(BORE, _full(3.0), 1.0, BRIDGE, 0.4),
    "square": Quadratic(np.linspace(1e9, 3e10, CASES)),
    "small": SmallReynolds(4.0, 0.02624),
    "opening": Opening(_full(1500.0)),
    "lift": Lift(_full(-300.0)),
    "drive": Drive(fit_pump_curve([0.0, 4e-4, 1e-3], [5.0, 4.0, 0.0]), 0.9, np.linspace(0.85, 1.0, CASES)),
    "power drop": PowerDrop(_full(8000.0), 6e-4, np.linspace(1.0, 2.0, CASES)),
    "filter drop": FilterDrop(_full(6000.0), 6e-4, np.linspace(0.1, 0.7, CASES), 2.5),
}


@pytest.mark.parametrize("name", list(ROWS))
def test_slope_of_a_row_is_the_difference_of_its_losses(name: str) -> None:
    row = ROWS[name]
    nudge = 1e-6 * np.abs(FLOW)
    _, slope = row.loss(FLOW, WATER)
    by_difference = (row.loss(FLOW + nudge, WATER)[0] - row.loss(FLOW - nudge, WATER)[0]) / (2.0 * nudge)
    assert by_difference == pytest.approx(np.broadcast_to(slope, FLOW.shape), rel=1e-4, abs=1.0)


@pytest.mark.parametrize("name", ["friction", "ribbed", "coil", "square", "small", "power drop", "filter drop"])
def test_loss_of_a_resistance_turns_with_the_flow(name: str) -> None:
    row = ROWS[name]
    assert -row.loss(FLOW, WATER)[0] == pytest.approx(row.loss(-FLOW, WATER)[0])


def test_drive_is_minus_the_pump_s_pressure() -> None:
    """At rest: 5 m times the speed squared and the factor, as pressure."""
    loss, _ = ROWS["drive"].loss(np.zeros(CASES), WATER)
    assert -999.7 * 9.80665 * 5.0 * 0.81 * np.linspace(0.85, 1.0, CASES) == pytest.approx(loss)


def test_gathered_rows_lose_what_all_rows_do() -> None:
    rows = [*ROWS.values(), Friction(BORE, _full(1.5), 1.0, BRIDGE), Quadratic(_full(5e9)), SmallReynolds(2.0, 0.02624)]
    few = merged(rows)
    assert len(ROWS) == len(few)
    for all_of, gathered in zip(total(rows, FLOW, WATER), total(few, FLOW, WATER), strict=True):
        assert all_of == pytest.approx(gathered)


def test_rows_of_other_bores_or_walls_are_not_gathered() -> None:
    other = BORE.copy()
    rows = [ROWS["friction"], ROWS["ribbed"], Friction(other, _full(3.0), 1.0, transition(1.5e-6 / other))]
    assert 3 == len(merged([*rows, SmallReynolds(1.0, 0.02), SmallReynolds(1.0, 0.03)])) - 2


def test_pipes_of_one_size_become_one_row_of_the_loop(plant_of: PlantOf) -> None:
    """They share the array of their bore, measured pipes do not."""
    pipe = '{part="pipe",length="1 m"}'
    loop = (
        'loop=[{part="suction fitting",height="0.2 m"},'
        '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]},'
        f'{pipe},{pipe},{pipe},{{part="pipe",length="1 m",bore="26 mm"}},{{part="return",height="0.5 m"}}]'
    )
    assembly = assemble(plant_of(loop), Draws(4), Condition(np.full(5, 0.8)))
    rows = merged([row for item in assembly.parts for row in item.rows])
    lengths = sorted(float(row.length_m[0]) for row in rows if isinstance(row, Friction))
    assert [1.0, 3.0] == pytest.approx(lengths)
