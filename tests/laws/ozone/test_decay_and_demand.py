"""Decay and demand of dissolved ozone: published rates, a bound, a rival integrator, limits."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sanitize.basis.tables import model_table
from sanitize.laws.ozone.decay import half_life_min, self_decay_per_min
from sanitize.laws.ozone.demand import demand_rate_per_min, ozone_after_demand_mgl

Rows = Callable[[str], list[dict[str, str]]]


def _numbers(end: str = "value") -> tuple[float, float, float]:
    table = model_table("ozone_water")
    names = ("decay_at_10c_per_min", "decay_activation_jmol", "decay_ph_slope")
    first, second, third = (float(getattr(table[(name,)], end)) for name in names)
    return first, second, third


def test_decay_of_the_table_is_what_was_measured_in_a_surface_water(check_rows: Rows) -> None:
    """Abada 2024, at the pH for which the table's rate is stated; half a unit of the last printed digit."""
    for row in check_rows("ozone_decay"):
        found = float(self_decay_per_min(float(row["temperature_c"]), 7.4, *_numbers()))
        assert float(row["decay_per_min"]) == pytest.approx(found, abs=0.005)


@pytest.mark.parametrize("ph", [6.8, 7.4, 8.0])
def test_decay_is_faster_than_by_hydroxide_alone(ph: float) -> None:
    """Staehelin and Hoigne 1982: 70 L/(mol s), 3 ozone for each event, 20 degC; real water is faster, clean tap too."""
    hydroxide_alone = 3.0 * 70.0 * 10.0 ** (ph - 14.17) * 60.0
    nominal, activation, slope = _numbers()
    lowest = _numbers("low")[0]
    assert hydroxide_alone < float(self_decay_per_min(20.0, ph, nominal, activation, slope))
    assert hydroxide_alone < float(self_decay_per_min(20.0, ph, lowest, activation, slope))


def test_decay_stands_still_at_its_reference_and_rises_tenfold_with_one_ph_at_slope_one() -> None:
    assert 0.043 == pytest.approx(float(self_decay_per_min(10.0, 7.4, 0.043, 65000.0, 0.4)))
    assert 0.43 == pytest.approx(float(self_decay_per_min(10.0, 8.4, 0.043, 65000.0, 1.0)))


def test_decay_half_life_of_a_rate_and_of_none() -> None:
    """ln 2 = 0.693."""
    assert [0.693, np.inf] == pytest.approx(half_life_min([1.0, 0.0]).tolist(), abs=5e-4)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.01, 1.0), st.floats(0.0, 3.0), st.floats(0.05, 10.0), st.floats(0.1, 200.0))
def test_demand_closed_form_agrees_with_an_integrator(ozone: float, demand: float, speed: float, time: float) -> None:
    def slope(_: float, y: np.ndarray) -> np.ndarray:
        rate = y[0] * float(demand_rate_per_min(max(y[1], 0.0), speed))
        return np.array([-rate, -rate])

    rival = solve_ivp(slope, (0.0, time), [ozone, demand], method="LSODA", rtol=1e-9, atol=1e-12)
    assert rival.y[0, -1] == pytest.approx(float(ozone_after_demand_mgl(ozone, demand, speed, time)), abs=1e-7)


def test_demand_equal_to_the_ozone_halves_it_in_one_over_k_c() -> None:
    """C = C0 / (1 + k C0 t); also just beside, where the two forms meet."""
    assert [0.5, 0.5] == pytest.approx(ozone_after_demand_mgl(1.0, [1.0, 1.0 + 1e-9], 0.1, 10.0).tolist(), abs=1e-8)


def test_demand_smaller_than_the_ozone_leaves_the_difference() -> None:
    assert [0.0, 0.4] == pytest.approx(ozone_after_demand_mgl([0.3, 0.7], [0.5, 0.3], 2.0, 1e4).tolist(), abs=1e-12)


@pytest.mark.parametrize(
    "call",
    [
        lambda: self_decay_per_min(10.0, 7.4, -0.1, 65000.0, 0.4),
        lambda: half_life_min(-1.0),
        lambda: demand_rate_per_min(-1.0, 2.0),
        lambda: ozone_after_demand_mgl(0.1, 0.1, 2.0, -1.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        call()
