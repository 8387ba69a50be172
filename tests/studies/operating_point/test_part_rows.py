"""Every kind of part takes from the flow what its fields say: wiring, counts, ends; the laws check their numbers."""

from collections.abc import Callable
from math import pi

import numpy as np
import pytest

from sanitize.laws.hydraulics.friction import friction_factor
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
L_MIN = 1.0 / 60_000.0
G = 9.80665
IN_1 = 0.02624
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
AT_20 = '[tub]\nvolume="400 L"\nwater_level="0.80 m"\nwater_temperature="20 degC"\n'


def _loss(answer: Run, name: str) -> float:
    return float(answer.station(name).loss_pa[0])


def _head(answer: Run, name: str, bore: float = IN_1) -> float:
    """rho V2/2 of a part's flow in a bore."""
    flow = float(answer.station(name).flow_m3s[0])
    return answer.assembly.water.density_kgm3 / 2.0 * (flow / (pi * bore**2 / 4.0)) ** 2


def _with(run_of: RunOf, part: str, size: str = "1 in") -> Run:
    return run_of(f"loop=[{SUCTION},{PUMP},{part},{RETURN}]", size=size)


@pytest.mark.parametrize(
    ("part", "k"),
    [
        ('{part="elbow 90",count=3}', 3 * 0.73),
        ('{part="sweep elbow 90"}', 0.40),
        ('{part="elbow 45",count=2}', 2 * 0.39),
        ('{part="threaded elbow 90"}', 0.73 + 0.50),
        ('{part="male adapter",count=2}', 2 * 0.50),
        ('{part="female adapter"}', 0.50),
        ('{part="coupling",count=4}', 4 * 0.04),
        ('{part="union"}', 0.04),
        ('{part="tee",path="straight"}', 0.46),
        ('{part="tee",path="turn",count=2}', 2 * 1.39),
        ('{part="ball valve"}', 0.10),
        ('{part="gate valve"}', 0.24),
        ('{part="globe valve"}', 7.6),
        ('{part="butterfly valve"}', 0.6),
        ('{part="throttle valve"}', 0.10),
        ('{part="known loss",k=2.5}', 2.5),
        ('{part="strainer"}', 3.0),
        ('{part="check valve",style="swing"}', 2.4),
    ],
)
def test_part_of_1_in_loses_its_coefficient_on_that_bore(run_of: RunOf, part: str, k: float) -> None:
    """Nominal coefficients typed from the published tables; the Reynolds number is above 1e4."""
    answer = _with(run_of, part)
    name = part.split('"')[1]
    assert k == pytest.approx(_loss(answer, name) / _head(answer, name), rel=1e-6)


def test_measured_bore_of_a_fitting_carries_its_coefficient(run_of: RunOf) -> None:
    answer = _with(run_of, '{part="elbow 90",bore="25.5 mm"}')
    assert 0.73 == pytest.approx(_loss(answer, "elbow 90") / _head(answer, "elbow 90", 0.0255), rel=1e-6)


def test_fittings_in_slow_water_lose_their_viscous_part_on_top(run_of: RunOf) -> None:
    """800/Re - 0.08 for each elbow below a Reynolds number of 1e4."""
    slow = '{part="pump",height="0.3 m",curve=[["0 L/min","0.2 m"],["60 L/min","0 m"]]},{part="known loss",k=900}'
    answer = run_of(f'loop=[{SUCTION},{slow},{{part="elbow 90",count=3}},{RETURN}]')
    water = answer.assembly.water
    velocity = float(answer.station("elbow 90").velocity_ms[0])
    reynolds = velocity * IN_1 * water.density_kgm3 / water.viscosity_pas
    assert 1000.0 < reynolds < 8000.0
    k = 3 * (0.73 + 800.0 / reynolds - 0.08)
    assert k == pytest.approx(_loss(answer, "elbow 90") / _head(answer, "elbow 90"), rel=1e-6)


def test_pipe_loses_friction_over_its_length_on_its_own_bore(run_of: RunOf) -> None:
    """Schedule 80, 1 in: 23.75 mm inside."""
    answer = _with(run_of, '{part="pipe",length="3 m",schedule="80"}')
    water, velocity = answer.assembly.water, float(answer.station("pipe").velocity_ms[0])
    factor = float(friction_factor(velocity * 0.02375 * water.density_kgm3 / water.viscosity_pas, 1.5e-6 / 0.02375))
    assert factor * 3.0 / 0.02375 == pytest.approx(_loss(answer, "pipe") / _head(answer, "pipe", 0.02375), rel=1e-6)


