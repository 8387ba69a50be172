"""A faulty part is the same as a sound part of the other size: each condition against a loop that says so itself."""

import numpy as np
import pytest

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.tables import model_table
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.bores import fitting_bore_m
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run

CURVE = '[["0 L/min", "5 m"], ["60 L/min", "0 m"]]'


def loop(
    suction: str = "", filter: str = 'part = "filter", drop = "6 kPa", at_flow = "40 L/min", medium_share = 0.3',
    curve: str = CURVE, back: str = "",
) -> str:  # fmt: skip
    return f"""
    loop = [
      {{part = "suction fitting", height = "0.20 m", cover_rated_flow = "150 L/min"{suction}}},
      {{part = "pump", height = "0.30 m", curve = {curve}}},
      {{{filter}}},
      {{part = "injector", throat = "9 mm", loss_ratio = 0.25, height = "0.50 m"}},
      {{part = "return", height = "0.55 m"{back}}},
    ]"""


@pytest.fixture
def faulty(plant_of):
    def solved(text: str = "", **fault) -> Run:
        draws = Draws(0)
        return run(plant_of(text or loop()), draws, Condition(np.full(1, 0.8), **fault))

    return solved


def _flow_and_port(answer: Run) -> list[float]:
    assert answer.port is not None
    assert answer.solved.all()
    return [float(answer.flow_m3s[0]), float(answer.port.port_pa_gauge[0])]


def test_filter_torn_is_its_housing_alone(faulty) -> None:
    """0.7 of 6 kPa, with the square of the flow."""
    housing = loop(filter='part = "known drop", drop = "4.2 kPa", at_flow = "40 L/min", exponent = 2')
    assert _flow_and_port(faulty(housing)) == pytest.approx(_flow_and_port(faulty(filter="torn")), rel=1e-8)


def test_filter_loaded_is_a_filter_of_a_larger_drop(faulty) -> None:
    """2.5 x 6 kPa, of which the medium takes what the housing, 4.2 kPa, leaves: (15 - 4.2)/15."""
    dirty = loop(filter='part = "filter", drop = "15 kPa", at_flow = "40 L/min", medium_share = 0.72')
    assert _flow_and_port(faulty(dirty)) == pytest.approx(_flow_and_port(faulty(filter="loaded")), rel=1e-8)


def test_return_partly_blocked_is_a_sharp_nozzle_of_the_area_left(faulty) -> None:
    bore_mm = 1000.0 * fitting_bore_m("1") * np.sqrt(0.3)
    nozzle = loop(back=f', nozzle_bore = "{bore_mm:.12f} mm", nozzle_shape = "sharp"')
    assert _flow_and_port(faulty(nozzle)) == pytest.approx(_flow_and_port(faulty(return_blocked_ratio=0.7)), rel=1e-8)


def test_return_partly_blocked_narrows_a_nozzle_that_is_there(faulty) -> None:
    """Half of 14 mm is a bore of 14 mm / sqrt 2."""
    wide = loop(back=', nozzle_bore = "14 mm", nozzle_shape = "tapered"')
    narrow = loop(back=f', nozzle_bore = "{14.0 / np.sqrt(2.0):.12f} mm", nozzle_shape = "tapered"')
    assert _flow_and_port(faulty(narrow)) == pytest.approx(
        _flow_and_port(faulty(wide, return_blocked_ratio=0.5)), rel=1e-8
    )


def test_suction_partly_blocked_is_a_clogged_cover(faulty) -> None:
    clogged = loop(suction=", clogged_share = 0.7")
    assert _flow_and_port(faulty(clogged)) == pytest.approx(_flow_and_port(faulty(suction_blocked_ratio=0.7)), rel=1e-8)


def test_suction_partly_blocked_covers_a_share_of_what_was_open(faulty) -> None:
    """Half of the half that is left: three quarters are covered."""
    half, more = loop(suction=", clogged_share = 0.5"), loop(suction=", clogged_share = 0.75")
    assert _flow_and_port(faulty(more)) == pytest.approx(
        _flow_and_port(faulty(half, suction_blocked_ratio=0.5)), rel=1e-8
    )


