"""What the injector's port sees with the gas line closed, against the balance of energy written out by hand.

With V the velocity in the bore and z heights, the total pressure behind the injector, counted from the tub's surface,
is what the water still loses: P2 = sum of losses to the tub, the exit's rho V2/2 once. Static in the injector's bore:
p2 = P2 - rho g (z_injector - z_surface) - rho V2^2/2 (gauge). From the pump's side, P1 = rho g H - losses so far and
p1 = P1 - rho g (z_injector - z_surface) - rho V1^2/2. The port: po = p2 - kappa Z and po = p1 - (1 - B4)/Cd^2 Z,
Z = rho/2 (Q/An)^2, kappa = (1 - xi)(1 - B4)/Cd^2.
"""

from collections.abc import Callable
from math import pi, sqrt

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Port, Run, run

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
G = 9.80665
L_MIN = 1.0 / 60_000.0
IN_1, IN_3_4 = 0.02624, 0.02057
CD, XI = 0.96, 0.24
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
INJECTOR = '{part="injector",throat="8 mm",height="0.6 m"}'
RETURN = '{part="return",height="0.5 m"}'
TUB = '[tub]\nvolume="400 L"\nwater_level="0.80 m"\nwater_temperature="10 degC"\naltitude="ALT m"\n'


def _area(bore: float) -> float:
    return pi * bore**2 / 4.0


def _port(answer: Run) -> Port:
    assert answer.port is not None
    return answer.port


def _dynamic(answer: Run, bore: float) -> float:
    """rho/2 (Q/A)^2 of the injector's flow."""
    return answer.assembly.water.density_kgm3 / 2.0 * (float(_port(answer).flow_m3s[0]) / _area(bore)) ** 2


def _fall(throat: float, inlet: float) -> float:
    """(1 - B4)/Cd^2."""
    return (1.0 - (_area(throat) / _area(inlet)) ** 2) / CD**2


def _raised(answer: Run, height_m: float) -> float:
    return answer.assembly.water.density_kgm3 * G * (height_m - 0.8)


def test_port_of_a_series_loop_is_the_hand_balance_from_both_sides(run_of: RunOf) -> None:
    """One bore, 26.24 mm. Behind: two elbows 0.73 and the exit 1; before: suction 0.5, known loss 3, the pump."""
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="known loss",k=3}},{INJECTOR},{{part="elbow 90",count=2}},{RETURN}]'
    )
    port, head, z = _port(answer), _dynamic(answer, IN_1), _dynamic(answer, 0.008)
    flow = float(port.flow_m3s[0])
    assert flow * 4.0 * 999.7 / (pi * IN_1 * 1.3059e-3) > 10_000.0

    outlet = (2 * 0.73 + 1.0 - 1.0) * head - _raised(answer, 0.6)
    assert outlet == pytest.approx(float(port.outlet_pa_gauge[0]), abs=1e-2)

    pump = 5.0 * (1.0 - (flow / (60.0 * L_MIN)) ** 2) * answer.assembly.water.density_kgm3 * G
    inlet = pump - (0.5 + 3.0 + 1.0) * head - _raised(answer, 0.6)
    assert inlet == pytest.approx(float(port.inlet_pa_gauge[0]), abs=1e-2)

    assert outlet - (1.0 - XI) * _fall(0.008, IN_1) * z == pytest.approx(float(port.port_pa_gauge[0]), abs=1e-2)
    assert inlet - _fall(0.008, IN_1) * z == pytest.approx(float(port.port_pa_gauge[0]), abs=1e-2)


def test_submerged_exit_of_one_bore_cancels_the_velocity_head_at_the_outlet(run_of: RunOf) -> None:
    """With nothing between injector and tub, p2 is the depth of the injector alone: the exit's 1 less its own head."""
    answer = run_of(f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="return",height="0.1 m"}}]')
    assert -_raised(answer, 0.6) == pytest.approx(float(_port(answer).outlet_pa_gauge[0]), abs=1e-3)


