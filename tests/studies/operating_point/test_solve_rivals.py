"""Operating points against scalar solvers written here: scipy's roots, fluids' friction and tees, own sums of K.

Water of 10 degC as IAPWS has it: 999.7025 kg/m3, 1.30590 mPa s. Loss coefficients are typed from the published tables.
"""

from collections.abc import Callable
from math import pi

import fluids
import numpy as np
import pytest
from scipy.optimize import brentq, fsolve

from sanitize.studies.operating_point.run import Run

RunOf = Callable[..., Run]
L_MIN = 1.0 / 60_000.0
G = 9.80665
DENSITY, VISCOSITY = 999.7025, 1.30590e-3
DENSITY_20 = 998.2072
BORE = 0.02624
"""1 in pipe, schedule 40, average wall [m]."""
AREA = pi * BORE**2 / 4.0
CD, XI = 0.96, 0.24
"""Discharge coefficient and loss ratio of an injector that is known by its throat only."""
SUCTION = '{part="suction fitting",height="0.2 m"}'
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","7 m"],["80 L/min","0 m"]]}'
RETURN = '{part="return",height="0.5 m"}'
AGREES = 1e-4
"""Relative; water properties and Colebrook's equation agree closer than this."""


def _head_pa(k: float, flow: float, bore: float = BORE) -> float:
    return k * DENSITY / 2.0 * (flow / (pi * bore**2 / 4.0)) ** 2


def _pipe_pa(length: float, flow: float, bore: float = BORE) -> float:
    velocity = flow / (pi * bore**2 / 4.0)
    reynolds = DENSITY * velocity * bore / VISCOSITY
    assert reynolds > 10_000.0  # so that no fitting loses more than its table says
    factor = fluids.Colebrook(reynolds, 1.5e-6 / bore)
    return factor * length / bore * DENSITY / 2.0 * velocity**2


def _pump_pa(flow: float, shut_off_m: float = 7.0, run_out: float = 80.0 * L_MIN) -> float:
    return DENSITY * G * shut_off_m * (1.0 - (flow / run_out) ** 2)


def _injector_pa(flow: float, throat: float) -> float:
    """xi (p1 - po), with p1 - po of an orifice with approach factor; equal ends, so it is the total loss too."""
    small = pi * throat**2 / 4.0
    return XI * DENSITY / 2.0 * flow**2 * (1.0 / small**2 - 1.0 / AREA**2) / CD**2


def test_series_loop_agrees_with_a_scalar_root(run_of: RunOf) -> None:
    """Suction 0.5, elbows 0.73, ball valve 0.10, 5 m of pipe, 8 kPa at 40 L/min (20 degC), 9 mm throat, exit 1."""
    loop = (
        f'loop=[{SUCTION},{{part="pipe",length="2 m"}},{PUMP},{{part="elbow 90",count=4}},{{part="ball valve"}},'
        '{part="pipe",length="3 m"},{part="known drop",drop="8 kPa",at_flow="40 L/min",exponent=2},'
        f'{{part="injector",throat="9 mm",height="0.6 m"}},{RETURN}]'
    )

    def left(flow: float) -> float:
        drop = 8000.0 * DENSITY / DENSITY_20 * (flow / (40.0 * L_MIN)) ** 2
        fittings = _head_pa(0.5 + 4 * 0.73 + 0.10 + 1.0, flow)
        return _pump_pa(flow) - fittings - _pipe_pa(5.0, flow) - drop - _injector_pa(flow, 0.009)

    rival = brentq(left, 20.0 * L_MIN, 79.0 * L_MIN, xtol=1e-14)
    assert rival == pytest.approx(float(run_of(loop).flow_m3s[0]), rel=AGREES)


def test_lift_to_a_free_return_agrees_with_a_scalar_root(run_of: RunOf) -> None:
    """As a series loop, the outlet 1.7 m over the water: that height is lost, and the jet's velocity head with it."""
    loop = f'loop=[{SUCTION},{PUMP},{{part="pipe",length="6 m"}},{{part="return",height="2.5 m"}}]'

    def left(flow: float) -> float:
        return _pump_pa(flow) - DENSITY * G * 1.7 - _head_pa(0.5 + 1.0, flow) - _pipe_pa(6.0, flow)

    rival = brentq(left, 20.0 * L_MIN, 79.0 * L_MIN, xtol=1e-14)
    assert rival == pytest.approx(float(run_of(loop).flow_m3s[0]), rel=AGREES)


def test_unequal_pumps_in_a_row_agree_with_a_scalar_root(run_of: RunOf) -> None:
    small = '{part="pump",name="small",height="0.3 m",curve=[["0 L/min","3 m"],["55 L/min","0 m"]]}'
    loop = f'loop=[{SUCTION},{PUMP},{{part="pipe",length="4 m"}},{small},{{part="known loss",k=30}},{RETURN}]'

    def left(flow: float) -> float:
        heads = _pump_pa(flow) + _pump_pa(flow, 3.0, 55.0 * L_MIN)
        return heads - _head_pa(0.5 + 30.0 + 1.0, flow) - _pipe_pa(4.0, flow)

    rival = brentq(left, 20.0 * L_MIN, 54.0 * L_MIN, xtol=1e-14)
    assert rival == pytest.approx(float(run_of(loop).flow_m3s[0]), rel=AGREES)


