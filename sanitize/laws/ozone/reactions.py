"""What peroxide, chlorine and bromine do to dissolved ozone, and it to them."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

OZONE_GMOL = 47.998
PEROXIDE_GMOL = 34.0147
CHLORINE_GMOL = 70.906
BROMIDE_GMOL = 79.904
BROMINE_GMOL = 159.808
SECONDS_PER_MIN = 60.0
PEROXIDE_PK = 11.8
"""pK of hydrogen peroxide, H2O2 = HO2- + H+, at about 20 degC [-]."""
OZONE_PER_EVENT = 2.0
"""Molecules of ozone that go for each one that a hydroperoxide ion attacks [-]."""
PEROXIDE_PER_OZONE = PEROXIDE_GMOL / (2.0 * OZONE_GMOL)
"""Peroxide used up by ozone, 2 O3 + H2O2 [mg/mg]."""
CHLORINE_PER_OZONE = CHLORINE_GMOL / OZONE_GMOL
"""Chlorine, counted as Cl2, that does as much as ozone, and that it destroys at most [mg/mg]."""
BROMINE_PER_OZONE = BROMINE_GMOL / OZONE_GMOL
"""Bromine, counted as Br2, that ozone makes of bromide at most, or destroys at most [mg/mg]."""

Array = NDArray[np.float64]


def peroxide_rate_per_min(peroxide_mgl: ArrayLike, ph: ArrayLike, speed_l_per_mol_s: ArrayLike) -> Array:
    """First-order rate at which ozone is lost to hydrogen peroxide.

    Parameters
    ----------
    peroxide_mgl : float or array
        Hydrogen peroxide [mg/L].
    ph : float or array, broadcasting
        pH [-].
    speed_l_per_mol_s : float or array, broadcasting
        Rate constant of ozone with the hydroperoxide ion [L/(mol s)]; published as 2.8e6, +- 0.5e6.

    Returns
    -------
    array of the broadcast shape
        Rate [1/min].

    Raises
    ------
    ValueError
        If a concentration or a rate constant is negative.

    Notes
    -----
    2 k [HO2-], [HO2-] = [H2O2] 10^(pH - 11.8) / (1 + 10^(pH - 11.8)); 2 O3 go for each event.
    For about 20 to 25 degC; colder water is perhaps 2 to 4 times slower (an estimate).
    Above 1e-7 mol/L of peroxide this path leads, below pH 12.

    References
    ----------
    staehelin_hoigne_1982, read as its abstract; the pK from memory.

    Examples
    --------
    >>> float(np.log(2.0) / peroxide_rate_per_min(1.0, 7.4, 2.8e6) * 60.0)
    106.
    """
    peroxide, speed = _not_negative(peroxide_mgl, speed_l_per_mol_s)
    ratio = 10.0 ** (np.asarray(ph, dtype=np.float64) - PEROXIDE_PK)
    ion = peroxide / (1000.0 * PEROXIDE_GMOL) * ratio / (1.0 + ratio)
    return np.asarray(OZONE_PER_EVENT * speed * ion * SECONDS_PER_MIN)


def hypochlorite_rate_per_min(hypochlorite_mgl: ArrayLike, speed_l_per_mol_s: ArrayLike) -> Array:
    """First-order rate at which ozone is lost to the hypochlorite ion; the acid HOCl does not react.

    Parameters
    ----------
    hypochlorite_mgl : float or array
        Hypochlorite ion, counted as Cl2 [mg/L]; with cyanuric acid only what is free of it.
    speed_l_per_mol_s : float or array, broadcasting
        Rate constant [L/(mol s)]; remembered as 120 at 20 degC.

    Returns
    -------
    array of the broadcast shape
        Rate [1/min].

    Raises
    ------
    ValueError
        If a concentration or a rate constant is negative.

    Notes
    -----
    k [OCl-].
    Remembered: about 77 % becomes chloride, 23 % chlorate. The source's range is not known here; 20 degC.

    References
    ----------
    haag_hoigne_1983, from memory.

    Examples
    --------
    Free chlorine of 2 mg/L at pH 7.5 and 25 degC, 47.7 % of it hypochlorite:

    >>> float(np.log(2.0) / hypochlorite_rate_per_min(0.477 * 2.0, 120.0))
    7.2
    """
    chlorine, speed = _not_negative(hypochlorite_mgl, speed_l_per_mol_s)
    return np.asarray(speed * chlorine / (1000.0 * CHLORINE_GMOL) * SECONDS_PER_MIN)


def hypobromite_rate_per_min(hypobromite_mgl: ArrayLike, speed_l_per_mol_s: ArrayLike) -> Array:
    """First-order rate at which ozone is lost to the hypobromite ion.

    Parameters
    ----------
    hypobromite_mgl : float or array
        Hypobromite ion, counted as Br2 [mg/L].
    speed_l_per_mol_s : float or array, broadcasting
        Rate constant [L/(mol s)]; remembered as 430, of which about 100 leads towards bromate.

    Returns
    -------
    array of the broadcast shape
        Rate [1/min].

    Raises
    ------
    ValueError
        If a concentration or a rate constant is negative.

    Notes
    -----
    k [OBr-].
    The source's range is not known here.

    References
    ----------
    von_gunten_2003, from memory.

    Examples
    --------
    Bromine of 4 mg/L at pH 7.5, 6.6 % of it hypobromite:

    >>> float(np.log(2.0) / hypobromite_rate_per_min(0.066 * 4.0, 430.0))
    16.3
    """
    bromine, speed = _not_negative(hypobromite_mgl, speed_l_per_mol_s)
    return np.asarray(speed * bromine / (1000.0 * BROMINE_GMOL) * SECONDS_PER_MIN)


def bromide_rate_per_min(bromide_mgl: ArrayLike, speed_l_per_mol_s: ArrayLike) -> Array:
    """First-order rate at which ozone is lost to bromide, and makes bromine of it.

    Parameters
    ----------
    bromide_mgl : float or array
        Bromide [mg/L].
    speed_l_per_mol_s : float or array, broadcasting
        Rate constant [L/(mol s)]; remembered as 160.

    Returns
    -------
    array of the broadcast shape
        Rate [1/min].

    Raises
    ------
    ValueError
        If a concentration or a rate constant is negative.

    Notes
    -----
    k [Br-]. In steps of three ozone or more the bromide becomes bromate, which stays until the water is replaced;
    published estimators end far below the bromide of a tub and are left out.
    The source's range is not known here.

    References
    ----------
    haag_hoigne_1983, from memory.

    Examples
    --------
    >>> np.round(np.log(2.0) / bromide_rate_per_min([0.1, 1.0, 10.0, 30.0], 160.0), 2)
    array([57.69, 5.77, 0.58, 0.19])
    """
    bromide, speed = _not_negative(bromide_mgl, speed_l_per_mol_s)
    return np.asarray(speed * bromide / (1000.0 * BROMIDE_GMOL) * SECONDS_PER_MIN)


def _not_negative(concentration: ArrayLike, speed: ArrayLike) -> tuple[Array, Array]:
    values = np.asarray(concentration, dtype=np.float64), np.asarray(speed, dtype=np.float64)
    if not all(np.all(value >= 0.0) for value in values):
        raise ValueError("concentrations and rate constants are 0 or more")
    return values
