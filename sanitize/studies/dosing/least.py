"""The least chemicals that bring the water into its ranges: a linear programme for each case.

At a fixed pH the alkalinity that goes with it is linear in the carbon and in the weak acids, so a range of pH is two
straight limits in what is added.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from sanitize.basis.errors import NoSolutionError
from sanitize.laws.chemistry.carbonate import alkalinity_moll
from sanitize.laws.chemistry.cyanurate import CYANURIC_GMOL, pk_cyanuric
from sanitize.laws.chemistry.halogens import (
    BROMINE_GMOL,
    CHLORINE_GMOL,
    PEROXIDE_GMOL,
    acid_share_ratio,
)
from sanitize.laws.chemistry.products import BRINGS
from sanitize.laws.chemistry.saturation import CALCIUM_CARBONATE_GMOL
from sanitize.studies.dosing.products import ACIDS, AtHand
from sanitize.studies.dosing.result import Item
from sanitize.studies.dosing.targets import Wanted
from sanitize.studies.dosing.water import ALKALINITY_GEQ, Holds
from sanitize.studies.draws import Array

_MISS_COST = 10.0
"""Cost of a miss by half the width of a range, in grams a litre: above any dose, below a detour for a trifle."""
_TRIFLE_MOLL = 1e-7
_PRIORITY: Mapping[str, float] = {
    "ph": 10.0,
    "free_chlorine": 10.0,
    "bromine": 10.0,
    "peroxide": 10.0,
    "total_alkalinity": 3.0,
    "cyanuric_acid": 3.0,
    "combined_chlorine": 3.0,
    "calcium_hardness": 0.1,
}
_MGL = {
    "calcium_hardness": 1e3 * CALCIUM_CARBONATE_GMOL,
    "free_chlorine": 1e3 * CHLORINE_GMOL,
    "combined_chlorine": 1e3 * CHLORINE_GMOL,
    "bromine": 1e3 * BROMINE_GMOL,
    "cyanuric_acid": 1e3 * CYANURIC_GMOL,
    "peroxide": 1e3 * PEROXIDE_GMOL,
}


@dataclass(frozen=True)
class Limit:
    """One straight limit over the cases: sum of slopes times moles per litre reaches at least `least`, in `scale`."""

    item: str
    slopes: tuple[Array, ...]
    least: Array
    scale: float


def aim(wanted: Wanted, tested_nominal: float) -> tuple[float, float]:
    """Where to bring an item: what stands inside its range stays there, what is outside goes half-way to the middle.

    An alkalinity of 45 with 60 to 100 wanted and 80 in the middle aims at 70 to 90.
    """
    low, middle, high = wanted.band.low, wanted.band.nominal, wanted.band.high
    near = 1e-6 * (high - low)
    if low - near <= tested_nominal <= high + near:
        return low, high
    return 0.5 * (low + middle), 0.5 * (middle + high)


def least_doses(
    holds: Holds, wanted: Mapping[Item, Wanted], tested: Mapping[Item, float], products: Sequence[AtHand], uses: str
) -> Array:
    """Active moles per litre of each product in every case, shape (products, cases)."""
    from scipy.optimize import linprog

    limits = _limits(holds, wanted, tested, products, uses)
    count, cases = len(products), holds.alkalinity.size
    mass = [item.reluctance * BRINGS[item.product].counted_gmol for item in products]
    cost = np.concatenate([mass, [_MISS_COST * _PRIORITY[limit.item] for limit in limits]])
    caps = _caps(holds, wanted, tested, products, uses)
    found = np.zeros((count, cases))
    for case in range(cases):
        rows = np.zeros((len(limits), count + len(limits)))
        bounds = np.zeros(len(limits))
        for index, limit in enumerate(limits):
            rows[index, :count] = [-slope[case] / limit.scale for slope in limit.slopes]
            rows[index, count + index] = -1.0
            bounds[index] = -limit.least[case] / limit.scale
        for slopes, most in caps:
            rows = np.vstack([rows, [*slopes, *([0.0] * len(limits))]])
            bounds = np.append(bounds, most[case])
        answer = linprog(cost, A_ub=rows, b_ub=bounds, method="highs")
        if answer.x is None:
            raise NoSolutionError(f"No doses were found for these targets: {answer.message}")
        found[:, case] = answer.x[:count]
    return found


def unopposed_doses(
    holds: Holds, wanted: Mapping[Item, Wanted], tested: Mapping[Item, float], products: Sequence[AtHand], uses: str
) -> tuple[Sequence[AtHand], Array]:
    """Products and their doses; without soda where acid would have to take its pH back, as bicarbonate then serves."""
    doses = least_doses(holds, wanted, tested, products, uses)
    given = {item.product for item, dose in zip(products, doses, strict=True) if dose[0] > _TRIFLE_MOLL}
    if "sodium carbonate" not in given or not given & set(ACIDS):
        return products, doses
    rest = [item for item in products if item.product != "sodium carbonate"]
    return rest, least_doses(holds, wanted, tested, rest, uses)


def _limits(
    holds: Holds, wanted: Mapping[Item, Wanted], tested: Mapping[Item, float], products: Sequence[AtHand], uses: str
) -> list[Limit]:
    limits: list[Limit] = []
    brings = [BRINGS[item.product] for item in products]
    ones = np.ones(holds.alkalinity.size)
    converts = uses == "bromine"

    def both(item: str, slopes: Sequence[Array], now: Array, low: float, high: float, scale: float) -> None:
        limits.append(Limit(item, tuple(slopes), np.asarray(low - now), scale))
        limits.append(Limit(item, tuple(-slope for slope in slopes), np.asarray(now - high), scale))

    plain = {
        "calcium_hardness": (holds.calcium, [one.calcium for one in brings]),
        "free_chlorine": (holds.chlorine, [one.chlorine for one in brings]),
        "cyanuric_acid": (holds.cyanuric, [one.cyanuric for one in brings]),
        "bromine": (holds.bromine, [one.bromine + one.chlorine + one.persulfate for one in brings]),
        "peroxide": (holds.peroxide, [one.peroxide for one in brings]),
    }
    for item, (now, moles) in plain.items():
        if item in wanted:
            low, high = aim(wanted[item], tested.get(item, wanted[item].band.nominal))  # type: ignore[index,call-overload]
            scale = _half(wanted[item])  # type: ignore[index]
            both(item, [mol * _MGL[item] * ones for mol in moles], now * _MGL[item], low, high, scale)
    combined = wanted.get("combined_chlorine")
    if combined is not None and tested.get("combined_chlorine", 0.0) > combined.band.high:
        factor = _MGL["combined_chlorine"]
        limits.append(
            Limit(
                "combined_chlorine",
                tuple(one.persulfate * factor * ones for one in brings),
                holds.combined * factor,
                _half(combined),
            )
        )
    alkalinity = wanted["total_alkalinity"]
    low, high = aim(alkalinity, tested["total_alkalinity"])
    share = 1.0 - acid_share_ratio(holds.ph, pk_cyanuric(holds.temperature_c))
    factor = 1e3 * ALKALINITY_GEQ
    both(
        "total_alkalinity",
        [(one.alkalinity - share * one.cyanuric) * factor for one in brings],
        (holds.alkalinity - share * holds.cyanuric) * factor,
        low,
        high,
        _half(alkalinity),
    )
    for ph, side in zip(aim(wanted["ph"], tested["ph"]), (1.0, -1.0), strict=True):
        balance = alkalinity_moll(ph * ones, holds.carbon, holds.water)
        slope = (alkalinity_moll(ph * ones, 1.02 * holds.carbon, holds.water) - balance) / (0.02 * holds.carbon)
        anions = [1.0 - acid_share_ratio(ph, pk) for _, pk in holds.acids]
        slopes = []
        for one in brings:
            chlorine = 0.0 if converts else one.chlorine
            bromine = one.bromine + (one.chlorine + one.persulfate if converts else 0.0)
            acids = anions[0] * chlorine + anions[1] * one.cyanuric + anions[2] * bromine
            slopes.append(side * (one.alkalinity - slope * one.carbon - acids) * factor)
        limits.append(
            Limit("ph", tuple(slopes), side * (balance - holds.alkalinity) * factor, _ph_scale(holds, wanted["ph"]))
        )
    return limits


def _half(wanted: Wanted) -> float:
    return max(0.5 * (wanted.band.high - wanted.band.low), 0.1)


def _ph_scale(holds: Holds, wanted: Wanted) -> float:
    """Half the width of the pH's range as alkalinity [mg/L], at the nominal case's carbon."""
    water = holds.water
    low, high = (
        float(np.ravel(alkalinity_moll(ph, holds.carbon, water))[0]) for ph in (wanted.band.low, wanted.band.high)
    )
    return max(0.5 * (high - low) * 1000.0 * ALKALINITY_GEQ, 0.1)


def _caps(
    holds: Holds, wanted: Mapping[Item, Wanted], tested: Mapping[Item, float], products: Sequence[AtHand], uses: str
) -> list[tuple[list[float], Array]]:
    """Hard limits: a residual is added for its own target alone, never as a base or an acid; bromide goes with it.

    Bicarbonate and soda carry no alkalinity past the far end of its range: what is left of a low pH is carbon dioxide,
    which leaves by itself.
    """
    brings = [BRINGS[item.product] for item in products]
    residuals: dict[Item, tuple[Array, list[float]]] = {
        "free_chlorine": (holds.chlorine, [one.chlorine for one in brings]),
        "bromine": (holds.bromine, [one.bromine + one.chlorine + one.persulfate for one in brings]),
        "peroxide": (holds.peroxide, [one.peroxide for one in brings]),
    }
    room = wanted["total_alkalinity"].band.high / (1e3 * ALKALINITY_GEQ) - holds.alkalinity
    found = [([one.alkalinity if one.carbon else 0.0 for one in brings], np.maximum(room, 0.0))]
    for item, (now, moles) in residuals.items():
        if item in wanted:
            low, _ = aim(wanted[item], tested[item])
            found.append((moles, np.maximum(low / _MGL[item] - now, 0.0)))
    if uses == "bromine":
        turned = [one.chlorine + one.persulfate - one.bromide for one in brings]
        found.append((turned, np.zeros(holds.alkalinity.size)))
    else:
        found.append(([one.persulfate for one in brings], holds.combined))
    return found
