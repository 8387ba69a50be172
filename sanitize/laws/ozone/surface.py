"""Ozone that leaves the water through its surface into the air over it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

MG_PER_H_OF_GS = 3.6e6
"""Milligrams an hour in one gram a second, exact."""

Array = NDArray[np.float64]


def surface_loss_mg_per_h(
    ozone_mgl: ArrayLike, air_mgm3: ArrayLike, solubility_ratio: ArrayLike, film_ms: ArrayLike, area_m2: ArrayLike
) -> Array:
    """Ozone through the water's surface; negative where the air gives some to the water.

    Parameters
    ----------
    ozone_mgl : float or array
        Dissolved ozone [mg/L].
    air_mgm3 : float or array, broadcasting
        Ozone in the air over the water [mg/m3].
    solubility_ratio : float or array, broadcasting
        Ozone in water over ozone in gas at equilibrium, both by volume [-].
    film_ms : float or array, broadcasting
        Transfer coefficient of the water's side [m/s].
    area_m2 : float or array, broadcasting
        Surface [m2].

    Returns
    -------
    array of the broadcast shape
        Ozone out of the water [mg/h].

    Raises
    ------
    ValueError
        If an area, a coefficient or a solubility is negative.

    Notes
    -----
    J = k A (C - S C_air / 1000): the film in the water leads, as ozone dissolves so little.
    The coefficient is derived from the loss of another gas (nitrogen trichloride: 5.8 d from still and 20 h from
    rough water, with an assumed depth of 2 m), so an estimate; the source gives no range.

    References
    ----------
    schmalz_2011, read as its abstract.

    Examples
    --------
    0.05 mg/L over 0.8 m2 with jets, 2e-4 m/s, is half a milligram a minute:

    >>> float(surface_loss_mg_per_h(0.05, 0.0, 0.394, 2e-4, 0.8) / 60.0)
    0.48
    """
    ozone, air = np.asarray(ozone_mgl, dtype=np.float64), np.asarray(air_mgm3, dtype=np.float64)
    solubility, film, area = (np.asarray(value, dtype=np.float64) for value in (solubility_ratio, film_ms, area_m2))
    if not all(np.all(value >= 0.0) for value in (solubility, film, area)):
        raise ValueError("a surface's area, coefficient and solubility are 0 or more")
    return np.asarray(MG_PER_H_OF_GS * film * area * (ozone - solubility * air / 1000.0))
