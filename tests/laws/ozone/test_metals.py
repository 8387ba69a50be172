"""Ozone that iron and manganese take, by the sums of the reactions."""

import pytest

from sanitize.laws.ozone.metals import metal_ozone_demand_mgl


def test_demand_of_iron_and_manganese_as_tables_round_it() -> None:
    """0.43 and 0.88 mg ozone per mg are the values of water treatment tables, from memory; 48/54.938 = 0.874."""
    assert 0.43 == pytest.approx(float(metal_ozone_demand_mgl(1.0, 0.0)), abs=0.005)
    assert 0.88 == pytest.approx(float(metal_ozone_demand_mgl(0.0, 1.0)), abs=0.0065)


def test_demand_by_electrons_is_one_from_iron_two_from_manganese() -> None:
    """O3 takes two electrons; Fe(II) to Fe(III) gives one, Mn(II) to MnO2 two."""
    ozone = 3 * 15.9994
    assert ozone * 1 / 2 / 55.845 == pytest.approx(float(metal_ozone_demand_mgl(1.0, 0.0)), rel=1e-5)
    assert ozone * 2 / 2 / 54.938 == pytest.approx(float(metal_ozone_demand_mgl(0.0, 1.0)), rel=1e-5)


def test_demand_adds_up_and_refuses_less_than_nothing() -> None:
    both = float(metal_ozone_demand_mgl(0.3, 0.1))
    assert float(metal_ozone_demand_mgl(0.3, 0.0)) + float(metal_ozone_demand_mgl(0.0, 0.1)) == pytest.approx(both)
    with pytest.raises(ValueError, match="0 or more"):
        metal_ozone_demand_mgl(-0.1, 0.0)