def test_two_pipes_in_a_row_lose_what_one_of_their_length_does(run_of: RunOf) -> None:
    both = _with(run_of, '{part="pipe",length="3 m"},{part="pipe",length="1.5 m"}')
    one = _with(run_of, '{part="pipe",length="4.5 m"}')
    assert float(one.flow_m3s[0]) == pytest.approx(float(both.flow_m3s[0]), rel=1e-10)


def test_pipes_of_one_size_share_the_draw_of_their_bore(plant_of: PlantOf) -> None:
    plant = plant_of(f'loop=[{SUCTION},{PUMP},{{part="pipe",length="3 m"}},{{part="pipe",length="1 m"}},{RETURN}]')
    draws = Draws(16)
    run(plant, draws, Condition(np.full(17, 0.8)))
    assert 1 == sum(key.startswith("bore of schedule 40 pipe") for key in draws.inputs)
    assert {"pipe (1).length", "pipe (2).length"} <= set(draws.inputs)


def test_ribbed_hose_has_three_times_the_friction_of_smooth_hose(run_of: RunOf) -> None:
    hose = '{part="flexible hose",length="0.2 m",wall="WALL"}'
    smooth, ribbed = (_with(run_of, hose.replace("WALL", wall)) for wall in ("smooth", "ribbed"))
    ratio = _loss(ribbed, "flexible hose") / _loss(smooth, "flexible hose")
    # friction falls a little with the Reynolds number, and the ribbed hose lets a little less through
    slower = float(ribbed.flow_m3s[0] / smooth.flow_m3s[0])
    assert 3.0 * slower**2 < ratio < 3.0 * slower**1.7


def test_wide_bends_of_a_hose_add_their_excess_over_straight_hose(run_of: RunOf) -> None:
    """0.11 each, bend unknown and wide (an estimate)."""
    straight = _with(run_of, '{part="flexible hose",length="2 m"},{part="known loss",k=0.33,bore="26.64 mm"}')
    bent = _with(run_of, '{part="flexible hose",length="2 m",bends=3}')
    assert float(straight.flow_m3s[0]) == pytest.approx(float(bent.flow_m3s[0]), rel=2e-4)


def test_coiled_hose_loses_more_than_straight_hose(run_of: RunOf) -> None:
    """F = [Re (D/Dc)2]^0.05: 1.2 to 1.4 at tub flows in a coil of 0.4 m."""
    straight, coiled = (
        _with(run_of, f'{{part="flexible hose",length="2 m"{more}}}') for more in ("", ',coil_diameter="0.4 m"')
    )
    flow = float(coiled.flow_m3s[0])
    water = coiled.assembly.water
    reynolds = flow * 4.0 * water.density_kgm3 / (pi * 0.02664 * water.viscosity_pas)
    same_flow = float(straight.flow_m3s[0] / flow) ** 1.75
    expected = (reynolds * (0.02664 / 0.4) ** 2) ** 0.05
    ratio = _loss(coiled, "flexible hose") / _loss(straight, "flexible hose") * same_flow
    assert expected == pytest.approx(ratio, rel=5e-3)


def test_barb_between_hoses_is_a_contraction_its_bore_and_a_borda_loss(run_of: RunOf) -> None:
    """3/4 in: bore 15.5 mm, 30 mm long, between hoses of 20.93 mm."""
    hose = '{part="flexible hose",name="NAME",length="1 m"}'
    before, behind = hose.replace("NAME", "before"), hose.replace("NAME", "behind")
    answer = run_of(f'loop=[{SUCTION},{PUMP},{before},{{part="barb"}},{behind},{RETURN}]', size="3/4 in")
    b2 = (0.0155 / 0.02093) ** 2
    water, flow = answer.assembly.water, float(answer.flow_m3s[0])
    reynolds = flow * 4.0 * water.density_kgm3 / (pi * 0.0155 * water.viscosity_pas)
    friction = float(friction_factor(reynolds, 1.5e-6 / 0.0155)) * 0.030 / 0.0155
    k = 0.5 * (1.0 - b2) + (1.0 - b2) ** 2 + friction
    assert k == pytest.approx(_loss(answer, "barb") / _head(answer, "barb", 0.0155), rel=1e-6)


