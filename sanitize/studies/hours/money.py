"""Energy and cost of a run time, pump and chiller apart."""

from collections.abc import Callable

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.plant.day import DAY_S, PriceWindow
from sanitize.studies.draws import Array
from sanitize.studies.hours.result import Apart, Cost
from sanitize.studies.hours.wishes import mean_price_per_kwh

KWH_J = 3.6e6
DAYS_A_YEAR = 365.0
Shown = Callable[[Array], Figure]


def energy_of(power_w: Array, run_s: Array, chiller_w: Array, chiller_run_s: Array) -> tuple[Array, Array]:
    """Electricity of pump and chiller a day [J]; a day has no more than 24 h."""
    return power_w * np.minimum(run_s, DAY_S), chiller_w * np.minimum(chiller_run_s, DAY_S)


def apart(pump: Array, chiller: Array, shown: Shown) -> Apart:
    """The two and their sum as figures."""
    return Apart(shown(pump), shown(chiller), shown(pump + chiller))


def cost_of(pump_j: Array, chiller_j: Array, prices: tuple[PriceWindow, ...] | None, shown: Shown) -> Cost | None:
    """What that costs with the run time spread evenly over the day; None without a price."""
    if prices is None:
        return None
    price = mean_price_per_kwh(prices)
    pump, chiller = price * pump_j / KWH_J, price * chiller_j / KWH_J
    return Cost(price, apart(pump, chiller, shown), apart(DAYS_A_YEAR * pump, DAYS_A_YEAR * chiller, shown))
