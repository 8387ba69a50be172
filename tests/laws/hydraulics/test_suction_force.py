import pytest

from sanitize.laws.hydraulics.suction_force import blocked_suction_force_n


def test_blocked_suction_force_over_a_square_decimetre_at_one_newton_per_square_centimetre() -> None:
    # 10 kPa is 1 N/cm2; 100 cm2 hold 100 N.
    assert float(blocked_suction_force_n(10e3, 0.01)) == 100.0


def test_blocked_suction_force_of_a_water_column_is_the_columns_weight() -> None:
    # 1 m of water over 1 m2 is 1000 kg.
    assert float(blocked_suction_force_n(1000.0 * 9.80665 * 1.0, 1.0)) == pytest.approx(1000.0 * 9.80665)


def test_blocked_suction_force_broadcasts() -> None:
    assert blocked_suction_force_n([[1e4], [2e4]], [0.01, 0.02]).tolist() == [[100.0, 200.0], [200.0, 400.0]]
