"""Where the water stands in the gas line: every state of one small loop worked out by hand.

Surface at 0.80 m, rim at 0.90 m, port at 0.70 m; a pump of 5 m, whose real curve may lie 5 % higher; water of 10 degC.
"""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.result import Level, State, StateName
from sanitize.studies.suction.states import all_states, gas_side, levels, shut_off_pressure, solve_states

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
WEIGHT = 999.7025 * 9.80665
CLOSE = 1e-5
"""Relative; densities of two formulas agree closer than this."""
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
FILTER = '{part="filter",drop="6 kPa",at_flow="40 L/min"}'
RETURN = '{part="return",height="0.5 m"}'
LINE = '[gas_line]\ncheck_valve_opens_at="1.5 kPa"\nhighest_point="HIGHEST m"\n'
Key = tuple[StateName, Level, str]


def _states(plant: Plant, cases: int = 0) -> dict[Key, State]:
    draws = Draws(cases)
    surfaces = levels(plant, draws)
    answers = solve_states(plant, draws, surfaces)
    port = answers["running", "normal"].port
    assert port is not None
    gas = gas_side(plant, draws, port.height_m)
    return {(x.state, x.level, x.check_valve): x for x in all_states(plant, draws, answers, surfaces, gas)}


def _loop(injector_m: float = 0.7, throat: str = "9 mm", filter_part: str = FILTER) -> str:
    injector = f'{{part="injector",throat="{throat}",height="{injector_m} m"}}'
    parts = [part for part in (SUCTION, PUMP, filter_part, injector, RETURN) if part]
    return f"loop=[{','.join(parts)}]"


def test_states_are_off_running_returns_shut_and_loaded_at_both_levels_with_both_valves(plant_of: PlantOf) -> None:
    names = {"off", "running", "returns shut", "filter loaded"}
    expected = {(name, level, valve) for name in names for level in ("normal", "rim") for valve in ("sound", "leaking")}
    assert expected == set(_states(plant_of(_loop(), LINE.replace("HIGHEST", "1.75"))))


def test_loop_without_a_filter_has_no_loaded_state(plant_of: PlantOf) -> None:
    states = _states(plant_of(_loop(filter_part=""), LINE.replace("HIGHEST", "1.75")))
    assert {"off", "running", "returns shut"} == {key[0] for key in states}


@pytest.mark.parametrize(("level", "surface"), [("normal", 0.80), ("rim", 0.90)])
def test_off_the_port_bears_its_depth_and_a_leaking_valve_lets_water_up_to_the_surface(
    plant_of: PlantOf, level: Level, surface: float
) -> None:
    states = _states(plant_of(_loop(), LINE.replace("HIGHEST", "1.75")))
    sound, leaking = states["off", level, "sound"], states["off", level, "leaking"]
    assert WEIGHT * (surface - 0.7) == pytest.approx(sound.port_pressure_pa_gauge.nominal, rel=CLOSE)
    assert 0.7 == pytest.approx(sound.water_height_m.nominal)
    assert surface == pytest.approx(leaking.water_height_m.nominal)
    assert not leaking.passes_highest_point
    assert not sound.air_enters
    assert "Water stands in the gas line up to" in leaking.text
    assert "The check valve holds the water back" in sound.text


@pytest.mark.parametrize(("highest", "floods"), [("0.85", ("rim",)), ("0.78", ("normal", "rim")), ("0.95", ())])
def test_off_a_leaking_valve_floods_the_unit_when_the_line_s_highest_point_lies_below_the_surface(
    plant_of: PlantOf, highest: str, floods: tuple[str, ...]
) -> None:
    states = _states(plant_of(_loop(), LINE.replace("HIGHEST", highest)))
    found = tuple(level for level in ("normal", "rim") if states["off", level, "leaking"].reaches_ozone_unit)
    assert floods == found
    assert not any(states["off", level, "sound"].reaches_ozone_unit for level in ("normal", "rim"))