@pytest.mark.parametrize(("height", "lift"), [("0.79 m", 0.0), ("0.80 m", 0.0), ("1.10 m", 0.3)])
def test_free_jet_adds_its_height_over_the_water_and_keeps_its_head(run_of: RunOf, height: str, lift: float) -> None:
    """z_end is the surface for a return under water and the outlet for a free one; the exit is 1 in both."""
    answer = run_of(f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="known loss",k=4}},{{part="return",height="{height}"}}]')
    weight = answer.assembly.water.density_kgm3 * G
    by_hand = 4.0 * _dynamic(answer, IN_1) - _raised(answer, 0.6) + weight * lift
    assert by_hand == pytest.approx(float(_port(answer).outlet_pa_gauge[0]), abs=1e-2)


def test_narrow_return_counts_its_step_and_its_own_exit_once(run_of: RunOf) -> None:
    """1 in to 3/4 in before the tub: 0.5 (1 - b2) and the exit 1, both on 20.57 mm."""
    answer = run_of(f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="return",height="0.5 m",size="3/4 in"}}]')
    step = 0.5 * (1.0 - (IN_3_4 / IN_1) ** 2)
    by_hand = (step + 1.0) * _dynamic(answer, IN_3_4) - _dynamic(answer, IN_1) - _raised(answer, 0.6)
    assert by_hand == pytest.approx(float(_port(answer).outlet_pa_gauge[0]), abs=1e-2)


def test_nozzle_is_the_exit_and_no_other_is_counted(run_of: RunOf) -> None:
    """K = (1 - b4)/(Cd2 b4) + 1 on the pipe; a tapered eyeball of 14 mm has Cd 0.95."""
    nozzle = '{part="return",height="0.5 m",nozzle_bore="14 mm",nozzle_shape="tapered"}'
    answer = run_of(f"loop=[{SUCTION},{PUMP},{INJECTOR},{nozzle}]")
    b4 = (0.014 / IN_1) ** 4
    k = (1.0 - b4) / (0.95**2 * b4) + 1.0
    by_hand = (k - 1.0) * _dynamic(answer, IN_1) - _raised(answer, 0.6)
    assert by_hand == pytest.approx(float(_port(answer).outlet_pa_gauge[0]), abs=1e-2)


def test_injector_of_unequal_ends_has_static_pressures_and_loses_totals(run_of: RunOf) -> None:
    """xi is static: p1 - p2 = xi (p1 - po); the loop loses p1 - p2 + rho/2 (V1^2 - V2^2). Ends 18 and 22 mm.

    A step stands before the inlet and another behind the outlet, both parts of the loop.
    """
    own = '{part="injector",throat="8 mm",height="0.6 m",inlet_bore="18 mm",outlet_bore="22 mm"}'
    answer = run_of(f"loop=[{SUCTION},{PUMP},{own},{RETURN}]")
    port, z = _port(answer), _dynamic(answer, 0.008)
    fall = _fall(0.008, 0.018) * z
    assert fall == pytest.approx(float(port.inlet_pa_gauge[0] - port.port_pa_gauge[0]), abs=1e-2)
    assert XI * fall == pytest.approx(float(port.inlet_pa_gauge[0] - port.outlet_pa_gauge[0]), abs=1e-2)
    step_in = 0.5 * (1.0 - (0.018 / IN_1) ** 2) * _dynamic(answer, 0.018)
    own_loss = XI * fall + _dynamic(answer, 0.018) - _dynamic(answer, 0.022)
    assert step_in + own_loss == pytest.approx(float(answer.station("injector").loss_pa[0]), abs=1e-2)
    step_out = (1.0 - (0.022 / IN_1) ** 2) ** 2 * _dynamic(answer, 0.022)
    outlet = step_out + _dynamic(answer, IN_1) - _dynamic(answer, 0.022) - _raised(answer, 0.6)
    assert outlet == pytest.approx(float(port.outlet_pa_gauge[0]), abs=1e-2)


