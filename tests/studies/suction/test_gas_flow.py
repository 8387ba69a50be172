"""Gas drawn by a loop: an independent scalar solution, the properties every gas model must show, conservation."""

import importlib.util
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.laws.injector import energy
from sanitize.laws.injector.gas_line import line_drop
from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.gas_network import GasNetwork
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.gas_flow import GasAnswer, gas_answer, line_of, mixer_of
from sanitize.studies.suction.gas_report import kind_of_draw, widened
from sanitize.studies.suction.states import GasSide, gas_side, levels

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"
SERIES = (BENCHMARKS / "series.toml").read_text()

TWO_RETURNS = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", size = "1-1/2 in", height = "0.2 m", cover_rated_flow = "150 L/min"},
  {part = "reducer", size = "1-1/2 in", to = "3/4 in"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "6.4 m"], ["60 L/min", "0 m"]]},
  {part = "injector", throat = "10 mm", height = "1.05 m"},
  {part = "split", ways = ["left", "right"]},
]
way.left = [
  {part = "flexible hose", name = "left hose", length = "1 m"},
  {part = "return", name = "a", height = "0.5 m"},
]
way.right = [
  {part = "flexible hose", name = "right hose", length = "4 m"},
  {part = "return", name = "b", height = "0.5 m"},
]
[tub]
volume = "430 L"
water_level = "0.8 m"
water_temperature = "6 degC"
[gas_line]
length = "1.8 m"
bore = "4 mm"
"""


def plant_of(text: str, *settings_of: str) -> Plant:
    return read_plant(text, overrides=settings_of).plant


def drawn(plant: Plant, cases: int = 64) -> tuple[Draws, Run, GasSide, GasAnswer]:
    draws = Draws(cases)
    surface = levels(plant, draws)["normal"]
    running = run(plant, draws, Condition(surface))
    assert running.port is not None
    gas = gas_side(plant, draws, running.port.height_m)
    return draws, running, gas, gas_answer(plant, draws, running, gas)[0]


def nominal_gas(*settings_of: str) -> float:
    return float(drawn(plant_of(SERIES, *settings_of), cases=0)[3].gas_flow_m3s[0])


def test_gas_flow_equals_plain_nested_brentq_with_fluids() -> None:
    """The same equations solved one case at a time by nested bracketing, pipe friction from fluids: peer of the
    benchmark. 1e-6: fluids switches friction at its own transition, and the brackets stop at 1e-9."""
    spec = importlib.util.spec_from_file_location("gas_cases", BENCHMARKS / "gas_cases.py")
    assert spec is not None
    assert spec.loader is not None
    gas_cases = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(gas_cases)
    plant = plant_of(SERIES)
    draws, running, gas, answer = drawn(plant, cases=8)
    for index in range(4):
        closed, flow, gas_flow = gas_cases.Scalar(running, gas, plant, draws, index).check()
        assert closed == pytest.approx(running.flow_m3s[index], rel=1e-6)
        assert flow == pytest.approx(answer.flow_m3s[index], rel=1e-6)
        assert gas_flow == pytest.approx(answer.gas_flow_m3s[index], rel=1e-6)


def test_gas_flow_is_zero_exactly_where_closed_port_does_not_draw() -> None:
    _, running, gas, answer = drawn(plant_of(SERIES, 'injector.height="0.2 m"', 'return hose.length="6 m"'), cases=512)
    assert running.port is not None
    draws_closed = running.solved & (running.port.port_pa_gauge + gas.opens_at_pa < 0.0)
    assert 0 < draws_closed.sum() < draws_closed.size
    np.testing.assert_array_equal(draws_closed, answer.gas_flow_m3s > 0.0)
    np.testing.assert_array_equal(running.flow_m3s[~draws_closed], answer.flow_m3s[~draws_closed])


def test_every_case_balances_to_a_billionth() -> None:
    _, running, _, answer = drawn(plant_of(SERIES), cases=1024)
    assert answer.solved[running.solved].all()
    assert answer.imbalance_ratio.max() < 1e-9


def test_array_equals_single_case() -> None:
    many = drawn(plant_of(SERIES), cases=64)[3]
    single = drawn(plant_of(SERIES), cases=0)[3]
    assert single.gas_flow_m3s[0] == pytest.approx(many.gas_flow_m3s[0], rel=1e-8)
    assert single.flow_m3s[0] == pytest.approx(many.flow_m3s[0], rel=1e-8)


def test_gas_goes_to_zero_continuously_at_onset() -> None:
    """The opening that the dry vacuum just meets is where suction starts; below it the gas falls with the excess."""
    _, running, _, _ = drawn(plant_of(SERIES), cases=0)
    assert running.port is not None
    vacuum_kpa = -running.port.port_pa_gauge[0] / 1000.0
    flows = [
        nominal_gas(f'gas_line.check_valve_opens_at="{vacuum_kpa * (1.0 - short):.9f} kPa"')
        for short in (1e-2, 1e-4, 1e-6)
    ]
    assert flows[0] > 10.0 * flows[1] > 100.0 * flows[2] > 0.0
    assert nominal_gas(f'gas_line.check_valve_opens_at="{vacuum_kpa * 1.000001:.9f} kPa"') == 0.0


@pytest.mark.parametrize(
    ("less", "more"),
    [
        ('gas_line.length="8 m"', 'gas_line.length="1 m"'),
        ('gas_line.bore="2 mm"', 'gas_line.bore="6 mm"'),
        ('gas_line.check_valve_opens_at="6 kPa"', 'gas_line.check_valve_opens_at="1 kPa"'),
        ('return hose.length="4 m"', 'return hose.length="1 m"'),
        ('injector.height="0.6 m"', 'injector.height="1.2 m"'),
        ('injector.loss_ratio="0.5"', 'injector.loss_ratio="0.2"'),
    ],
)
def test_gas_flow_falls_with_what_hinders_it(less: str, more: str) -> None:
    def plain(setting: str) -> str:
        return setting.replace('"', "") if "loss_ratio" in setting else setting

    assert nominal_gas(plain(less)) < nominal_gas(plain(more))


def test_needle_valve_and_port_hole_hold_gas_back() -> None:
    free = nominal_gas()
    assert nominal_gas('gas_line.needle_valve=["5 kPa", "2 L/min"]') < 0.5 * free
    assert nominal_gas('gas_line.port_hole="1 mm"') < 0.8 * free


def test_choked_port_hole_passes_what_the_pressure_before_it_lets_through_and_no_more() -> None:
    # Choked air at 20 degC: 11.92 L/min for each mm2 of effective hole at the full atmosphere before it (the critical
    # ratio 0.528 of an ideal diatomic gas, a textbook result), less in proportion to the pressure there.
    strong = SERIES.replace('"6.4 m"', '"16 m"')
    own = ('gas_line.port_hole="0.5 mm"', 'injector.throat="6.5 mm"', "injector.loss_ratio=0.15")
    draws, running, gas, answer = drawn(plant_of(strong, *own), cases=64)
    assert answer.is_hole_choked[0]
    assert answer.solved[0]
    atmosphere = running.assembly.water.atmosphere_pa_abs
    line, _ = line_of(plant_of(strong, *own), draws, gas, atmosphere)
    assert atmosphere == 101325.0
    before = atmosphere - np.asarray(line_drop(answer.gas_flow_m3s, line).pa_diff) - gas.opens_at_pa
    choked = 11.92 / 60e3 * 0.8 * np.pi / 4.0 * 0.25 * before / 101325.0
    at = answer.is_hole_choked
    assert answer.gas_flow_m3s[at] == pytest.approx(choked[at], rel=1e-3)
    assert np.all(answer.port_pa_gauge[at] + atmosphere < 0.529 * before[at])
    stronger = drawn(plant_of(SERIES.replace('"6.4 m"', '"20 m"'), *own), cases=0)[3]
    assert stronger.gas_flow_m3s[0] == pytest.approx(answer.gas_flow_m3s[0], rel=1e-9)


def test_gas_flow_has_no_step_where_the_port_hole_begins_to_choke() -> None:
    own = ('gas_line.port_hole="0.5 mm"', 'injector.throat="6.5 mm"', "injector.loss_ratio=0.15")
    heads = np.linspace(1.5, 5.0, 15)
    answers = [drawn(plant_of(SERIES.replace('"6.4 m"', f'"{head:.2f} m"'), *own), cases=0)[3] for head in heads]
    gas = np.array([answer.gas_flow_m3s[0] for answer in answers])
    choked = np.array([answer.is_hole_choked[0] for answer in answers])
    assert not choked[0]
    assert choked[-1]
    assert np.all(np.diff(choked.astype(int)) >= 0)
    assert np.all(np.diff(gas) >= -1e-12 * gas[:-1])
    assert np.max(np.diff(gas)) < 0.05 * gas[-1]


def test_open_line_takes_water_flow_and_pins_the_port_near_the_air() -> None:
    _, running, gas, answer = drawn(plant_of(SERIES), cases=0)
    assert running.port is not None
    assert answer.flow_m3s[0] < running.flow_m3s[0]
    assert running.port.port_pa_gauge[0] < answer.port_pa_gauge[0] < -gas.opens_at_pa[0]


def test_gas_stays_below_the_energy_bound_in_totals() -> None:
    draws, running, _, answer = drawn(plant_of(SERIES), cases=512)
    port = running.port
    assert port is not None
    water = running.assembly.water
    z = port.model.dynamic_pa_s2m6 * answer.injector_flow_m3s**2
    per = water.atmosphere_pa_abs * (water.temperature_c + 273.15) / 293.15
    gas = per * answer.gas_flow_m3s / answer.injector_flow_m3s
    item = next(item for item in running.assembly.parts if item.part.name == port.name)
    mixer = mixer_of(item.part, port.model, draws)
    port_abs, outlet_abs = (
        answer.port_pa_gauge + water.atmosphere_pa_abs,
        answer.outlet_pa_gauge + water.atmosphere_pa_abs,
    )
    available = energy.available_pa_diff(
        port_abs + port.model.nozzle_drop * z, outlet_abs, z, gas, port.model.throat_m2 / port.model.inlet_m2,
        mixer.throat_to_outlet_ratio,
    )  # fmt: skip
    assert np.all(gas <= energy.most_gas_pa(port_abs, outlet_abs, available) * (1.0 + 1e-9))


def test_gas_is_conserved_where_the_water_divides() -> None:
    plant = plant_of(TWO_RETURNS)
    draws, running, _, answer = drawn(plant, cases=16)
    item = next(item for item in running.assembly.parts if item.part.word == "injector")
    assert item.made.model is not None
    network = GasNetwork(running.assembly, item, mixer_of(item.part, item.made.model, draws), answer.gas_flow_m3s)
    network.gas_flow_m3s = answer.gas_flow_m3s
    topology = running.assembly.topology
    flow = running.solution.flow_m3s
    gas = {link: sloped.value for link, sloped in network._gas_of_links(flow).items()}
    ways = topology.meetings[0].ways
    np.testing.assert_allclose(
        gas[topology.meetings[0].combined] * flow[topology.meetings[0].combined],
        sum(gas[way] * flow[way] for way in ways),
        rtol=1e-12,
    )
    assert answer.solved.all()


def test_altitude_leaves_gauge_onset_but_moves_gas() -> None:
    """The dry gauge pressure at the port does not know the altitude; thinner air gives another gas flow."""
    low, high = drawn(plant_of(SERIES), 0), drawn(plant_of(SERIES, 'tub.altitude="2500 m"'), 0)
    assert low[1].port is not None
    assert high[1].port is not None
    assert low[1].port.port_pa_gauge[0] == pytest.approx(high[1].port.port_pa_gauge[0], abs=1e-3)
    assert high[3].gas_flow_m3s[0] != pytest.approx(low[3].gas_flow_m3s[0], rel=0.01)


@settings(max_examples=25, deadline=None)
@given(
    throat=st.floats(5.0, 14.0),
    height=st.floats(-0.2, 1.8),
    hose=st.floats(0.3, 8.0),
    opening=st.floats(0.1, 6.0),
    bore=st.floats(2.0, 8.0),
)
def test_any_series_loop_has_one_balanced_answer(
    throat: float, height: float, hose: float, opening: float, bore: float
) -> None:
    plant = plant_of(
        SERIES, f'injector.throat="{throat:.3f} mm"', f'injector.height="{height:.3f} m"',
        f'return hose.length="{hose:.3f} m"', f'gas_line.check_valve_opens_at="{opening:.3f} kPa"',
        f'gas_line.bore="{bore:.3f} mm"',
    )  # fmt: skip
    _, running, gas, answer = drawn(plant, cases=16)
    assert running.port is not None
    assert answer.solved[running.solved].all()
    assert np.all(answer.gas_flow_m3s >= 0.0)
    closed = running.port.port_pa_gauge + gas.opens_at_pa < 0.0
    np.testing.assert_array_equal(running.solved & closed, answer.gas_flow_m3s > 0.0)


def test_gas_figure_carries_a_factor_of_three_either_way() -> None:
    from sanitize.basis.figure import Figure

    assert Figure(1.0, 3.0, 9.0) == widened(Figure(2.5, 3.0, 3.5))
    assert Figure(0.2, 3.0, 12.0) == widened(Figure(0.2, 3.0, 12.0))


def test_trickle_is_told_from_a_draw() -> None:
    from sanitize.basis.figure import Figure

    litre = 1.0 / 60000.0
    flow = Figure(0.05 * litre, 0.15 * litre, 0.4 * litre)
    assert kind_of_draw(Figure(0.0, 0.0, litre), None, None) == "none"
    assert kind_of_draw(flow, 2.0 * litre, None) == "trickle"
    assert kind_of_draw(flow, 1.0 * litre, None) == "draws"
    assert kind_of_draw(flow, None, 0.3 * litre) == "trickle"
    assert kind_of_draw(flow, None, None) == "draws"
