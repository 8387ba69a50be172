"""The injector's dry coefficients from what the file knows of it: throat, loss ratio, diffuser, bench."""

from collections.abc import Callable
from math import pi

import numpy as np
import pytest

from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant, walk
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Builder, Condition
from sanitize.studies.operating_point.injector_model import InjectorModel, injector_model

PlantOf = Callable[..., Plant]
L_MIN = 1.0 / 60_000.0
IN_1 = 0.02624
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
DENSITY_10, DENSITY_20 = 999.7025, 998.2072


def _model(plant_of: PlantOf, fields: str, cases: int = 0) -> tuple[InjectorModel, Builder]:
    plant = plant_of(f'loop=[{SUCTION},{PUMP},{{part="injector",height="0.7 m",{fields}}},{RETURN}]')
    draws = Draws(cases)
    builder = Builder(plant, draws, Condition(np.full(draws.size, 0.8)))
    part = next(part for part in walk(plant.loop) if isinstance(part, Injector))
    return injector_model(part, builder), builder


def _area(bore: float) -> float:
    return pi * bore**2 / 4.0


def test_throat_alone_gives_the_tables_discharge_and_loss_ratio(plant_of: PlantOf) -> None:
    """Nominal Cd 0.96 and xi 0.24; (p1 - po)/Z = (1 - B4)/Cd2."""
    model, builder = _model(plant_of, 'throat="8 mm"')
    b4 = (_area(0.008) / _area(IN_1)) ** 2
    assert (1.0 - b4) / 0.96**2 == pytest.approx(float(model.nozzle_drop[0]))
    assert 0.24 == pytest.approx(float(model.loss_ratio[0]))
    assert "injector-by-geometry" in {notice.code for notice in builder.notices}


def test_loss_ratio_of_a_throat_alone_spans_13_to_78_percent_with_its_middle_at_24(plant_of: PlantOf) -> None:
    model, _ = _model(plant_of, 'throat="8 mm"', cases=1024)
    ratio = model.loss_ratio[1:]
    assert 0.13 <= ratio.min() < 0.131
    assert 0.77 < ratio.max() <= 0.78
    assert 512 == np.sum(ratio < 0.24)


def test_stated_loss_ratio_and_discharge_are_taken(plant_of: PlantOf) -> None:
    model, builder = _model(plant_of, 'throat="8 mm",loss_ratio=0.3,discharge_coefficient=0.93')
    b4 = (_area(0.008) / _area(IN_1)) ** 2
    assert 0.3 == pytest.approx(float(model.loss_ratio[0]))
    assert (1.0 - b4) / 0.93**2 == pytest.approx(float(model.nozzle_drop[0]))
    assert "injector-by-geometry" not in {notice.code for notice in builder.notices}


def test_steeper_diffuser_wins_back_less(plant_of: PlantOf) -> None:
    """Between 7 and 30 degrees published losses rise from about 0.12 to 0.5 of the cone's inlet head."""
    recoveries = [
        float(_model(plant_of, f'throat="8 mm",diffuser_angle="{angle} deg"')[0].recovery[0]) for angle in (7, 15, 30)
    ]
    assert sorted(recoveries, reverse=True) == recoveries
    assert recoveries[0] - recoveries[2] > 0.2


def test_diffuser_by_angle_is_the_momentum_and_cone_balance(plant_of: PlantOf) -> None:
    """kappa = 2b - b2 (1 + Km + Kd) - r2, r = An/A2, b = (8/9)2, Km 0.05; Kd of 15 degrees from the throat only.

    Kd follows from the result and must be what is published at 15 degrees, 0.20 to 0.26.
    """
    model, _ = _model(plant_of, 'throat="8 mm",mixing_bore="9 mm",diffuser_angle="15 deg"')
    b, r = (8.0 / 9.0) ** 2, _area(0.008) / _area(IN_1)
    loss = (2.0 * b - r**2 - float(model.recovery[0])) / b**2 - 1.0 - 0.05
    assert 0.18 < loss < 0.27


