import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.steps import (
    contraction_loss_coefficient,
    expansion_loss_coefficient,
    kv_to_loss_coefficient,
)


def test_kv_to_loss_coefficient_tp410m_example_7_2(check_rows: Callable[[str], list[dict[str, str]]]) -> None:
    rows = {
        row["quantity"]: float(row["value"])
        for row in check_rows("worked_pipe_examples")
        if row["case"] == "valve by its flow coefficient"
    }
    k = float(kv_to_loss_coefficient(rows["metric_flow_coefficient"], rows["bore"]))
    assert rows["loss"] == pytest.approx(k, abs=0.05)
    assert rows["equivalent_bores"] == pytest.approx(k / rows["friction_factor"], abs=0.5)


def test_kv_to_loss_coefficient_agrees_with_a_rounded_rival() -> None:
    """The rival rounds its constant to 1.6e9, 0.08 % above the exact one."""
    from fluids.fittings import Kv_to_K

    assert Kv_to_K(Kv=6.5, D=0.0206) == pytest.approx(float(kv_to_loss_coefficient(6.5, 0.0206)), rel=1e-3)


@given(st.floats(0.1, 20.0), st.floats(0.01, 0.06))
def test_kv_to_loss_coefficient_gives_back_one_bar_at_kv(kv_m3h: float, bore_m: float) -> None:
    velocity = kv_m3h / 3600.0 / (math.pi * bore_m**2 / 4.0)
    drop = float(kv_to_loss_coefficient(kv_m3h, bore_m)) * 1000.0 * velocity**2 / 2.0
    assert drop == pytest.approx(1e5, rel=1e-9)


@given(st.floats(0.05, 1.0))
def test_expansion_by_momentum_is_bordas_loss(ratio: float) -> None:
    """Momentum: p2 - p1 = rho V2 (V1 - V2); energy then leaves rho (V1 - V2)^2 / 2."""
    v1, v2 = 1.0, ratio**2
    rise = v2 * (v1 - v2)
    lost = 0.5 * (v1**2 - v2**2) - rise
    assert 2.0 * lost == pytest.approx(float(expansion_loss_coefficient(ratio)), abs=1e-12)


@pytest.mark.parametrize(("small_mm", "large_mm"), [(20.6, 26.2), (15.4, 20.6), (26.2, 40.4)])
def test_steps_of_180_degrees_agree_with_the_crane_formulas_of_a_library(small_mm: float, large_mm: float) -> None:
    from fluids.fittings import contraction_conical_Crane, diffuser_conical

    ratio = small_mm / large_mm
    contraction = contraction_conical_Crane(Di1=large_mm, Di2=small_mm, angle=180.0)
    assert contraction == pytest.approx(float(contraction_loss_coefficient(ratio)), rel=1e-9)
    expansion = diffuser_conical(Di1=small_mm, Di2=large_mm, angle=180.0, fd=0.0, method="Crane")
    assert expansion == pytest.approx(float(expansion_loss_coefficient(ratio)), rel=1e-9)


def test_steps_between_equal_bores_lose_nothing() -> None:
    assert float(contraction_loss_coefficient(1.0)) == 0.0
    assert float(expansion_loss_coefficient(1.0)) == 0.0


def test_steps_to_a_vessel_are_entrance_and_exit() -> None:
    """A sharp entrance loses half a velocity head, an exit a whole one."""
    assert float(contraction_loss_coefficient(1e-6)) == pytest.approx(0.5, abs=1e-9)
    assert float(expansion_loss_coefficient(1e-6)) == pytest.approx(1.0, abs=1e-9)


def test_steps_factor_multiplies_each_case() -> None:
    assert contraction_loss_coefficient([0.8, 0.6], [0.75, 0.5]).tolist() == pytest.approx([0.27, 0.32])
    assert expansion_loss_coefficient(0.8, 0.4).tolist() == pytest.approx(0.4 * 0.36**2)


@pytest.mark.parametrize("ratio", [0.0, 1.2, float("nan")])
def test_steps_ratio_out_of_span_is_refused(ratio: float) -> None:
    with pytest.raises(ValueError, match="small bore"):
        contraction_loss_coefficient(ratio)
