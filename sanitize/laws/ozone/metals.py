"""Ozone that dissolved iron and manganese take before any is left for the rest of the water."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

OZONE_GMOL = 47.9982
IRON_GMOL = 55.845
MANGANESE_GMOL = 54.938


def metal_ozone_demand_mgl(iron_mgl: ArrayLike, manganese_mgl: ArrayLike) -> NDArray[np.float64]:
    """Ozone that turns dissolved iron into rust and dissolved manganese into its brown oxide.

    Parameters
    ----------
    iron_mgl, manganese_mgl : float or array
        Dissolved Fe(II) and Mn(II), 0 or more [mg/L].

    Returns
    -------
    array of the broadcast shape
        Ozone [mg/L].

    Raises
    ------
    ValueError
        If a concentration is negative.

    Notes
    -----
    2 Fe++ + O3 + 5 H2O = 2 Fe(OH)3 + O2 + 4 H+ and Mn++ + O3 + H2O = MnO2 + O2 + 2 H+, as sums.
    Iron takes 0.430 and manganese 0.874 mg ozone per mg. Organic matter that holds the iron slows it, and too much
    ozone takes manganese on to pink permanganate. The source gives no range.

    References
    ----------
    reckhow_1991, read through another; the sums by stoichiometry.

    Examples
    --------
    >>> float(metal_ozone_demand_mgl(1.0, 0.0)), float(metal_ozone_demand_mgl(0.0, 1.0))
    (0.430, 0.874)
    """
    iron, manganese = np.asarray(iron_mgl, dtype=np.float64), np.asarray(manganese_mgl, dtype=np.float64)
    if not (np.all(iron >= 0.0) and np.all(manganese >= 0.0)):
        raise ValueError("a concentration must be 0 or more")
    return np.asarray(OZONE_GMOL * (iron / (2.0 * IRON_GMOL) + manganese / MANGANESE_GMOL))
