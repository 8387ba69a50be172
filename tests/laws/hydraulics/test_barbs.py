import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.barbs import barb_loss_coefficient


def test_barb_without_a_step_keeps_pipe_friction_alone() -> None:
    assert float(barb_loss_coefficient(0.02, 0.02, 0.02, 0.03, 0.026)) == pytest.approx(0.026 * 1.5)


@given(st.floats(0.008, 0.03), st.floats(0.008, 0.03), st.floats(0.008, 0.03))
def test_barb_loses_what_a_library_gives_its_steps(bore_m: float, before_m: float, behind_m: float) -> None:
    """Each step on its own smaller bore by a library, brought to the barb's bore by (d/D)^4."""
    from fluids.fittings import contraction_conical_Crane, diffuser_conical

    def step(first: float, second: float) -> float:
        if second < first:
            return float(contraction_conical_Crane(Di1=first, Di2=second, angle=180.0) * (bore_m / second) ** 4)
        if second > first:
            k = diffuser_conical(Di1=first, Di2=second, angle=180.0, fd=0.0, method="Crane")
            return float(k * (bore_m / first) ** 4)
        return 0.0

    expected = step(before_m, bore_m) + step(bore_m, behind_m)
    assert expected == pytest.approx(
        float(barb_loss_coefficient(bore_m, before_m, behind_m, 0.0, 0.0)), abs=1e-9, rel=1e-9
    )


def test_barb_between_reservoirs_loses_an_entrance_and_an_exit() -> None:
    assert float(barb_loss_coefficient(0.01, 1e3, 1e3, 0.0, 0.0)) == pytest.approx(1.5, abs=1e-6)


def test_barb_turned_round_between_unlike_bores_loses_differently() -> None:
    narrow_behind = float(barb_loss_coefficient(0.01, 0.02, 0.011, 0.0, 0.0))
    wide_behind = float(barb_loss_coefficient(0.01, 0.011, 0.02, 0.0, 0.0))
    assert wide_behind > narrow_behind


def test_barb_arrays_equal_scalars_one_by_one() -> None:
    bores, behind = np.array([0.009, 0.013, 0.017]), np.array([0.0127, 0.0127, 0.02])
    together = barb_loss_coefficient(bores, 0.0158, behind, 0.025, 0.026)
    alone = [float(barb_loss_coefficient(b, 0.0158, d, 0.025, 0.026)) for b, d in zip(bores, behind, strict=True)]
    assert alone == together.tolist()