def test_pump_of_less_head_is_a_pump_with_a_lower_curve(faulty) -> None:
    worn = loop(curve='[["0 L/min", "4 m"], ["60 L/min", "0 m"]]')
    assert _flow_and_port(faulty(worn)) == pytest.approx(_flow_and_port(faulty(pump_head_ratio=0.8)), rel=1e-8)


def test_return_shut_puts_head_and_depth_on_the_port(faulty) -> None:
    """Pump 5 m, port 0.3 m below the water, nothing moves."""
    answer = faulty(return_blocked_ratio=1.0)
    weight = answer.assembly.water.density_kgm3 * GRAVITY_MS2
    assert [0.0, weight * 5.3] == pytest.approx(_flow_and_port(answer), rel=1e-9)


def test_suction_shut_leaves_the_port_at_its_depth_and_the_pump_under_its_own_pull(faulty) -> None:
    answer = faulty(suction_blocked_ratio=1.0)
    weight = answer.assembly.water.density_kgm3 * GRAVITY_MS2
    assert [0.0, weight * 0.3] == pytest.approx(_flow_and_port(answer), rel=1e-9)
    inlet = answer.station("pump").pressure_pa_gauge + answer.station("pump").loss_pa
    assert weight * (0.8 - 0.3 - 5.0) == pytest.approx(float(inlet[0]), rel=1e-9)


def test_condition_of_some_cases_takes_numbers_and_arrays_along() -> None:
    whole = Condition(
        np.arange(4.0), "torn", return_blocked_ratio=np.arange(4.0) / 10.0, suction_blocked_ratio=0.5,
        pump_head_ratio=np.array([1.0, 0.9, 0.8, 0.7]),
    )  # fmt: skip
    some = whole.of_cases(np.array([2, 0]))
    assert [2.0, 0.0] == some.level_m.tolist()
    assert ("torn", 0.5) == (some.filter, some.suction_blocked_ratio)
    assert [0.2, 0.0] == np.asarray(some.return_blocked_ratio).tolist()
    assert [0.8, 1.0] == np.asarray(some.pump_head_ratio).tolist()


def test_discharge_of_what_is_left_of_a_return_is_the_sharp_nozzle_of_the_table(faulty) -> None:
    """K = (1 - b^4)/(Cd^2 b^4) + 1 with b^4 = 0.3^2, worked by hand with the table's Cd of 0.62: 27.3."""
    assert 0.62 == model_table("nozzle_discharge")[("sharp",)].value
    assert (1.0 - 0.09) / (0.62**2 * 0.09) + 1.0 == pytest.approx(27.3, abs=0.05)
    known = loop().replace('{part = "return"', '{part = "known loss", k = 26.303}, {part = "return"')
    assert _flow_and_port(faulty(known))[0] == pytest.approx(_flow_and_port(faulty(return_blocked_ratio=0.7))[0], 1e-5)


HUMP = """
loop = [
  {part = "suction fitting", height = "0.20 m", cover_rated_flow = "150 L/min"},
  {part = "pump", height = "0.30 m", curve = [["0 L/min", "5 m"], ["60 L/min", "0 m"]]},
  {part = "injector", throat = "9 mm", loss_ratio = 0.25, height = "1.30 m"},
  {part = "flexible hose", length = "1 m"},
  {part = "return", height = "0.50 m"},
]"""


def test_slow_leg_behind_a_hump_under_pressure_stays_full(faulty) -> None:
    """A return almost shut makes the water creep, but presses on the hump 0.5 m above the water: no air comes in."""
    answer = faulty(HUMP, return_blocked_ratio=0.95)
    assert float(answer.station("injector").velocity_ms[0]) < 0.5
    assert float(answer.port.outlet_pa_gauge[0]) > 0.0
    assert {} == answer.open_legs