def test_unequal_pumps_side_by_side_agree_with_a_scalar_root(run_of: RunOf) -> None:
    """Both runs of a tee meet in its branch: each loses 2 - 3 q + 3 q2 of the combined head, q its own share."""
    small = '{part="pump",name="small",height="0.3 m",curve=[["0 L/min","5 m"],["55 L/min","0 m"]]}'
    loop = (
        f'loop=[{{part="join",ways=["a","b"]}},{{part="known loss",k=8}},{RETURN}]\n'
        f"way.a=[{SUCTION},{PUMP}]\nway.b=[{SUCTION},{small}]"
    )

    def left(flows: np.ndarray) -> list[float]:
        one, other = float(flows[0]) * L_MIN, float(flows[1]) * L_MIN
        whole, q = one + other, one / (one + other)
        behind = _head_pa(8.0 + 1.0, whole)
        tees = [_head_pa(2.0 - 3.0 * share + 3.0 * share**2, whole) for share in (q, 1.0 - q)]
        return [
            _pump_pa(one) - _head_pa(0.5, one) - tees[0] - behind,
            _pump_pa(other, 5.0, 55.0 * L_MIN) - _head_pa(0.5, other) - tees[1] - behind,
        ]

    rival = fsolve(left, [40.0, 20.0], xtol=1e-12)
    answer = run_of(loop).solution.flow_m3s[:2, 0] / L_MIN
    assert rival == pytest.approx(answer, rel=AGREES)


@pytest.mark.parametrize(("throat_mm", "bypass_k"), [(9.0, 30.0), (7.0, 12.0), (12.0, 60.0)])
def test_side_stream_with_its_tees_agrees_with_a_system_of_two_equations(
    run_of: RunOf, throat_mm: float, bypass_k: float
) -> None:
    """The bypass runs straight through; tees as fluids has Crane's, on the head of the combined flow.

    fluids switches C of the converging branch at a share of 0.4 and knows no change below 0.1; shares here lie between
    or above those, so that both mean the same formula.
    """
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="pipe",length="2 m"}},'
        f'{{part="split",ways=["side","bypass"],straight="bypass"}},{{part="elbow 90",count=2}},{RETURN}]\n'
        f'way.side=[{{part="injector",throat="{throat_mm} mm",height="0.6 m"}}]\n'
        f'way.bypass=[{{part="known loss",k={bypass_k}}}]'
    )

    def left(flows: np.ndarray) -> list[float]:
        side, bypass = float(flows[0]) * L_MIN, float(flows[1]) * L_MIN
        whole = side + bypass
        common = _head_pa(0.5 + 2 * 0.73 + 1.0, whole) + _pipe_pa(2.0, whole)
        tees = {
            name: _head_pa(law(BORE, BORE, bypass, side), whole)
            for name, law in (
                ("branch off", fluids.K_branch_diverging_Crane), ("run off", fluids.K_run_diverging_Crane),
                ("branch on", fluids.K_branch_converging_Crane), ("run on", fluids.K_run_converging_Crane),
            )
        }  # fmt: skip
        return [
            _pump_pa(whole) - common - tees["branch off"] - tees["branch on"] - _injector_pa(side, throat_mm / 1000.0),
            _pump_pa(whole) - common - tees["run off"] - tees["run on"] - _head_pa(bypass_k, bypass),
        ]

    rival = fsolve(left, [15.0, 30.0], xtol=1e-12)
    share = rival[0] / rival.sum()
    assert 0.1 < share < 0.389 or share > 0.4
    answer = run_of(loop)
    flows = {link.way: answer.solution.flow_m3s[link.index, 0] / L_MIN for link in answer.assembly.topology.links}
    assert rival == pytest.approx([flows["side"], flows["bypass"]], rel=AGREES)


def test_two_returns_agree_with_a_system_of_two_equations(run_of: RunOf) -> None:
    """Water enters the tee by its branch: each way loses 1 + 0.3 q2 of the combined head, q its share."""
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["near","far"]}}]\n'
        f'way.near=[{{part="known loss",k=20}},{RETURN}]\nway.far=[{{part="pipe",length="9 m"}},{RETURN}]'
    )

    def left(flows: np.ndarray) -> list[float]:
        near, far = float(flows[0]) * L_MIN, float(flows[1]) * L_MIN
        whole, q = near + far, near / (near + far)
        given = _pump_pa(whole) - _head_pa(0.5, whole)
        return [
            given - _head_pa(1.0 + 0.3 * q**2, whole) - _head_pa(20.0 + 1.0, near),
            given - _head_pa(1.0 + 0.3 * (1.0 - q) ** 2, whole) - _pipe_pa(9.0, far) - _head_pa(1.0, far),
        ]

    rival = fsolve(left, [20.0, 30.0], xtol=1e-12)
    answer = run_of(loop)
    flows = {link.way: answer.solution.flow_m3s[link.index, 0] / L_MIN for link in answer.assembly.topology.links}
    assert rival == pytest.approx([flows["near"], flows["far"]], rel=AGREES)