def test_port_in_a_side_stream_sees_what_the_whole_flow_loses_behind_the_merge(run_of: RunOf) -> None:
    """The outlet's total is the tee's branch, known loss 6 and exit 1, all on the head of the whole flow."""
    import fluids

    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{{part="known loss",k=6}},{RETURN}]\n'
        f'way.a=[{INJECTOR}]\nway.b=[{{part="known loss",name="other",k=25}}]'
    )
    port, whole = _port(answer), float(answer.flow_m3s[0])
    side = float(port.flow_m3s[0])
    assert 0.4 < side / whole < 0.9
    on_whole = answer.assembly.water.density_kgm3 / 2.0 * (whole / _area(IN_1)) ** 2
    branch = fluids.K_branch_converging_Crane(IN_1, IN_1, whole - side, side)
    by_hand = (branch + 6.0 + 1.0) * on_whole - _dynamic(answer, IN_1) - _raised(answer, 0.6)
    assert by_hand == pytest.approx(float(port.outlet_pa_gauge[0]), abs=0.05)


def test_pressure_along_the_loop_follows_height_and_loss(run_of: RunOf) -> None:
    """Behind the suction: rho g depth - (0.5 + 1) rho V2/2; at the return: its depth; a free one: 0."""
    answer = run_of(f"loop=[{SUCTION},{PUMP},{INJECTOR},{RETURN}]")
    behind_suction = -_raised(answer, 0.2) - 1.5 * _dynamic(answer, IN_1)
    assert behind_suction == pytest.approx(float(answer.station("suction fitting").pressure_pa_gauge[0]), abs=1e-2)
    assert -_raised(answer, 0.5) == pytest.approx(float(answer.station("return").pressure_pa_gauge[0]), abs=1e-2)
    free = run_of(f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="return",height="1.2 m"}}]')
    assert 0.0 == float(free.station("return").pressure_pa_gauge[0])


STRONG = '{part="pump",height="0.3 m",curve=[["0 L/min","30 m"],["80 L/min","0 m"]]}'


@pytest.mark.parametrize("behind_k", [0.5, 4.0, 12.0])
def test_tiny_throat_before_a_strong_pump_boils_and_chokes_whatever_stands_behind(
    run_of: RunOf, behind_k: float
) -> None:
    """Port at the vapour pressure of 10 degC water, 1228 Pa, and Q = Cd An sqrt(2 (p1 - pv)/(rho (1 - B4))).

    p1 is that of the pump's side alone: rho g H - (0.5 + 1) rho V2/2 at the injector's height.
    """
    loop = f'loop=[{SUCTION},{STRONG},{{part="injector",throat="5 mm",height="0.6 m"}},'
    answer = run_of(loop + f'{{part="known loss",k={behind_k}}},{RETURN}]')
    port, water = _port(answer), answer.assembly.water
    flow = float(port.flow_m3s[0])
    assert port.cavitates[0]
    assert 1228.2 == pytest.approx(float(port.port_pa_gauge[0]) + water.atmosphere_pa_abs, rel=1e-3)
    pump = 30.0 * (1.0 - (flow / (80.0 * L_MIN)) ** 2) * water.density_kgm3 * G
    inlet = water.atmosphere_pa_abs + pump - 1.5 * _dynamic(answer, IN_1) - _raised(answer, 0.6)
    b4 = (_area(0.005) / _area(IN_1)) ** 2
    choked = CD * _area(0.005) * sqrt(2.0 * (inlet - water.vapour_pa_abs) / (water.density_kgm3 * (1.0 - b4)))
    assert choked == pytest.approx(flow, rel=1e-9)
    assert inlet - water.atmosphere_pa_abs == pytest.approx(float(port.inlet_pa_gauge[0]), abs=1e-2)


