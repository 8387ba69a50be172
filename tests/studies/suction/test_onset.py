"""From which flow the injector draws, against closed forms, and how much more return pressure it would stand."""

from collections.abc import Callable
from math import inf, pi, sqrt

import numpy as np
import pytest

from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, run
from sanitize.studies.suction.onset import draws_share, extra_return_pressure, flow_window
from sanitize.studies.suction.states import gas_side, levels

PlantOf = Callable[..., Plant]
RunOf = Callable[..., Run]
G = 9.80665
L_MIN = 1.0 / 60_000.0
BORE = 0.02624
SUCTION = '{part="suction fitting",height="0.2 m"}'
RETURN = '{part="return",height="0.5 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'


def _loop(height_m: float, behind_k: float, ahead_k: float = 1.0, pump: str = PUMP) -> str:
    """All losses behind the injector are quadratic, on one bore of 26.24 mm; throat 8 mm."""
    return (
        f'loop=[{SUCTION},{pump},{{part="known loss",k={ahead_k}}},'
        f'{{part="injector",throat="8 mm",height="{height_m} m"}},'
        f'{{part="known loss",name="behind",k={behind_k}}},{RETURN}]'
    )


def _recovery_pa_s2m6(density: float) -> float:
    """(1 - xi)(1 - B4)/Cd2 times rho / 2 An2, with the nominal xi 0.24 and Cd 0.96."""
    throat, inlet = pi * 0.008**2 / 4.0, pi * BORE**2 / 4.0
    return (1.0 - 0.24) * (1.0 - (throat / inlet) ** 2) / 0.96**2 * density / (2.0 * throat**2)


def _k_that_takes(share: float) -> float:
    """Loss coefficient on 26.24 mm that takes a share of what the injector's throat wins back."""
    return share * _recovery_pa_s2m6(1.0) * 2.0 * (pi * BORE**2 / 4.0) ** 2


@pytest.mark.parametrize("opens_at", [0.0, 1500.0])
def test_onset_over_square_law_losses_is_the_closed_form(run_of: RunOf, opens_at: float) -> None:
    """s = rho g (0.80 - 0.60) + pc = (k2 - k_dn) Q2; with one bore the exit's 1 and the velocity head cancel."""
    answer = run_of(_loop(0.6, 12.0))
    density = answer.assembly.water.density_kgm3
    k_dn = 12.0 * density / 2.0 / (pi * BORE**2 / 4.0) ** 2
    s = density * G * 0.2 + opens_at
    window = flow_window(answer, np.full(1, opens_at))
    assert sqrt(s / (_recovery_pa_s2m6(density) - k_dn)) == pytest.approx(float(window.onset_m3s[0]), rel=1e-9)
    assert inf == float(window.below_m3s[0])


def test_onset_where_the_return_takes_more_than_the_throat_wins_never_comes(run_of: RunOf) -> None:
    window = flow_window(run_of(_loop(0.6, _k_that_takes(1.02))), np.zeros(1))
    assert (inf, inf) == (float(window.onset_m3s[0]), float(window.below_m3s[0]))


def test_onset_of_a_raised_injector_is_any_flow(run_of: RunOf) -> None:
    """0.3 m over the water stand against 1.5 kPa: s < 0, and the throat wins more than the return takes."""
    window = flow_window(run_of(_loop(1.1, 12.0)), np.full(1, 1500.0))
    assert (0.0, inf) == (float(window.onset_m3s[0]), float(window.below_m3s[0]))


def test_raised_injector_before_a_tight_return_draws_only_below_a_flow(run_of: RunOf) -> None:
    """s < 0 and k2 < k_dn: more flow stops it at sqrt(s / (k2 - k_dn))."""
    k = _k_that_takes(1.6)
    pump = PUMP.replace('"5 m"', '"12 m"')
    answer = run_of(_loop(1.1, k, pump=pump))
    density = answer.assembly.water.density_kgm3
    s = density * G * (0.8 - 1.1) + 1500.0
    window = flow_window(answer, np.full(1, 1500.0))
    stops = sqrt(s / (-0.6 * _recovery_pa_s2m6(density)))
    assert 0.0 == float(window.onset_m3s[0])
    assert stops == pytest.approx(float(window.below_m3s[0]), rel=1e-9)
    assert answer.port is not None
    drawing = float(answer.port.port_pa_gauge[0]) < -1500.0
    assert drawing == (float(answer.port.flow_m3s[0]) < stops)


def test_onset_beyond_the_pumps_run_out_is_never(run_of: RunOf) -> None:
    """A pump that ends at 6 L/min, another at 12, and an onset that the closed form puts between."""
    weak = '{part="pump",height="0.3 m",curve=[["0 L/min","3 m"],["6 L/min","0 m"]]}'
    strong = weak.replace('"6 L/min"', '"12 L/min"')
    opens, answer = np.full(1, 800.0), run_of(_loop(0.6, 12.0, pump=strong))
    density = answer.assembly.water.density_kgm3
    k_dn = 12.0 * density / 2.0 / (pi * BORE**2 / 4.0) ** 2
    onset = sqrt((density * G * 0.2 + 800.0) / (_recovery_pa_s2m6(density) - k_dn))
    assert 6.0 * L_MIN < onset < 12.0 * L_MIN
    assert onset == pytest.approx(float(flow_window(answer, opens).onset_m3s[0]), rel=1e-9)
    assert inf == float(flow_window(run_of(_loop(0.6, 12.0, pump=weak)), opens).onset_m3s[0])