def test_two_bench_figures_and_a_throat_give_both_coefficients(plant_of: PlantOf) -> None:
    """30 kPa from inlet to port and 23 kPa back at 25 L/min: xi = 7/30 whatever the throat."""
    fields = 'throat="8 mm",inlet_to_port=["30 kPa","25 L/min"],outlet_to_port=["23 kPa","25 L/min"]'
    model, _ = _model(plant_of, fields)
    assert 7.0 / 30.0 == pytest.approx(float(model.loss_ratio[0]))
    z_at_20 = DENSITY_20 / 2.0 * (25.0 * L_MIN / _area(0.008)) ** 2
    assert 30_000.0 / z_at_20 == pytest.approx(float(model.nozzle_drop[0]), rel=1e-5)
    assert 23_000.0 * DENSITY_10 / DENSITY_20 / (25.0 * L_MIN) ** 2 == pytest.approx(
        float(model.recovery_pa_s2m6[0]), rel=1e-5
    )


def test_bench_figures_without_a_throat_find_one_that_gives_them_back(plant_of: PlantOf) -> None:
    """Cd 0.96: 1/An2 = 2 k1 Cd2/rho + 1/A1^2."""
    model, _ = _model(plant_of, 'inlet_to_port=["30 kPa","25 L/min"],outlet_to_port=["23 kPa","25 L/min"]')
    k1 = 30_000.0 / (25.0 * L_MIN) ** 2 * DENSITY_10 / DENSITY_20
    throat = (2.0 * k1 * 0.96**2 / DENSITY_10 + 1.0 / _area(IN_1) ** 2) ** -0.5
    assert throat == pytest.approx(float(model.throat_m2[0]), rel=1e-5)
    assert k1 == pytest.approx(float(model.nozzle_drop[0] * model.dynamic_pa_s2m6[0]), rel=1e-5)
    assert 7.0 / 30.0 == pytest.approx(float(model.loss_ratio[0]))


def _bench_row(flow: float, outlet: float) -> str:
    """A row of an injector with k1 = 30 kPa and k2 = 23 kPa at 25 L/min, outlet gauge pressure given [kPa]."""
    square = (flow / 25.0) ** 2
    port = outlet - 23.0 * square
    return f'["{flow} L/min","{port + 30.0 * square} kPa","{outlet} kPa","{-port} kPa"]'


def test_bench_rows_at_several_flows_give_the_constants_behind_them(plant_of: PlantOf) -> None:
    rows = ",".join(_bench_row(flow, 4.0) for flow in (15.0, 20.0, 25.0, 30.0))
    model, _ = _model(plant_of, f'throat="8 mm",bench=[{rows}]')
    assert 7.0 / 30.0 == pytest.approx(float(model.loss_ratio[0]), rel=1e-6)
    assert 23_000.0 * DENSITY_10 / DENSITY_20 / (25.0 * L_MIN) ** 2 == pytest.approx(
        float(model.recovery_pa_s2m6[0]), rel=1e-5
    )


def test_bench_row_with_a_boiling_port_is_left_out_and_said(plant_of: PlantOf) -> None:
    """At 60 L/min the port would stand at 132 kPa below the outlet: its gauge shows 95 kPa of vacuum and lies."""
    rows = ",".join(_bench_row(flow, 4.0) for flow in (15.0, 20.0, 25.0, 30.0))
    model, builder = _model(plant_of, f'throat="8 mm",bench=[{rows},["60 L/min","77 kPa","4 kPa","95 kPa"]]')
    assert 7.0 / 30.0 == pytest.approx(float(model.loss_ratio[0]), rel=1e-6)
    assert "bench-rows-dropped" in {notice.code for notice in builder.notices}


def test_throat_of_a_wide_range_stays_a_venturi(plant_of: PlantOf) -> None:
    """Up to 25 mm in a bore of 26.24 mm would be none: the range ends at 0.9 of the bore, which is said."""
    model, builder = _model(plant_of, 'throat="21 mm (18 mm to 25 mm)"', cases=64)
    widest = 0.9 * IN_1
    assert model.throat_m2.max() <= _area(widest) * (1.0 + 1e-12)
    assert "throat-range-fitted" in {notice.code for notice in builder.notices}


def test_total_loss_is_the_static_one_and_the_difference_of_velocity_heads(plant_of: PlantOf) -> None:
    model, _ = _model(plant_of, 'throat="8 mm",inlet_bore="18 mm",outlet_bore="22 mm"')
    static = float((model.nozzle_drop[0] - model.recovery[0]) * model.dynamic_pa_s2m6[0])
    heads = DENSITY_10 / 2.0 * (1.0 / _area(0.018) ** 2 - 1.0 / _area(0.022) ** 2)
    assert static + heads == pytest.approx(float(model.total_pa_s2m6[0]), rel=1e-6)