def test_choked_flow_ends_where_the_return_presses_back_enough(run_of: RunOf) -> None:
    """Choked while p2/p1 < 1 - xi (1 - pv/p1), absolute; a tighter return fills the throat again."""
    for behind_k in (300.0, 900.0, 1500.0, 3000.0, 6000.0):
        answer = run_of(
            f'loop=[{SUCTION},{STRONG},{{part="injector",throat="5 mm",height="0.6 m"}},'
            f'{{part="known loss",k={behind_k}}},{RETURN}]'
        )
        port, water = _port(answer), answer.assembly.water
        p1, p2 = (float(x[0]) + water.atmosphere_pa_abs for x in (port.inlet_pa_gauge, port.outlet_pa_gauge))
        assert bool(port.cavitates[0]) == (p2 / p1 < 1.0 - XI * (1.0 - water.vapour_pa_abs / p1))
    assert not port.cavitates[0]


def test_side_stream_that_chokes_keeps_its_balance(run_of: RunOf) -> None:
    """The choked way loses whatever the bypass leaves it; pressures agree at the merge all the same."""
    answer = run_of(
        f'loop=[{SUCTION},{STRONG},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\n'
        'way.a=[{part="injector",throat="4 mm",height="0.6 m"}]\nway.b=[{part="known loss",k=400}]'
    )
    port, water = _port(answer), answer.assembly.water
    assert port.cavitates[0]
    assert answer.solved[0]
    inlet = float(port.inlet_pa_gauge[0]) + water.atmosphere_pa_abs
    b4 = (_area(0.004) / _area(IN_1)) ** 2
    choked = CD * _area(0.004) * sqrt(2.0 * (inlet - water.vapour_pa_abs) / (water.density_kgm3 * (1.0 - b4)))
    assert choked == pytest.approx(float(port.flow_m3s[0]), rel=1e-9)
    rejoining = [float(answer.station(f"split: {way} rejoins").total_pa[0]) for way in ("a", "b")]
    assert rejoining[0] == pytest.approx(rejoining[1], abs=1e-3)


def test_flow_grows_without_a_jump_through_the_onset_of_choking(
    plant_of: PlantOf, nominal_draws: Callable[[int], Draws]
) -> None:
    """The pump's head is raised in small steps from well below choking to far above."""
    loop = (
        f'loop=[{SUCTION},{STRONG},{{part="injector",throat="6 mm",height="0.6 m"}},{{part="known loss",k=2}},{RETURN}]'
    )
    draws = nominal_draws(256)
    head = np.linspace(0.04, 1.0, draws.size)
    answer = run(plant_of(loop), draws, Condition(np.full(draws.size, 0.8), pump_head_ratio=head))
    port = _port(answer)
    assert not port.cavitates[0]
    assert port.cavitates[-1]
    steps = np.diff(port.flow_m3s)
    assert np.all(steps > 0.0)
    change = steps[1:] / steps[:-1]
    assert change.min() > 0.25
    assert change.max() < 1.1
    assert np.all(np.diff(port.port_pa_gauge) <= 1e-6)


# --- what people who build such loops know (common practice, no source) ---------------------------------------------


def _vacuum(answer: Run) -> float:
    return -float(_port(answer).port_pa_gauge[0])


def test_lifted_injector_pulls_more_by_about_its_height(run_of: RunOf) -> None:
    """Both ends in the water: lifting costs no flow, and every 0.1 m is 981 Pa of pull."""
    low, high = (
        run_of(f'loop=[{SUCTION},{PUMP},{{part="injector",throat="8 mm",height="{height} m"}},{RETURN}]')
        for height in (0.6, 0.9)
    )
    assert 0.3 * 999.7 * G == pytest.approx(_vacuum(high) - _vacuum(low), rel=1e-3)