def test_flooding_counts_at_the_worst_end_of_the_ranges(plant_of: PlantOf) -> None:
    """Highest point 5 mm over the surface, both within 10 mm: some cases flood, and that is said."""
    plant = plant_of(_loop(), LINE.replace("HIGHEST", "0.805"))
    assert not _states(plant)["off", "normal", "leaking"].reaches_ozone_unit
    assert _states(plant, cases=64)["off", "normal", "leaking"].reaches_ozone_unit


def test_returns_shut_the_pump_presses_its_highest_head_on_the_port(plant_of: PlantOf) -> None:
    """5.25 m on top of the depth: water would rise to 0.80 + 5.25 m."""
    states = _states(plant_of(_loop(), LINE.replace("HIGHEST", "1.75")))
    leaking = states["returns shut", "normal", "leaking"]
    assert WEIGHT * (0.1 + 5.25) == pytest.approx(leaking.port_pressure_pa_gauge.nominal, rel=CLOSE)
    assert 6.05 == pytest.approx(leaking.water_height_m.nominal)
    assert leaking.reaches_ozone_unit
    assert not states["returns shut", "normal", "sound"].reaches_ozone_unit
    over = _states(plant_of(_loop(), LINE.replace("HIGHEST", "6.2")))
    assert not over["returns shut", "normal", "leaking"].reaches_ozone_unit


def test_running_the_port_is_the_operating_point_s(plant_of: PlantOf, run_of: RunOf) -> None:
    states = _states(plant_of(_loop(), LINE.replace("HIGHEST", "1.75")))
    for level, surface in (("normal", 0.8), ("rim", 0.9)):
        port = run_of(_loop(), level_m=surface).port
        assert port is not None
        assert float(port.port_pa_gauge[0]) == pytest.approx(
            states["running", level, "sound"].port_pressure_pa_gauge.nominal  # type: ignore[index]
        )
    assert states["running", "normal", "sound"].air_enters
    assert "Gas is drawn in at the port." == states["running", "normal", "sound"].text
    assert 0.7 == pytest.approx(states["running", "normal", "leaking"].water_height_m.nominal)


def test_loaded_filter_weakens_the_pull(plant_of: PlantOf) -> None:
    states = _states(plant_of(_loop(), LINE.replace("HIGHEST", "1.75")))
    clean = states["running", "normal", "sound"].port_pressure_pa_gauge.nominal
    loaded = states["filter loaded", "normal", "sound"].port_pressure_pa_gauge.nominal
    assert clean is not None
    assert loaded is not None
    assert clean < loaded < 0.0


@pytest.mark.parametrize(("height", "sound", "leaking"), [(0.75, False, False), (0.88, False, True), (1.0, True, True)])
def test_off_air_enters_a_raised_port_when_its_height_beats_the_valve_s_opening(
    plant_of: PlantOf, height: float, sound: bool, leaking: bool
) -> None:
    """0.08 m over the water pull 784 Pa, 0.20 m 1961; the valve opens at 1500."""
    states = _states(plant_of(_loop(height), LINE.replace("HIGHEST", "1.75")))
    assert sound == states["off", "normal", "sound"].air_enters
    assert leaking == states["off", "normal", "leaking"].air_enters
    if sound:
        assert "drains back into the tub" in states["off", "normal", "sound"].text


def test_port_under_pressure_while_running_lets_water_up_a_leaking_valve(plant_of: PlantOf) -> None:
    """A wide throat deep under water never pulls: its line stands full to the port's own head."""
    states = _states(plant_of(_loop(0.1, throat="21 mm"), LINE.replace("HIGHEST", "0.5")))
    running = states["running", "normal", "leaking"]
    assert running.port_pressure_pa_gauge.nominal is not None
    assert running.port_pressure_pa_gauge.nominal > 0.0
    height = 0.1 + running.port_pressure_pa_gauge.nominal / WEIGHT
    assert height == pytest.approx(running.water_height_m.nominal, rel=CLOSE)
    assert running.reaches_ozone_unit == (height > 0.5)


def test_line_without_a_check_valve_is_open_to_the_water_in_every_state(plant_of: PlantOf) -> None:
    line = "[gas_line]\ncheck_valve=false\nhighest_point='0.75 m'\n"
    states = _states(plant_of(_loop(), line))
    assert {"none"} == {valve for _, _, valve in states}
    assert states["off", "normal", "none"].reaches_ozone_unit
    assert 0.8 == pytest.approx(states["off", "normal", "none"].water_height_m.nominal)


