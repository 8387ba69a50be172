from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from sanitize.laws.hydraulics.valves import globe_loss_coefficient, valve_loss_coefficient

Rows = Callable[[str], list[dict[str, str]]]

# Weisbach's cock as printed, with the two angles that the checks leave out (45 and 55 degrees, from memory).
ANGLES = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0]
ADDED = [0.0, 0.05, 0.29, 0.75, 1.56, 3.10, 5.47, 9.68, 17.3, 31.2, 52.6, 106.0, 206.0, 486.0]
SHUT_DEG = 82.2
SHARES = [1.0, 0.875, 0.75, 0.625, 0.5, 0.375, 0.25, 0.125]
SLIDE = [0.0, 0.07, 0.26, 0.81, 2.06, 5.52, 17.0, 97.8]


def cock(angle: object, open_k: object = 0.10, factor: object = 1.0) -> NDArray[np.float64]:
    return valve_loss_coefficient(angle, ANGLES, ADDED, SHUT_DEG, open_k, factor)  # type: ignore[arg-type]


def published(check_rows: Rows, valve: str) -> tuple[list[float], list[float]]:
    rows = [row for row in check_rows("valve_losses") if row["valve"] == valve]
    return [float(row["position"]) for row in rows], [float(row["loss"]) for row in rows]


def test_valve_at_weisbachs_angles_adds_what_he_measured(check_rows: Rows) -> None:
    angles, losses = published(check_rows, "cock")
    assert losses == pytest.approx((cock(angles) - 0.10).tolist(), rel=1e-9)


def test_valve_of_falling_positions_at_weisbachs_slide_openings_adds_what_he_measured(check_rows: Rows) -> None:
    shares, losses = published(check_rows, "slide")
    k = valve_loss_coefficient(shares, SHARES, SLIDE, 0.0, 0.24)
    assert losses == pytest.approx((k - 0.24).tolist(), rel=1e-9)


def test_globe_at_tabulated_lifts_is_the_print(check_rows: Rows) -> None:
    lifts, losses = published(check_rows, "plug disc globe")
    relative = [loss / losses[0] for loss in losses]
    assert losses == pytest.approx(globe_loss_coefficient(lifts, lifts, relative, losses[0]).tolist(), rel=1e-9)


def test_globe_below_its_last_lift_falls_to_a_seat_at_zero_like_scipys_monotone_cubic() -> None:
    relative = np.array([1.0, 1.5, 4.0, 12.0])
    y = np.append(1.0 / np.sqrt(8.0 * relative), 0.0)
    rival = PchipInterpolator([0.0, 0.25, 0.5, 0.75, 1.0], y)
    k = globe_loss_coefficient([0.1, 0.2, 0.6], [1.0, 0.75, 0.5, 0.25], relative, 8.0)
    assert (rival([0.9, 0.8, 0.4]) ** -2).tolist() == pytest.approx(k.tolist(), rel=1e-9)


def test_globe_half_increase_lies_midway_at_tabulated_lifts() -> None:
    k = globe_loss_coefficient([1.0, 0.5], [1.0, 0.75, 0.5, 0.25], [1.0, 1.5, 4.0, 12.0], 8.0, 0.5)
    assert k.tolist() == pytest.approx([8.0, 20.0])


def test_globe_of_many_valves_has_each_its_own_curve() -> None:
    lifts, relative = [1.0, 0.75, 0.5, 0.25], [1.0, 1.5, 4.0, 12.0]
    open_k = np.array([4.0, 8.0, 13.0])
    together = globe_loss_coefficient(0.6, lifts, relative, open_k, [1.0, 0.7, 0.5])
    alone = [
        float(globe_loss_coefficient(0.6, lifts, relative, k, f)) for k, f in zip(open_k, [1.0, 0.7, 0.5], strict=True)
    ]
    assert alone == together.tolist()


def test_valve_over_4097_cases_equals_scipys_monotone_cubic_case_by_case() -> None:
    random = np.random.default_rng(7)
    angle = random.uniform(0.0, 82.0, 4097)
    open_k, factor = random.uniform(0.05, 0.4, 4097), random.uniform(0.3, 1.5, 4097)
    together = cock(angle, open_k, factor)
    for case in range(0, 4097, 41):
        y = np.append(1.0 / np.sqrt(open_k[case] + factor[case] * np.array(ADDED)), 0.0)
        rival = float(PchipInterpolator([*ANGLES, SHUT_DEG], y)(angle[case])) ** -2
        assert rival == pytest.approx(float(together[case]), rel=1e-9)


@given(
    st.lists(st.floats(0.0, 50.0), min_size=2, max_size=7),
    st.lists(st.floats(0.5, 20.0), min_size=7, max_size=7),
    st.floats(0.0, 0.999),
)
def test_valve_of_any_table_equals_scipys_monotone_cubic(added: list[float], steps: list[float], share: float) -> None:
    """Tables that rise, fall and rest: every branch of the slopes."""
    positions = np.cumsum([0.0, *steps])[: len(added)]
    shut = float(positions[-1] + steps[-1])
    at = share * shut
    y = np.append(1.0 / np.sqrt(0.2 + np.array(added)), 0.0)
    rival = float(PchipInterpolator([*positions, shut], y)(at)) ** -2
    assert rival == pytest.approx(float(valve_loss_coefficient(at, positions, added, shut, 0.2)), rel=1e-7)


def test_valve_shut_and_beyond_has_no_finite_loss() -> None:
    assert cock([82.2, 85.0, 90.0]).tolist() == [np.inf, np.inf, np.inf]
    assert float(valve_loss_coefficient(0.0, SHARES, SLIDE, 0.0, 0.24)) == np.inf
    assert float(globe_loss_coefficient(0.0, [1.0, 0.5], [1.0, 4.0], 8.0)) == np.inf


def test_valve_just_before_shut_is_finite() -> None:
    assert np.all(np.isfinite(cock(82.2 - np.array([1e-3, 1e-6]))))


def test_valve_open_and_against_its_stop_keeps_the_open_loss() -> None:
    assert cock([0.0, -2.0]).tolist() == pytest.approx([0.10, 0.10])


@given(st.floats(0.0, 82.0), st.floats(0.01, 0.15), st.floats(0.0, 2.0))
def test_valve_turned_further_never_loses_less(angle: float, more: float, factor: float) -> None:
    assert float(cock(angle, 0.1, factor)) <= float(cock(angle + more, 0.1, factor)) * (1.0 + 1e-12)


@given(st.floats(0.1, 80.0), st.floats(0.3, 1.4))
def test_valve_greater_factor_loses_more(angle: float, factor: float) -> None:
    assert float(cock(angle, 0.1, factor)) < float(cock(angle, 0.1, factor + 0.1))


@given(st.floats(0.0, 65.0))
def test_valve_without_additions_keeps_the_open_loss_up_to_its_last_position(angle: float) -> None:
    assert float(cock(angle, 0.3, 0.0)) == pytest.approx(0.3, rel=1e-12)


@pytest.mark.parametrize("positions", [[0.0, 40.0, 30.0], [0.0, 40.0, 90.0]])
def test_valve_positions_out_of_order_are_refused(positions: list[float]) -> None:
    with pytest.raises(ValueError, match="from open to shut"):
        valve_loss_coefficient(10.0, positions, [0.0, 1.0, 2.0], 82.2, 0.1)


@pytest.mark.parametrize(("open_k", "factor"), [(0.0, 1.0), (0.1, -0.5)])
def test_valve_losses_below_zero_are_refused(open_k: float, factor: float) -> None:
    with pytest.raises(ValueError, match="above 0"):
        cock(10.0, open_k, factor)
