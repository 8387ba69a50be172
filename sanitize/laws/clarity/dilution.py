"""The law of dilution: how a filter in a loop clears a mixed tub, and how long a pump must run for it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

US_GALLON_M3 = 3.785411784e-3
"""One US gallon [m3], exact by definition."""

Array = NDArray[np.float64]


def turnover_s(volume_m3: ArrayLike, flow_m3s: ArrayLike) -> Array:
    """Time in which the flow moves the volume once; never (inf) where nothing flows.

    Parameters
    ----------
    volume_m3 : float or array
        Volume of the water [m3].
    flow_m3s : float or array, broadcasting
        Flow through the filter [m3/s].

    Returns
    -------
    array of the broadcast shape
        Turnover time [s].

    Raises
    ------
    ValueError
        If a volume is not positive or a flow is negative.

    Notes
    -----
    tau = V / Q.
    The source gives no range.

    References
    ----------
    simmonds_2021, read as its abstract.

    Examples
    --------
    >>> float(turnover_s(0.43, 36.0 / 60000.0))
    716.667
    """
    volume = np.asarray(volume_m3, dtype=np.float64)
    flow = np.asarray(flow_m3s, dtype=np.float64)
    if not (np.all(volume > 0.0) and np.all(flow >= 0.0)):
        raise ValueError("a turnover needs a positive volume and a flow of 0 or more")
    return np.where(flow > 0.0, volume / np.where(flow > 0.0, flow, 1.0), np.inf)


def remaining_ratio(turnovers_count: ArrayLike, efficiency_ratio: ArrayLike = 1.0) -> Array:
    """Share of the particles that is left in a mixed tub after so many turnovers.

    Parameters
    ----------
    turnovers_count : float or array
        Turnovers since the start [-].
    efficiency_ratio : float or array, broadcasting
        Share of the particles that the filter keeps in one pass, 0 to 1 [-].

    Returns
    -------
    array of the broadcast shape
        Share that remains [-].

    Raises
    ------
    ValueError
        If a count is negative or an efficiency is outside 0 to 1.

    Notes
    -----
    dC/dt = -E Q C / V, so C / C0 = exp(-E N), N = t Q / V.
    Holds for a mixed tub; measured in a model pool as 63, 86 and 95 % after 1, 2 and 3 turnovers (alansari_2018).
    The source gives no range.

    References
    ----------
    gage_bidwell_1926, from memory; simmonds_2021 and alansari_2018, read as their abstracts.

    Examples
    --------
    >>> np.round(100.0 * (1.0 - remaining_ratio([1.0, 2.0, 3.0])), 2)
    array([63.21, 86.47, 95.02])
    """
    turnovers = np.asarray(turnovers_count, dtype=np.float64)
    efficiency = _efficiency(efficiency_ratio)
    if not np.all(turnovers >= 0.0):
        raise ValueError("turnovers are 0 or more")
    return np.asarray(np.exp(-efficiency * turnovers))


def remaining_by_parts_ratio(parts_count: ArrayLike) -> Array:
    """Share left after one turnover that comes in equal parts, each mixed before the next leaves.

    Parameters
    ----------
    parts_count : float or array
        Parts of the volume, at least 1 [-].

    Returns
    -------
    array of the same shape
        Share that remains [-].

    Raises
    ------
    ValueError
        If there is less than one part.

    Notes
    -----
    (1 - 1/n)^n, which comes to exp(-1) for many parts: consecutive dilutions.
    The source gives no range.

    References
    ----------
    gage_bidwell_1926, from memory.

    Examples
    --------
    >>> np.round(100.0 * (1.0 - remaining_by_parts_ratio([10, 100, 1000])), 2)
    array([65.13, 63.4 , 63.23])
    """
    parts = np.asarray(parts_count, dtype=np.float64)
    if not np.all(parts >= 1.0):
        raise ValueError("there is at least one part")
    return np.asarray((1.0 - 1.0 / parts) ** parts)


def turnovers_for_removal_count(removed_ratio: ArrayLike, efficiency_ratio: ArrayLike = 1.0) -> Array:
    """Turnovers after which the filter has removed a share of the particles; never (inf) with a filter that keeps none.

    Parameters
    ----------
    removed_ratio : float or array
        Share to be removed, from 0 to below 1 [-].
    efficiency_ratio : float or array, broadcasting
        Share of the particles that the filter keeps in one pass, 0 to 1 [-].

    Returns
    -------
    array of the broadcast shape
        Turnovers [-].

    Raises
    ------
    ValueError
        If a share is not in 0 to below 1 or an efficiency is outside 0 to 1.

    Notes
    -----
    N = -ln(1 - r) / E.
    The source gives no range.

    References
    ----------
    gage_bidwell_1926, from memory; simmonds_2021, read as its abstract.

    Examples
    --------
    >>> np.round(turnovers_for_removal_count([0.90, 0.95, 0.99]), 4)
    array([2.3026, 2.9957, 4.6052])
    >>> float(turnovers_for_removal_count(0.95, 0.36))
    8.32
    """
    removed = np.asarray(removed_ratio, dtype=np.float64)
    efficiency = _efficiency(efficiency_ratio)
    if not (np.all(removed >= 0.0) and np.all(removed < 1.0)):
        raise ValueError("a removed share is from 0 to below 1")
    wanted = -np.log1p(-removed)
    kept = np.where(efficiency > 0.0, efficiency, 1.0)
    return np.where(wanted > 0.0, np.where(efficiency > 0.0, wanted / kept, np.inf), 0.0)


def turnovers_for_pulse_count(pulse: ArrayLike, limit: ArrayLike, efficiency_ratio: ArrayLike) -> Array:
    """Turnovers a day that keep a tub with one pulse of particles a day below a limit, right after the pulse.

    Parameters
    ----------
    pulse : float or array
        What the pulse adds to the concentration (any one unit).
    limit : float or array, broadcasting
        Concentration that it must not exceed (the same unit).
    efficiency_ratio : float or array, broadcasting
        Share of the particles that the filter keeps in one pass, 0 to 1 [-].

    Returns
    -------
    array of the broadcast shape
        Turnovers a day [-]; inf where the pulse alone reaches the limit, or the filter keeps nothing of a pulse.

    Raises
    ------
    ValueError
        If a pulse is negative, a limit is not positive, or an efficiency is outside 0 to 1.

    Notes
    -----
    The steady daily peak is P / (1 - exp(-E N)), derived from the law of dilution; hence N = -ln(1 - P / L) / E.
    The source gives no range.

    References
    ----------
    gage_bidwell_1926, from memory; simmonds_2021, read as its abstract.

    Examples
    --------
    >>> float(turnovers_for_pulse_count(0.25, 0.5, 0.5))
    1.3863
    """
    added = np.asarray(pulse, dtype=np.float64)
    most = np.asarray(limit, dtype=np.float64)
    efficiency = _efficiency(efficiency_ratio)
    if not (np.all(added >= 0.0) and np.all(most > 0.0)):
        raise ValueError("a pulse is 0 or more and a limit is positive")
    share = added / most
    possible = (share < 1.0) & ((efficiency > 0.0) | (added == 0.0))
    kept = np.where(efficiency > 0.0, efficiency, 1.0)
    return np.where(possible, -np.log1p(-np.where(possible, share, 0.0)) / kept, np.inf)


def pulse_peak(pulse: ArrayLike, turnovers_count: ArrayLike, efficiency_ratio: ArrayLike) -> Array:
    """Concentration right after the daily pulse, once the days repeat.

    Parameters
    ----------
    pulse : float or array
        What the pulse adds to the concentration (any one unit).
    turnovers_count : float or array, broadcasting
        Turnovers a day [-].
    efficiency_ratio : float or array, broadcasting
        Share of the particles that the filter keeps in one pass, 0 to 1 [-].

    Returns
    -------
    array of the broadcast shape
        Peak (the pulse's unit); inf where nothing is removed.

    Raises
    ------
    ValueError
        If a pulse or count is negative or an efficiency is outside 0 to 1.

    Notes
    -----
    P / (1 - exp(-E N)), derived from the law of dilution.
    The source gives no range.

    References
    ----------
    gage_bidwell_1926, from memory; simmonds_2021, read as its abstract.

    Examples
    --------
    >>> float(pulse_peak(0.25, 1.3863, 0.5))
    0.5000
    """
    added = np.asarray(pulse, dtype=np.float64)
    if not np.all(added >= 0.0):
        raise ValueError("a pulse is 0 or more")
    cleared = 1.0 - remaining_ratio(turnovers_count, efficiency_ratio)
    peak = added / np.where(cleared > 0.0, cleared, 1.0)
    return np.where(cleared > 0.0, peak, np.where(added > 0.0, np.inf, 0.0))


def treatment_run_s(bathers_per_day: ArrayLike, treated_each_m3: ArrayLike, flow_m3s: ArrayLike) -> Array:
    """Run time a day in which the filter treats a volume of water for every bather; never (inf) where nothing flows.

    Parameters
    ----------
    bathers_per_day : float or array
        Bathers a day [-].
    treated_each_m3 : float or array, broadcasting
        Treated water for each bather [m3].
    flow_m3s : float or array, broadcasting
        Flow through the filter [m3/s].

    Returns
    -------
    array of the broadcast shape
        Run time a day [s].

    Raises
    ------
    ValueError
        If one of them is negative.

    Notes
    -----
    t = B / (b Q), b = 0.5 bathers per m3 of treated water in the source, which are 2 m3 for each.
    The source means plants with flocculation, media filter and chlorine; it gives no range.

    References
    ----------
    austria_bhygv_1998, read primary.

    Examples
    --------
    >>> float(treatment_run_s(4.0, 2.0, 40.0 / 60000.0) / 3600.0)
    3.3333
    """
    volume = np.asarray(bathers_per_day, dtype=np.float64) * np.asarray(treated_each_m3, dtype=np.float64)
    flow = np.asarray(flow_m3s, dtype=np.float64)
    if not (np.all(volume >= 0.0) and np.all(flow >= 0.0)):
        raise ValueError("bathers, water for each and flow are 0 or more")
    return np.where(volume > 0.0, np.where(flow > 0.0, volume / np.where(flow > 0.0, flow, 1.0), np.inf), 0.0)


def replacement_interval_d(volume_m3: ArrayLike, bathers_per_day: ArrayLike) -> Array:
    """Days after which a spa's water is replaced, not rounded; never (inf) without bathers.

    Parameters
    ----------
    volume_m3 : float or array
        Volume of the water [m3].
    bathers_per_day : float or array, broadcasting
        Bathers a day [-].

    Returns
    -------
    array of the broadcast shape
        Interval [d].

    Raises
    ------
    ValueError
        If a volume is not positive or bathers are negative.

    Notes
    -----
    (V / 3 US gal) / bathers a day; the source rounds it to whole days.
    A rule for public spas; the source gives no range.

    References
    ----------
    maine_144_202, read primary.

    Examples
    --------
    >>> float(replacement_interval_d(600 * US_GALLON_M3, 85))
    2.35
    """
    volume = np.asarray(volume_m3, dtype=np.float64)
    bathers = np.asarray(bathers_per_day, dtype=np.float64)
    if not (np.all(volume > 0.0) and np.all(bathers >= 0.0)):
        raise ValueError("a replacement interval needs a positive volume and bathers of 0 or more")
    days = volume / (3.0 * US_GALLON_M3) / np.where(bathers > 0.0, bathers, 1.0)
    return np.where(bathers > 0.0, days, np.inf)


def _efficiency(efficiency_ratio: ArrayLike) -> Array:
    efficiency = np.asarray(efficiency_ratio, dtype=np.float64)
    if not (np.all(efficiency >= 0.0) and np.all(efficiency <= 1.0)):
        raise ValueError("an efficiency is 0 to 1")
    return efficiency