def test_highest_point_is_the_highest_of_port_line_and_unit(plant_of: PlantOf) -> None:
    """What the file does not give does not help: without a height the line is as high as the port."""
    draws = Draws(0)
    ozone = '[ozone]\noutput="90 mg/h"\nat_gas_flow="2 L/min"\nfeed="room air"\nHEIGHT'
    tub = '[tub]\nvolume="400 L"\nwater_level="0.8 m"\nwater_temperature="10 degC"\nplace="outdoors"\n'
    height = np.full(1, 0.7)
    for tables, expected in (
        ("", 0.7),
        (LINE.replace("HIGHEST", "1.75"), 1.75),
        (LINE.replace("HIGHEST", "0.6"), 0.7),
        (ozone.replace("HEIGHT", 'height="1.6 m"'), 1.6),
        (LINE.replace("HIGHEST", "1.2") + ozone.replace("HEIGHT", 'height="1.6 m"'), 1.6),
    ):
        found = gas_side(plant_of(_loop(), tables, tub=tub), draws, height)
        assert expected == pytest.approx(float(found.highest_m[0]))


def test_rim_that_is_not_given_lies_a_hand_over_the_water(plant_of: PlantOf) -> None:
    """10 cm, 3 to 25 (an estimate); never below the water."""
    tub = '[tub]\nvolume="400 L"\nwater_level="0.8 m"\nwater_temperature="10 degC"\n'
    draws = Draws(256)
    found = levels(plant_of(_loop(), tub=tub), draws)
    assert 0.9 == pytest.approx(float(found["rim"][0]))
    assert np.all(found["rim"] >= found["normal"])
    above = found["rim"] - found["normal"]
    assert 0.03 <= above.min() < 0.035
    assert 0.24 < above.max() <= 0.25


HALF_SPEED = PUMP.replace("height", 'curve_speed="3000 rpm",speed="1500 rpm",height')
STANDING = PUMP.replace("height", 'name="standing",running=false,height')
SMALL = PUMP.replace('"5 m"', '"2 m"').replace("height", 'name="small",height')


@pytest.mark.parametrize(
    ("loop", "head_m"),
    [
        (f"loop=[{SUCTION},{PUMP},{SMALL},INJECTOR,{RETURN}]", 5.0 + 2.0),
        (f"loop=[{SUCTION},{PUMP},INJECTOR,{SMALL},{RETURN}]", 5.0),
        (f"loop=[{SUCTION},INJECTOR,{PUMP},{RETURN}]", 0.0),
        (
            'loop=[{part="join",ways=["a","b"]},INJECTOR,' + RETURN + "]\n"
            f"way.a=[{SUCTION},{SMALL}]\nway.b=[{SUCTION},{PUMP}]",
            5.0,
        ),
        (
            f"loop=[{SUCTION},{PUMP}," + '{part="split",ways=["a","b"]},' + f"{RETURN}]\n"
            f'way.a=[{SMALL},INJECTOR]\nway.b=[{{part="elbow 90"}}]',
            5.0 + 2.0,
        ),
        (f"loop=[{SUCTION},{PUMP},{STANDING},INJECTOR,{RETURN}]", 5.0),
        (f"loop=[{SUCTION},{HALF_SPEED},INJECTOR,{RETURN}]", 1.25),
    ],
    ids=["in a row", "one behind", "before the pump", "side by side", "in the way", "one stands", "at half speed"],
)
def test_pumps_before_the_injector_press_on_it_at_shut_off(run_of: RunOf, loop: str, head_m: float) -> None:
    """Heads of pumps in a row add up, of pumps side by side the strongest counts; 5 % on top."""
    answer = run_of(loop.replace("INJECTOR", '{part="injector",throat="12 mm",height="0.7 m"}'))
    assert 1.05 * head_m * WEIGHT == pytest.approx(float(shut_off_pressure(answer)[0]), rel=CLOSE)
