"""What each segment of a plan costs, and what the plan takes a day and a year."""

from collections.abc import Mapping

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.plant.day import DAY_S
from sanitize.studies.draws import Array
from sanitize.studies.hours.money import DAYS_A_YEAR, KWH_J
from sanitize.studies.hours.result import Apart, Wishes
from sanitize.studies.timer.result import Device, Spent
from sanitize.studies.timer.segments import Bools, prices_per_kwh

_NOTHING = Figure(0.0, 0.0, 0.0)


def powers_w(wishes: Wishes) -> dict[Device, Figure]:
    """Electric power of what takes power; the ozone unit's is left out."""
    return {"pump": wishes.pump_power_w, "chiller": wishes.chiller_power_w or _NOTHING}


def segment_prices(wishes: Wishes) -> Array:
    """Price of each segment per kWh; without prices 1, so that the least energy is the cheapest."""
    if wishes.prices is None:
        return np.ones(round(DAY_S / wishes.segment_s))
    return prices_per_kwh(wishes.segment_s, wishes.prices)


def spent_by(on: Mapping[Device, Bools], wishes: Wishes) -> Spent:
    """Energy and cost of the segments in which each device runs."""
    prices, powers = segment_prices(wishes), powers_w(wishes)
    running = {what: on.get(what, np.zeros(prices.size, dtype=bool)) for what in powers}
    time_s = {what: wishes.segment_s * float(each.sum()) for what, each in running.items()}
    paid = {what: wishes.segment_s * float(prices @ each) / KWH_J for what, each in running.items()}
    is_priced = wishes.prices is not None
    return Spent(
        energy_j=_side(powers, time_s),
        energy_year_j=_side(powers, time_s, DAYS_A_YEAR),
        cost=_side(powers, paid) if is_priced else None,
        cost_year=_side(powers, paid, DAYS_A_YEAR) if is_priced else None,
    )


def _side(powers: Mapping[Device, Figure], factors: Mapping[Device, float], days: float = 1.0) -> Apart:
    """Powers times what each is to be multiplied with, and their sum end by end."""
    pump, chiller = (np.array(powers[what].ends) * factors[what] * days for what in ("pump", "chiller"))
    return Apart(Figure.of(*pump), Figure.of(*chiller), Figure.of(*(pump + chiller)))