def test_barb_much_narrower_than_its_hose_is_said(run_of: RunOf) -> None:
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="flexible hose",length="1 m"}},{{part="barb",bore="12 mm"}},{RETURN}]'
    )
    assert "tight-barb" in {notice.code for notice in answer.assembly.notices}


@pytest.mark.parametrize(
    ("fields", "k"),
    [
        ("", 0.50),
        (',mounting="projecting"', 0.78),
        (',cover_rated_flow="150 L/min"', 1.5),
        (',cover_rated_flow="150 L/min",clogged_share=0.5', 6.0),
        (",clogged_share=0.5", 2.0),
    ],
)
def test_suction_loses_its_entrance_or_its_cover_and_more_when_clogged(run_of: RunOf, fields: str, k: float) -> None:
    """Half of the openings covered: twice the speed, four times the loss."""
    answer = run_of(f'loop=[{{part="suction fitting",height="0.2 m"{fields}}},{PUMP},{RETURN}]')
    assert k == pytest.approx(_loss(answer, "suction fitting") / _head(answer, "suction fitting"), rel=1e-9)


def test_known_drop_is_its_own_at_its_flow_and_follows_its_exponent(plant_of: PlantOf) -> None:
    """Stated in water of 20 degC, run in water of 20 degC."""
    loop = f'loop=[{SUCTION},{PUMP},{{part="known drop",drop="8 kPa",at_flow="40 L/min",exponent=1.8}},{RETURN}]'
    answer = run(plant_of(loop, tub=AT_20), Draws(0), Condition(np.full(1, 0.8)))
    share = float(answer.flow_m3s[0]) / (40.0 * L_MIN)
    assert 8000.0 * share**1.8 == pytest.approx(_loss(answer, "known drop"), rel=1e-6)


def test_cold_water_thickens_a_drop_of_exponent_1_with_its_viscosity(run_of: RunOf) -> None:
    """10 degC: 1.3059 / 1.0016 of the drop at 20 degC."""
    answer = _with(run_of, '{part="known drop",drop="8 kPa",at_flow="40 L/min",exponent=1}')
    share = float(answer.flow_m3s[0]) / (40.0 * L_MIN)
    assert 8000.0 * share * 1.30590 / 1.00160 == pytest.approx(_loss(answer, "known drop"), rel=1e-4)


FILTER = '{part="filter",drop="6 kPa",at_flow="40 L/min",medium_share=0.3}'


def test_clean_filter_shares_its_drop_between_medium_and_housing(plant_of: PlantOf) -> None:
    answer = run(
        plant_of(f"loop=[{SUCTION},{PUMP},{FILTER},{RETURN}]", tub=AT_20), Draws(0), Condition(np.full(1, 0.8))
    )
    share = float(answer.flow_m3s[0]) / (40.0 * L_MIN)
    assert 6000.0 * (0.3 * share + 0.7 * share**2) == pytest.approx(_loss(answer, "filter"), rel=1e-6)


def test_loaded_filter_takes_its_stated_multiple_at_its_flow(plant_of: PlantOf) -> None:
    """2.5 times the clean drop at 40 L/min: the medium's part grows from 0.3 to 1.8, the housing's stays 0.7."""
    loaded = Condition(np.full(1, 0.8), filter="loaded")
    answer = run(plant_of(f"loop=[{SUCTION},{PUMP},{FILTER},{RETURN}]", tub=AT_20), Draws(0), loaded)
    share = float(answer.flow_m3s[0]) / (40.0 * L_MIN)
    assert 6000.0 * (1.8 * share + 0.7 * share**2) == pytest.approx(_loss(answer, "filter"), rel=1e-6)


def test_filter_of_two_pairs_passes_through_both(plant_of: PlantOf) -> None:
    """2 kPa at 20 L/min and 6 kPa at 40: 6 (m x + (1 - m) x2) with m = 1/3 at x = 1/2 is 2."""
    pairs = '{part="filter",drops=[["20 L/min","2 kPa"],["40 L/min","6 kPa"]]}'
    answer = run(plant_of(f"loop=[{SUCTION},{PUMP},{pairs},{RETURN}]", tub=AT_20), Draws(0), Condition(np.full(1, 0.8)))
    share = float(answer.flow_m3s[0]) / (40.0 * L_MIN)
    assert 6000.0 * (share / 3.0 + share**2 * 2.0 / 3.0) == pytest.approx(_loss(answer, "filter"), rel=1e-5)


