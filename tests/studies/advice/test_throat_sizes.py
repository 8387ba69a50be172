"""The throat with most gas at acceptable flow."""

import pytest

from sanitize.studies.advice.throat_sizes import LEAST_FLOW_RATIO, study_throats

CASES = 64


def narrow(throat_mm: float) -> str:
    return f'{{part = "injector", throat = "{throat_mm} mm", height = "0.55 m", loss_ratio = 0.3}}, '


def test_smaller_throats_take_more_from_the_water(loop_of) -> None:
    result = study_throats(loop_of(), CASES)
    ratios = [row.flow_ratio for row in result.rows]
    assert sorted(ratios) == ratios
    present = next(row for row in result.rows if row.throat_m == result.here_m)
    assert 1.0 == present.flow_ratio
    assert () == present.objections


def test_throat_taken_has_most_gas_of_those_acceptable(loop_of) -> None:
    result = study_throats(loop_of(), CASES)
    fit = [row for row in result.rows if not row.objections]
    most = max(row.gas_flow_m3s.nominal for row in fit)
    taken = next(row for row in result.rows if row.throat_m == result.take_m)
    assert taken in fit
    assert taken.gas_flow_m3s.nominal >= 0.98 * most
    assert all(row.throat_m <= taken.throat_m for row in fit if row.gas_flow_m3s.nominal >= 0.98 * most)


def test_throat_below_80_percent_of_the_flow_is_not_taken_though_it_draws(loop_of) -> None:
    result = study_throats(loop_of(injector=narrow(9)), CASES)
    short = [row for row in result.rows if row.flow_ratio < LEAST_FLOW_RATIO]
    assert short
    assert all(any("of the present water flow" in text for text in row.objections) for row in short)
    assert min(row.flow_ratio for row in result.rows if not row.objections) >= LEAST_FLOW_RATIO


def test_chiller_least_flow_bounds_the_throat_above_80_percent(loop_of) -> None:
    """A throat that is acceptable for its water is not where the chiller wants more than it leaves."""
    chiller = '{part = "chiller", drop = "3 kPa", at_flow = "60 L/min", min_flow = "MIN L/min"}, '
    riser = '{part = "flexible hose", name = "riser", length = "0.8 m"}, '
    free = study_throats(loop_of(injector=narrow(11), between=chiller.replace("MIN", "10") + riser), CASES)
    row = next(row for row in free.rows if not row.objections and row.flow_ratio < 0.95)
    least = 60000.0 * row.flow_m3s.high + 1.0
    bound = study_throats(loop_of(injector=narrow(11), between=chiller.replace("MIN", f"{least:.1f}") + riser), CASES)
    again = next(other for other in bound.rows if other.throat_m == pytest.approx(row.throat_m))
    assert any("that its maker wants" in text for text in again.objections)


def test_no_throat_is_taken_where_none_draws(loop_of) -> None:
    plant = loop_of(
        injector='{part = "injector", throat = "19 mm", height = "0.30 m", loss_ratio = 0.7}, ',
        back='{part = "flexible hose", name = "return hose", length = "30 m"}, {part = "return", height = "0.30 m"}',
        pump='{part = "pump", height = "0.10 m", curve = [["0 L/min", "2 m"], ["30 L/min", "0 m"]]}, ',
    )
    result = study_throats(plant, CASES)
    assert result.take_m is None
    assert "acceptable on this loop" in result.why


def test_throat_of_a_bench_injector_is_the_one_that_its_figures_imply(loop_of) -> None:
    """By hand: k = 30 kPa/(25 L/min)^2, Cd about .96: A = Q/Cd*sqrt(rho/(2*dp)) = 56 mm2, a bore of 8.4 mm."""
    rows = 'inlet_to_port = ["30 kPa", "25 L/min"], outlet_to_port = ["20 kPa", "25 L/min"]'
    result = study_throats(loop_of(injector=f'{{part = "injector", height = "0.55 m", {rows}}}, '), CASES)
    assert result.here_m == pytest.approx(0.0084, abs=0.0002)
    assert 5 <= len(result.rows)