def test_opened_bypass_takes_water_and_pull_from_the_injector(run_of: RunOf) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\nway.a=[{INJECTOR}]\n'
        'way.b=[{part="throttle valve",handle="HANDLE deg"}]'
    )
    answers = [run_of(loop.replace("HANDLE", handle)) for handle in ("90", "60", "45", "30", "0")]
    flows = [float(_port(answer).flow_m3s[0]) for answer in answers]
    assert sorted(flows, reverse=True) == flows
    assert sorted((_vacuum(answer) for answer in answers), reverse=True) == [_vacuum(answer) for answer in answers]
    totals = [float(answer.flow_m3s[0]) for answer in answers]
    assert sorted(totals) == totals


def test_elbow_more_means_less_flow_and_less_pull_when_it_stands_behind(run_of: RunOf) -> None:
    loop = f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="elbow 90",count=COUNT}},{RETURN}]'
    fewer, more = run_of(loop.replace("COUNT", "2")), run_of(loop.replace("COUNT", "3"))
    assert float(more.flow_m3s[0]) < float(fewer.flow_m3s[0])
    assert _vacuum(more) < _vacuum(fewer)


def test_hose_swept_round_instead_of_elbows_gives_more_flow(run_of: RunOf) -> None:
    """Four elbows and 1 m of pipe, or 1.4 m of hose with four wide bends."""
    stiff = run_of(
        f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="elbow 90",count=4}},{{part="pipe",length="1 m"}},{RETURN}]'
    )
    swept = run_of(f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="flexible hose",length="1.4 m",bends=4}},{RETURN}]')
    assert float(swept.flow_m3s[0]) > float(stiff.flow_m3s[0])


def test_branch_of_a_tee_costs_more_than_its_run(run_of: RunOf) -> None:
    """Two equal ways: the one that turns carries less."""
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["turns","runs"],straight="runs"}},{RETURN}]\n'
        'way.turns=[{part="known loss",name="x",k=3}]\nway.runs=[{part="known loss",name="y",k=3}]'
    )
    flows = {name: float(answer.station(name).flow_m3s[0]) for name in ("x", "y")}
    assert flows["x"] < 0.8 * flows["y"]


def test_capped_tee_costs_more_to_turn_at_than_to_pass(run_of: RunOf) -> None:
    turn, straight = (
        run_of(f'loop=[{SUCTION},{PUMP},{{part="tee",path="{path}"}},{RETURN}]') for path in ("turn", "straight")
    )
    assert float(turn.station("tee").loss_pa[0]) > 2.0 * float(straight.station("tee").loss_pa[0])


def test_altitude_moves_no_gauge_pressure_but_the_distance_to_boiling(plant_of: PlantOf) -> None:
    loop = f'loop=[{SUCTION},{PUMP},{INJECTOR},{{part="elbow 90",count=2}},{RETURN}]'
    low, high = (
        run(plant_of(loop, tub=TUB.replace("ALT", metres)), Draws(0), Condition(np.full(1, 0.8)))
        for metres in ("0", "2000")
    )
    assert _vacuum(low) == pytest.approx(_vacuum(high), rel=1e-12)
    assert float(low.flow_m3s[0]) == pytest.approx(float(high.flow_m3s[0]), rel=1e-12)
    assert 79_495.0 == pytest.approx(high.assembly.water.atmosphere_pa_abs, abs=1.0)


def test_altitude_lets_the_throat_boil_sooner(plant_of: PlantOf) -> None:
    own = '{part="injector",throat="7 mm",height="0.6 m"}'
    loop = f'loop=[{SUCTION},{STRONG},{own},{{part="known loss",k=12}},{RETURN}]'
    low, high = (
        run(plant_of(loop, tub=TUB.replace("ALT", metres)), Draws(0), Condition(np.full(1, 0.8)))
        for metres in ("0", "3000")
    )
    assert _vacuum(high) < _vacuum(low)
    assert _port(high).cavitates[0]