def test_onset_in_a_side_stream_is_the_injectors_own_flow(run_of: RunOf) -> None:
    """With square laws alone and the split held, the port's margin is s + c Q2, so the onset is Q sqrt(-s / c)."""
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{{part="known loss",k=4}},{RETURN}]\n'
        'way.a=[{part="injector",throat="8 mm",height="0.6 m"}]\nway.b=[{part="known loss",name="other",k=30}]'
    )
    assert answer.port is not None
    s = answer.assembly.water.density_kgm3 * G * 0.2 + 1500.0
    margin = float(answer.port.port_pa_gauge[0]) + 1500.0
    onset = float(answer.port.flow_m3s[0]) * sqrt(s / (s - margin))
    assert onset == pytest.approx(float(flow_window(answer, np.full(1, 1500.0)).onset_m3s[0]), rel=1e-8)
    assert onset < 0.5 * float(answer.flow_m3s[0])


def test_onset_does_not_depend_on_the_order_of_the_ways(run_of: RunOf) -> None:
    """Two returns at different heights: with the flows scaled, the ways behind the split disagree."""
    ways = (
        'way.a=[{part="flexible hose",name="a hose",length="6 m"},{part="return",name="a end",height="0.5 m"}]\n'
        'way.b=[{part="flexible hose",name="b hose",length="1 m"},{part="return",name="b end",height="0.9 m"}]\n'
    )
    onsets = [
        flow_window(
            run_of(
                f'loop=[{SUCTION},{PUMP},{{part="injector",throat="8 mm",height="0.6 m"}},'
                f'{{part="split",ways=["{first}","{second}"]}}]\n{ways}'
            ),
            np.full(1, 1500.0),
        ).onset_m3s[0]
        for first, second in (("a", "b"), ("b", "a"))
    ]
    assert 0.0 < onsets[0] < inf
    assert onsets[0] == pytest.approx(onsets[1], rel=1e-6)


def test_onset_over_two_pumps_side_by_side_reaches_their_joint_run_out(run_of: RunOf) -> None:
    """Two pumps of at most 20 L/min each: an onset at about 25 L/min is within their reach."""
    small = '{part="pump",height="0.3 m",curve=[["0 L/min","3 m"],["20 L/min","0 m"]]}'
    answer = run_of(
        f'loop=[{{part="join",ways=["a","b"]}},{{part="injector",throat="14 mm",height="0.6 m"}},{RETURN}]\n'
        f"way.a=[{SUCTION},{small}]\nway.b=[{SUCTION},{small}]"
    )
    onset = float(flow_window(answer, np.full(1, 600.0)).onset_m3s[0])
    assert 20.0 * L_MIN < onset < 40.0 * L_MIN


def test_injector_that_draws_at_rest_and_at_speed_but_not_as_it_runs_draws_again_above_a_flow(run_of: RunOf) -> None:
    """Behind it a resistance in proportion to the flow, 5 kPa at 20 L/min, 2 cm of pull from its height.

    -s = a Q + (k_dn - k2) Q2 has two positive roots, and the loop runs between them; the exit's head cancels.
    """
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="known loss",k=9000}},{{part="injector",throat="8 mm",height="0.82 m"}},'
        f'{{part="known drop",drop="5 kPa",at_flow="20 L/min",exponent=1}},{RETURN}]'
    )
    answer = run_of(loop)
    assert answer.port is not None
    water = answer.assembly.water
    viscosity_20 = 1.0016e-3
    a = 5000.0 / (20.0 * L_MIN) * water.viscosity_pas / viscosity_20
    k2, s = _recovery_pa_s2m6(water.density_kgm3), water.density_kgm3 * G * (0.8 - 0.82)
    root = sqrt(a**2 - 4.0 * k2 * -s)
    low, high = (a - root) / (2.0 * k2), (a + root) / (2.0 * k2)
    assert low < float(answer.port.flow_m3s[0]) < high
    window = flow_window(answer, np.zeros(1))
    assert high == pytest.approx(float(window.onset_m3s[0]), rel=1e-3)
    assert inf == float(window.below_m3s[0])


def test_dead_injector_has_no_onset(run_of: RunOf) -> None:
    answer = run_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\nway.b=[{{part="elbow 90"}}]\n'
        'way.a=[{part="injector",throat="8 mm",height="1.3 m"},{part="ball valve",handle="90 deg"}]'
    )
    window = flow_window(answer, np.zeros(1))
    assert np.isnan(window.onset_m3s[0])
    assert np.isnan(window.below_m3s[0])


