"""The most gas that a mixing bore passes: beyond it the outlet no longer matters."""

import numpy as np

from sanitize.laws.injector.geometry import Values
from sanitize.laws.injector.mixing import Mixer, bore_rise_coefficient, gas_weight_coefficient


def choke_pressure_pa_abs(throat_dynamic_pa: Values, gas_pa: Values, mixer: Mixer) -> Values:
    """Pressure at the end of the mixing bore when it is choked by gas.

    Parameters
    ----------
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    mixer : Mixer
        Only b, Km and Kg are read.

    Returns
    -------
    float or array of the broadcast shape
        ps [Pa absolute].

    Raises
    ------
    Nothing.

    Notes
    -----
    ps = sqrt(w Z G), w = b^2 (2 + Km + Kg), where both roots of the momentum balance meet; M^2 = 2/(2 + Km +
    Kg).
    Validity: homogeneous bubbly flow without slip.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(choke_pressure_pa_abs(50e3, 20e3, Mixer(1.0, 0.0, 0.0, 0.0, 0.1)))
    44721.36
    """
    return np.sqrt(gas_weight_coefficient(mixer) * throat_dynamic_pa * gas_pa)


def choked_port_pressure_pa_abs(throat_dynamic_pa: Values, gas_pa: Values, mixer: Mixer) -> Values:
    """Lowest port pressure at which the mixing bore passes the gas.

    Parameters
    ----------
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    mixer : Mixer
        Only b, Km and Kg are read.

    Returns
    -------
    float or array of the broadcast shape
        po [Pa absolute]; below 0 where the choke has no part. No vapour floor is applied.

    Raises
    ------
    Nothing.

    Notes
    -----
    po = 2 ps - c0 Z. For a plain bore without friction it is 2 ps, so that G = po^2/(8 Z) falls with the
    water flow.
    Validity: as `choke_pressure_pa_abs`.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(choked_port_pressure_pa_abs(50e3, 20e3, Mixer(1.0, 0.0, 0.0, 0.0, 0.1)))
    89442.72
    """
    choke = choke_pressure_pa_abs(throat_dynamic_pa, gas_pa, mixer)
    return 2.0 * choke - bore_rise_coefficient(mixer) * throat_dynamic_pa


def largest_gas_pa(port_pa_abs: Values, throat_dynamic_pa: Values, mixer: Mixer) -> Values:
    """Most gas that the mixing bore passes at a port pressure, the inverse of `choked_port_pressure_pa_abs`.

    Parameters
    ----------
    port_pa_abs : float or array
        po [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    mixer : Mixer
        Only b, Km and Kg are read.

    Returns
    -------
    float or array of the broadcast shape
        G [Pa]; infinite without water flow.

    Raises
    ------
    Nothing.

    Notes
    -----
    G = (po + c0 Z)^2/(4 w Z).
    Validity: as `choke_pressure_pa_abs`.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(largest_gas_pa(100e3, 50e3, Mixer(1.0, 0.0, 0.0, 0.0, 0.1)))
    25000.0
    """
    total = np.maximum(port_pa_abs + bore_rise_coefficient(mixer) * throat_dynamic_pa, 0.0)
    weight = 4.0 * gas_weight_coefficient(mixer) * throat_dynamic_pa
    flows = weight > 0.0
    return np.where(flows, total**2 / np.where(flows, weight, 1.0), np.inf)[()]