def test_chiller_without_exponent_takes_that_of_exchangers(plant_of: PlantOf) -> None:
    """1.85 in the middle of 1.7 to 2."""
    loop = f'loop=[{SUCTION},{PUMP},{{part="chiller",drop="9 kPa",at_flow="30 L/min"}},{RETURN}]'
    answer = run(plant_of(loop, tub=AT_20), Draws(0), Condition(np.full(1, 0.8)))
    share = float(answer.flow_m3s[0]) / (30.0 * L_MIN)
    assert 9000.0 * share**1.85 == pytest.approx(_loss(answer, "chiller"), rel=1e-6)


def test_chiller_of_two_pairs_fits_its_exponent(plant_of: PlantOf) -> None:
    pairs = '{part="chiller",drops=[["20 L/min","3 kPa"],["40 L/min","9 kPa"]]}'
    answer = run(plant_of(f"loop=[{SUCTION},{PUMP},{pairs},{RETURN}]", tub=AT_20), Draws(0), Condition(np.full(1, 0.8)))
    share = float(answer.flow_m3s[0]) / (40.0 * L_MIN)
    assert 9000.0 * share ** np.log2(3.0) == pytest.approx(_loss(answer, "chiller"), rel=1e-5)


def test_spring_check_valve_loses_its_opening_and_a_square(run_of: RunOf) -> None:
    """Estimates of the tables: K 6 and 1.5 kPa."""
    answer = _with(run_of, '{part="check valve",style="spring"}')
    assert 1500.0 + 6.0 * _head(answer, "check valve") == pytest.approx(_loss(answer, "check valve"), rel=1e-6)


def test_measured_drop_of_a_valve_stands_for_its_table(plant_of: PlantOf) -> None:
    loop = f'loop=[{SUCTION},{PUMP},{{part="throttle valve",drop="4 kPa",at_flow="20 L/min"}},{RETURN}]'
    answer = run(plant_of(loop, tub=AT_20), Draws(0), Condition(np.full(1, 0.8)))
    share = float(answer.flow_m3s[0]) / (20.0 * L_MIN)
    assert 4000.0 * share**2 == pytest.approx(_loss(answer, "throttle valve"), rel=1e-6)


@pytest.mark.parametrize(
    ("valve", "k"),
    [
        ('{part="throttle valve",handle="35 deg"}', 9.68 + 0.10),
        ('{part="ball valve",handle="20 deg"}', 1.56 + 0.10),
        ('{part="butterfly valve",handle="40 deg"}', 10.8 + 0.6),
        ('{part="gate valve",open_share=0.5}', 2.06 + 0.24),
        ('{part="globe valve",open_share=0.5}', 4.0 * 7.6),
        ('{part="ball valve",handle="0 deg"}', 0.10),
        ('{part="gate valve",open_share=1.0}', 0.24),
    ],
)
def test_partly_open_valve_adds_the_tables_loss_to_its_own(run_of: RunOf, valve: str, k: float) -> None:
    """Weisbach's cock and gate as printed; a globe valve half open takes four times its own (plug disc, rounded)."""
    answer = _with(run_of, valve)
    name = valve.split('"')[1]
    assert k == pytest.approx(_loss(answer, name) / _head(answer, name), rel=5e-3)


def test_pump_at_another_speed_follows_the_affinity_laws(run_of: RunOf) -> None:
    """On square-law losses alone flow goes with speed, head with its square: 50 instead of 60 Hz."""
    slow = PUMP.replace("height", 'curve_speed="3000 rpm",speed="2500 rpm",height')
    full, slowed = (run_of(f'loop=[{SUCTION},{pump},{{part="known loss",k=20}},{RETURN}]') for pump in (PUMP, slow))
    assert 5.0 / 6.0 == pytest.approx(float(slowed.flow_m3s[0] / full.flow_m3s[0]), rel=1e-9)
    assert (5.0 / 6.0) ** 2 == pytest.approx(_loss(slowed, "pump") / _loss(full, "pump"), rel=1e-9)