SERIES = _loop(0.7, 20.0)
SIDE = (
    f'loop=[{SUCTION},{PUMP},{{part="filter",drop="6 kPa",at_flow="40 L/min"}},'
    f'{{part="split",ways=["a","b"],straight="b"}},{{part="flexible hose",length="2 m"}},{RETURN}]\n'
    'way.a=[{part="injector",throat="8 mm",height="0.75 m"}]\nway.b=[{part="throttle valve",handle="40 deg"}]'
)


@pytest.mark.parametrize("loop", [SERIES, SIDE], ids=["series", "side stream"])
def test_return_pressure_that_it_stands_brings_the_margin_to_nothing_when_added(plant_of: PlantOf, loop: str) -> None:
    plant, draws = plant_of(loop), Draws(64)
    condition = Condition(levels(plant, draws)["normal"])
    answer = run(plant, draws, condition)
    assert answer.port is not None
    opens = gas_side(plant, draws, answer.port.height_m).opens_at_pa
    stands = extra_return_pressure(plant, draws, condition, answer, opens)
    drawing = answer.solved & (answer.port.port_pa_gauge + opens < 0.0)
    assert 30 < drawing.sum()
    assert np.all((stands > 0.0) == drawing)
    again = run(plant, draws, condition, back_pa=stands)
    assert again.port is not None
    margin = (again.port.port_pa_gauge + opens)[drawing]
    assert np.all(np.abs(margin) < 5e-6 * answer.network.scale_pa[drawing])


def test_return_pressure_that_it_stands_is_that_of_the_balance_at_the_port(run_of: RunOf, plant_of: PlantOf) -> None:
    """Where it stops, s + p = (k2 - k_dn) Q2 and the pump's head at Q is the loop's loss and p: solved for both."""
    from scipy.optimize import brentq

    answer = run_of(SERIES)
    water = answer.assembly.water
    throat, area = pi * 0.008**2 / 4.0, pi * BORE**2 / 4.0
    k2 = _recovery_pa_s2m6(water.density_kgm3)
    lost = 0.24 * (1.0 / throat**2 - 1.0 / area**2) / 0.96**2 + (0.5 + 1.0 + 20.0 + 1.0) / area**2
    s = water.density_kgm3 * G * 0.1 + 1500.0

    def extra(q: float) -> float:
        return (k2 - 20.0 * water.density_kgm3 / 2.0 / area**2) * q * q - s

    def left(q: float) -> float:
        head = 5.0 * (1.0 - (q / (60.0 * L_MIN)) ** 2) * water.density_kgm3 * G
        return head - lost * water.density_kgm3 / 2.0 * q * q - extra(q)

    flow = brentq(left, 5.0 * L_MIN, 59.0 * L_MIN, xtol=1e-15)
    draws = Draws(0)
    stands = extra_return_pressure(
        plant_of(SERIES), draws, Condition(np.full(1, 0.8)), run_of(SERIES), np.full(1, 1500.0)
    )
    assert extra(flow) == pytest.approx(float(stands[0]), rel=1e-5)


def test_return_pressure_that_it_stands_is_sought_in_some_of_many_cases_only(plant_of: PlantOf) -> None:
    plant, draws = plant_of(SERIES), Draws(1024)
    condition = Condition(levels(plant, draws)["normal"])
    answer = run(plant, draws, condition)
    assert answer.port is not None
    opens = gas_side(plant, draws, answer.port.height_m).opens_at_pa
    stands = extra_return_pressure(plant, draws, condition, answer, opens)
    drawing = answer.solved & (answer.port.port_pa_gauge + opens < 0.0)
    assert (513,) == stands.shape
    assert np.all((stands > 0.0) == drawing[:513])


def test_share_that_draws_leaves_out_the_nominal_case_and_dead_injectors(plant_of: PlantOf) -> None:
    """Raised 0.5 m over the water with a shut valve: a vacuum at the port, and no water that would carry gas away."""
    dead = plant_of(
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"],straight="b"}},{RETURN}]\nway.b=[{{part="elbow 90"}}]\n'
        'way.a=[{part="ball valve",handle="90 deg"},{part="injector",throat="8 mm",height="1.3 m"}]'
    )
    answer = run(dead, Draws(16), Condition(np.full(17, 0.8)))
    assert answer.port is not None
    assert np.all(answer.port.port_pa_gauge < -4000.0)
    assert 0.0 == draws_share(answer, np.zeros(17))
    alive = run(plant_of(SERIES), Draws(16), Condition(np.full(17, 0.8)))
    assert alive.port is not None
    margin = alive.port.port_pa_gauge
    opens = np.full(17, -float(np.sort(margin[1:])[4]) + 1e-3)
    assert 4 / 16 == draws_share(alive, opens)


def test_injector_that_does_not_draw_stands_no_more_return_pressure(plant_of: PlantOf, run_of: RunOf) -> None:
    loop = _loop(0.3, _k_that_takes(1.1))
    stands = extra_return_pressure(plant_of(loop), Draws(0), Condition(np.full(1, 0.8)), run_of(loop), np.zeros(1))
    assert [0.0] == stands.tolist()
