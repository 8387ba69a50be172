import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.hydraulics.screens import (
    clogged_free_area_ratio,
    plate_face_loss_coefficient,
    round_wire_face_loss_coefficient,
    screened_suction_loss_coefficient,
    strainer_loss_coefficient,
)


@pytest.mark.parametrize("share", np.arange(0.06, 0.71, 0.04))
def test_plate_face_agrees_with_blevins_table_within_15_percent(share: float) -> None:
    """Two sources of one quantity: 15 % is their distance, not ours from either."""
    from fluids.filters import square_edge_screen

    assert pytest.approx(square_edge_screen(share), rel=0.15) == float(plate_face_loss_coefficient(share))


@pytest.mark.parametrize("share", [0.05, 0.3, 0.5, 0.8])
def test_round_wire_face_is_blevins_at_wire_reynolds_400(share: float) -> None:
    from fluids.filters import round_edge_screen

    assert round_edge_screen(share, 400.0) == pytest.approx(float(round_wire_face_loss_coefficient(share)), rel=1e-9)


def test_plate_face_small_share_is_an_orifice_in_a_wide_wall() -> None:
    """(1 + 0.707)^2 = 2.91 velocity heads of the hole: a sharp hole of contraction near 0.6 (1/0.59^2)."""
    assert float(plate_face_loss_coefficient(1e-6) * 1e-12) == pytest.approx(1.707**2, rel=1e-5)


def test_faces_wholly_open_lose_nothing_and_wholly_shut_let_nothing_through() -> None:
    assert plate_face_loss_coefficient([1.0, 0.0]).tolist() == [0.0, np.inf]
    assert round_wire_face_loss_coefficient([1.0, 0.0]).tolist() == [0.0, np.inf]


@given(st.floats(0.02, 0.97), st.floats(0.001, 0.02))
def test_faces_more_open_lose_less(share: float, more: float) -> None:
    assert float(plate_face_loss_coefficient(share)) > float(plate_face_loss_coefficient(share + more))
    assert float(round_wire_face_loss_coefficient(share)) > float(round_wire_face_loss_coefficient(share + more))


def test_clogged_share_multiplies() -> None:
    assert clogged_free_area_ratio(0.4, [0.0, 0.5, 1.0]).tolist() == [0.4, 0.2, 0.0]


@pytest.mark.parametrize("share", [-0.1, 1.1])
def test_share_out_of_span_is_refused(share: float) -> None:
    for law in (plate_face_loss_coefficient, round_wire_face_loss_coefficient):
        with pytest.raises(ValueError, match="share"):
            law(share)
    with pytest.raises(ValueError, match="share"):
        clogged_free_area_ratio(0.3, share)


def test_screened_suction_as_wide_as_the_pipe_adds_its_face() -> None:
    face = float(plate_face_loss_coefficient(0.3))
    assert float(screened_suction_loss_coefficient(0.3, 0.0, 0.04, 0.04, 0.5)) == pytest.approx(face + 0.5)


def test_screened_suction_twice_the_diameter_loses_a_sixteenth_at_its_face() -> None:
    face = float(plate_face_loss_coefficient(0.15))
    assert float(screened_suction_loss_coefficient(0.3, 0.5, 0.08, 0.04, 0.0)) == pytest.approx(face / 16.0)


def test_screened_suction_wholly_clogged_is_shut() -> None:
    assert float(screened_suction_loss_coefficient(0.3, 1.0, 0.15, 0.04, 0.5)) == np.inf


def test_strainer_with_a_basket_of_ten_pipe_areas_loses_a_hundredth_at_its_wall() -> None:
    basket_m2 = 10.0 * np.pi * 0.04**2 / 4.0
    face = float(plate_face_loss_coefficient(0.06))
    assert float(strainer_loss_coefficient(0.3, 0.8, basket_m2, 0.04)) == pytest.approx(1.5 + face / 100.0)
