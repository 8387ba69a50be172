"""Carbon dioxide and the air: the balance of PHREEQC, the exact start, the books, properties."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.laws.chemistry.carbonate import Water, carbon_moll, species
from sanitize.laws.chemistry.constants import log_kh
from sanitize.laws.chemistry.degassing import AIR_LOG_ATM, exchange_rate_per_s, ph_after, solubility_ratio

WATER = Water(1.5e-3, 1.6e-3, 6.0e-3, 5.0)
DAY = 86400.0


@pytest.mark.parametrize("temperature_c", [5.0, 15.0, 25.0, 38.0])
@pytest.mark.parametrize("ph", [7.2, 8.9])
def test_ph_ends_in_the_balance_of_phreeqc(temperature_c: float, ph: float, phreeqc: Callable[..., Any]) -> None:
    """From below and from above, at log p = -3.38; tolerance of the equilibria."""
    theirs = phreeqc({"NaHCO3": 1.6, "CaCl2": 1.5}, temperature_c)
    theirs.equalize(["CO2(g)"], [AIR_LOG_ATM])
    end = float(ph_after(ph, 1.6e-3, WATER._replace(temperature_c=temperature_c), 6.0 / DAY, 3000.0 * DAY))
    assert theirs.pH == pytest.approx(end, abs=0.02)


def test_start_loses_what_the_rate_says() -> None:
    """Over a minute: carbon falls by k ([CO2] - KH p) t."""
    rate, time = 6.0 / DAY, 60.0
    before = float(carbon_moll(7.2, 1.6e-3, WATER))
    after = float(carbon_moll(ph_after(7.2, 1.6e-3, WATER, rate, time), 1.6e-3, WATER))
    over = float(species(7.2, before, WATER).carbon_dioxide) - 10.0 ** (float(log_kh(5.0)) + AIR_LOG_ATM)
    assert rate * over * time == pytest.approx(before - after, rel=0.01)


@settings(max_examples=8, deadline=None)
@given(st.floats(6.6, 8.8), st.floats(0.1, 20.0), st.floats(0.05, 5.0))
def test_two_spells_are_one_of_their_length(ph: float, per_day: float, days: float) -> None:
    """Within 0.003 pH, for the steps in time."""
    rate = per_day / DAY
    half = ph_after(ph, 1.6e-3, WATER, rate, 0.5 * days * DAY)
    twice = float(ph_after(half, 1.6e-3, WATER, rate, 0.5 * days * DAY))
    assert twice == pytest.approx(float(ph_after(ph, 1.6e-3, WATER, rate, days * DAY)), abs=0.003)


def test_rate_of_bubbles_is_the_gas_over_what_it_holds() -> None:
    """1 L/min through 400 L and nothing else: 1440/(400 S) a day."""
    expected = 1440.0 / 400.0 / float(solubility_ratio(10.0))
    assert expected == pytest.approx(DAY * float(exchange_rate_per_s(0.4, 0.0, 0.0, 1.0 / 60000.0, 1.0, 10.0)))


def test_solubility_at_20_degc_is_the_usual_0_94() -> None:
    """Bunsen coefficient 0.88 of handbooks (from memory) times 293/273."""
    assert 0.88 * 293.15 / 273.15 == pytest.approx(float(solubility_ratio(20.0)), abs=0.015)


def test_without_exchange_nothing_moves() -> None:
    assert 7.2 == float(ph_after(7.2, 1.6e-3, WATER, 0.0, DAY))


@pytest.mark.parametrize(
    "call",
    [lambda: exchange_rate_per_s(0.0, 0.0, 0.0, 0.0, 1.0, 10.0), lambda: ph_after(7.2, 1.6e-3, WATER, -1.0, 1.0)],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"positive|0 or more"):
        call()
