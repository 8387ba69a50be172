"""Gas and water in the diffuser: energy from the end of the mixing bore to the outlet."""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.geometry import Values
from sanitize.laws.injector.mixing import Mixer


class DiffuserBalance(NamedTuple):
    """Residual of the diffuser's energy balance [Pa] and its slopes."""

    residual_pa: Values
    per_bore_end: Values
    per_outlet: Values
    per_z: Values
    per_gas: Values


def diffuser_balance(
    bore_end_pa_abs: Values,
    outlet_pa_abs: Values,
    throat_dynamic_pa: Values,
    gas_pa: Values,
    mixer: Mixer,
) -> DiffuserBalance:
    """What is missing in the energy balance of the diffuser, per volume of water, with its slopes.

    Parameters
    ----------
    bore_end_pa_abs : float or array
        pt, above 0 [Pa absolute].
    outlet_pa_abs : float or array
        p2, above 0 [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    mixer : Mixer
        Only b, Kd and r are read.

    Returns
    -------
    DiffuserBalance
        Residual, 0 in balance [Pa], and its slopes with pt, p2, Z and G [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    (p2 - pt) + G ln(p2/pt) - Z b^2 [(1 + phi_t)^2 - Kd (1 + phi_t)] + Z r^2 (1 + phi_2)^2, phi = G/p: the
    isothermal work of the mixture, its velocity heads, and the handbook's loss with Kd (1 + phi_t).
    It falls strictly with pt while M^2 < 1: slope -(1 + phi_t)(1 - M^2) - Z b^2 Kd phi_t/pt.
    Validity: homogeneous bubbly flow without slip, gas at the water's temperature.

    References
    ----------
    karassik_pump_handbook (fragments with gas) and cunningham_1974, read through another; derived here.

    Examples
    --------
    >>> balance = diffuser_balance(100e3, 108.0e3, 20e3, 0.0, Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    >>> float(balance.residual_pa), float(balance.per_bore_end)
    (-2430.0, -1.0)
    """
    z, gas = throat_dynamic_pa, gas_pa
    bore = mixer.throat_to_bore_ratio**2
    outlet = mixer.throat_to_outlet_ratio**2
    kd = mixer.diffuser_loss
    ratio_t, ratio_2 = gas / bore_end_pa_abs, gas / outlet_pa_abs
    full_t, full_2 = 1.0 + ratio_t, 1.0 + ratio_2
    work = np.log(outlet_pa_abs / bore_end_pa_abs)
    heads = bore * (full_t**2 - kd * full_t) - outlet * full_2**2
    return DiffuserBalance(
        outlet_pa_abs - bore_end_pa_abs + gas * work - z * heads,
        -full_t + z * bore * (2.0 * full_t - kd) * ratio_t / bore_end_pa_abs,
        full_2 - 2.0 * z * outlet * full_2 * ratio_2 / outlet_pa_abs,
        -heads,
        work - z * (bore * (2.0 * full_t - kd) / bore_end_pa_abs - 2.0 * outlet * full_2 / outlet_pa_abs),
    )


def highest_bore_end_pa_abs(outlet_pa_abs: Values, throat_dynamic_pa: Values, gas_pa: Values, mixer: Mixer) -> Values:
    """A pressure that the end of the mixing bore cannot pass.

    Parameters
    ----------
    outlet_pa_abs : float or array
        p2, above 0 [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    mixer : Mixer
        Only b, Kd and r are read.

    Returns
    -------
    float or array of the broadcast shape
        Upper end of a bracket for pt [Pa absolute].

    Raises
    ------
    Nothing.

    Notes
    -----
    p2 + Z [r^2 (1 + phi_2)^2 + b^2 Kd (1 + phi_2)]: where pt > p2, G ln(p2/pt) < 0 and phi_t < phi_2.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> highest_bore_end_pa_abs(108e3, 20e3, 0.0, Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    110370.0
    """
    full = 1.0 + gas_pa / outlet_pa_abs
    bore = mixer.throat_to_bore_ratio**2 * mixer.diffuser_loss * full
    return outlet_pa_abs + throat_dynamic_pa * (mixer.throat_to_outlet_ratio**2 * full**2 + bore)


def dry_bore_end_pa_abs(throat_dynamic_pa: Values, outlet_pa_abs: Values, mixer: Mixer) -> Values:
    """Pressure at the end of the mixing bore without gas.

    Parameters
    ----------
    throat_dynamic_pa : float or array
        Z [Pa].
    outlet_pa_abs : float or array
        p2 [Pa absolute].
    mixer : Mixer
        Only b, Kd and r are read.

    Returns
    -------
    float or array of the broadcast shape
        pt [Pa absolute], without a vapour floor.

    Raises
    ------
    Nothing.

    Notes
    -----
    pt = p2 - Z [b^2 (1 - Kd) - r^2], the root of `diffuser_balance` at G = 0.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> dry_bore_end_pa_abs(20e3, 108e3, Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    97570.0
    """
    kinetic = mixer.throat_to_bore_ratio**2 * (1.0 - mixer.diffuser_loss)
    return outlet_pa_abs - throat_dynamic_pa * (kinetic - mixer.throat_to_outlet_ratio**2)
