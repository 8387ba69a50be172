"""The bench gives back the pump and the injector that made its readings, with friction from another library."""

import fluids
import numpy as np
import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.bench_file import read_bench
from sanitize.studies.bench.study import study_bench

G = 9.80665
# IAPWS values for water of 18 degC and one atmosphere, from memory to four figures
DENSITY, VISCOSITY = 998.6, 1.053e-3
BORE, LENGTH = 0.0206, 5.0


def lift_of(flow_m3s: float, head_m: float) -> float:
    """Height of a hose's end at which a pump of this head gives this flow: the hose and the jet take the rest."""
    velocity = flow_m3s / (np.pi * BORE**2 / 4.0)
    factor = fluids.friction_factor(Re=DENSITY * velocity * BORE / VISCOSITY, eD=1.5e-6 / BORE)
    return head_m - (factor * LENGTH / BORE + 1.0) * velocity**2 / (2.0 * G)


def bench_of(flows: list[tuple[float, float]], injector: str = "", stop: float = 4.2) -> str:
    pairs = ", ".join(f'["{height:.4f} m", "{flow * 60e3:.4f} L/min"]' for height, flow in flows)
    return (
        f'[bench]\nwater_temperature = "18 degC"\nhose_bore = "20.6 mm"\nhose_length = "5 m"\n'
        f'no_flow_height = "{stop} m"\nflows = [{pairs}]\n{injector}'
    )


def study(text: str):
    return study_bench(read_bench(text, "bench.toml").bench)


def test_bench_gives_back_the_head_of_the_pump_that_made_the_flows() -> None:
    """A pump of 4.2 m - B Q2; friction and jet by `fluids`: within a tenth of the head's own range."""
    flows = np.array([20.0, 32.0, 44.0]) / 60e3
    heads = 4.2 - 4.2 * (flows / (52.0 / 60e3)) ** 2 * 0.5
    result = study(bench_of([(lift_of(flow, head), float(flow)) for flow, head in zip(flows, heads, strict=True)]))
    assert [0.0, *flows] == pytest.approx([point.flow_m3s for point in result.curve], rel=1e-4)
    assert [4.2, *heads] == pytest.approx([point.head_m.nominal for point in result.curve], rel=5e-3)
    for point, head in zip(result.curve[1:], heads, strict=True):
        assert point.head_m.low < head < point.head_m.high
    assert 0.85 < result.head_share_ratio.low < 1.0 < result.head_share_ratio.high < 1.15


def test_bench_injector_is_the_ratio_of_its_columns() -> None:
    """Outlet in the open: k1 = (inlet + lift)/Q2, k2 = lift/Q2, so the loss ratio is inlet/(inlet + lift)."""
    shares = {15: 0.5625, 20: 1.0, 24: 1.44}
    rows = ", ".join(f'["{q} L/min", "{0.9 * share} m", "{2.1 * share} m"]' for q, share in shares.items())
    flows = [(0.5, 40 / 60e3), (1.5, 32 / 60e3), (2.8, 20 / 60e3)]
    found = study(bench_of(flows, f"injector = [{rows}]\n")).injector
    square = (20.0 / 60e3) ** 2
    assert 0.3 == pytest.approx(found.loss_ratio.nominal, abs=1e-4)
    assert DENSITY * G * 3.0 / square == pytest.approx(found.inlet_to_port_pa_s2m6.nominal, rel=1e-3)
    assert DENSITY * G * 2.1 / square == pytest.approx(found.outlet_to_port_pa_s2m6.nominal, rel=1e-3)
    assert found.loss_ratio.low < 0.29
    assert found.loss_ratio.high > 0.31


def test_bench_row_alone_carries_a_wide_range_and_a_notice() -> None:
    flows = [(0.5, 40 / 60e3), (1.5, 32 / 60e3), (2.8, 20 / 60e3)]
    three = ", ".join(['["20 L/min", "0.9 m", "2.1 m"]'] * 3)
    one = study(bench_of(flows, 'injector = [["20 L/min", "0.9 m", "2.1 m"]]\n'))
    wide = one.injector.loss_ratio.high - one.injector.loss_ratio.low
    narrow = study(bench_of(flows, f"injector = [{three}]\n")).injector.loss_ratio
    assert wide > 1.9 * (narrow.high - narrow.low)
    assert "bench-one-row" in {notice.code for notice in one.notices}


def test_bench_flows_whose_head_rises_are_refused() -> None:
    """The least height has a flow so large that the hose alone takes more than the pump gives at rest."""
    flows = [(0.2, 90 / 60e3), (1.5, 32 / 60e3), (2.8, 20 / 60e3)]
    with pytest.raises(InputError, match="a head that falls as the flow rises"):
        study(bench_of(flows))
