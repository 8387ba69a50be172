"""Concentration times time (CT) of ozone: what the published rules ask for, and how much they credit."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.basis.constants import CELSIUS_ZERO_K

COLDEST_C = 0.5
"""Colder water is counted as this warm [degC]."""


class Organism(NamedTuple):
    """Constants of a published rule: log inactivation for each CT at 0 degC [L/(mg min)], its growth a kelvin."""

    log_per_ct: float
    growth_ratio: float


CRYPTOSPORIDIUM = Organism(0.0397, 1.09757)
GIARDIA = Organism(1.038, 1.0741)
VIRUS = Organism(2.1744, 1.0726)

Array = NDArray[np.float64]


def log_of_ct(ct_mg_min_l: ArrayLike, temperature_c: ArrayLike, organism: Organism) -> Array:
    """Log inactivation that the US rule's formula gives for a CT of ozone.

    Parameters
    ----------
    ct_mg_min_l : float or array
        Residual that leaves the vessel, times the time that 90 % of the water stays [mg min/L].
    temperature_c : float or array, broadcasting
        Water temperature [degC]; below 0.5 degC as at 0.5 degC.
    organism : Organism
        CRYPTOSPORIDIUM, GIARDIA or VIRUS.

    Returns
    -------
    array of the broadcast shape
        Log inactivation [-].

    Raises
    ------
    ValueError
        If a CT is negative.

    Notes
    -----
    log = a b^T CT: 0.0397 * 1.09757^T for Cryptosporidium, 1.038 * 1.0741^T for Giardia, 2.1744 * 1.0726^T for viruses.
    For drinking water from 0.5 to 25 or 30 degC; no credit stands behind it for a tub.

    References
    ----------
    epa_815_r_20_003, through another.

    Examples
    --------
    >>> np.round(log_of_ct([9.35, 2.31], [15.0, 30.0], CRYPTOSPORIDIUM), 2)
    array([1.5, 1.5])
    """
    ct = np.asarray(ct_mg_min_l, dtype=np.float64)
    if not np.all(ct >= 0.0):
        raise ValueError("a CT is 0 or more")
    warm = np.maximum(np.asarray(temperature_c, dtype=np.float64), COLDEST_C)
    return np.asarray(organism.log_per_ct * organism.growth_ratio**warm * ct)


def ct_by_formula_mg_min_l(log_count: ArrayLike, temperature_c: ArrayLike, organism: Organism) -> Array:
    """CT of ozone that the US rule's formula asks for.

    Parameters
    ----------
    log_count : float or array
        Log inactivation [-].
    temperature_c : float or array, broadcasting
        Water temperature [degC]; below 0.5 degC as at 0.5 degC.
    organism : Organism
        CRYPTOSPORIDIUM, GIARDIA or VIRUS.

    Returns
    -------
    array of the broadcast shape
        CT [mg min/L].

    Raises
    ------
    ValueError
        If a log is negative.

    Notes
    -----
    CT = log / (a b^T), see log_of_ct.
    For drinking water from 0.5 to 25 or 30 degC.

    References
    ----------
    epa_815_r_20_003, through another.

    Examples
    --------
    >>> np.round(ct_by_formula_mg_min_l(1.0, [0.5, 5.0, 10.0, 20.0], CRYPTOSPORIDIUM), 1)
    array([24. , 15.8,  9.9,  3.9])
    """
    log = np.asarray(log_count, dtype=np.float64)
    if not np.all(log >= 0.0):
        raise ValueError("a log inactivation is 0 or more")
    return np.asarray(log / log_of_ct(1.0, temperature_c, organism))


def ct_by_table_mg_min_l(
    log_count: ArrayLike, temperature_c: ArrayLike, table_c: ArrayLike, table_ct_mg_min_l: ArrayLike, table_log: float
) -> Array:
    """CT that a published table asks for, linear in temperature and proportional to the logs.

    Parameters
    ----------
    log_count : float or array
        Log inactivation [-].
    temperature_c : float or array, broadcasting
        Water temperature [degC]; beyond the table as in its last column.
    table_c, table_ct_mg_min_l : arrays of one axis
        The table's temperatures, rising [degC], and its CT [mg min/L].
    table_log : float
        Log inactivation that the table's row stands for [-].

    Returns
    -------
    array of the broadcast shape
        CT [mg min/L].

    Raises
    ------
    ValueError
        If a log is negative.

    Notes
    -----
    No extra credit beyond the last column.

    References
    ----------
    epa_815_r_20_003, through another.

    Examples
    --------
    >>> float(ct_by_table_mg_min_l(3.0, 7.5, [5.0, 10.0], [1.9, 1.43], 3.0))
    1.665
    """
    log = np.asarray(log_count, dtype=np.float64)
    if not np.all(log >= 0.0):
        raise ValueError("a log inactivation is 0 or more")
    ct = np.interp(np.asarray(temperature_c, dtype=np.float64), np.asarray(table_c), np.asarray(table_ct_mg_min_l))
    return np.asarray(ct * log / table_log)


def ct_by_infectivity_mg_min_l(log_count: ArrayLike, temperature_c: ArrayLike) -> Array:
    """CT of ozone against Cryptosporidium from infectivity in mice.

    Parameters
    ----------
    log_count : float or array
        Log inactivation [-].
    temperature_c : float or array, broadcasting
        Water temperature [degC].

    Returns
    -------
    array of the broadcast shape
        CT [mg min/L].

    Raises
    ------
    ValueError
        If a log is negative.

    Notes
    -----
    1 / CT = 1.086e18 exp(-12520 / T) for 2 log, T in kelvin; other logs in proportion, which is ours.
    Printed for 3 to 30 degC; below about 5 degC it asks for more than the US formula.

    References
    ----------
    cryptosporidium_ozone_2001, read as its abstract.

    Examples
    --------
    >>> np.round(ct_by_infectivity_mg_min_l(2.0, [3.0, 5.0, 10.0, 20.0]), 1)
    array([45.1, 32.5, 14.7, 3.3])
    """
    log = np.asarray(log_count, dtype=np.float64)
    if not np.all(log >= 0.0):
        raise ValueError("a log inactivation is 0 or more")
    kelvin = np.asarray(temperature_c, dtype=np.float64) + CELSIUS_ZERO_K
    return np.asarray(0.5 * log / (1.086e18 * np.exp(-12520.0 / kelvin)))


def survivors_ratio(turnovers_count: ArrayLike, pass_log_count: ArrayLike) -> Array:
    """Share of the organisms in a mixed tub that is left when each pass of the side stream inactivates some.

    Parameters
    ----------
    turnovers_count : float or array
        Turnovers of the tub through the side stream [-].
    pass_log_count : float or array, broadcasting
        Log inactivation of one pass [-].

    Returns
    -------
    array of the broadcast shape
        Share left [-].

    Raises
    ------
    ValueError
        If anything is negative.

    Notes
    -----
    exp(-n (1 - 10^-p)): dilution, as for a filter.
    The source gives no range: a balance.

    References
    ----------
    gage_bidwell_1926, from memory, for dilution.

    Examples
    --------
    Three logs, 0.1 %, take 6.91 turnovers of a perfect side stream, and 1003 of one with 0.003 log a pass:

    >>> np.round(survivors_ratio([6.91, 1003.0], [300.0, 0.003]), 5)
    array([0.001, 0.001])
    """
    turnovers, log = (np.asarray(value, dtype=np.float64) for value in (turnovers_count, pass_log_count))
    if not (np.all(turnovers >= 0.0) and np.all(log >= 0.0)):
        raise ValueError("turnovers and logs are 0 or more")
    return np.asarray(np.exp(-turnovers * (1.0 - 10.0**-log)))
