"""Pressure that tube, valve and ozone unit take from a gas flow, at the density of the air it comes from."""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.geometry import Values

_TURBULENT = 0.5 * 0.3164 * (4.0 / np.pi) ** 1.75
LITRE_METERED_PA = 1e5
"""Drop at which a valve's Kv is its flow in m3/h of water [Pa difference], by definition."""
KV_PER_CV = 0.865
"""Kv of a valve of Cv 1: 1 US gal/min at 1 psi (unit conversion)."""


class Drop(NamedTuple):
    """Pressure taken by a flow [Pa difference] and its slope with the flow [Pa s/m3]."""

    pa_diff: Values
    slope_pa_sm3: Values


def tube_drop(
    flow_m3s: Values,
    length_m: Values,
    bore_m: Values,
    loss: Values,
    density_kgm3: Values,
    viscosity_pas: Values,
) -> Drop:
    """Pressure that a smooth tube and its fittings take from a gas flow.

    Parameters
    ----------
    flow_m3s : float or array
        Gas flow at the state of the density, not negative [m3/s].
    length_m : float or array
        Length of the tube [m].
    bore_m : float or array
        Inside diameter [m].
    loss : float or array
        Sum of loss coefficients on the tube's own velocity head [-].
    density_kgm3, viscosity_pas : float or array
        Of the gas [kg/m3], [Pa s].

    Returns
    -------
    Drop
        Drop [Pa difference] and slope [Pa s/m3]; the slope steps up where the flow turns turbulent.

    Raises
    ------
    Nothing.

    Notes
    -----
    f = max(64/Re, 0.3164 Re^-0.25), the two meet at Re 1187; dp = (f L/d + K) rho/2 V^2.
    Validity: smooth tube, drop small beside the pressure; the sources' range for the second is Re 4000 to
    1e5.

    References
    ----------
    blasius_1913, from memory.

    Examples
    --------
    >>> drop = tube_drop(2 / 60e3, 1.8, 4e-3, 0.0, 1.2, 1.81e-5)
    >>> float(drop.pa_diff)
    172.8
    """
    square = bore_m * bore_m
    fourth = square * square
    laminar = 128.0 / np.pi * viscosity_pas * length_m / fourth
    turbulent = _TURBULENT * density_kgm3**0.75 * viscosity_pas**0.25 * length_m / (fourth * _power_3_4(bore_m))
    fittings = (8.0 / np.pi**2) * loss * density_kgm3 / fourth
    slow, per_flow = laminar * flow_m3s, turbulent * _power_3_4(flow_m3s)
    fast = per_flow * flow_m3s
    is_slow = np.greater_equal(slow, fast)
    return Drop(
        np.where(is_slow, slow, fast)[()] + fittings * flow_m3s**2,
        np.where(is_slow, laminar, 1.75 * per_flow)[()] + 2.0 * fittings * flow_m3s,
    )


def _power_3_4(value: Values) -> Values:
    """Power 3/4 of a number by two square roots, which take a fraction of the time of a power."""
    root = np.sqrt(value)
    return root * np.sqrt(root)


def valve_constant_from_kv(kv_m3h: Values, density_kgm3: Values) -> Values:
    """Square-law constant of a valve from its Kv.

    Parameters
    ----------
    kv_m3h : float or array
        Flow of water at 1 bar, above 0 [m3/h].
    density_kgm3 : float or array
        Of the gas [kg/m3].

    Returns
    -------
    float or array of the broadcast shape
        dp/q^2 [Pa s2/m6].

    Raises
    ------
    Nothing.

    Notes
    -----
    dp = 1 bar (q/Kv)^2 rho/1000.
    Validity: drop small beside the pressure, no expansion factor.

    References
    ----------
    Definition of Kv, from memory.

    Examples
    --------
    >>> valve_constant_from_kv(0.05, 1.2) * (2 / 60e3) ** 2
    691.2
    """
    return LITRE_METERED_PA * density_kgm3 / 1000.0 * (3600.0 / kv_m3h) ** 2


def valve_constant_from_cv(cv: Values, density_kgm3: Values) -> Values:
    """Square-law constant of a valve from its Cv.

    Parameters
    ----------
    cv : float or array
        US gallons of water a minute at 1 psi, above 0 [gal/min].
    density_kgm3 : float or array
        Of the gas [kg/m3].

    Returns
    -------
    float or array of the broadcast shape
        dp/q^2 [Pa s2/m6].

    Raises
    ------
    Nothing.

    Notes
    -----
    As `valve_constant_from_kv` with Kv = 0.865 Cv.

    References
    ----------
    Definition of Cv, from memory.

    Examples
    --------
    >>> valve_constant_from_cv(0.05 / 0.865, 1.2) * (2 / 60e3) ** 2
    691.2
    """
    return valve_constant_from_kv(KV_PER_CV * cv, density_kgm3)


def valve_constant_from_opening(opening_m2: Values, density_kgm3: Values) -> Values:
    """Square-law constant of a valve known by its opening.

    Parameters
    ----------
    opening_m2 : float or array
        Discharge coefficient times area, above 0 [m2].
    density_kgm3 : float or array
        Of the gas [kg/m3].

    Returns
    -------
    float or array of the broadcast shape
        dp/q^2 [Pa s2/m6].

    Raises
    ------
    Nothing.

    Notes
    -----
    dp = rho/2 (q/(Cd A))^2.
    Validity: drop small beside the pressure, no expansion factor.

    References
    ----------
    Definition.

    Examples
    --------
    >>> valve_constant_from_opening(1e-6, 1.2) * (2 / 60e3) ** 2
    666.67
    """
    return 0.5 * density_kgm3 / opening_m2**2
