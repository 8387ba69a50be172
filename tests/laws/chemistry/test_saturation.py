"""The simplified index: the worked example of the trade, and how both indices move with calcium."""

import numpy as np
import pytest

from sanitize.laws.chemistry.carbonate import Water
from sanitize.laws.chemistry.saturation import calcite_index, simplified_index


def test_simplified_index_is_the_worked_example_of_the_trade() -> None:
    """pH 7.5, TDS 320, calcium 150, alkalinity 34 mg/L at 25 degC: -0.7 (many trade pages, from memory)."""
    assert -0.7 == pytest.approx(float(simplified_index(7.5, 150.0, 34.0, 320.0, 25.0)), abs=0.06)


def test_indices_rise_by_one_when_the_calcium_is_tenfold() -> None:
    """No pairs to speak of at pH 7, the ionic strength held."""
    water = Water(1e-5, 0.0, 5e-3, 10.0)
    few, many = (float(calcite_index(7.0, 1e-4, water._replace(calcium_moll=c))) for c in (1e-5, 1e-4))
    assert 1.0 == pytest.approx(many - few, abs=0.002)
    few, many = (float(simplified_index(7.0, c, 80.0, 300.0, 10.0)) for c in (20.0, 200.0))
    assert 1.0 == pytest.approx(many - few)


def test_index_without_calcium_is_minus_infinity() -> None:
    assert -np.inf == float(calcite_index(7.4, 1e-3, Water(0.0, 1e-3, 5e-3, 10.0)))


def test_simplified_index_without_calcium_is_refused() -> None:
    with pytest.raises(ValueError, match="positive"):
        simplified_index(7.4, 0.0, 80.0, 300.0, 10.0)
