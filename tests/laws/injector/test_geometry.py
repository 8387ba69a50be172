import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sanitize.laws.injector import geometry as g

CD = st.floats(0.85, 0.995)
RATIO = st.floats(0.01, 0.9)
B = st.floats(0.25, 1.0)
KM = st.floats(0.0, 0.3)
KD = st.floats(0.02, 0.8)
R = st.floats(0.01, 0.24)


def test_recovery_handbook_example_equals_liquid_jet_pump_equation_at_no_side_flow() -> None:
    """Karassik, Pump Handbook, liquid-jet pump equation with b = .3, a = .2, K = .1 and .1."""
    b, a, k, m = 0.3, 0.2, 0.1, 0.0
    handbook = b**2 * (2 / b + 2 * m**2 / (1 - b) - (1 + m) ** 2 * (1 + k + k + a**2))
    assert 0.4884 == pytest.approx(handbook, abs=1e-12)
    assert handbook == pytest.approx(g.recovery_coefficient(b, k, k, a * b), abs=1e-12)


@pytest.mark.parametrize(("loss", "recovered"), [(0.86, 0.15), (0.28, 0.72)])
def test_recovery_home_made_venturi_leaves_what_its_loss_does_not_take(loss: float, recovered: float) -> None:
    """Dunn, Penney and Clausen print K = 0.86 with "about 15 %" recovered: 0.14 within that rounding."""
    kappa = g.recovery_coefficient(1.0, 0.0, loss, 0.0)
    assert recovered == pytest.approx(kappa, abs=0.011)


def test_recovery_sudden_enlargement_loses_the_borda_carnot_head() -> None:
    """A jet into a bore that runs on unchanged (a = 1, no diffuser): total loss (1 - b)^2 by hand."""
    b = np.array([0.2, 0.5, 0.8, 1.0])
    assert np.square(1 - b) == pytest.approx(g.total_loss_coefficient(1.0, 0.0, b, 0.0, 0.0), abs=1e-12)


def test_recovery_frictionless_plain_venturi_with_equal_ends_loses_nothing() -> None:
    drop = g.nozzle_drop_coefficient(1.0, 0.2)
    assert pytest.approx(0.0, abs=1e-15) == g.loss_ratio(drop, g.recovery_coefficient(1.0, 0.0, 0.0, 0.2))


def test_discharge_student_venturi_gives_the_measured_coefficient() -> None:
    """Student test of a venturi, 16.4 to 6.8 mm: 25 L/min, 76 kPa measured; the velocity alone asks 65.0 kPa."""
    inlet_m2, throat_m2 = 2.1e-4, 0.36e-4
    z = g.throat_dynamic_pressure(25e-3 / 60, throat_m2, 997.5)
    ideal = z * (1 - (throat_m2 / inlet_m2) ** 2)
    assert 65.0e3 == pytest.approx(ideal, abs=0.2e3)  # areas printed to two figures
    kn = 76e3 / z - 1 + (throat_m2 / inlet_m2) ** 2
    assert 0.925 == pytest.approx(g.discharge_coefficient(kn, throat_m2 / inlet_m2), abs=0.0015)


def test_venturi_meter_bansal_6_10_gives_the_printed_flow() -> None:
    """Bansal, Fluid Mechanics, problem 6.10: 30 x 15 cm, 20 cm of mercury, Cd 0.98, 125.756 L/s."""
    throat_to_inlet = (15 / 30) ** 2
    throat_m2 = np.pi / 4 * 0.15**2
    drop_pa = (13600 - 1000) * 9.81 * 0.20
    z_at_one = g.throat_dynamic_pressure(1.0, throat_m2, 1000.0)
    flow_m3s = np.sqrt(drop_pa / (g.nozzle_drop_coefficient(0.98, throat_to_inlet) * z_at_one))
    assert 125.756 == pytest.approx(flow_m3s * 1e3, abs=0.02)  # the print rounds areas and the root


def test_mouthpiece_cylindrical_lifts_three_quarters_of_the_head() -> None:
    """Encyclopaedia Britannica 1911, Hydraulics, sections 50-51: "3/4 h nearly", with cc = .64 and cv = .82."""
    cc, cv, head_pa = 0.64, 0.82, 10e3
    z = head_pa * (cv / cc) ** 2
    lifted = z * g.recovery_coefficient(cc, 0.0, 0.0, cc)
    assert 0.75 == pytest.approx(lifted / head_pa, abs=0.01)  # "nearly"


@pytest.mark.parametrize("m", [1.1, 1.5, 2.0])
def test_mouthpiece_divergent_stands_at_the_printed_throat_pressure(m: float) -> None:
    """Britannica 1911: p/G = pa/G - (m^2 - 1) h for a divergent mouthpiece of area ratio m into air."""
    head_pa, air_pa = 10e3, 101e3
    z = head_pa * m**2
    port = air_pa - z * g.recovery_coefficient(1.0, 0.0, 0.0, 1 / m)
    assert air_pa - (m**2 - 1) * head_pa == pytest.approx(port, rel=1e-12)


def test_loss_ratio_of_defaults_stands_in_the_range_that_meter_losses_extrapolate_to() -> None:
    """A curve of permanent losses for meters at 65 mm, times its own low-Reynolds multiplier up to 1.75."""
    bores = (0.3, 0.4, 0.5, 0.6, 0.7)
    meters = [fluids.flow_meter.dP_venturi_tube(0.065, beta * 0.065, 1e5, 0.0) / 1e5 for beta in bores]
    drop = g.nozzle_drop_coefficient(0.96, 0.15)
    xi = g.loss_ratio(drop, g.recovery_coefficient(0.8, 0.05, 0.15, 0.15))
    assert min(meters) < xi < 1.75 * max(meters)


@given(CD, RATIO)
def test_discharge_coefficient_round_trip_returns_it(cd: float, ratio: float) -> None:
    kn = g.nozzle_loss_coefficient(cd, ratio)
    assert cd == pytest.approx(g.discharge_coefficient(kn, ratio), rel=1e-12)
    assert g.nozzle_drop_coefficient(cd, ratio) == pytest.approx(1 + kn - ratio**2, rel=1e-12)


@given(CD, RATIO, B, KM, KD, R)
def test_total_loss_equals_static_loss_and_velocity_heads(
    cd: float, ratio: float, b: float, km: float, kd: float, r: float
) -> None:
    drop = g.nozzle_drop_coefficient(cd, ratio)
    kappa = g.recovery_coefficient(b, km, kd, r)
    total = g.total_loss_coefficient(drop, ratio, b, km, kd)
    assert drop - kappa + ratio**2 - r**2 == pytest.approx(total, abs=1e-12)
