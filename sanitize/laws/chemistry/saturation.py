"""Whether water lays down chalk or takes it up: the saturation index of calcite, and the simplified one beside it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.chemistry.carbonate import Water, species
from sanitize.laws.chemistry.constants import log_calcite

CALCIUM_CARBONATE_GMOL = 100.0869
"""CaCO3, as which hardness is counted [g/mol]; alkalinity is counted as half of it for each equivalent."""

Array = NDArray[np.float64]


def calcite_index(ph: ArrayLike, carbon_moll: ArrayLike, water: Water) -> Array:
    """Saturation index of calcite: 0 in balance, above it chalk may fall, below it chalk dissolves.

    Parameters
    ----------
    ph : float or array
        pH [-].
    carbon_moll : float or array, broadcasting
        Total inorganic carbon [mol/L].
    water : Water
        As `carbonate.carbon_moll`; calcium above 0.

    Returns
    -------
    array of the broadcast shape
        log10 of the activity product over the solubility product [-]; minus infinity without calcium or carbon.

    Raises
    ------
    ValueError
        If a pH is outside 2 to 12 or carbon is negative.

    Notes
    -----
    SI = log10({Ca++} {CO3--} / Kc), activities in braces, free ions without their pairs.
    The source's range is 0 to 90 degC.

    References
    ----------
    plummer_busenberg_1982, read primary (its abstract).

    Examples
    --------
    >>> float(calcite_index(7.656, 1.7e-3, Water(1.5e-3, 1.6e-3, 6.0e-3, 5.0)))
    -0.309
    """
    product = species(ph, carbon_moll, water).calcium_carbonate_activity
    with np.errstate(divide="ignore"):
        return np.asarray(np.log10(product) - log_calcite(water.temperature_c))


def simplified_index(
    ph: ArrayLike,
    calcium_mgl: ArrayLike,
    alkalinity_mgl: ArrayLike,
    dissolved_solids_mgl: ArrayLike,
    temperature_c: ArrayLike,
) -> Array:
    """The simplified saturation index of the trade, for comparison only: it reads low in cold soft water.

    Parameters
    ----------
    ph : float or array
        pH [-].
    calcium_mgl, alkalinity_mgl : float or array, broadcasting
        Calcium hardness and carbonate alkalinity, both as calcium carbonate, above 0 [mg/L].
    dissolved_solids_mgl : float or array, broadcasting
        Total dissolved solids, above 0 [mg/L].
    temperature_c : float or array, broadcasting
        Water temperature [degC].

    Returns
    -------
    array of the broadcast shape
        Index [-].

    Raises
    ------
    ValueError
        If calcium, alkalinity or dissolved solids are not positive.

    Notes
    -----
    pH - (9.3 + (log TDS - 1)/10 - 13.12 log T + 34.55 - (log Ca - 0.4) - log Alk), T in kelvin.
    The source gives no range in what is remembered of it.

    References
    ----------
    langelier_1936, from memory, in the simplified form of the trade.

    Examples
    --------
    >>> float(simplified_index(7.656, 150.1, 80.07, 300.0, 5.0))
    -0.593
    """
    calcium, alkalinity, solids = (
        np.asarray(value, dtype=np.float64) for value in (calcium_mgl, alkalinity_mgl, dissolved_solids_mgl)
    )
    if not all(np.all(value > 0.0) for value in (calcium, alkalinity, solids)):
        raise ValueError("calcium, alkalinity and dissolved solids must be positive")
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    saturated = (
        9.3 + (np.log10(solids) - 1.0) / 10.0 - 13.12 * np.log10(kelvin) + 34.55
        - (np.log10(calcium) - 0.4) - np.log10(alkalinity)
    )  # fmt: skip
    return np.asarray(np.asarray(ph, dtype=np.float64) - saturated)
