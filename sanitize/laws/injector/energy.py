"""What the water's pressure can pay for: the bound on the gas that any device draws, and the share that this
one uses."""

import numpy as np

from sanitize.laws.injector.geometry import Values

DOUBTFUL_EFFICIENCY_RATIO = 0.45
"""Efficiency above which a draw is doubtful (estimate; published peaks are 0.4 to 0.5)."""


def available_pa_diff(
    inlet_pa_abs: Values,
    outlet_pa_abs: Values,
    throat_dynamic_pa: Values,
    gas_pa: Values,
    throat_to_inlet_ratio: Values,
    throat_to_outlet_ratio: Values,
) -> Values:
    """Total pressure that the water leaves in the injector, with the mixture's velocity head at the outlet.

    Parameters
    ----------
    inlet_pa_abs, outlet_pa_abs : float or array
        p1 and p2, static [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    throat_to_inlet_ratio, throat_to_outlet_ratio : float or array
        An/A1 and r = An/A2 [-].

    Returns
    -------
    float or array of the broadcast shape
        E [Pa difference].

    Raises
    ------
    Nothing.

    Notes
    -----
    E = p1 - p2 + rho/2 [V1^2 - V2^2 (1 + phi_2)^2], phi_2 = G/p2. With G = 0 it is what the dry loop loses.
    Validity: homogeneous flow at the outlet.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> available_pa_diff(130e3, 110e3, 50e3, 0.0, 0.2, 0.1)
    21500.0
    """
    full = 1.0 + gas_pa / outlet_pa_abs
    heads = throat_to_inlet_ratio**2 - (throat_to_outlet_ratio * full) ** 2
    return inlet_pa_abs - outlet_pa_abs + throat_dynamic_pa * heads


def efficiency_ratio(gas_pa: Values, port_pa_abs: Values, outlet_pa_abs: Values, available_pa_diff: Values) -> Values:
    """Isothermal work on the gas over what the water pays.

    Parameters
    ----------
    gas_pa : float or array
        G [Pa].
    port_pa_abs, outlet_pa_abs : float or array
        po and p2 [Pa absolute].
    available_pa_diff : float or array
        E of `available_pa_diff` [Pa difference].

    Returns
    -------
    float or array of the broadcast shape
        Efficiency [-]: 0 without gas, negative where the outlet stands below the port, np.inf where gas is
        compressed and nothing pays.

    Raises
    ------
    Nothing.

    Notes
    -----
    G ln(p2/po)/E.
    Validity: published peaks are above 0.40 (cunningham_dopkin_1974) and about 0.50 predicted
    (cunningham_1995).

    References
    ----------
    cunningham_1974, read through another; cunningham_dopkin_1974 and cunningham_1995, abstracts read.

    Examples
    --------
    >>> float(efficiency_ratio(10e3, 98e3, 110e3, 20e3))
    0.0578
    """
    work = gas_pa * np.log(outlet_pa_abs / port_pa_abs)
    pays = np.greater(available_pa_diff, 0.0)
    paid = work / np.where(pays, available_pa_diff, 1.0)
    return np.where(pays, paid, np.where(work > 0.0, np.inf, 0.0))[()]


def most_gas_pa(port_pa_abs: Values, outlet_pa_abs: Values, available_pa_diff: Values) -> Values:
    """Most gas that any device could carry from port to outlet for what the water pays.

    Parameters
    ----------
    port_pa_abs, outlet_pa_abs : float or array
        po and p2 [Pa absolute].
    available_pa_diff : float or array
        E of `available_pa_diff` [Pa difference].

    Returns
    -------
    float or array of the broadcast shape
        G [Pa]; np.inf where the outlet does not stand above the port.

    Raises
    ------
    Nothing.

    Notes
    -----
    G = E/ln(p2/po), not below 0.
    Validity: isothermal compression, the least work there is.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(most_gas_pa(98e3, 110e3, 20e3))
    173140.85
    """
    lift = np.log(outlet_pa_abs / port_pa_abs)
    rises = np.greater(lift, 0.0)
    return np.where(rises, np.maximum(available_pa_diff, 0.0) / np.where(rises, lift, 1.0), np.inf)[()]