def test_rated_pump_head_lies_up_to_15_percent_below_its_curve_and_never_above(plant_of: PlantOf) -> None:
    draws = Draws(256)
    plant = plant_of(f'loop=[{SUCTION},{PUMP},{{part="known loss",k=20}},{RETURN}]')
    answer = run(plant, draws, Condition(np.full(257, 0.8)))
    flow, head = answer.flow_m3s, -answer.station("pump").loss_pa
    curve = 5.0 * (1.0 - (flow / (60.0 * L_MIN)) ** 2) * answer.assembly.water.density_kgm3 * G
    ratio = head / curve
    assert 1.0 == pytest.approx(float(ratio[0]))
    assert 0.85 - 1e-9 <= ratio.min() < 0.86
    assert 1.0 == pytest.approx(float(ratio.max()))


@pytest.mark.parametrize(("ends", "count"), [("plain", 0), ("threaded", 2)])
def test_threaded_ends_of_an_injector_lose_a_thread_each(run_of: RunOf, ends: str, count: int) -> None:
    """0.50 each on 26.24 mm; xi (1 - B4)/Cd2 on the throat's 8 mm beside it."""
    answer = _with(run_of, f'{{part="injector",throat="8 mm",height="0.6 m",ends="{ends}"}}')
    own = 0.24 * (1.0 - (0.008 / IN_1) ** 4) / 0.96**2 * _head(answer, "injector", 0.008)
    assert own + count * 0.5 * _head(answer, "injector") == pytest.approx(_loss(answer, "injector"), rel=1e-6)


def test_thread_behind_an_injector_presses_on_its_port(run_of: RunOf) -> None:
    answer = _with(run_of, '{part="injector",throat="8 mm",height="0.6 m",ends="threaded"}')
    assert answer.port is not None
    raised = answer.assembly.water.density_kgm3 * G * (0.6 - 0.8)
    assert 0.5 * _head(answer, "injector") - raised == pytest.approx(float(answer.port.outlet_pa_gauge[0]), abs=1e-2)


def test_barbed_injector_has_its_bores_in_its_barbs(run_of: RunOf) -> None:
    """3/4 in barbs of 15.5 mm between hoses: in front 0.5 (1 - b2) and friction, behind friction and (1 - b2)2."""
    hose = '{part="flexible hose",name="NAME",length="1 m"}'
    injector = '{part="injector",throat="7 mm",height="0.6 m",ends="barbed"}'
    answer = run_of(
        f"loop=[{SUCTION},{PUMP},{hose.replace('NAME', 'x')},{injector},{hose.replace('NAME', 'y')},{RETURN}]",
        size="3/4 in",
    )
    water, flow = answer.assembly.water, float(answer.flow_m3s[0])
    reynolds = flow * 4.0 * water.density_kgm3 / (pi * 0.0155 * water.viscosity_pas)
    friction = float(friction_factor(reynolds, 1.5e-6 / 0.0155)) * 0.030 / 0.0155
    b2 = (0.0155 / 0.02093) ** 2
    barbs = 0.5 * (1.0 - b2) + (1.0 - b2) ** 2 + 2.0 * friction
    own = 0.24 * (1.0 - (0.007 / 0.0155) ** 4) / 0.96**2 * _head(answer, "injector", 0.007)
    assert own + barbs * _head(answer, "injector", 0.0155) == pytest.approx(_loss(answer, "injector"), rel=1e-6)


def test_blocked_return_and_suction_lose_as_their_openings_narrow(plant_of: PlantOf) -> None:
    """Half covered: the opening's own loss four times; all covered: shut."""
    plant = plant_of(f"loop=[{SUCTION},{PUMP},{RETURN}]")
    level = np.full(1, 0.8)
    clean = run(plant, Draws(0), Condition(level))
    half = run(plant, Draws(0), Condition(level, suction_blocked_ratio=0.5))
    assert 4.0 * 0.5 == pytest.approx(_loss(half, "suction fitting") / _head(half, "suction fitting"), rel=1e-9)
    assert float(half.flow_m3s[0]) < float(clean.flow_m3s[0])
    shut = run(plant, Draws(0), Condition(level, return_blocked_ratio=1.0))
    assert 0.0 == float(shut.flow_m3s[0])
